"""First page, index, grid, clays, firings, forms and free pages, read as a reader would: by their words."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import html5lib
import pytest

from tests.site.editions import pages_of, text_of
from tests.studios import entry, glaze, log

CAUTIONS = (
    "The label and the school's or local rules come first; where this book and they differ, the stricter wins.",
    "What is here repeats labels and what we saw on our tiles; it is no laboratory's finding.",
    "Wet-clean; never dry-sweep or dry-sand.",
    "Spraying and powder mixing only where local rules allow, with extraction and a fitted respirator.",
    "Glaze runs and craters are sharp enough to cut: goggles, mask, wet grinding by a trained adult.",
    "Kilns are the technician's.",
    "Only codes, never names, faces or places, appear in print.",
    "Your own piece decides: look it over. Pinholes, cracks, bare or rough spots: keep it off food, whatever this says.",
)
FIRING = "firings/f01.md"
CLAY = "clays/quarry-white.md"
LOG = "logs/autumn.csv"
_AT = "Ferry Rust,2,Pond Lantern,1,Quarry White,f01"
_THEMES = Path(__file__).parents[2] / "themes"


def shelf_of(glazes: int) -> dict[str, str]:
    """The good studio with this many further glazes."""
    numbered = ((f"{chr(65 + n // 26)}{chr(65 + n % 26)}", n) for n in range(glazes))
    return {
        f"glazes/moor-{mark.lower()}.md": glaze(f"Moor Road {mark}", f"M{mark}", "food label: yes", "flow: stable")
        for mark, _ in numbered
    }


def cells(page: str) -> list[str]:
    """Each cell of the page's tables that is no head, as words."""
    root = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
    return [" ".join("".join(cell.itertext()).split()) for cell in root.findall(".//tbody//td")]


def links(page: str) -> list[str]:
    """Where the page's main part leads."""
    root = html5lib.parse(page, namespaceHTMLElements=False)
    return [str(link.get("href")) for link in root.findall(".//main//a")]


def test_the_first_page_has_every_caution_of_the_rules() -> None:
    text = text_of(pages_of()["index.html"])
    assert [caution for caution in CAUTIONS if caution not in text] == []


def test_the_first_page_shelves_each_glaze_by_its_status() -> None:
    out = {"glazes/pond-lantern.md": glaze("Pond Lantern", "PL", "food label: no", "flow: moves", "status: out")}
    text = text_of(pages_of(out)["index.html"])
    shelf, _, empty = text.partition("Out The jar is empty.")
    assert "FR Ferry Rust The label allows food" in shelf
    assert "PL Pond Lantern" not in shelf
    assert "PL Pond Lantern Keep off food" in empty


def test_a_house_that_makes_nothing_for_food_says_so_on_the_first_page() -> None:
    studio = entry("studio: Reed Lane Clay Room", "edition: 2026 Autumn", "cone: 6", "food rule: never")
    changed = {"studio.yaml": studio.replace("---\n", ""), "glazes/pond-lantern.md": glaze("Pond Lantern", "PL")}
    assert "House rule: nothing made here is for food" in text_of(pages_of(changed)["index.html"])


def test_the_index_names_each_layering_by_its_first_glaze_and_by_its_top() -> None:
    page = pages_of()["layerings.html"]
    first, _, top = text_of(page).rpartition("By top glaze")
    assert "Ferry Rust then Pond Lantern" in first
    assert "Pond Lantern over Ferry Rust" in top
    assert links(page).count("combinations/pond-lantern-over-ferry-rust.html") == 2


def test_the_grid_says_every_ordered_pair_in_words_and_untested_where_nobody_made_a_tile() -> None:
    assert cells(pages_of()["grid.html"]) == [
        "Ferry Rust over itself: one glaze, no layering",
        "Pond Lantern over Ferry Rust: Labels allow, not lab tested; Leave 13 mm; Seen once: 1 tile, 1 firing",
        "Ferry Rust over Pond Lantern: Not known: keep off food; Top 25 mm, on a catch plate; Untested",
        "Pond Lantern over itself: one glaze, no layering",
    ]


def test_an_untested_pair_whose_label_says_no_is_kept_off_food_in_the_grid() -> None:
    changed = {"glazes/pond-lantern.md": glaze("Pond Lantern", "PL", "food label: no", "flow: moves", "coats: 2")}
    said = "Ferry Rust over Pond Lantern: Keep off food; Top 25 mm, on a catch plate; Untested"
    assert said in cells(pages_of(changed)["grid.html"])


def test_the_grid_leads_to_no_page_that_is_not_there() -> None:
    pages = pages_of(shelf_of(3))
    assert [target for target in links(pages["grid.html"]) if target.partition("#")[0] not in pages] == []
    assert len(cells(pages["grid.html"])) == 25


@pytest.mark.parametrize(("glazes", "most"), [(22, 300_000), (58, 2_000_000)])
def test_the_grid_of_a_big_shelf_stays_small(glazes: int, most: int) -> None:
    page = pages_of(shelf_of(glazes))["grid.html"]
    assert len(cells(page)) == (glazes + 2) ** 2
    assert len(page.encode()) < most


def test_a_clay_that_melts_at_the_studios_cone_says_so_in_the_list_and_on_its_page() -> None:
    warning = "Not for cone 6: this clay can melt and take the shelf with it."
    pages = pages_of({"clays/garden.md": entry("name: Garden Red", "cone: 06 to 04")})
    assert warning in text_of(pages["clays/garden.html"])
    assert warning in text_of(pages["clays.html"])
    assert warning not in text_of(pages["clays/quarry-white.html"])


def test_a_clay_of_unknown_cone_claims_nothing_about_the_kiln() -> None:
    page = text_of(pages_of({CLAY: entry("name: Quarry White")})["clays/quarry-white.html"])
    assert "Conenot known" in page, "a name and its value stand in a list of their own"
    assert "can melt" not in page


def test_a_shelf_that_fired_cool_is_said_with_its_cone() -> None:
    fired = entry("cone: 6", "date: 2026-10-14", "rate: 60 C/h", "witness:", "  upper: 6", "  lower: 4 1/2")
    pages = pages_of({FIRING: fired})
    text = text_of(pages["firings/f01.html"])
    assert "Fired cool: lower shelf." in text
    assert "Fired cool: 1 1/2 cones cooler than meant" in text
    assert "Fired cool: lower shelf." in text_of(pages["firings.html"])


def test_a_firing_that_was_hot_on_every_shelf_is_not_a_list_of_shelves() -> None:
    fired = entry("cone: 6", "date: 2026-10-14", "witness:", "  upper: 7", "  middle: 7", "  lower: 7")
    assert "Fired hot on every shelf." in text_of(pages_of({FIRING: fired})["firings.html"])


def test_a_cones_temperature_never_stands_without_its_rate() -> None:
    """Orton's published table for self-supporting cones: cone 6 at 60 °C an hour, 1222 °C."""
    with_rate = text_of(pages_of({FIRING: entry("cone: 6", "date: 2026-10-14", "rate: 60 C/h")})["firings/f01.html"])
    assert "Cone 6 bends at 1222 °C when the last 100 °C take 60 °C an hour" in with_rate
    without = text_of(pages_of({FIRING: entry("cone: 6", "date: 2026-10-14")})["firings/f01.html"])
    assert "no temperature stands beside the cone" in without
    assert "1222" not in without


def test_a_firings_tiles_stand_worst_first() -> None:
    rows = log(
        f"B1,{_AT},middle,upright,no,none",
        f"B2,{_AT},middle,upright,off the tile,none",
        f"B3,{_AT},middle,upright,3 mm,none",
        f"B4,{_AT},middle,upright,no,pinholes",
    )
    text = text_of(pages_of({LOG: rows})["firings/f01.html"])
    places = [text.index(f"{tile} logs/autumn.csv") for tile in ("B2", "B4", "B3", "B1")]
    assert all(one < next_ for one, next_ in pairwise(places))


def test_a_form_says_what_its_lip_and_foot_ask_in_both_units() -> None:
    text = text_of(pages_of()["forms.html"])
    assert "The top 20 mm (13/16 in) of the outside touches the mouth: only what may touch food goes there." in text
    assert "Leave at least 6 mm (1/4 in) of bare clay above the kiln shelf, measured straight up." in text


def test_a_form_that_nobody_called_dry_is_read_as_holding_food() -> None:
    form = {"forms/mug.md": entry("name: Mug", "height: 95 mm")}
    assert "not known: read as yes" in text_of(pages_of(form)["forms.html"])


def test_a_free_page_leads_to_the_pages_it_names_and_stands_on_the_first_page() -> None:
    body = "See [the pair](../combinations/pond-lantern-over-ferry-rust.md).\n\n# Twice\n"
    pages = pages_of({"pages/start.md": entry("title: Where to start", body=body)})
    assert links(pages["pages/start.html"]) == ["../combinations/pond-lantern-over-ferry-rust.html"]
    assert pages["pages/start.html"].count("<h1") == 1
    assert "pages/start.html" in links(pages["index.html"])


def test_hostile_words_are_shown_and_do_nothing_on_any_page() -> None:
    evil = "<img src=x onerror=alert(1)><script>alert(1)</script>"
    body = f"{evil}\n\n<a onclick='alert(1)' style='position:fixed'>x</a>\n"
    changed = {
        "pages/start.md": entry("title: 'Start <script>alert(1)</script>'", body=body),
        CLAY: entry("name: Quarry White", "cone: 5 to 7", f"looks: '{evil}'", body=body),
        "forms/mug.md": entry("name: 'Mug <b onclick=x>'", "height: 95 mm", "holds food: yes", body=body),
        FIRING: entry("cone: 6", "date: 2026-10-14", f"kiln: '{evil}'", body=body),
        LOG: log(f'B1,{_AT},middle,upright,2 mm,none,"{evil}"'),
    }
    pages = pages_of(changed)
    assert evil in text_of(pages["clays/quarry-white.html"])
    for path, page in pages.items():
        root = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
        named = {str(element.tag) for element in root.iter()}
        attributes = {str(name) for element in root.iter() for name in element.attrib}
        scripts = [element for element in root.iter() if element.tag == "script"]
        assert all(not element.text and "script/" in str(element.get("src")) for element in scripts), path
        assert "alert" not in named, path
        assert [name for name in attributes if name.startswith("on") or name == "style"] == [], path


def test_every_page_marks_where_the_reader_is_and_that_it_replaces_what_came_before() -> None:
    for path, page in pages_of().items():
        assert page.count('aria-current="') <= 1, path
        assert "Replaces earlier editions" in page, path
        assert "All cautions" in page, path
    assert pages_of()["grid.html"].count('aria-current="page"') == 1


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance of an sRGB colour."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, contrast ratio."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_ratio_is_the_one_of_the_standard() -> None:
    """WCAG 2.2, 1.4.3: #777777 on white fails 4.5 by a hair; black on white is 21."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert 4.4 < contrast("#777777", "#ffffff") < 4.5


@pytest.mark.parametrize("theme", ["daylight", "lamplight"])
def test_text_and_controls_of_a_theme_stand_out_enough(theme: str) -> None:
    """WCAG 2.2, 1.4.3 (text 4.5) and 1.4.11 (controls 3)."""
    text = (_THEMES / theme / "style" / "tokens.css").read_text(encoding="utf-8")
    tokens = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", text))
    for ground in ("paper", "card", "sunk"):
        for ink in ("ink", "soft", "accent"):
            assert contrast(tokens[ink], tokens[ground]) >= 4.5, (ink, ground)
        assert contrast(tokens["rule"], tokens[ground]) >= 3, ground
    assert contrast(tokens["on-accent"], tokens["accent"]) >= 4.5
    assert contrast(tokens["on-plate"], tokens["plate"]) >= 4.5


def test_a_label_that_allows_more_than_the_tiles_do_is_not_left_to_stand_alone() -> None:
    pitted = {"logs/autumn.csv": log("B1,FR,2,,,Quarry White,f01,middle,upright,no,pinholes")}
    said = "Its label allows food, this book does not: Keep off food. The stricter of the two counts."
    assert said in text_of(pages_of(pitted)["glazes/ferry-rust.html"])
    assert said not in text_of(pages_of()["glazes/ferry-rust.html"])


def test_on_a_phone_each_cell_of_a_tiles_row_carries_its_head() -> None:
    page = pages_of()["firings/f01.html"]
    assert 'data-head="Ran"' in page and 'data-head="Faults"' in page
