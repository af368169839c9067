"""From a key pressed on the page that finds layerings to what is painted, in headless Chromium, 60 glazes at hand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from statistics import median

from playwright.sync_api import Page, sync_playwright

from tests.bench.studios import lay_out
from tests.screen.person import CHROMIUM

TYPED = ("glaze 017", "breaks brown", "g031", "glaze 004 glaze 059", "t1200")
_WATCH = """() => {
    window.spent = [];
    let began = 0;
    const port = new MessageChannel();
    port.port1.onmessage = () => spent.push(performance.now() - began);
    const field = document.querySelector("input[type=search]");
    field.addEventListener("keydown", () => { began = performance.now(); });
    field.addEventListener("input", () => requestAnimationFrame(() => port.port2.postMessage(0)));
}"""
"""A frame is painted between its animation callbacks and the next message: that message says when."""


def screen(scratch: Path) -> Iterator[str]:
    """The find page at 3,500 layerings against a bare field in which the same is typed; and what its data weigh."""
    folder, pages = scratch / "screen", scratch / "the book"
    lay_out(folder, 3500)
    weights = _lay_out_page(folder, scratch / "cache-screen", pages)
    for name, weight in weights.items():
        yield f"{name}: {weight / 1e6:.2f} MB"
    yield f"search data in all: {sum(weights.values()) / 1e6:.2f} MB (goal under 2 MB)"
    (pages / "bare.html").write_text("<!doctype html><title>bare</title><input type=search>", encoding="utf-8")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium", args=list(CHROMIUM))
        page = browser.new_page(viewport={"width": 1366, "height": 768})
        floor, (ours, worst) = _typed(page, pages / "bare.html")[0], _typed(page, pages / "find.html")
        began = page.evaluate("performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd")
        browser.close()
    yield f"key to painted, median: {ours:.0f} ms over a floor of {floor:.0f} ms (goal under 100 ms); slowest {worst:.0f} ms"
    yield f"page opened and ready to be typed in: {began:.0f} ms"


def _lay_out_page(folder: Path, cache: Path, pages: Path) -> dict[str, int]:
    """The find page alone, with its style, script and data; the bytes of each data file."""
    from combobook.judge import judge_every_pair
    from combobook.render.site import DATA, SCRIPT, environment
    from combobook.render.views import find
    from combobook.render.views.desk import desk
    from combobook.render.views.frame import common, nav
    from tests.bench.editions import edition_of

    edition = edition_of(folder, cache)
    edition = replace(edition, pairs=judge_every_pair(edition.book)[0])
    laid_out = desk(edition)
    (page,) = find.pages(laid_out)
    set_page = environment(edition).get_template(page.template).render(
        common=common(edition), nav=nav(edition, page), root="", title=page.title, **page.view
    )
    data = dict(make(laid_out) for make in DATA)
    files = {"find.html": set_page, SCRIPT: edition.theme.text(SCRIPT), **data}
    files |= {f"style/{name}": edition.theme.text(f"style/{name}") for name in ("tokens.css", "site.css", "pages.css", "find.css")}
    for path, text in files.items():
        (pages / path).parent.mkdir(parents=True, exist_ok=True)
        (pages / path).write_text(text, encoding="utf-8")
    return {path: len(text.encode()) for path, text in data.items()}


def _typed(page: Page, file: Path) -> tuple[float, float]:
    """Median and slowest time from key to paint, in ms."""
    page.goto(file.as_uri())
    page.evaluate(_WATCH)
    for words in TYPED:
        page.locator("input[type=search]").fill("")
        page.locator("input[type=search]").press_sequentially(words, delay=60)
    page.wait_for_timeout(200)
    spent: list[float] = page.evaluate("spent")
    return median(spent), max(spent)
