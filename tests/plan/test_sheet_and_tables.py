"""The plan as people get it: its sheet read by Poppler, its tables by Python's csv, its command from the outside."""

from __future__ import annotations

import csv
import io
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from combobook.plan import plan
from combobook.plans import Asked
from combobook.render.plan_data import LOG_COLUMNS, ORDER, ROWS, plan_data
from combobook.render.sheets.plan_sheet import PATH, plan_sheet
from tests.published_demo import CONTENT, demo_edition
from tests.sheets.reading import made, same_twice, sound


def test_the_sheet_names_every_tile_once_in_the_list_and_once_on_a_slip() -> None:
    edition = demo_edition()
    assert edition.plan is not None
    text = " ".join(page.text for page in sound(made(plan_sheet)[PATH], furniture=False))
    assert len(edition.plan.tiles) == 84
    for tile in edition.plan.tiles:
        base, top = tile.candidate.base.mark.value, tile.candidate.top.mark.value
        assert text.count(f"{tile.mark}: {base} first, then {top}") == 1
        assert text.split().count(tile.mark) == 1
    for student in range(1, 29):
        assert f"Student {student}, table {edition.plan.asked.table_of(student)}" in text


def test_the_sheet_fits_its_list_for_28_students_on_one_page() -> None:
    first = sound(made(plan_sheet)[PATH], furniture=False)[0].text
    assert "L105: " in first and "L188: " in first


def test_the_sheet_is_the_same_twice() -> None:
    same_twice(plan_sheet)


def test_a_hand_of_many_tiles_gets_slips_enough() -> None:
    edition = demo_edition()
    many, _ = plan(edition.book, edition.pairs, Asked(students=2, tiles=9, table=2))
    files, problems = plan_sheet(replace(edition, plan=many))
    assert problems == ()
    text = " ".join(page.text for page in sound(files[PATH], furniture=False))
    assert "Student 1, table 1, slip 3 of 3" in text
    for tile in many.tiles:
        assert text.split().count(tile.mark) == 1


def test_without_a_plan_there_is_neither_sheet_nor_table() -> None:
    edition = replace(demo_edition(), plan=None)
    assert plan_sheet(edition) == ({}, ())
    assert plan_data(edition) == ({}, ())


def test_rows_are_filled_in_but_for_what_the_kiln_tells() -> None:
    edition = demo_edition()
    assert edition.plan is not None
    files, _ = plan_data(edition)
    rows = list(csv.DictReader(io.StringIO(files[ROWS].decode("utf-8-sig"))))
    assert tuple(rows[0]) == LOG_COLUMNS
    assert len(rows) == len(edition.plan.tiles)
    for row, tile in zip(rows, edition.plan.tiles, strict=True):
        assert row["tile"] == tile.mark
        assert (row["base"], row["top"]) == tile.candidate.pair
        assert (row["base coats"], row["top coats"]) == (
            str(tile.candidate.coats.base),
            str(tile.candidate.coats.top),
        )
        assert row["stood"] == "upright" and row["clay"] == "weir-buff"
        assert [row[name] for name in ("firing", "kiln shelf", "ran", "faults", "photo")] == [""] * 5


def test_the_order_list_has_a_line_for_each_glaze_of_the_plan() -> None:
    edition = demo_edition()
    assert edition.plan is not None
    rows = list(csv.DictReader(io.StringIO(plan_data(edition)[0][ORDER].decode("utf-8-sig"))))
    assert [row["glaze"] for row in rows] == [pour.glaze.id for pour in edition.plan.pours]
    assert sum(int(row["tiles"]) for row in rows) == 2 * len(edition.plan.tiles)
    assert all(float(row["pour ml"]) >= 30 * len(row["tables"].split()) for row in rows)


def test_the_command_gives_the_same_plan_for_the_same_seed_and_leaves_the_folder_as_it_was(tmp_path: Path) -> None:
    before = {path: path.stat().st_mtime_ns for path in CONTENT.rglob("*")}
    for name in ("one", "two"):
        done = subprocess.run(
            [sys.executable, "-m", "combobook", "plan", str(CONTENT), "--to", str(tmp_path / name), "--students", "5",
             "--tiles", "2", "--table", "5", "--seed", "3"],
            capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert done.returncode == 0, done.stderr
        assert done.stdout.startswith("10 tiles for 5 students")
    assert {path: path.stat().st_mtime_ns for path in CONTENT.rglob("*")} == before
    of_one = {p.relative_to(tmp_path / "one"): p.read_bytes() for p in (tmp_path / "one").rglob("*") if p.is_file()}
    of_two = {p.relative_to(tmp_path / "two"): p.read_bytes() for p in (tmp_path / "two").rglob("*") if p.is_file()}
    assert of_one == of_two
    assert Path("data/planned-rows.csv") in of_one


def test_the_command_refuses_a_class_of_nobody() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "combobook", "plan", str(CONTENT), "--students", "0"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
