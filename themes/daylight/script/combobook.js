/* The book's own script, for every page that has one; without it each of them still reads and links.

   It looks things up and shows them. It judges nothing: every verdict, sentence and figure comes from the data, which
   the program wrote (script/*.js, each one call of `combobookData`), and every piece of a page from its <template>s.
   Nothing is ever set as HTML or as a style: texts, attributes and classes only. */
"use strict";

// == Frame: who starts, data, the address, pieces of a page =========================================================

const book = {};

/* Called by each data file: what it holds, under its name. */
function combobookData(name, value) {
  book[name] = value;
}

/* A page's section below says what to do on it: `onPage("find", main => …)`; the page says data-page="find". */
function onPage(name, start) {
  document.addEventListener("DOMContentLoaded", () => document.querySelectorAll(`[data-page="${name}"]`).forEach(page => start(page)));
}

document.documentElement.classList.add("js");

/* Rows of a table as objects by its columns' names. */
function records(table) {
  return table.rows.map(row => Object.fromEntries(table.columns.map((name, at) => [name, row[at]])));
}

/* What stands behind # in the address, as name=value pairs. A plain #part of the page is none of them. */
function addressState() {
  const text = location.hash.slice(1);
  return Object.fromEntries(new URLSearchParams(text.includes("=") ? text : ""));
}

/* These pairs as they stand behind #, empty ones left out. */
function asAddress(state) {
  return String(new URLSearchParams(Object.entries(state).filter(([, value]) => value !== "")));
}

/* Puts these pairs into the address. A choice is a step back for the back button; typing is none. */
function setAddress(state, { step = true } = {}) {
  const kept = asAddress(state), wanted = kept ? `#${kept}` : location.pathname + location.search;
  if (wanted === location.hash || (!kept && !location.hash)) return;
  history[step ? "pushState" : "replaceState"](null, "", wanted);
}

/* Calls `show` now and whenever the address changes behind the page's back: back, forward, a link, a pasted address. */
function followAddress(show) {
  window.addEventListener("popstate", () => {
    if (!location.hash || location.hash.includes("=")) show(addressState());
  });
  show(addressState());
}

/* A form whose answers stand in the address: `show` gets them now and at every change. Typing in `typed` is no step. */
function askWith(form, show, typed = null) {
  const answers = () => Object.fromEntries(new FormData(form));
  form.addEventListener("submit", event => event.preventDefault());
  form.addEventListener("input", event => {
    setAddress(answers(), { step: event.target.name !== typed });
    show(answers());
  });
  followAddress(state => {
    form.reset();
    for (const [name, value] of Object.entries(state)) {
      const field = form.elements[name];
      if (field?.type === "checkbox") field.checked = value === field.value;
      else if (field) field.value = value;
      if (field?.selectedIndex === -1) field.selectedIndex = 0;  // An answer that this book does not have.
    }
    show(answers());
  });
}

/* A copy of the page's <template id="…">, with `fill` called on it. */
function piece(id, fill) {
  const made = document.getElementById(id).content.firstElementChild.cloneNode(true);
  fill?.(made);
  return made;
}

/* The part of a piece that is called so (data-part="name"); null where it has none. */
function part(of, name) {
  return of.querySelector(`[data-part="${name}"]`);
}

/* Sets the words of parts, by their names, and hides those that have none. */
function say(of, all) {
  for (const [name, words] of Object.entries(all)) Object.assign(part(of, name), { textContent: words, hidden: !words });
}

/* Marks of the page's sprite with their words, by parts' names, hidden where there are none; a frame goes by its key. */
function setSigns(of, signs, frame = "sign") {
  for (const [name, [key, mark, words]] of Object.entries(signs)) {
    const found = part(of, name);
    found.hidden = !words;
    for (const old of [...found.classList]) if (old.startsWith(`${frame}-`) && old !== "sign-food") found.classList.remove(old);
    found.classList.add(`${frame}-${key}`);
    found.querySelector("use").setAttribute("href", `#mark-${mark}`);
    found.querySelector(".sign-words").textContent = words;
  }
}

/* A layering's picture with its size, so that nothing jumps; where there is none, the words of the empty place. */
function setPicture(of, picture, instead) {
  const figure = part(of, "picture");
  figure.hidden = !picture?.length;
  say(of, { empty: figure.hidden ? instead : "" });
  if (figure.hidden) return;
  const [src, webp, width, height, alt] = picture;
  figure.querySelector("source").srcset = webp === 1 ? src.replace(/\.jpg$/, ".webp") : webp || src;
  Object.assign(figure.querySelector("img"), { width, height, alt: book.layerings.says[alt], src });
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

/* The words of a text as they are searched, each with its space. */
function searched(text) {
  return searchable(text).match(/ \S+/g) ?? [];
}

/* How alike two words are, from 0 to 1: the share of their pairs of neighbouring letters that both have. */
function alike(one, other) {
  const [some, others] = [one, other].map(word => [...word].map((letter, at) => letter + (word[at + 1] ?? " ")));
  return 2 * some.filter(pair => others.includes(pair)).length / (some.length + others.length);
}

// == Find a layering ================================================================================================

/* Layerings as the page and the choices know them, made once from script/layerings.js. */
function readLayerings() {
  const data = book.layerings;
  const glazes = records(data.glazes).map(glaze => ({ ...glaze, named: searchable(`${glaze.name} ${glaze.mark}`) }));
  for (const glaze of glazes) glaze.text = glaze.named + searchable(glaze.looks);
  const layerings = records(data.layerings).map(each => {
    const base = glazes[each.base], top = glazes[each.top];
    const looks = [each.nickname, data.says[each.looks]].filter(Boolean).join(": ");
    const name = filled(data.over, { base: base.name, top: top.name });
    return {
      base, top, name, looks,
      href: filled(data.page, { base: base.id, top: top.id }),
      food: data.signs[each.food], running: data.signs[each.running], trust: data.signs[each.trust],
      picture: each.picture, empty: data.says[each.picture],
      note: each.picture.length ? data.says[each.picture[5]] : "",
      off: base.off || top.off,
      text: searchable(`${name} ${base.mark} ${top.mark} ${looks} ${each.tiles}`),
      by: {
        first: base.id, top: top.id, clay: each.clays.map(n => data.clays[n]), food: data.signs[each.food][0],
        running: each.toDo, trust: data.signs[each.trust][0], colour: data.families[each.family] ?? "",
        shelf: base.off || top.off ? "" : "now",
      },
    };
  });
  return { glazes, layerings };
}


const choices = ["first", "top", "clay", "food", "running", "trust", "colour", "shelf"];

/* What fits every choice and word, and how many would fit for each answer, all other choices as they stand. */
function findLayerings(layerings, state) {
  const words = searched(state.words);
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

/* What was typed, with each word that no text has as the nearest word of a glaze's name; empty where none is near. */
function meant(typed, glazes, texts) {
  const names = glazes.flatMap(glaze => glaze.name.split(" ")).map(name => [searchable(name), name]);
  const nearest = word => names.map(([name, words]) => [alike(word, name), words]).sort(([one], [other]) => other - one)[0] ?? [0];
  const words = searched(typed).map(word => texts.some(text => text.includes(word)) ? [1, word.trim()] : nearest(word));
  return words.every(([found]) => found >= 0.4) && words.some(([found]) => found < 1) ? words.map(([, word]) => word).join(" ") : "";
}

function layeringCard(each) {
  return piece("find-card", card => {
    setPicture(card, each.picture, each.empty);
    part(card, "name").href = each.href;
    setSigns(card, { food: each.food, running: each.running, catch: ["catch", "catch-plate", each.running[3]], trust: each.trust });
    say(card, { name: each.name, looks: each.looks, note: each.note, shelf: each.off });
  });
}

function glazeLine(glaze) {
  return piece("find-glaze", line => {
    say(line, { mark: glaze.mark, name: glaze.name, looks: glaze.looks });
    part(line, "name").href = `glazes/${glaze.id}.html`;
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
  const ticks = form.querySelectorAll("[type=radio], [type=checkbox]");
  const cards = new Map();
  let found = [], shown = 0;

  const cardOf = each => cards.get(each) ?? cards.set(each, layeringCard(each)).get(each);

  function showMore() {
    results.append(...found.slice(shown, shown + most).map(cardOf));
    shown = Math.min(found.length, shown + most);
    more.hidden = shown === found.length;
    more.textContent = filled(more.dataset.words, { n: Math.min(most, found.length - shown) });
  }

  function showCounts(counts) {
    const count = (name, value) => counts[name][value] ?? 0;
    for (const [option, words] of options) option.textContent = `${words} (${count(option.closest("select").name, option.value)})`;
    for (const input of ticks) input.closest("label").querySelector(".count").textContent = count(input.name, input.value);
  }

  function showGlazes(typed) {
    const words = searched(typed);
    const fit = text => words.length > 0 && words.every(word => text.includes(word));
    const some = glazes.filter(glaze => fit(glaze.text)).sort((one, other) => fit(other.named) - fit(one.named));
    part(page, "glazes").hidden = !some.length;
    part(page, "glazes").querySelector("ul").replaceChildren(...some.slice(0, 3).map(glazeLine));
  }

  /* Where nothing is called as typed: what may have been meant, as a link that asks for it. */
  function showMeant(state) {
    const texts = [...layerings, ...glazes].map(each => each.text);
    const near = found.length ? "" : meant(state.words, glazes, texts), link = part(page, "meant");
    say(page, { meant: near && filled(link.dataset.words, { near }) });
    link.href = `#${asAddress({ ...state, words: near })}`;
  }

  function showPairWay({ first, top }) {
    const link = part(page, "pair"), [base, over] = [first, top].map(id => glazes.find(glaze => glaze.id === id)?.name);
    const both = base && over && base !== over;
    link.textContent = both ? filled(link.dataset.both, { base, top: over }) : link.dataset.any;
    link.href = `pair.html#${new URLSearchParams({ first, top })}`;
  }

  function show(state) {
    const answer = findLayerings(layerings, state), count = part(page, "count");
    found = answer.found;
    shown = 0;
    results.replaceChildren();
    showMore();
    showCounts(answer.counts);
    showGlazes(state.words);
    showPairWay(state);
    showMeant(state);
    const { none, one, many, unnamed } = count.dataset, nothing = choices.some(name => state[name]) ? none : unnamed;
    count.textContent = !found.length ? nothing : found.length === 1 ? one : filled(many, { n: found.length });
    again.hidden = !Object.values(state).some(Boolean);
  }

  more.addEventListener("click", () => {
    const next = shown;
    showMore();
    part(cardOf(found[next]), "name").focus();
  });
  again.addEventListener("click", () => {
    form.reset();
    form.dispatchEvent(new Event("input"));
    form.elements.words.focus();
  });
  part(page, "choices").open = matchMedia("(min-width: 62rem)").matches;
  askWith(form, show, "words");
});

// == Any pair =======================================================================================================

function setAll(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  return element;
}

function drawn(kind, attributes) {
  return setAll(document.createElementNS("http://www.w3.org/2000/svg", kind), attributes);
}

/* Fills a form's bare drawing: what is kept clear, where the top may go, how far each stretch reaches. */
function fillDrawing(place, [zones, tall, inside, barFrom, barTo], says) {
  const [top, scale, left, wide, line] = ["top", "scale", "left", "wide", "line"].map(name => Number(place.dataset[name]));
  const pot = place.querySelector(".pot"), labels = place.querySelector(".pot-labels");
  const body = pot.querySelector(":scope > g"), down = mm => top + mm * scale;
  for (const old of [...pot.querySelectorAll(".filled"), ...body.children, ...labels.children]) old.remove();
  let ticks = "", widest = 0;
  for (const [kind, start, end, y, lines] of zones) {
    const box = { x: left, y: down(start), width: wide, height: (end - start) * scale };
    const rule = at => drawn("path", { d: `M${left} ${at}h${wide}`, stroke: "currentColor", "stroke-width": kind === "lip" ? 0.9 : 2.2 });
    if (kind === "here") body.append(drawn("rect", { ...box, class: "here" }));
    if (kind === "lip") body.append(drawn("rect", { ...box, fill: "url(#fill-lip)" }), rule(down(end)));
    if (kind === "foot") body.append(drawn("rect", { ...box, fill: "url(#fill-foot)" }));
    if (kind === "reach" || kind === "third") {
      body.append(drawn("rect", { ...box, y: down(start) - 5, height: 5, fill: "url(#fill-teeth)" }), rule(down(start)));
    }
    if (kind !== "none") ticks += `M${line - 5} ${down(start)}h10M${line - 5} ${down(end)}h10`;
    lines.forEach((words, n) => {
      const text = drawn("text", { x: 2, y: y + n * 21, fill: "currentColor", "font-size": 16, class: `label-${kind}` });
      text.textContent = says[words];
      widest = Math.max(widest, says[words].length * 8.2 + 6);
      labels.append(text);
    });
  }
  pot.append(drawn("path", { d: ticks || "M0 0", class: "filled ticks" }));
  if (barTo) pot.append(drawn("path", { d: `M3 ${down(barFrom)}h5V${down(barTo)}h-5z`, class: "filled first-bar" }));
  setAll(labels, { viewBox: `0 0 ${widest} ${tall}`, width: `${widest / 16}rem`, height: `${tall / 16}rem` });
  const lining = pot.querySelector(".inside-line");
  if (!lining) return;
  const clip = drawn("clipPath", { id: `${place.dataset.form}-${place.closest("section").dataset.side}`, class: "filled" });
  clip.append(drawn("rect", { x: 0, y: 0, width: line, height: inside === 1 ? down(1000) : down(inside) }));
  pot.append(clip);
  setAll(lining, { "clip-path": `url(#${clip.id})`, visibility: inside ? "visible" : "hidden" });
}

function listed(list, lines) {
  list.replaceChildren(...lines.map(words => Object.assign(document.createElement("li"), { textContent: words })));
  list.hidden = !lines.length;
}

function showSide(side, pair, layering, form) {
  const data = book.pairs, says = n => data.says[n], names = { base: pair.base.name, top: pair.top.name };
  const food = data.food[pair.food], running = data.running[pair.running], trust = data.trust[pair.trust];
  const [, , , judged, whys] = food, [, , , under, plate, runs, steps] = running, [, , , counts, means] = trust;
  const signed = ([key, mark, words]) => [key, mark, says(words)];
  const name = filled(book.layerings.over, names), coats = filled(says(pair.coats), names), page = part(side, "page");
  say(side, {
    name, coats, notice: says(pair.notice), looks: layering?.looks ?? "", note: layering?.note ?? "",
    shelf: pair.base.off || pair.top.off, judged: filled(says(judged), { coats }), under: says(under),
    runs: says(runs), counts: says(counts), means: says(means), page: pair.page ? filled(page.dataset.words, { name }) : "",
  });
  setPicture(side, layering?.picture, layering?.empty ?? side.dataset.empty);
  setSigns(side, { food: signed(food) }, "verdict");
  setSigns(side, { running: signed(running), catch: ["catch", "catch-plate", says(plate)], trust: signed(trust) });
  listed(part(side, "whys"), whys.map(says));
  listed(part(side, "steps"), steps.map(says));
  part(side, "surfaces").replaceChildren(...pair.surfaces.map(n => piece("pair-surface", line => {
    const [coatsOf, clay, foodOf, trustOf] = data.surfaces[n];
    part(line, "coats").textContent = `${filled(says(coatsOf), names)}, ${says(clay)}`;
    setSigns(line, { food: signed(foodOf), trust: signed(trustOf) });
  })));
  part(side, "no_surface").hidden = pair.surfaces.length > 0;
  [...side.querySelectorAll("[data-form]")].forEach((place, n) => {
    place.hidden = place.dataset.form !== form;
    if (!place.hidden) showPlace(place, data.places[pair.places[n]]);
  });
  if (pair.page) page.href = filled(book.layerings.page, { base: pair.base.id, top: pair.top.id });
}

function showPlace(place, [number, lines]) {
  const data = book.pairs;
  listed(place.querySelector(".place-says"), lines.map(n => data.says[n]));
  if (number < 0) return;
  const drawing = data.drawings[number], inside = drawing[2];
  fillDrawing(place, drawing, data.says);
  listed(place.querySelector(".profile-list"), drawing[0].map(zone => zone[4].map(n => data.says[n]).join(" ")));
  const shows = inside > 1 ? String(inside) : inside ? "yes" : "no";
  for (const seen of place.querySelectorAll("[data-above]")) seen.hidden = seen.dataset.above !== shows;
}

onPage("pair", page => {
  const { glazes, layerings } = readLayerings(), form = page.querySelector("form"), says = part(page, "says");
  const byOrder = some => new Map(some.map(each => [`${each.base.id} ${each.top.id}`, each])), known = byOrder(layerings);
  const pairs = byOrder(records(book.pairs.pairs).map(each => ({ ...each, base: glazes[each.base], top: glazes[each.top] })));
  function show({ first, top, form: chosen }) {
    const keys = { this: `${first} ${top}`, other: `${top} ${first}` };
    const judged = pairs.has(keys.this) && pairs.has(keys.other);
    says.textContent = says.dataset[!first || !top ? "nothing" : first === top ? "same" : judged ? "lead" : "unknown"];
    part(page, "sides").hidden = part(page, "key").hidden = !judged;
    part(page, "turn").hidden = !first && !top;
    for (const side of judged ? page.querySelectorAll("[data-side]") : []) {
      const key = keys[side.dataset.side];
      showSide(side, pairs.get(key), known.get(key), chosen);
    }
  }

  part(page, "turn").addEventListener("click", () => {
    const { first, top } = form.elements;
    [first.value, top.value] = [top.value, first.value];
    form.dispatchEvent(new Event("input"));
  });
  askWith(form, show);
});

// == Grid of every pair: a cursor, the size of the squares, and a bar that says a square in words ====================

onPage("grid", page => {
  const table = page.querySelector(".grid"), box = table.parentElement, bar = part(page, "bar");
  const rows = [...table.rows].map(row => [...row.cells]), marks = rows[0].map(cell => cell.textContent);
  const smallest = 1, largest = 5, whole = 3; // Squares of the whole size and more can be hit with a finger.
  const target = cell => cell.querySelector("a") ?? cell, size = () => Number(table.dataset.zoom);
  const steps = [["smaller", -1, smallest], ["larger", 1, largest]];
  let row = 1, column = 1;

  function tell(cell) {
    const [over, ...lines] = cell.textContent.split("\n").map(line => line.replace(/[:;]$/, ""));
    const uses = [...cell.querySelectorAll("use")].map(use => use.getAttribute("href").slice("#mark-".length));
    const link = cell.querySelector("a"), open = part(bar, "open");
    say(bar, { name: over });
    ["food", "running", "evidence"].forEach((name, at) => setSigns(bar, { [name]: [name, uses[at] ?? "none", lines[at] ?? ""] }));
    const ids = [rows[cell.parentElement.rowIndex][0], rows[0][cell.cellIndex]].map(head => target(head).pathname.match(/([^/]+)\.html$/)[1]);
    open.hidden = cell.classList.contains("same");
    open.href = link?.href ?? `pair.html#first=${ids[0]}&top=${ids[1]}`;
  }

  function keep() {
    const show = page.querySelector("[name=show]:checked").value, at = `${marks[row]}-${marks[column]}`;
    setAddress({ show: show === "food" ? "" : show, size: size() === whole ? "" : size(), at: row && column ? at : "" }, { step: false });
  }

  function moveTo(newRow, newColumn, focus = true) {
    const to = rows[newRow]?.[newColumn];
    if (!to || to.classList.contains("corner")) return;
    for (const cell of [rows[row][column], rows[row][0], rows[0][column]]) cell.classList.remove("chosen");
    target(rows[row][column]).tabIndex = -1;
    [row, column] = [newRow, newColumn];
    for (const cell of [to, rows[row][0], rows[0][column]]) cell.classList.add("chosen");
    target(to).tabIndex = 0;
    if (row && column) tell(to);
    if (focus) target(to).focus();
    keep();
  }

  function resize(wanted) {
    table.dataset.zoom = Math.min(largest, Math.max(smallest, wanted));
    for (const [name, , end] of steps) part(page, name).setAttribute("aria-disabled", size() === end);
    rows[row][column].scrollIntoView({ block: "nearest", inline: "nearest" });
    keep();
  }
  const cellOf = event => event.target.closest("td:not(.corner)"), far = 10;
  onKeys(table, {
    ArrowRight: () => moveTo(row, column + 1), ArrowLeft: () => moveTo(row, column - 1),
    ArrowDown: () => moveTo(row + 1, column), ArrowUp: () => moveTo(row - 1, column),
    PageDown: () => moveTo(Math.min(row + far, rows.length - 1), column), PageUp: () => moveTo(Math.max(row - far, 1), column),
    Home: () => moveTo(row, 1), End: () => moveTo(row, rows[0].length - 1),
    Enter: event => (event.target.closest("a") || part(bar, "open").hidden ? false : part(bar, "open").click()),
    "+": () => resize(size() + 1), "=": () => resize(size() + 1), "-": () => resize(size() - 1),
  });
  table.addEventListener("click", event => {
    if (!cellOf(event)) return;
    // Touching a square that is too small to be hit surely only chooses it; Enter is no touch, and opens.
    if (size() < whole && event.detail > 0) event.preventDefault();
    moveTo(cellOf(event).parentElement.rowIndex, cellOf(event).cellIndex);
  });
  table.addEventListener("pointerover", event => { if (cellOf(event) && event.pointerType === "mouse") tell(cellOf(event)); });
  table.addEventListener("pointerleave", () => { if (row && column) tell(rows[row][column]); });
  for (const [name, step] of steps) part(page, name).addEventListener("click", () => resize(size() + step));
  part(page, "fit").addEventListener("click", () => {
    for (table.dataset.zoom = largest; size() > smallest && table.offsetWidth > box.clientWidth;) table.dataset.zoom = size() - 1;
    resize(size());
  });
  for (const choice of page.querySelectorAll("[name=show]")) choice.addEventListener("change", keep);
  table.setAttribute("role", "grid");
  for (const cell of rows.flat()) target(cell).tabIndex = -1;
  part(page, "choices").open = matchMedia("(min-width: 40rem)").matches;
  box.removeAttribute("tabindex");
  part(page, "zoom").hidden = bar.hidden = false;
  followAddress(state => {
    const [base, top] = (state.at ?? "").split("-").map(mark => marks.indexOf(mark)), known = base > 0 && top > 0;
    (page.querySelector(`[name=show][value="${CSS.escape(state.show ?? "")}"]`) ?? page.querySelector("[name=show]")).checked = true;
    table.dataset.zoom = Math.min(largest, Math.max(smallest, Number(state.size) || whole));
    moveTo(known ? base : 1, known ? top : 2, known);
  });
});

// == Tiles beside each other ========================================================================================

onPage("compare", page => {
  const { says, signs, windows, tiles: coded } = book.tiles, most = 4, listed = 8, store = "combobook beside";
  const tiles = records(coded).map(each => ({ ...each, name: says[each.name], facts: each.facts.map(at => says[at]) }));
  for (const each of tiles) each.words = `${each.mark} ${each.name} ${each.facts.join(" ")}`.toLowerCase();
  const called = new Map(tiles.map(each => [each.id.toLowerCase(), each]));
  const known = ids => [...new Set((ids ?? "").toLowerCase().split(/[\s,]+/).map(id => called.get(id)).filter(Boolean))];
  const asked = page.querySelector("input"), root = document.documentElement, isLarge = () => root.classList.contains("large");
  let shown = [], kept = null;
  try { kept = sessionStorage; } catch { /* A browser that keeps nothing: tiles are then added on this page. */ }
  const tileView = each => piece("compare-tile", made => {
    const [file, window, alt] = each.picture, [x, y, width, height] = windows[window], away = part(made, "away");
    setAll(made.querySelector("image"), { href: file, x, y, width, height });
    made.querySelector("svg").setAttribute("aria-label", says[alt]);
    const mark = filled(part(made, "mark").dataset.words, { tile: each.mark });
    say(made, { name: each.name, mark, care: says[each.care], note: says[each.note] });
    part(made, "name").href = says[each.page];
    setSigns(made, { food: signs[each.food], running: signs[each.running], trust: signs[each.trust] });
    made.querySelectorAll("dd").forEach((fact, at) => { fact.textContent = each.facts[at] || "–"; });

    away.setAttribute("aria-label", away.dataset.words.replace("{tile}", each.mark));
    away.addEventListener("click", () => { put(shown.filter(one => one !== each)); asked.focus(); });
  });
  const addView = each => piece("compare-add", made => {
    say(made, { mark: each.mark, name: each.name, how: `${each.facts[0]}, ${each.facts[1]}` });
    made.querySelector("button").addEventListener("click", () => { asked.value = ""; put([...shown, each]); asked.focus(); });
  });

  /* What could be added: what is asked for in words; with no words, other tiles of the glazes that are shown. */
  function suggest() {
    const words = asked.value.toLowerCase().split(/\s+/).filter(Boolean), title = part(page, "title");
    const pages = new Set(shown.flatMap(each => [says[each.page], says[each.other]]));
    const fits = each => (words.length ? words.every(word => each.words.includes(word)) : pages.has(says[each.page]));
    const found = shown.length < most ? tiles.filter(each => !shown.includes(each) && fits(each)).slice(0, listed) : [];
    const nothing = words.length && shown.length < most ? title.dataset.nothing : "";
    say(page, { title: found.length ? title.dataset[words.length ? "found" : "like"] : nothing });
    part(page, "found").replaceChildren(...found.map(addView));
  }

  function show(large) {
    const { words, none, full } = part(page, "count").dataset, button = part(page, "large");
    part(page, "tiles").replaceChildren(...shown.map(tileView));
    say(page, { count: shown.length === most ? full : shown.length ? words.replace("{n}", shown.length) : none });
    root.classList.toggle("large", large);
    document.getElementById("lamplight").media = large ? "screen" : "not all";
    button.textContent = large ? button.dataset.usual : button.dataset.large;
    button.hidden = part(page, "empty").hidden = !shown.length;
    suggest();
  }

  function put(some, large = isLarge() && some.length > 0, step = true) {
    shown = some.slice(-most);
    const ids = shown.map(each => each.id).join(" ");
    kept?.setItem(store, ids);
    setAddress({ tiles: ids, large: large ? "yes" : "" }, { step });
    show(large);
  }
  asked.addEventListener("input", suggest);
  part(page, "empty").addEventListener("click", () => { put([]); asked.focus(); });
  part(page, "large").addEventListener("click", () => put(shown, !isLarge()));
  onKeys(document, { Escape: () => (isLarge() ? put(shown, false) : false) });
  followAddress(state => {
    const added = known(state.add);
    if (state.add) return put([...known(kept?.getItem(store)).filter(each => !added.includes(each)), ...added], false, false);
    shown = known(state.tiles).slice(0, most);
    show(state.large === "yes" && shown.length > 0);
  });
});

// == Large, for a projector: one part after another, by keys, a clicker, or slowly by itself ========================

onPage("projector", page => {
  const slides = [...page.querySelectorAll(".slide")], buttons = page.querySelectorAll("[data-part=round]");
  const fills = matchMedia("(min-width: 64rem) and (min-height: 34rem)"), slow = 20_000;
  const off = slide => Math.abs(slide.getBoundingClientRect().top);
  let timer = null;

  function go(step) {
    const to = slides[slides.indexOf(slides.reduce((near, slide) => (off(slide) < off(near) ? slide : near))) + step];
    if (!to) {
      const [file, id] = (step > 0 ? page.dataset.after : page.dataset.before).split("#");
      location.href = `${file}${timer ? "?round" : ""}${id ? `#${id}` : ""}`;
      return;
    }
    to.scrollIntoView({ behavior: "instant" });
    if (!timer) to.focus({ preventScroll: true });
    history.replaceState(null, "", `#${to.id}`);
  }

  function keepGoing(on) {
    clearInterval(timer);
    timer = on ? setInterval(go, slow, 1) : null;
    for (const button of buttons) button.textContent = on ? button.dataset.pause : button.dataset.go;
  }
  const turn = step => event => (fills.matches && !(event.key === " " && event.target.closest("a, button")) ? go(step) : false);
  onKeys(document, {
    ArrowRight: turn(1), ArrowDown: turn(1), PageDown: turn(1), " ": turn(1), ArrowLeft: turn(-1), ArrowUp: turn(-1), PageUp: turn(-1),
    Escape: () => (timer ? keepGoing(false) : false),
  });
  for (const button of buttons) button.addEventListener("click", () => keepGoing(!timer));
  keepGoing(location.search === "?round");
});
