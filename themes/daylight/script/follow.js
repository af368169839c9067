// Only in what `show` serves: asks whether this page has changed, and says what stands in the way of a newer one.
"use strict";
(() => {
  const version = document.currentScript.dataset.version;
  const asked = "/~show/state?page=" + encodeURIComponent(location.pathname);
  const every = 300;
  let silent = 0;

  const say = (state) => {
    const note = document.getElementById("show-note");
    const text = note.querySelector("pre");
    // Said again only when it is something else: a reader would hear it three times a second.
    if (text.textContent !== state.errors) {
      text.textContent = state.errors;
      note.hidden = state.errors === "";
    }
  };

  const look = async () => {
    try {
      const state = await (await fetch(asked, { cache: "no-store" })).json();
      silent = 0;
      if (state.version !== version && !(state.version === "gone" && state.errors)) {
        location.reload();
        return;
      }
      say(state);
    } catch {
      silent += 1;
    }
    document.getElementById("show-ended").hidden = silent < 5;
    setTimeout(look, every);
  };

  addEventListener("DOMContentLoaded", look);
})();
