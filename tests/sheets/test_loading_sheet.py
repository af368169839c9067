"""The loading sheet, read back by Poppler."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from io import BytesIO

import pytest
from pdfminer.high_level import extract_pages

from combobook.cones import Cone, read_cone
from combobook.edition import Edition
from combobook.judge import judge_every_pair
from combobook.measures import Paper
from combobook.render.sheets.loading_sheet import PATH, loading_sheet
from combobook.render.sheets.loading_sheet.asks import asks
from combobook.render.sheets.shelf import every_pair_on_the_shelf, on_the_shelf
from combobook.verdicts import ToDo
from tests.chart.editions import NAMES
from tests.chart.editions import edition as small_edition
from tests.chart.test_read_back import least, lines
from tests.published_demo import demo_edition
from tests.sheets.boxes import box
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import SheetPage, every_word_on_its_page_and_on_no_other, made, read, same_twice, sound

LOOK_UP = "Look it up"
HEADINGS = ("Never standing up", "Only on a catch plate", "No catch plate asked for", "One glaze alone", LOOK_UP)
LOW_FIRE, NOT_KNOWN = "CS", "OS"
"""Marks of the demo's glaze for another cone, and of the one whose cone nobody knows."""


def lists() -> list[SheetPage]:
    """The demo's sheets before the look-up."""
    return [page for page in read(made(loading_sheet)[PATH]) if LOOK_UP not in page.text]


def every_pair(edition: Edition) -> Edition:
    """With every pair judged, as a publish has it."""
    return replace(edition, pairs=judge_every_pair(edition.book)[0])


def squares(page: SheetPage, marks: Sequence[str]) -> dict[tuple[str, str], tuple[str, ...]]:
    """What stands in each square of a look-up without names, by the marks at its left and above it."""
    corner = [word for word in page.words if word.text == "first,"][-1]
    (end,) = (word.y0 for word in page.words if word.text == "Down:")
    left, under = corner.x0 + 26, corner.y1 + 9
    heads = {w.text: (w.x0 + w.x1) / 2 for w in page.words if w.text in marks and w.x0 > left and w.y0 < under}
    left_of = (w for w in page.words if w.x0 < corner.x0 + 5 and under < w.y0 < end and w.text != "then")
    rows = {w.text.rstrip("?"): (w.y0 + w.y1) / 2 for w in left_of}
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    inside = (w for w in page.words if w.x0 > left and under < w.y0 < end)
    for word in sorted(inside, key=lambda w: w.y0):
        row = min(rows, key=lambda mark: abs(rows[mark] - (word.y0 + word.y1) / 2))
        head = min(heads, key=lambda mark: abs(heads[mark] - (word.x0 + word.x1) / 2))
        found[row, head] = (*found.get((row, head), ()), word.text)
    return dict(sorted(found.items(), key=lambda each: (marks.index(each[0][0]), marks.index(each[0][1]))))


def test_the_worst_comes_first() -> None:
    text = " ".join(page.text for page in sound(made(loading_sheet)[PATH], guesses=("PAG-001",)))
    places = [text.index(heading) for heading in HEADINGS]
    assert places == sorted(places)
    plates = text[places[1] : places[2]]
    margins = [int(mm) for mm in re.findall(r"(\d+) mm \([\d/ ]+ in\) Less", plates)]
    assert len(margins) > 20
    assert margins == sorted(margins, reverse=True)


def test_every_pair_on_the_shelf_is_there_once_by_its_marks() -> None:
    listed = " ".join(box(page, 120, 0, 265, page.height) for page in lists())
    marks = listed[listed.index("Then") :]
    pairs = every_pair_on_the_shelf(demo_edition())
    assert len(pairs) == 20 * 19
    for mark in {verdict.top.mark.value for verdict in pairs} - {LOW_FIRE}:
        assert len(re.findall(rf"\b{mark}\b", marks)) == 18, mark


def test_its_title_names_the_cone_and_its_first_lines_the_clays_to_take_and_to_refuse() -> None:
    text = read(made(loading_sheet)[PATH])[0].text
    clays = (
        "Refuse any clay but Coalhouse (CH), Hod Speckle (HS) and Weir Buff (WB). "
        "Never Garden Pot Red (GR): it can melt at cone 6 and take the kiln shelf with it."
    )
    assert text.startswith("Loading sheet, cone 6")
    assert text.index(clays) < text.index("Not in a cone 6 firing")


def test_a_glaze_for_another_cone_is_refused_first_and_asks_for_no_margin() -> None:
    text = " ".join(page.text for page in lists())
    told = "CS Cherry Sluice Refuse it: alone, first or over another. Its label says cone 06 to 04."
    assert text.index("Not in a cone 6 firing") < text.index(told) < text.index(HEADINGS[0])
    assert len(re.findall(rf"\b{LOW_FIRE}\b", text)) == 1


def test_a_glaze_whose_cone_nobody_knows_waits_for_the_teacher_and_says_so_wherever_it_stands() -> None:
    text = " ".join(page.text for page in lists())
    assert "OS? Otter Slate Ask the teacher first: alone, first or over another" in text[: text.index(HEADINGS[0])]
    assert len(re.findall(r"\bOS\b(?!\?)", text)) == 0
    assert len(re.findall(r"\bOS\?", text)) > 19


def test_at_a_low_cone_everything_else_is_refused() -> None:
    low = read_cone("04")
    assert isinstance(low, Cone)
    files, problems = loading_sheet(demo_with(cone=low))
    assert problems == ()
    text = " ".join(page.text for page in read(files[PATH]))
    assert "Refuse any clay but Garden Pot Red (GR)." in text
    assert text.count("Refuse it: alone, first or over another") == 18
    assert [heading for heading in HEADINGS if heading in text] == [HEADINGS[1], *HEADINGS[3:]]


def test_where_no_clay_takes_the_cone_every_clay_is_refused_and_a_book_without_clays_says_nothing_of_them() -> None:
    hot = read_cone("10")
    assert isinstance(hot, Cone)
    assert "Refuse every clay: none in the book is for cone 10." in read(loading_sheet(demo_with(cone=hot))[0][PATH])[0].text
    assert "clay but" not in read(loading_sheet(small_edition((), names=NAMES[:2]))[0][PATH])[0].text


def test_the_look_up_has_every_pair_and_every_glaze_alone_on_one_sheet() -> None:
    (page,) = (page for page in read(made(loading_sheet)[PATH]) if LOOK_UP in page.text)
    edition = demo_edition()
    alone = {(v.glaze.mark.value, v.glaze.mark.value): v for v in on_the_shelf(edition)}
    pairs = {(v.base.mark.value, v.top.mark.value): v for v in every_pair_on_the_shelf(edition)}
    found = squares(page, [mark for mark, _ in alone])
    assert set(found) == {**alone, **pairs}.keys()
    for (first, top), verdict in {**alone, **pairs}.items():
        asked = asks(verdict)
        letters = "P" * asked.plate + "T" * asked.third + "B" * (asked.reach_mm is not None)
        said = (str(asked.margin_mm) if asked.margin_mm else "flat", *((letters,) if letters else ()))
        assert found[first, top] == (("no",) if LOW_FIRE in (first, top) else said), (first, top)


def test_the_look_up_is_legible_at_the_length_of_an_arm() -> None:
    (number,) = (n for n, page in enumerate(read(made(loading_sheet)[PATH])) if LOOK_UP in page.text)
    (page,) = extract_pages(BytesIO(made(loading_sheet)[PATH]), page_numbers=[number])
    seen = [h for text, h in lines(page) if re.fullmatch(r"(\d+|flat|no|P?T?B?)( (\d+|flat|no|P?T?B?))*", text)]
    assert len(seen) > 50
    assert min(seen) >= least(600, 16) - 0.005


def test_a_large_shelf_is_looked_up_on_several_sheets_by_its_first_glaze() -> None:
    names = tuple(f"{name} {n}" for n in (1, 2, 3) for name in NAMES)
    edition = every_pair(small_edition((), names=names))
    files, problems = loading_sheet(edition)
    assert problems == ()
    pages = [page for page in read(files[PATH]) if LOOK_UP in page.text]
    every_word_on_its_page_and_on_no_other(pages)
    marks = [verdict.glaze.mark.value for verdict in on_the_shelf(edition)]
    found = [list(squares(page, marks)) for page in pages]
    assert sorted(pair for each in found for pair in each) == sorted((first, top) for first in marks for top in marks)
    firsts = [marks.index(each[0][0]) for each in found]
    assert firsts == sorted(firsts)
    assert len(set(firsts)) > 1


def test_a_studio_that_measures_in_inches_looks_inches_up() -> None:
    files, _ = loading_sheet(every_pair(small_edition((), "units: in", names=NAMES[:2])))
    text = read(files[PATH])[-1].text
    assert text.count("1/4") > 2
    assert "least bare clay in inches" in text


def test_a_pair_that_must_not_stand_up_is_refused_when_it_does() -> None:
    text = " ".join(page.text for page in read(made(loading_sheet)[PATH]))
    upright = text[text.index(HEADINGS[0]) : text.index(HEADINGS[1])]
    flat = [v for v in every_pair_on_the_shelf(demo_edition()) if v.movement.to_do is ToDo.NOT_ON_WALLS]
    firsts = {v.base.id for v in flat if "cherry-sluice" not in (v.base.id, v.top.id)}
    assert upright.count("lying flat only") == upright.count("It stands upright, or no plate.") == len(firsts) > 3
    assert "Less is bare" not in upright


def test_calm_pairs_ask_for_bare_clay_alone() -> None:
    glazes = dict.fromkeys(range(3), ("food label: yes", "flow: stable"))
    files, problems = loading_sheet(small_edition(((0, 1), (1, 2), (2, 0)), names=NAMES[:3], glaze=glazes))
    assert problems == ()
    text = read(files[PATH])[0].text
    assert "13 mm (1/2 in) Less is bare." in text
    assert "6 mm (1/4 in) Less is bare." in text[text.index("One glaze alone") :]


@pytest.mark.parametrize("name", ["A4", "tabloid"])
def test_nothing_leaves_or_overlaps_on_other_papers(name: str) -> None:
    files, problems = loading_sheet(demo_with(paper=PAPERS[name]))
    assert problems == ()
    every_word_on_its_page_and_on_no_other(read(files[PATH]))


def test_paper_too_small_for_the_table_is_said() -> None:
    files, problems = loading_sheet(demo_with(paper=Paper("4 x 6 in", Fraction("101.6"), Fraction("152.4"))))
    assert files == {}
    assert [(p.place.at, p.code) for p in problems] == [("studio.yaml:21", "paper-too-small")]


def test_equal_editions_give_equal_sheets() -> None:
    same_twice(loading_sheet)
