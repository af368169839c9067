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
