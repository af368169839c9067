"""The wall chart in grey and in pieces, read back with Poppler, Pillow and pypdf."""

from __future__ import annotations

import re
import subprocess
from functools import cache
from io import BytesIO
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops
from pypdf import PdfReader

from combobook.measures import Paper
from combobook.render.chart import wall_chart
from combobook.render.chart.grey import in_grey
from combobook.render.chart.papers import NAMED_PAPERS
from combobook.render.chart.pieces import LABEL, MARGIN, OVERLAP, cut, letters
from combobook.render.drawn import Drawn, drawn
from combobook.render.sheets.poster import poster_cut
from combobook.render.sheets.wall_charts import wall_charts
from tests.chart.editions import edition, ring
from tests.sheets.reading import MM, read, sound, tagged_for_listeners

SMALL = [paper for paper in NAMED_PAPERS if paper.name in ("letter", "A4", "legal", "tabloid", "A3")]
SIZES = st.floats(150, 1300)


@cache
def made() -> dict[str, bytes]:
    """Two chart sheets of twelve cards, whole, in grey, and on letter."""
    files, problems = wall_charts(edition(ring(4, 3), "chart paper: 18 x 24 in"))
    assert problems == ()
    return dict(files)


def picture(pdf: bytes, page: int, dots: int) -> Image.Image:
    """A page as Poppler draws it."""
    command = ["pdftoppm", "-r", str(dots), "-f", str(page), "-l", str(page), "-png", "-"]
    drawn = subprocess.run(command, input=pdf, capture_output=True, check=True).stdout
    return Image.open(BytesIO(drawn)).convert("RGB")


def test_the_chart_comes_in_three_forms() -> None:
    assert sorted(made()) == ["print/wall-chart-cut.pdf", "print/wall-chart-grey.pdf", "print/wall-chart.pdf"]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(width=SIZES, height=SIZES, paper=st.sampled_from(SMALL))
def test_pieces_cover_the_chart_and_neighbours_share_a_strip(width: float, height: float, paper: Paper) -> None:
    done = cut(width, height, paper)
    at = {(p.column, p.row): p for p in done.pieces}
    assert sorted(at) == [(c, r) for c in range(done.across) for r in range(done.down)]
    last = at[done.across - 1, done.down - 1]
    assert last.left + last.width == pytest.approx(width)
    assert last.top + last.height == pytest.approx(height)
    for (column, row), piece in at.items():
        assert piece.width <= done.paper_width - 2 * MARGIN + 1e-6
        assert piece.height <= done.paper_height - 2 * MARGIN - LABEL + 1e-6
        if right := at.get((column + 1, row)):
            assert piece.left + piece.width - right.left == pytest.approx(OVERLAP)
        if below := at.get((column, row + 1)):
            assert piece.top + piece.height - below.top == pytest.approx(OVERLAP)


def test_a_chart_no_larger_than_the_paper_shows_is_one_piece() -> None:
    done = cut(180, 200, next(p for p in SMALL if p.name == "A4"))
    assert [p.name for p in done.pieces] == ["A1"]


@pytest.mark.parametrize(("column", "name"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA")])
def test_columns_are_lettered(column: int, name: str) -> None:
    assert letters(column) == name


def test_the_smallest_paper_there_is_can_be_cut_over_too() -> None:
    files, problems = wall_charts(edition(ring(2, 2), "chart paper: tabloid", "read from: 0.8 m", "paper: 100 x 150 mm"))
    assert problems == ()
    pages = read(files["print/wall-chart-cut.pdf"])
    assert all({round(page.width / MM), round(page.height / MM)} == {100, 150} for page in pages)
    assert sum("piece" in page.text for page in pages[1:]) >= 12


def test_every_piece_says_which_it_is_and_the_plan_names_them_all() -> None:
    pages = read(made()["print/wall-chart-cut.pdf"])
    plan = pages[0].text
    names = [re.search(r"Chart sheet (\d) of (\d), piece ([A-Z]\d)", page.text) for page in pages[1:]]
    assert all(names)
    told = [(int(m[1]), m[3]) for m in names if m]
    assert len(set(told)) == len(told) == len(pages) - 1
    for n, (_, name) in enumerate(told, 2):
        assert f"{name} sheet {n}" in plan
        assert f"sheet {n} of {len(pages)}" in pages[n - 1].text
    for words in ("100 %", "4 in", "the stricter wins", "Replaces earlier editions"):
        assert words in plan


def test_the_pieces_laid_together_are_the_chart() -> None:
    """Poppler draws both; each piece is compared with its part of the chart, a hair's shift of edges allowed."""
    whole, pieces = made()["print/wall-chart.pdf"], made()["print/wall-chart-cut.pdf"]
    box = PdfReader(BytesIO(whole)).pages[0].mediabox
    done = cut(float(box.width) / MM, float(box.height) / MM, next(p for p in SMALL if p.name == "letter"))
    dots, scale = 25.4 * 2, 2  # Two pixels a mm.
    charts = [picture(whole, n + 1, round(dots)) for n in range(len(PdfReader(BytesIO(whole)).pages))]
    for n in (0, 1, len(done.pieces) - 1, len(done.pieces) * len(charts) - 1):
        sheet, number = divmod(n, len(done.pieces))
        piece = done.pieces[number]
        page = picture(pieces, n + 2, round(dots))
        left, top = piece.left * scale * 51 / 50.8, piece.top * scale * 51 / 50.8
        wide, high = int(piece.width * scale) - 4, int(piece.height * scale) - 4
        due = charts[sheet].crop((int(left) + 2, int(top) + 2, int(left) + wide, int(top) + high))
        margin = MARGIN * scale * 51 / 50.8
        got = page.crop((int(margin) + 2, int(margin) + 2, int(margin) + wide, int(margin) + high))
        far = ImageChops.difference(due.reduce(6), got.reduce(6)).convert("L")
        histogram = far.histogram()
        assert sum(histogram[60:]) < 0.02 * sum(histogram), (n, sum(histogram[60:]))


def test_the_chart_is_in_the_cut_once_and_not_once_a_piece() -> None:
    whole, pieces = made()["print/wall-chart.pdf"], made()["print/wall-chart-cut.pdf"]
    forms = set()
    for page in PdfReader(BytesIO(pieces)).pages[1:]:
        drawn: Any = page["/Resources"]["/XObject"]  # type: ignore[index]
        forms |= {drawn.raw_get(name).idnum for name in drawn if name.startswith("/WallChart")}
    assert len(forms) == len(PdfReader(BytesIO(whole)).pages)


def test_the_cut_keeps_its_tags_and_each_piece_is_a_picture_with_words() -> None:
    pieces = made()["print/wall-chart-cut.pdf"]
    tagged_for_listeners(pieces, ("PAG-001",))
    told = subprocess.run(["pdfinfo", "-struct", "-"], input=pieces, capture_output=True, check=True).stdout.decode()
    assert told.count("Figure") == len(read(pieces))  # The ruler's, and one a piece.


def test_every_piece_has_a_bookmark_that_leads_to_its_own_page() -> None:
    reader = PdfReader(BytesIO(made()["print/wall-chart-cut.pdf"]))
    names = [re.search(r"Chart sheet \d of \d, piece [A-Z]\d", page.extract_text()) for page in reader.pages]
    marks: list[Any] = next(part for part in reversed(reader.outline) if isinstance(part, list))
    led = {str(mark["/Title"]): reader.get_destination_page_number(mark) for mark in marks}
    assert led == {name[0]: n for n, name in enumerate(names) if name}


def test_the_grey_form_has_every_word_of_the_chart_where_it_stood() -> None:
    assert [p.words for p in read(made()["print/wall-chart-grey.pdf"])] == [
        p.words for p in read(made()["print/wall-chart.pdf"])
    ]


def test_the_grey_form_has_no_colour_at_all() -> None:
    coloured, grey = made()["print/wall-chart.pdf"], made()["print/wall-chart-grey.pdf"]
    for n in range(1, len(read(grey)) + 1):
        red, green, blue = picture(grey, n, 40).split()
        assert ImageChops.difference(red, green).getextrema() == (0, 0)
        assert ImageChops.difference(red, blue).getextrema() == (0, 0)
    red, green, _ = picture(coloured, 1, 40).split()
    assert any(count for count in ImageChops.difference(red, green).histogram()[20:])
    tagged_for_listeners(grey)


def test_equal_charts_give_equal_bytes_in_every_form() -> None:
    again = edition(ring(4, 3), "chart paper: 18 x 24 in")
    pages: list[Drawn] = []
    chart = wall_chart(again, then=lambda pdf: pages.append(drawn(pdf)))[0]["print/wall-chart.pdf"]
    assert chart == made()["print/wall-chart.pdf"]
    assert in_grey(chart) == made()["print/wall-chart-grey.pdf"]
    assert poster_cut(again, pages[0])[0]["print/wall-chart-cut.pdf"] == made()["print/wall-chart-cut.pdf"]


def test_the_wall_chart_is_sound() -> None:
    sound_chart = made()["print/wall-chart.pdf"]
    pages = sound(sound_chart, furniture=False)
    assert all("sheet" in page.text for page in pages)
