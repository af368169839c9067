"""The loading sheet, read back by Poppler."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from combobook.measures import Paper
from combobook.render.sheets.loading_sheet import PATH, loading_sheet
from combobook.render.sheets.shelf import every_pair_on_the_shelf
from combobook.verdicts import ToDo
from tests.chart.editions import NAMES
from tests.chart.editions import edition as small_edition
from tests.published_demo import demo_edition
from tests.sheets.boxes import box
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import every_word_on_its_page_and_on_no_other, made, read, same_twice, sound

HEADINGS = ("Never standing up", "Only on a catch plate", "No catch plate asked for", "One glaze alone")


def test_the_worst_comes_first() -> None:
    text = " ".join(page.text for page in sound(made(loading_sheet)[PATH]))
    places = [text.index(heading) for heading in HEADINGS]
    assert places == sorted(places)
    plates = text[places[1] : places[2]]
    margins = [int(mm) for mm in re.findall(r"(\d+) mm \([\d/ ]+ in\) Less", plates)]
    assert len(margins) > 20
    assert margins == sorted(margins, reverse=True)


def test_every_pair_on_the_shelf_is_there_once_by_its_marks() -> None:
    pages = read(made(loading_sheet)[PATH])
    marks = " ".join(box(page, 120, 0, 265, page.height) for page in pages)
    pairs = every_pair_on_the_shelf(demo_edition())
    assert len(pairs) == 20 * 19
    for mark in {verdict.top.mark.value for verdict in pairs}:
        assert len(re.findall(rf"\b{mark}\b", marks)) == 19, mark


def test_a_pair_that_must_not_stand_up_is_refused_when_it_does() -> None:
    text = " ".join(page.text for page in read(made(loading_sheet)[PATH]))
    upright = text[text.index(HEADINGS[0]) : text.index(HEADINGS[1])]
    flat = [v for v in every_pair_on_the_shelf(demo_edition()) if v.movement.to_do is ToDo.NOT_ON_WALLS]
    assert len(flat) > 10
    assert upright.count("lying flat only") == upright.count("It stands upright, or no plate.") > 10
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
