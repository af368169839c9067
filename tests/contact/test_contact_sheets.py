"""Contact sheets: which tiles, in which order, at one scale, on any paper; read back with Poppler."""

from __future__ import annotations

import re
import subprocess
import tempfile
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from combobook.edition import Edition
from combobook.measures import Paper
from combobook.render.contact import contact_sheets
from combobook.render.contact.content import all_tiles, contact_groups
from combobook.render.contact.layout import Blocks, laid_out, measures
from combobook.render.sheets.frame import frame
from tests.contact.editions import AMBER, TEAL, edition, shows
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import SheetPage, sound

SHEET = "print/contact-sheets.pdf"
ROWS = (
    "B9,FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none,,b9.jpg",
    "B10,FR,2,PL,1,Coal,f01,middle,upright,2 mm,none,,b10.jpg",
    "B2,FR,3,,,Coal,f01,upper,upright,no,none",
    "B2,FR,2,,,Coal,f01,upper,upright,no,none",
    "B4,PL,2,FR,1,,f01,,upright,no,none",
    "B5,PL,2,,,Coal",
)


@cache
def small_demo() -> Edition:
    """The demo with the tiles of two of its firings only, so that its sheets are few."""
    whole = demo_edition()
    few = tuple(t for t in whole.book.tiles if t.firing is not None and t.firing.id in ("f03", "low-1"))
    return replace(whole, book=replace(whole.book, tiles=few))


@cache
def small_sheets() -> Mapping[str, bytes]:
    files, problems = contact_sheets(small_demo())
    assert list(problems) == []
    return files


@cache
def small_pages() -> tuple[SheetPage, ...]:
    return sound(small_sheets()[SHEET])


def marks(rows: tuple[str, ...] = ROWS) -> dict[str, list[tuple[str, list[str]]]]:
    """Of each group its parts, and of each part its tiles as `B2: 3 coats Ferry Rust`."""
    made = edition(rows, {"b9.jpg": shows(TEAL), "b10.jpg": shows(AMBER)})
    return {
        group.title: [(part.title, [f"{tile.mark}: {tile.coats}" for tile in part.tiles]) for part in group.parts]
        for group in contact_groups(made)
    }


def test_a_firing_shows_its_tiles_shelf_by_shelf_and_marks_in_order() -> None:
    assert marks()["Tiles of firing f01"] == [
        ("The upper shelf", ["B2: 2 coats Ferry Rust", "B2: 3 coats Ferry Rust"]),
        ("The middle shelf", ["B9: 2 coats Ferry Rust, then 1 Pond Lantern", "B10: 2 coats Ferry Rust, then 1 Pond Lantern"]),
        ("Kiln shelf not written down", ["B4: 2 coats Pond Lantern, then 1 Ferry Rust"]),
    ]  # fmt: skip


def test_a_glaze_shows_itself_alone_then_under_others_then_over_them() -> None:
    found = marks()
    assert [title for title, _ in found["Tiles with Ferry Rust"]] == [
        "Ferry Rust alone", "Ferry Rust first, then another", "Ferry Rust over another"
    ]  # fmt: skip
    assert found["Tiles with Pond Lantern"] == [
        ("Pond Lantern first, then another", ["B4: 2 coats Pond Lantern, then 1 Ferry Rust"]),
        ("Pond Lantern over another",
         ["B10: 2 coats Ferry Rust, then 1 Pond Lantern", "B9: 2 coats Ferry Rust, then 1 Pond Lantern"]),
    ]  # fmt: skip


def test_a_tile_that_is_not_fired_yet_is_on_no_sheet() -> None:
    assert not [line for parts in marks().values() for _, tiles in parts for line in tiles if line.startswith("B5")]


def test_without_a_fired_tile_there_are_no_sheets() -> None:
    assert contact_sheets(edition(("B5,PL,2,,,Coal",), {})) == ({}, ())


def test_every_fired_tile_of_the_demo_is_on_its_firings_sheet_and_on_each_of_its_glazes() -> None:
    shown = Counter((tile.mark, tile.coats) for tile in all_tiles(contact_groups(demo_edition())))
    words = demo_edition().words
    for tile in demo_edition().book.tiles:
        if tile.fired:
            first = words.counted("coats", tile.base_coats.value)
            told = next(c for m, c in shown if m == tile.tile.value and c.startswith(first))
            assert shown[tile.tile.value, told] == 1 + len(tile.layers), tile.tile.value


def test_a_photograph_says_how_its_colours_were_measured_and_a_drawing_that_it_is_one() -> None:
    made = edition(
        ("B1,FR,2,,,Coal,f01,,upright,no,none,,b1.jpg", "B2,FR,2,,,Coal,f01,,upright,no,none,,b2.jpg",
         "B3,FR,2,,,Coal,f01,,upright,no,none,,drawing-b3.jpg", "B4,FR,2,,,Coal,f01,,upright,no,none,,drawing-b4.jpg"),
        {"b1.jpg": shows(TEAL, AMBER), "b2.jpg": shows(TEAL, balanced=True), "drawing-b3.jpg": shows(AMBER),
         "drawing-b4.jpg": None},
    )  # fmt: skip
    firing = contact_groups(made)[0]
    assert [tile.shown for tile in firing.parts[0].tiles] == [
        "As photographed: dark blue-green, breaks amber", "Balanced by its tag: dark blue-green", "Drawing: amber",
        "Drawing.",
    ]  # fmt: skip


@pytest.mark.parametrize("paper", [*PAPERS.values(), Paper("5 x 8 in", Fraction(127), Fraction("203.2"))])
def test_on_any_paper_nothing_is_lost_split_or_higher_than_the_page(paper: Paper) -> None:
    made = demo_with(paper=paper)
    furnished = frame(made, made.words("contact.title"), paper, key=())
    by = measures(furnished.width, furnished.height, furnished.sizes)
    assert by is not None
    groups = contact_groups(made)
    pages = laid_out(groups, by)
    for page in pages:
        assert height(page, by.head, by.part) <= by.room + 1e-6
        assert all(stretch.rows for block in page for stretch in block.stretches)
    for group in groups:
        laid = [each.tile for page in pages for block in page if block.group is group
                for stretch in block.stretches for row in stretch.rows for each in row.tiles]  # fmt: skip
        assert laid == list(all_tiles((group,)))
        begun = [block.goes_on for page in pages for block in page if block.group is group]
        assert begun == [n > 0 for n in range(len(begun))]
    alone = [page for page in pages if any(block.group.kind == "firing" for block in page)]
    assert all(len(page) == 1 for page in alone), "a firing's sheet hangs alone"


def height(page: Blocks, head: float, part: float) -> float:
    return sum(
        head + sum(part + sum(row.height for row in stretch.rows) for stretch in block.stretches) for block in page
    )


def test_on_paper_too_small_for_one_tile_a_warning_says_so() -> None:
    files, (problem,) = contact_sheets(demo_with(small_demo(), paper=Paper("90 x 90 mm", Fraction(90), Fraction(90))))
    assert files == {}
    assert "contact-sheets.pdf" in problem.message


def test_the_sheets_read_back_with_every_tile_its_clay_and_its_firing() -> None:
    said = " ".join(page.text for page in small_pages())
    for tile in all_tiles(contact_groups(small_demo())):
        for words in (tile.mark, tile.clay, tile.fired, tile.shown):
            assert words in said, (tile.mark, words)
    assert "Pictures are drawings" in small_pages()[0].text
    assert "Drawings at half size." in small_pages()[0].text


def test_the_sheets_come_out_the_same_twice() -> None:
    assert contact_sheets(small_demo())[0] == small_sheets()


def test_all_drawings_are_printed_at_one_scale_half_as_large_as_they_are() -> None:
    """Poppler's `pdfimages -list`: a canvas of 96 mm is 480 pixels high, so 48 mm of paper are 254 pixels an inch."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sheet.pdf"
        file.write_bytes(small_sheets()[SHEET])
        told = subprocess.run(["pdfimages", "-list", file], capture_output=True, check=True, text=True).stdout
    rows = [line.split() for line in told.splitlines()[2:]]
    images = [row for row in rows if row[2] == "image"]
    assert len(images) == sum(tile.picture is not None for tile in all_tiles(contact_groups(small_demo())))
    assert {(row[3], row[4]) for row in images} == {("360", "480")}
    assert all(abs(int(ppi) - 254) <= 1 for row in images for ppi in row[12:14])


def test_a_sheet_on_screen_shows_each_tile_with_its_words_and_a_short_alternative() -> None:
    from combobook.render.site import site

    made = edition(ROWS, {"b9.jpg": shows(TEAL), "b10.jpg": shows(AMBER)})
    files, problems = site(made)
    assert problems == ()
    page = files["site/contact/firing-f01.html"].decode()
    assert re.findall(r'role="img" aria-label="([^"]*)"', page) == ["Photograph of tile B9", "Photograph of tile B10"]
    assert page.count("No picture yet") == 3
    for path in ("site/contact.html", "site/layerings.html"):
        assert b"contact" in files[path]
    assert b'href="contact/glaze-pond-lantern.html"' in files["site/contact.html"]
