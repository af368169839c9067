/* The book's own script, for every page that has one; without it each of them still reads and links.

   It looks things up and shows them. It judges nothing: every verdict, sentence and figure comes from the data, which
   the program wrote (script/*.js, each one call of `combobookData`), and every piece of a page from its <template>s.
   Nothing is ever set as HTML or as a style: texts, attributes and classes only. */
"use strict";

// == Frame: who starts, data, the address, pieces of a page =========================================================

const book = {};
const starts = {};

/* Called by each data file: what it holds, under its name. */
function combobookData(name, value) {
  book[name] = value;
}

/* A page's section below says what to do on it: `onPage("find", main => …)`; the page says data-page="find". */
function onPage(name, start) {
  starts[name] = start;
}

document.documentElement.classList.add("js");
document.addEventListener("DOMContentLoaded", () => {
  for (const part of document.querySelectorAll("[data-page]")) starts[part.dataset.page]?.(part);
});

/* Rows of a table as objects by its columns' names. */
function records(table) {
  return table.rows.map(row => Object.fromEntries(table.columns.map((name, at) => [name, row[at]])));
}

/* What stands behind # in the address, as name=value pairs. A plain #part of the page is none of them. */
function addressState() {
  const text = location.hash.slice(1);
  return Object.fromEntries(new URLSearchParams(text.includes("=") ? text : ""));
}

/* Puts these pairs into the address, empty ones left out. A choice is a step back for the back button; typing is none. */
function setAddress(state, { step = true } = {}) {
  const kept = new URLSearchParams(Object.entries(state).filter(([, value]) => value !== ""));
  const wanted = String(kept) ? `#${kept}` : location.pathname + location.search;
  if (wanted === location.hash || (!String(kept) && !location.hash)) return;
  if (step) history.pushState(null, "", wanted);
  else history.replaceState(null, "", wanted);
}

/* Calls `show` now and whenever the address changes behind the page's back: back, forward, a link, a pasted address. */
function followAddress(show) {
  let shown = null;
  const look = () => {
    if (location.hash === shown || (shown !== null && location.hash && !location.hash.includes("="))) return;
    shown = location.hash;
    show(addressState());
  };
  window.addEventListener("popstate", () => { shown = null; look(); });
  window.addEventListener("hashchange", look);
  show(addressState());
}

/* A copy of the page's <template id="…">, with `fill` called on it. */
function piece(id, fill) {
  const made = document.getElementById(id).content.firstElementChild.cloneNode(true);
  if (fill) fill(made);
  return made;
}

/* The part of a piece that is called so (data-part="name"); null where it has none. */
function part(of, name) {
  return of.querySelector(`[data-part="${name}"]`);
}

/* Sets a part's words, and hides it where there are none. */
function say(of, name, words) {
  const found = part(of, name);
  found.textContent = words;
  found.hidden = !words;
}

/* A mark of the page's sprite with its words; `key` gives the frame. */
function setSign(of, name, key, mark, words) {
  const found = part(of, name);
  found.hidden = !words;
  found.classList.add(`sign-${key}`);
  found.querySelector("use").setAttribute("href", `#mark-${mark}`);
  found.querySelector(".sign-words").textContent = words;
}

/* A picture with its size, so that nothing jumps; where there is none, the words of the empty place. */
function setPicture(of, picture, instead) {
  const figure = part(of, "picture"), empty = part(of, "empty");
  figure.hidden = !picture;
  empty.hidden = Boolean(picture);
  if (!picture) { empty.textContent = instead; return; }
  const image = figure.querySelector("img"), source = figure.querySelector("source");
  image.width = picture.width;
  image.height = picture.height;
  image.alt = picture.alt;
  if (picture.webp) source.setAttribute("srcset", picture.webp);
  else source.remove();
  image.setAttribute("src", picture.src);
}

/* Keys for one element: `onKeys(box, { ArrowRight: () => … })`. A handler that returns false leaves the key alone. */
function onKeys(element, handlers) {
  element.addEventListener("keydown", event => {
    if (event.altKey || event.ctrlKey || event.metaKey || !(event.key in handlers)) return;
    if (handlers[event.key](event) !== false) event.preventDefault();
  });
}

/* A pattern such as "{top} over {base}" with its fields filled. */
function filled(pattern, fields) {
  return pattern.replace(/\{(\w+)\}/g, (whole, name) => fields[name] ?? whole);
}

/* Text as it is searched: small letters without accents, every word with a space before it. */
function searchable(text) {
  return ` ${text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ").trim()}`;
}

// == Find a layering ================================================================================================

/* Layerings as the page and the choices know them, made once from script/layerings.js. */
function readLayerings() {
  const data = book.layerings;
  const glazes = records(data.glazes);
  for (const glaze of glazes) glaze.text = searchable(`${glaze.name} ${glaze.mark} ${glaze.looks}`);
  const layerings = records(data.layerings).map(each => {
    const base = glazes[each.base], top = glazes[each.top], looks = data.says[each.looks];
    const name = filled(data.over, { base: base.name, top: top.name });
    return {
      base, top, name, looks, nickname: each.nickname,
      href: filled(data.page, { base: base.id, top: top.id }),
      food: data.signs[each.food], running: data.signs[each.running], trust: data.signs[each.trust],
      picture: readPicture(data, each.picture), empty: data.says[each.picture],
      note: each.picture.length ? data.says[each.picture[5]] : "",
      off: base.off || top.off,
      text: searchable(`${name} ${base.mark} ${top.mark} ${each.nickname} ${looks} ${each.tiles}`),
      by: {
        first: base.id, top: top.id, clay: each.clays.map(n => data.clays[n]), food: data.signs[each.food][0],
        running: each.toDo, trust: data.signs[each.trust][0], colour: data.families[each.family] ?? "",
        shelf: base.off || top.off ? "" : "now",
      },
    };
  });
  return { glazes, layerings };
}

function readPicture(data, coded) {
  if (!coded.length) return null;
  const [src, webp, width, height, alt] = coded;
  return { src, webp: webp === 1 ? src.replace(/\.jpg$/, ".webp") : webp, width, height, alt: data.says[alt] };
}

const choices = ["first", "top", "clay", "food", "running", "trust", "colour", "shelf"];

/* What fits every choice and word, and how many would fit for each answer, all other choices as they stand. */
function findLayerings(layerings, state) {
  const words = searchable(state.words ?? "").split(" ").filter(Boolean).map(word => ` ${word}`);
  const asked = choices.filter(name => state[name]);
  const fits = (each, name) => name === "clay" ? each.by.clay.includes(state.clay) : each.by[name] === state[name];
  const counts = Object.fromEntries(choices.map(name => [name, { "": 0 }]));
  const found = [];
  for (const each of layerings) {
    if (!words.every(word => each.text.includes(word))) continue;
    const against = asked.filter(name => !fits(each, name));
    if (against.length > 1) continue;
    if (!against.length) found.push(each);
    for (const name of against.length ? against : choices) {
      const tally = counts[name];
      tally[""] += 1;
      for (const answer of [each.by[name]].flat()) if (answer) tally[answer] = (tally[answer] ?? 0) + 1;
    }
  }
  return { found, counts };
}

function layeringCard(each) {
  return piece("find-card", card => {
    setPicture(card, each.picture, each.empty);
    const name = part(card, "name");
    name.textContent = each.name;
    name.href = each.href;
    say(card, "looks", [each.nickname, each.looks].filter(Boolean).join(": "));
    setSign(card, "food", ...each.food);
    setSign(card, "running", ...each.running.slice(0, 3));
    setSign(card, "catch", "catch", "catch-plate", each.running[3]);
    setSign(card, "trust", ...each.trust);
    say(card, "note", each.note);
    say(card, "shelf", each.off);
  });
}

function glazeLine(glaze) {
  return piece("find-glaze", line => {
    part(line, "mark").textContent = glaze.mark;
    part(line, "name").textContent = glaze.name;
    part(line, "name").href = `glazes/${glaze.id}.html`;
    part(line, "looks").textContent = glaze.looks;
    for (const name of ["first", "top"]) {
      part(line, name).href = `#${new URLSearchParams({ [name]: glaze.id })}`;
      part(line, name).querySelector("span").textContent = ` ${glaze.name}`;
    }
  });
}

onPage("find", page => {
  const { glazes, layerings } = readLayerings();
  const form = page.querySelector("form"), most = Number(page.dataset.most);
  const results = part(page, "results"), more = part(page, "more"), again = part(page, "again");
  const options = [...form.querySelectorAll("option")].map(option => [option, option.textContent]);
  const cards = new Map();
  let found = [], shown = 0;

  const cardOf = each => cards.get(each) ?? cards.set(each, layeringCard(each)).get(each);
  const formState = () => Object.fromEntries(new FormData(form));

  function showMore() {
    results.append(...found.slice(shown, shown + most).map(cardOf));
    shown = Math.min(found.length, shown + most);
    more.hidden = shown === found.length;
    more.textContent = filled(more.dataset.words, { n: Math.min(most, found.length - shown) });
  }

  function showCounts(counts) {
    for (const [option, words] of options) {
      option.textContent = `${words} (${counts[option.parentElement.closest("select").name][option.value] ?? 0})`;
    }
    for (const input of form.querySelectorAll("[type=radio], [type=checkbox]")) {
      input.closest("label").querySelector(".count").textContent = counts[input.name][input.value] ?? 0;
    }
  }

  function showGlazes(typed) {
    const words = searchable(typed).split(" ").filter(Boolean);
    const some = words.length ? glazes.filter(glaze => words.every(word => glaze.text.includes(` ${word}`))) : [];
    part(page, "glazes").hidden = !some.length;
    part(page, "glazes").querySelector("ul").replaceChildren(...some.slice(0, 6).map(glazeLine));
  }

  function showPairWay(state) {
    const link = part(page, "pair"), chosen = { first: state.first ?? "", top: state.top ?? "" };
    const names = [chosen.first, chosen.top].map(id => glazes.find(glaze => glaze.id === id)?.name);
    const both = names[0] && names[1] && names[0] !== names[1];
    link.textContent = both ? filled(link.dataset.both, { base: names[0], top: names[1] }) : link.dataset.any;
    link.href = `pair.html#${new URLSearchParams(Object.entries(chosen).filter(([, value]) => value))}`.replace(/#$/, "");
  }

  function show(state) {
    const answer = findLayerings(layerings, state), count = part(page, "count");
    found = answer.found;
    shown = 0;
    results.replaceChildren();
    showMore();
    showCounts(answer.counts);
    showGlazes(state.words ?? "");
    showPairWay(state);
    const { none, one, many } = count.dataset;
    count.textContent = !found.length ? none : found.length === 1 ? one : filled(many, { n: found.length });
    again.hidden = !Object.values(state).some(Boolean);
  }

  form.addEventListener("submit", event => event.preventDefault());
  form.addEventListener("input", event => {
    setAddress(formState(), { step: event.target.name !== "words" });
    show(formState());
  });
  more.addEventListener("click", () => {
    const next = shown;
    showMore();
    part(cardOf(found[next]), "name").focus();
  });
  again.addEventListener("click", () => {
    setAddress({});
    form.reset();
    show({});
    form.elements.words.focus();
  });
  part(page, "choices").open = matchMedia("(min-width: 62rem)").matches;
  followAddress(state => {
    form.reset();
    for (const [name, value] of Object.entries(state)) {
      const field = form.elements[name];
      if (field?.type === "checkbox") field.checked = value === field.value;
      else if (field) field.value = value;
    }
    show(formState());
  });
});

// == Grid of every pair: a cursor, the size of the squares, and a bar that says a square in words ====================

onPage("grid", page => {
  const table = page.querySelector(".grid"), box = table.parentElement, bar = part(page, "bar");
  const rows = [...table.rows].map(row => [...row.cells]);
  const marks = rows[0].map(cell => cell.textContent);
  const smallest = 1, largest = 5, whole = 3; // Squares of the whole size and more can be touched.
  let row = 1, column = 1;

  const target = cell => cell.querySelector("a") ?? cell;
  const zoom = () => Number(table.dataset.zoom);
  const showing = () => page.querySelector("[name=show]:checked").value;

  function tell(cell) {
    const [over, food, toDo, evidence] = cell.textContent.split("\n");
    const uses = [...cell.querySelectorAll("use")].map(use => use.getAttribute("href").slice(6));
    say(bar, "name", over.replace(/:$/, ""));
    [["food", food], ["running", toDo], ["evidence", evidence]].forEach(([name, words], at) => {
      const found = part(bar, name);
      found.hidden = !words;
      found.querySelector("svg").toggleAttribute("hidden", !uses[at]);
      found.querySelector("use").setAttribute("href", `#mark-${uses[at] ?? ""}`);
      found.querySelector(".sign-words").textContent = (words ?? "").replace(/;$/, "");
    });
    const link = cell.querySelector("a");
    part(bar, "open").hidden = !link;
    if (link) part(bar, "open").href = link.href;
  }

  function keep() {
    const at = rows[row]?.[column]?.tagName === "TD" ? `${marks[row]}-${marks[column]}` : "";
    setAddress({ show: showing() === "food" ? "" : showing(), size: zoom() === whole ? "" : zoom(), at }, { step: false });
  }

  function moveTo(newRow, newColumn, { focus = true } = {}) {
    const to = rows[newRow]?.[newColumn];
    if (!to || to.classList.contains("corner")) return;
    for (const cell of [rows[row][column], rows[row][0], rows[0][column]]) cell.classList.remove("chosen");
    target(rows[row][column]).tabIndex = -1;
    [row, column] = [newRow, newColumn];
    target(to).tabIndex = 0;
    for (const cell of [to, rows[row][0], rows[0][column]]) cell.classList.add("chosen");
    if (to.tagName === "TD") tell(to);
    if (focus) target(to).focus();
    keep();
  }

  function resize(size) {
    table.dataset.zoom = Math.min(largest, Math.max(smallest, size));
    part(page, "smaller").setAttribute("aria-disabled", zoom() === smallest);
    part(page, "larger").setAttribute("aria-disabled", zoom() === largest);
    rows[row][column].scrollIntoView({ block: "nearest", inline: "nearest" });
    keep();
  }

  function fit() {
    for (resize(largest); zoom() > smallest && table.offsetWidth > box.clientWidth;) resize(zoom() - 1);
  }

  const far = 10;
  onKeys(table, {
    ArrowRight: () => moveTo(row, column + 1), ArrowLeft: () => moveTo(row, column - 1),
    ArrowDown: () => moveTo(row + 1, column), ArrowUp: () => moveTo(row - 1, column),
    Home: () => moveTo(row, 1), End: () => moveTo(row, rows[0].length - 1),
    PageDown: () => moveTo(Math.min(row + far, rows.length - 1), column), PageUp: () => moveTo(Math.max(row - far, 1), column),
    "+": () => resize(zoom() + 1), "=": () => resize(zoom() + 1), "-": () => resize(zoom() - 1),
  });
  table.addEventListener("click", event => {
    const cell = event.target.closest("td:not(.corner)");
    if (!cell) return;
    // Where squares are too small to be hit with a finger, touching one only chooses it. Enter, without a place, opens.
    if (zoom() < whole && event.detail > 0) event.preventDefault();
    moveTo(cell.parentElement.rowIndex, cell.cellIndex);
  });
  table.addEventListener("pointerover", event => {
    const cell = event.target.closest("td:not(.corner)");
    if (cell && event.pointerType === "mouse") tell(cell);
  });
  table.addEventListener("pointerleave", () => { if (rows[row][column].tagName === "TD") tell(rows[row][column]); });
  part(page, "smaller").addEventListener("click", () => resize(zoom() - 1));
  part(page, "larger").addEventListener("click", () => resize(zoom() + 1));
  part(page, "fit").addEventListener("click", fit);
  for (const choice of page.querySelectorAll("[name=show]")) choice.addEventListener("change", keep);

  table.setAttribute("role", "grid");
  for (const cell of table.querySelectorAll("a, td:not(.corner)")) if (cell.tagName === "A" || !cell.querySelector("a")) cell.tabIndex = -1;
  box.tabIndex = -1;
  part(page, "zoom").hidden = bar.hidden = false;
  followAddress(state => {
    const chosen = page.querySelector(`[name=show][value="${CSS.escape(state.show ?? "food")}"]`);
    if (chosen) chosen.checked = true;
    const [base, top] = (state.at ?? "").split("-").map(mark => marks.indexOf(mark));
    table.dataset.zoom = Math.min(largest, Math.max(smallest, Number(state.size) || whole));
    moveTo(base > 0 ? base : 1, top > 0 ? top : 2, { focus: base > 0 });
  });
});
