"""Base sheets: what goes over one first glaze, with pictures and to hang, read back by Poppler and pdfminer.six."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pdfminer.high_level import extract_pages

from combobook.edition import Edition
from combobook.render.chart.content import on_chart
from combobook.render.sheets.base_sheets import HANG_PATH, PATH, base_sheets
from combobook.render.sheets.shelf import pairs_on_the_shelf
from tests.chart.editions import edition as small_edition
from tests.chart.editions import ring
from tests.chart.test_read_back import least, lines
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import every_word_on_its_page_and_on_no_other, made, read, sound

LARGE = re.compile(
    r"^(then |.* first$|Labels allow,|not lab tested|Not known:|keep off food|Keep off food$|Leave \d|Top \d|Top third|"
    r"Not on walls$|Each label)"
)


def few(edition: Edition, *bases: str) -> Edition:
    """The edition with the layerings on these first glazes only, so that its sheets are quickly made."""
    kept = {pair: verdict for pair, verdict in edition.judged.layerings.items() if verdict.base.mark.value in bases}
    return replace(edition, judged=replace(edition.judged, layerings=kept))


def test_each_first_glaze_on_the_shelf_has_its_sheets_with_every_top_that_is_on_the_chart() -> None:
    asked = [v for v in pairs_on_the_shelf(demo_edition()) if on_chart(v)]
    pages = sound(made(base_sheets)[PATH])
    for verdict in asked:
        holding = [p.text for p in pages if f"{verdict.base.name.value} first" in p.text]
        assert any(f"then {verdict.top.name.value}" in text for text in holding), verdict.id
    assert sum(len(re.findall(r"\bthen [A-Z]", page.text)) for page in pages) == len(asked)
    assert max(len(re.findall(r"\bthen [A-Z]", page.text)) for page in pages) == 6


def test_glazes_that_are_out_or_retired_are_on_no_sheet() -> None:
    text = " ".join(page.text for page in read(made(base_sheets)[PATH]))
    assert not any(name in text for name in ("Brick Swallow", "Moss Cellar", "Cinder Lark", "Fennel Stair"))


@pytest.mark.parametrize("path", [PATH, HANG_PATH])
def test_names_food_words_instructions_and_the_key_to_food_are_legible_from_a_metre_and_a_quarter(path: str) -> None:
    files, problems = base_sheets(few(demo_edition(), "SP"))
    assert problems == ()
    seen = 0
    for page in extract_pages(BytesIO(files[path])):
        for text, height in lines(page):
            if LARGE.match(text):
                seen += 1
                assert height >= least(1250, 16) - 0.005 or re.search(r"\d in$", text), (text, height)
            assert height >= least(400, 16) - 0.005, (text, height)
    assert seen > 40


@pytest.mark.parametrize(("name", "places"), [("letter", 3), ("A4", 3), ("tabloid", 6)])
def test_a_sheet_to_hang_has_as_many_places_for_real_tiles_as_the_paper_holds(name: str, places: int) -> None:
    files, problems = base_sheets(few(demo_with(paper=PAPERS[name]), "SP"))
    assert problems == ()
    pages = sound(files[HANG_PATH])
    every_word_on_its_page_and_on_no_other(read(files[PATH]))
    asked = [v for v in pairs_on_the_shelf(demo_edition()) if on_chart(v) and v.base.mark.value == "SP"]
    counts = [page.text.count("hang the tile here") for page in pages]
    assert counts == [min(places, len(asked) - start) for start in range(0, len(asked), places)]
    sizes = re.findall(r"up to 50 mm \(1 15/16 in\) × (\d+) mm", " ".join(page.text for page in pages))
    assert len(sizes) == len(asked)
    assert all(70 <= int(size) <= 84 for size in sizes)
    assert files[HANG_PATH].count(b"/Subtype /Image") == 0


def test_instructions_of_places_side_by_side_stand_at_one_height() -> None:
    rows = 0
    for page in read(made(base_sheets)[HANG_PATH]):
        tall = [word for word in page.words if word.text in ("Leave", "Top") and word.y1 - word.y0 > 24]
        rows += len(tall) > 1
        assert max((word.y1 for word in tall), default=0) - min((word.y1 for word in tall), default=0) < 0.5
    assert rows > 10


def test_seven_tops_take_two_sheets_and_neither_holds_one_alone() -> None:
    files, problems = base_sheets(small_edition(ring(1, 7)))
    assert problems == ()
    pages = read(files[PATH])
    counts = [len(re.findall(r"\bthen [A-Z]", page.text)) for page in pages]
    assert (len(counts), sum(counts), min(counts) > 1) == (2, 7, True)
    assert ["A0 · 1 of 2" in pages[0].text, "A0 · 2 of 2" in pages[1].text] == [True, True]


def test_without_a_picture_the_place_says_so_and_without_a_layering_the_sheet() -> None:
    files, _ = base_sheets(small_edition(ring(1, 2), photo=False))
    assert read(files[PATH])[0].text.split().count("yet") == 2
    files, problems = base_sheets(small_edition(()))
    assert problems == ()
    assert "No layering is on the chart yet." in sound_text(files[PATH])


def sound_text(pdf: bytes) -> str:
    pages = read(pdf)
    every_word_on_its_page_and_on_no_other(pages)
    return " ".join(page.text for page in pages)


def test_equal_editions_give_equal_sheets() -> None:
    assert base_sheets(small_edition(ring(2, 3)))[0] == base_sheets(small_edition(ring(2, 3)))[0]
