"""Log sheets: filled in from the plan, and blank; read back by Poppler."""

from __future__ import annotations

from dataclasses import replace

import pytest

from combobook.entries import Fault
from combobook.plan import plan
from combobook.plans import Asked
from combobook.render.sheets.log_sheets import PATH, log_sheets
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import made, read, same_twice, sound


def test_each_tile_of_the_plan_has_one_line_and_one_mark_to_tear_off() -> None:
    edition = demo_edition()
    assert edition.plan is not None
    pages = sound(made(log_sheets)[PATH])
    assert len(pages) == 9, "seven tables, the tiles that wait, the blank form"
    for tile in edition.plan.tiles:
        text, made_of = pages[tile.table - 1].text, tile.candidate
        assert text.split().count(tile.mark) == 2
        assert f"2 coats {made_of.base.name.value}, then 1 {made_of.top.name.value}" in text
    assert pages[0].text.count("yes no") == 12


def test_tiles_that_wait_for_the_kiln_have_only_the_kilns_part_left_to_write() -> None:
    waiting = {tile.tile.value for tile in demo_edition().book.tiles if not tile.fired}
    page = read(made(log_sheets)[PATH])[7]
    assert "Brushed already, waiting for the kiln" in page.text
    assert {word for word in page.text.split() if word in waiting} == waiting
    assert page.text.count("in the log") == 10 and "yes no" not in page.text


def test_every_sheet_says_what_to_scratch_and_what_each_fault_of_the_log_looks_like() -> None:
    for page in read(made(log_sheets)[PATH]):
        assert "Before firing: scratch a line into the glaze where the top stops" in page.text
        assert "chalky, drags at a fingernail; not the same" in page.text
        for fault in Fault:
            assert f"{fault.value} " in page.text


@pytest.mark.parametrize(("name", "lines"), [("letter", 13), ("A4", 12)])
def test_the_blank_form_asks_for_all_that_a_log_row_needs(name: str, lines: int) -> None:
    files, problems = log_sheets(replace(demo_with(paper=PAPERS[name]), plan=None))
    assert problems == ()
    blank = sound(files[PATH])[-1].text
    assert blank.count("upright flat") == lines and blank.count("coats: coats:") == lines
    for head in ("Tile", "Goes on first", "Then over it", "Clay", "Ran", "Faults, or none", "Firing:", "Kiln shelf"):
        assert head in blank


def test_a_table_of_many_tiles_is_shared_out_evenly_over_its_sheets() -> None:
    edition = demo_edition()
    many, _ = plan(edition.book, edition.pairs, Asked(students=4, tiles=5, table=4))
    files, problems = log_sheets(replace(edition, plan=many))
    assert problems == ()
    pages = read(files[PATH])
    assert ["part 1 of 2" in pages[0].text, "part 2 of 2" in pages[1].text] == [True, True]
    assert [page.text.count("yes no") for page in pages[:2]] == [10, 10]


def test_equal_editions_give_equal_log_sheets() -> None:
    same_twice(log_sheets)
