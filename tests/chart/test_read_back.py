"""The demo's wall chart as other readers see it: Poppler and pdfminer.six."""

from __future__ import annotations

import csv
import re
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from io import BytesIO
from math import pi, tan
from pathlib import Path

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTPage, LTTextLine

from combobook.entries import Written
from combobook.measures import Paper
from combobook.render.chart import wall_chart
from combobook.render.letters import capital_height
from tests.published_demo import demo_edition, demo_files

CAPITAL = 0.668
"""Cap height of Atkinson Hyperlegible in ems, read from its OS/2 table (sCapHeight 668 of 1000)."""
MM = 72 / 25.4
PUBLISHED = Path(__file__).parents[1] / "published"


@cache
def pdf() -> bytes:
    return demo_files()["print/wall-chart.pdf"]


@cache
def sheets() -> tuple[LTPage, ...]:
    return tuple(extract_pages(BytesIO(pdf())))


def poppler(tool: str, *words: str, data: bytes | None = None) -> str:
    return subprocess.run([tool, *words], input=data or pdf(), capture_output=True, check=True).stdout.decode()


def lines(page: LTPage) -> Iterator[tuple[str, float]]:
    """Each line of a sheet with its smallest capital height in mm."""
    stack = list(page)
    while stack:
        item = stack.pop()
        if isinstance(item, LTTextLine):
            letters = [c for c in item if isinstance(c, LTChar) and c.get_text().strip()]
            if letters:
                yield " ".join(item.get_text().split()), min(c.size * CAPITAL for c in letters) / MM
        elif hasattr(item, "__iter__"):
            stack.extend(item)


def least(distance_mm: float, arcmin: float) -> float:
    """ISO 9241-3:1992, 5.4: height = 2·D·tan(angle/2)."""
    return 2 * distance_mm * tan(arcmin / 60 * pi / 360)


def test_the_formula_gives_the_published_heights() -> None:
    """ISO 9241-3:1992 as tabled in tests/published/legibility.csv."""
    rows = [
        r for r in csv.DictReader((PUBLISHED / "legibility.csv").read_text(encoding="utf-8").splitlines())
        if r["standard"] == "ISO 9241-3"
    ]  # fmt: skip
    assert len(rows) == 3
    for row in rows:
        assert round(capital_height(2000, float(row["arcmin"])), 2) == float(row["mm_at_2_m"])


def test_every_sheet_is_24_by_36_inches_and_says_which_of_how_many_it_is() -> None:
    info = poppler("pdfinfo", "-")
    pages = int(re.search(r"Pages:\s+(\d+)", info)[1])  # type: ignore[index]
    assert "2592 x 1728 pts" in info
    assert "Tagged:          yes" in info
    for n in range(1, pages + 1):
        text = " ".join(poppler("pdftotext", "-f", str(n), "-l", str(n), "-", "-").split())
        for words in (f"sheet {n} of {pages}", "2026 Autumn", "20 November 2026", "Weir Street Clay Room",
                      "Replaces earlier editions", "Pictures are drawings", "the stricter wins", "Your own piece decides",
                      "Not known: keep off food until it is", "Kilns are the technician's"):  # fmt: skip
            assert words in text, (n, words)


def test_every_layering_on_the_chart_has_its_card_with_food_words_and_what_to_do() -> None:
    text = " ".join(poppler("pdftotext", "-layout", "-", "-").split())
    asked = [v for v in demo_edition().judged.layerings.values() if v.entry is not None and v.entry.on_chart]
    assert len(asked) >= 60
    assert len(re.findall(r"\bthen [A-Z]", text)) >= len(asked)
    assert len(re.findall(r"Leave \d+ mm|Top \d+ mm|Top third|Not on walls", text)) >= len(asked)
    for verdict in asked:
        assert f"then {verdict.top.name.value}" in text


def test_only_our_face_is_on_the_chart() -> None:
    names = [line.split()[0] for line in poppler("pdffonts", "-").splitlines()[2:]]
    assert names
    assert all("Atkinson" in name for name in names)


def test_names_food_words_instructions_and_their_key_are_legible_from_two_metres() -> None:
    large = re.compile(
        r"^(then |.* first$|Labels allow,|not lab tested|Not known:|keep off food|Keep off food|Lab report|Leave |Top |"
        r"Not on walls|Each label)"
    )
    seen = 0
    for page in sheets():
        for text, height in lines(page):
            if large.match(text) and not re.match(r"(Top|Leave)\S* \d+ coats", text):
                seen += 1
                assert height >= least(2000, 16) - 0.005 or "in" in text.split(), (text, height)
    assert seen > 250


def test_the_smallest_print_is_legible_from_arms_length() -> None:
    for page in sheets():
        for text, height in lines(page):
            assert height >= least(800, 16) - 0.005, (text, height)


def test_no_letter_leaves_its_sheet() -> None:
    for page in sheets():
        stack = list(page)
        while stack:
            item = stack.pop()
            if isinstance(item, LTChar):
                assert item.x0 >= 0 and item.x1 <= page.width and item.y0 >= 0 and item.y1 <= page.height
            elif hasattr(item, "__iter__"):
                stack.extend(item)


@pytest.mark.parametrize(
    ("name", "paper", "distance"),
    [("A1", (594, 841), 2000), ("A0", (841, 1189), 3000), ("tabloid", (279.4, 431.8), 1000), ("A3", (297, 420), 800)],
)
def test_any_paper_and_distance_keeps_to_the_least_height(name: str, paper: tuple[float, float], distance: int) -> None:
    """Sizes as in tests/published/paper_sizes.csv (ISO 216, ASME Y14.1)."""
    edition = demo_edition()
    studio = edition.book.studio
    there = studio.chart_paper
    sheet = Paper(name, Fraction(str(paper[0])), Fraction(str(paper[1])))
    changed = replace(
        studio,
        chart_paper=Written(value=sheet, place=there.place, field_line=1),
        read_from=Written(value=Fraction(distance), place=there.place, field_line=1),
    )
    files, problems = wall_chart(replace(edition, book=replace(edition.book, studio=changed)))
    assert problems == ()
    info = poppler("pdfinfo", "-", data=files["print/wall-chart.pdf"])
    wide, high = (float(x) for x in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", info).groups())  # type: ignore[union-attr]
    assert sorted((round(wide / MM, 1), round(high / MM, 1))) == sorted(paper)
    for page in extract_pages(BytesIO(files["print/wall-chart.pdf"]), maxpages=1):
        names = [height for text, height in lines(page) if text.startswith("then ")]
        assert names
        assert min(names) >= least(distance, 16) - 0.005


def test_the_same_edition_gives_the_same_bytes() -> None:
    assert wall_chart(demo_edition())[0]["print/wall-chart.pdf"] == pdf()
