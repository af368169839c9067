"""Kiln tickets: blank slips, read back by Poppler."""

from __future__ import annotations

from dataclasses import replace

import pytest

from combobook.entries import Units
from combobook.render.sheets.kiln_tickets import PATH, kiln_tickets
from combobook.wording import Words
from tests.published_demo import demo_edition
from tests.sheets.boxes import cards
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import every_word_on_its_page_and_on_no_other, made, read, same_twice, sound

FIELDS = ("Code on the piece:", "First glaze:", "Then:", "Inside:", "Form:", "Bare foot, measured:", "mm / in",
          "Catch plate? Ring one: yes no")  # fmt: skip


def test_eight_slips_on_letter_each_with_every_line_to_fill_in() -> None:
    told, slips = sound(made(kiln_tickets)[PATH], cautions=False)
    assert len(cards(slips)) == 8
    for slip in cards(slips):
        assert [field for field in FIELDS if field not in slip] == []
        assert "Name" not in slip
    for words in ("straight up from the table, not along the wall", "never a name", "the stricter wins"):
        assert words in told.text


@pytest.mark.parametrize(("name", "slips"), [("A4", 8), ("tabloid", 16)])
def test_as_many_slips_as_the_paper_holds(name: str, slips: int) -> None:
    files, problems = kiln_tickets(demo_with(paper=PAPERS[name]))
    assert problems == ()
    pages = read(files[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert ["Kiln ticket" in card for card in cards(pages[1])] == [True] * slips


def test_a_studio_that_measures_in_inches_has_inches_first() -> None:
    edition = demo_edition()
    files, problems = kiln_tickets(replace(edition, words=Words(edition.words.table, Units.INCHES)))
    assert problems == ()
    assert read(files[PATH])[1].text.count("in / mm") == 8


def test_equal_editions_give_equal_tickets() -> None:
    same_twice(kiln_tickets)
