"""The page of a layering and of a glaze, read as a reader would: by their words."""

from __future__ import annotations

import re

from tests.site.editions import pages_of, text_of

LAYERING = "combinations/pond-lantern-over-ferry-rust.html"
ENTRY = "combinations/pond-lantern-over-ferry-rust.md"
GLAZE = "glazes/pond-lantern.md"
_LABEL = """---
name: Pond Lantern
mark: PL
cone: 5 to 6
food label: {food}
data sheet: 2026-09-01
flow: moves
coats: 2 to 3
looks: {looks}
---
{body}
"""


OURS = re.compile(r'<script src="(?:\.\./)*script/\w+\.js"(?: defer)?></script>')
"""A script of the site's own, by its file."""


def pond_lantern(food: str = "yes", looks: str = "?", body: str = "") -> dict[str, str]:
    return {GLAZE: _LABEL.format(food=food, looks=looks, body=body)}


def test_each_page_has_one_main_heading_a_title_and_a_language() -> None:
    for path, page in pages_of().items():
        assert page.count("<h1") == 1, path
        assert re.search(r"<title>[^<]+ · Reed Lane Clay Room</title>", page), path
        assert '<html lang="en">' in page, path


def test_no_page_has_a_script_or_a_style_of_its_own() -> None:
    for path, page in pages_of().items():
        assert "<script" not in OURS.sub("", page) and "<style" not in page and ' style="' not in page, path
        assert "default-src 'self'" in page, path


def test_a_label_that_says_no_is_the_verdict_and_its_reason_names_the_line() -> None:
    said = text_of(pages_of(pond_lantern(food="no"))[LAYERING])
    assert "Keep off food" in said
    assert "The label of Pond Lantern says no food." in said
    assert "glazes/pond-lantern.md:5" in said


def test_a_label_that_says_nothing_is_not_known_and_keeps_off_food() -> None:
    assert "Not known: keep off food until it is" in text_of(pages_of(pond_lantern(food="not stated"))[LAYERING])


def test_the_reader_is_told_that_the_own_piece_decides() -> None:
    assert "Your own piece decides: look it over." in text_of(pages_of()[LAYERING])


def test_a_reverse_that_nobody_brushed_says_what_it_rests_on() -> None:
    said = text_of(pages_of()[LAYERING])
    assert "Ferry Rust over Pond Lantern" in said
    assert "Untested: this is what the labels alone give." in said


def test_each_tile_is_a_row_with_what_it_ran() -> None:
    said = text_of(pages_of()[LAYERING])
    assert "B1" in said and "logs/autumn.csv:2" in said and "2 mm (1/16 in)" in said


def test_a_layering_leads_to_both_its_glazes() -> None:
    page = pages_of()[LAYERING]
    assert 'href="../glazes/ferry-rust.html"' in page and 'href="../glazes/pond-lantern.html"' in page


def test_a_glaze_lists_what_goes_over_it_and_under_it() -> None:
    pages = pages_of()
    assert "then Pond Lantern" in text_of(pages["glazes/ferry-rust.html"])
    assert "Ferry Rust first" in text_of(pages["glazes/pond-lantern.html"])


def test_what_students_write_stays_words() -> None:
    hostile = "<img src=x onerror=alert(1)><script>alert(2)</script>"
    pages = pages_of(pond_lantern(looks="'<b onclick=alert(4)>red</b>'", body=hostile))
    for path, page in pages.items():
        assert "<script" not in OURS.sub("", page), path
        assert not re.search(r"<[^>]*\son\w+=", page), path
    assert "<b onclick=alert(4)>red</b>" in text_of(pages["glazes/pond-lantern.html"])


def test_no_page_says_safe_in_our_own_voice() -> None:
    for path, page in pages_of().items():
        assert not re.search(r"\b(safe|certified|approved|guaranteed|complies)\b", text_of(page), re.IGNORECASE), path
