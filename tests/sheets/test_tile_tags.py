"""Tile tags: read back by Poppler, their codes by zbar, their scale measured on the picture of the page."""

from __future__ import annotations

import subprocess
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from io import BytesIO

import pytest
from PIL import Image
from pyzbar import pyzbar  # type: ignore[import-untyped]

from combobook.measures import Sides
from combobook.problems import Severity
from combobook.render.sheets.tag_layout import tag_sheet
from combobook.render.sheets.tile_tags import PATH, tile_tags
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import MM, every_word_on_its_page_and_on_no_other, made, read, same_twice, sound

DPI = 200
LETTER_LABELS = {
    "tag_size": Sides(Fraction("66.7"), Fraction("25.4")),
    "tag_margins": Sides(Fraction("4.8"), Fraction("12.7")),
    "tag_gaps": Sides(Fraction("3.2"), Fraction(0)),
}
"""Thirty on a letter sheet, as a ruler finds them (common practice, no source)."""


def picture(pdf: bytes, page: int) -> Image.Image:
    png = subprocess.run(
        ["pdftoppm", "-r", str(DPI), "-f", str(page), "-l", str(page), "-png", "-"],
        input=pdf, capture_output=True, check=True,
    ).stdout  # fmt: skip
    return Image.open(BytesIO(png)).convert("L")


def codes(pdf: bytes, page: int) -> list[list[str]]:
    """What zbar reads on each tag of a page of the demo's own paper, cut out where the sheet says that it lies."""
    whole, laid, per_mm = picture(pdf, page), tag_sheet(demo_edition().book.studio), DPI / 25.4
    assert laid is not None
    found = []
    for place in range(laid.holds):
        left, top = (float(length) * per_mm for length in laid.corner(place))
        tag = whole.crop((int(left), int(top), int(left + 66.7 * per_mm), int(top + 25.4 * per_mm)))
        found.append([code.data.decode() for code in pyzbar.decode(tag)])
    return found


def marks(pdf: bytes) -> list[str]:
    """The large words of all sheets but the first, row by row."""
    large = [[w for w in page.words if w.y1 - w.y0 > 8 * MM] for page in read(pdf)[1:]]
    return [word.text for page in large for word in sorted(page, key=lambda word: (round(word.y0), word.x0))]


def waiting_then_planned() -> Sequence[str]:
    edition = demo_edition()
    assert edition.plan is not None
    waiting = sorted({tile.tile.value for tile in edition.book.tiles if not tile.fired})
    assert len(waiting) == 10
    return (*waiting, *(tile.mark for tile in edition.plan.tiles))


def test_waiting_tiles_come_first_then_the_plan_then_the_next_marks_until_the_sheet_is_full() -> None:
    pdf = made(tile_tags)[PATH]
    pages, found, known = sound(pdf, furniture=False), marks(pdf), waiting_then_planned()
    assert len(pages) == 5 and len(found) == 120
    assert found[: len(known)] == list(known)
    assert found[len(known) :][:3] == ["L189", "L190", "L191"]
    assert len(set(found)) == 120
    assert all(f"sheet {n} of 5" in page.text for n, page in enumerate(pages, 1))


def test_each_code_says_the_mark_beside_it_and_nothing_else() -> None:
    pdf = made(tile_tags)[PATH]
    assert codes(pdf, 2) == [[mark] for mark in marks(pdf)[:30]]
    assert codes(pdf, 5) == [[mark] for mark in marks(pdf)[90:]]


def test_a_tag_says_the_order_and_coats_or_has_blanks_for_them() -> None:
    edition = demo_edition()
    assert edition.plan is not None
    first = edition.plan.tiles[0]
    base, top = first.candidate.base.mark.value, first.candidate.top.mark.value
    pages = read(made(tile_tags)[PATH])
    assert f"{first.mark} " in pages[1].text and f"{base}, then {top}" in pages[1].text
    assert pages[1].text.count("coats, then 1") == 29, "one of the thirty is of one glaze alone"
    assert "PG alone" in pages[1].text
    assert pages[4].text.count("first: then:") + pages[4].text.count("first:") >= 26


def test_the_scale_measures_60_mm_and_the_next_tag_stands_where_the_next_label_is() -> None:
    files, problems = tile_tags(demo_with(**LETTER_LABELS))
    assert problems == ()
    page = picture(files[PATH], 2)
    high = int((12.7 + 17.7 + 0.7) / 25.4 * DPI)
    dark = [x for x in range(page.width) if page.getpixel((x, high)) < 128]  # type: ignore[operator]
    starts = [x for n, x in enumerate(dark) if n == 0 or x > dark[n - 1] + 1]
    assert len(starts) == 3 * 61
    per_mm = DPI / 25.4
    assert [round(starts[n * 61] / per_mm, 0) for n in range(3)] == [round(4.8 + 3.35 + n * 69.9, 0) for n in range(3)]
    assert (starts[60] - starts[0]) / per_mm == pytest.approx(60, abs=0.2)


def test_labels_have_the_strip_of_words_only_where_they_leave_room_for_it() -> None:
    edge_to_edge, problems = tile_tags(demo_with(paper=PAPERS["A4"], tag_size=Sides(Fraction(70), Fraction("37"))))
    assert problems == ()
    pages = read(edge_to_edge[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert "sheet 1 of 5" in pages[0].text and "Replaces" not in pages[1].text
    assert len(marks(edge_to_edge[PATH])) == 96


@pytest.mark.parametrize(("name", "a_sheet"), [("letter", 30), ("A4", 33)])
def test_as_many_as_plain_paper_holds(name: str, a_sheet: int) -> None:
    files, problems = tile_tags(demo_with(paper=PAPERS[name]))
    assert problems == ()
    assert len(marks(files[PATH])) % a_sheet == 0


def test_without_a_plan_the_class_gets_the_next_marks() -> None:
    files, problems = tile_tags(replace(demo_with(), plan=None))
    assert problems == ()
    found = marks(files[PATH])
    assert found[10:13] == ["L105", "L106", "L107"]
    assert len(found) == 120, "10 that wait, 28 × 3, and the rest of the sheet"


def test_labels_that_do_not_fit_the_paper_are_a_problem_at_the_paper() -> None:
    files, problems = tile_tags(demo_with(tag_size=Sides(Fraction(300), Fraction(300))))
    assert files == {}
    assert [(p.severity, p.code) for p in problems] == [(Severity.WARNING, "paper-too-small")]
    assert "`tile-tags.pdf` is not made" in problems[0].message


def test_equal_editions_give_equal_tags() -> None:
    same_twice(tile_tags)
