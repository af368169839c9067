"""The demo's site as others read it: html5lib, a crawler, and Chromium with axe from a folder with a space."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from importlib import resources
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import html5lib
import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.published_demo import demo_files, site_on_a_stick
from tests.screen.person import CHROMIUM

PAGES = sorted(p for p in demo_files() if p.startswith("site/") and p.endswith(".html"))
KINDS = (
    "site/index.html",
    "site/grid.html",
    "site/find.html",
    "site/pair.html",
    "site/layerings.html",
    "site/colours.html",
    "site/colours/deep-blue-green.html",
    "site/contact.html",
    "site/contact/glaze-harbour-fog.html",
    "site/compare.html",
    "site/projector.html",
    "site/projector/bramble-ink.html",
    "site/forms.html",
    "site/clays.html",
    "site/firings.html",
    "site/retest.html",
    "site/teacher.html",
    "site/questions.html",
    "site/drink.html",
    "site/keep-off.html",
    "site/liners.html",
    "site/ran.html",
    "site/today.html",
    "site/labels.html",
    "site/glazes/harbour-fog.html",
    "site/combinations/harbour-fog-over-bramble-ink.html",
    "site/clays/garden-pot-red.html",
    "site/firings/f05.html",
    "site/pages/safety.html",
)
SIZES = {"phone": (320, 640), "laptop": (1366, 768), "projector": (1920, 1080)}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site on disk, in a folder with a space in its name."""
    return site_on_a_stick(tmp_path_factory.mktemp("a stick"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path="/usr/bin/chromium", args=list(CHROMIUM))
        yield chromium
        chromium.close()


def test_html5lib_finds_no_error_on_any_page() -> None:
    """HTML Living Standard, 13.2 Parsing; html5lib in strict mode raises at the first error."""
    for path in PAGES:
        html5lib.HTMLParser(strict=True).parse(demo_files()[path])


def test_every_page_has_a_language_a_title_and_one_heading_of_the_first_rank() -> None:
    for path in PAGES:
        root = html5lib.parse(demo_files()[path], namespaceHTMLElements=False)
        assert root.get("lang") == "en", path
        assert "".join(root.find("head/title").itertext()).strip(), path
        assert len(root.findall(".//h1")) == 1, path


def test_every_link_and_picture_leads_to_a_real_file_and_nothing_is_asked_of_another_machine() -> None:
    ids = {p: set(re.findall(r'\bid="([^"]+)"', demo_files()[p].decode())) for p in PAGES}
    for path in PAGES:
        root = html5lib.parse(demo_files()[path], namespaceHTMLElements=False)
        for element in root.iter():
            for name in ("href", "src"):
                target = element.get(name) if isinstance(element.tag, str) else None
                if target is None or (element.tag == "a" and re.match(r"(https?|mailto):", target)):
                    continue
                assert not re.match(r"([a-z]+:|/)", target), (path, target)
                file, _, fragment = unquote(target).partition("#")
                file = file.partition("?")[0]
                found = posixpath.normpath(posixpath.join(posixpath.dirname(path), file)) if file else path
                assert found in demo_files(), (path, target)
                if fragment and "=" not in fragment and found.endswith(".html"):  # with it, what a script shows
                    assert fragment in ids[found], (path, target)


def test_every_combination_glaze_clay_and_firing_has_its_page() -> None:
    home = Path(__file__).parents[2] / "content"
    for kind in ("glazes", "clays", "firings", "pages"):
        for entry in (home / kind).glob("*.md"):
            assert f"site/{kind}/{entry.stem}.html" in demo_files()
    assert len([p for p in PAGES if p.startswith("site/combinations/")]) >= len(list((home / "combinations").glob("*")))


def test_untested_is_a_stated_value_of_the_grid_and_no_pair_is_left_out() -> None:
    root = html5lib.parse(demo_files()["site/grid.html"], namespaceHTMLElements=False)
    cells = [" ".join(" ".join(cell.itertext()).split()) for cell in root.findall(".//tbody//td")]
    assert len(cells) == 24 * 24
    assert all(cells)
    assert sum("ntested" in cell for cell in cells) > 400


def test_the_first_page_says_every_caution() -> None:
    text = " ".join("".join(html5lib.parse(demo_files()["site/index.html"]).itertext()).split())
    for words in ("the stricter wins", "no laboratory's finding", "never dry-sweep or dry-sand", "fitted respirator",
                  "wet grinding by a trained adult", "Kilns are the technician's", "Your own piece decides"):  # fmt: skip
        assert words in text


def test_no_page_says_in_its_own_voice_that_a_surface_is_safe() -> None:
    for path in PAGES:
        for said in re.findall(rb"[^.>]*\b(?:certified|approved|guaranteed|complies with)\b[^.<]*", demo_files()[path]):
            raise AssertionError((path, said))


def test_pages_are_small() -> None:
    assert [p for p in PAGES if len(demo_files()[p]) > 300_000] == []


@pytest.mark.parametrize("page", KINDS)
def test_axe_finds_nothing_and_nothing_scrolls_sideways_without_javascript(
    page: str, folder: Path, browser: Browser
) -> None:
    """WCAG 2.2 AA by axe-core; 1.4.10 Reflow at 320 px. Scripts of pages do not run; axe itself is let in."""
    axe = (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
    asked: list[str] = []
    context = browser.new_context(bypass_csp=True)
    context.on("request", lambda request: asked.append(request.url))
    tab = context.new_page()
    for width, height in SIZES.values():
        tab.set_viewport_size({"width": width, "height": height})
        tab.goto((folder / page).as_uri())
        wide = tab.evaluate("document.documentElement.scrollWidth")
        assert wide <= width, f"{page} is {wide} px wide at {width}"
    tab.evaluate(axe)
    found: dict[str, Any] = tab.evaluate("rules => axe.run({runOnly: rules})", RULES)
    context.close()
    assert [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found["violations"]] == []
    assert [url for url in asked if not url.startswith("file:")] == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_keep_off_food_stays_a_filled_plate_where_the_reader_chose_the_colours(
    browser: Browser, folder: Path, scheme: Any
) -> None:
    """Forced colours (CSS Color Adjustment 1, 3): the plate's ground is the colour of text, its words that of paper."""
    context = browser.new_context(forced_colors="active", color_scheme=scheme)
    page = context.new_page()
    page.goto((folder / "site/combinations/ember-loft-over-snow-pantry.html").as_uri())
    plate = page.eval_on_selector(
        ".verdict-keep_off", "e => [getComputedStyle(e).backgroundColor, getComputedStyle(e).color]"
    )
    assert plate == page.eval_on_selector(
        "html", "e => [getComputedStyle(e).color, getComputedStyle(e).backgroundColor]"
    )
    context.close()
