"""A class's 168 rows, taken in, taken in again, and their results two weeks later."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.pipeline import check
from combobook.progress import Silent
from combobook.take_in import TakenIn, take_in
from tests.take_in import messy
from tests.take_in.classes import contents, errors, outside, rows_of, studio


@pytest.fixture
def term(tmp_path: Path) -> tuple[TakenIn, Path]:
    folder = studio(tmp_path)
    return take_in(outside(tmp_path, messy.brushed()), folder, None), folder


def test_every_row_is_taken_in_known_or_doubtful(term: tuple[TakenIn, Path], tmp_path: Path) -> None:
    done, folder = term
    doubtful = len(messy.WRONG) + len(messy.MISSPELT) + 1
    assert (done.taken, done.known, done.doubtful) == (messy.ROWS - doubtful - 1, 1, doubtful)
    assert len(rows_of(folder / "logs/2026-autumn-1.csv")) == done.taken
    assert done.respelt == ((f"r-{200 + messy.FIRST}", f"R{200 + messy.FIRST}"),)
    assert done.misread == {("Fery Rust", "Ferry Rust"): 2, ("Ferry Rsut", "Ferry Rust"): 1}
    assert done.entries == 29, "30 ordered pairs of 6 glazes, and one had an entry"
    assert errors(folder) == []


def test_what_is_doubtful_says_why(term: tuple[TakenIn, Path], tmp_path: Path) -> None:
    back = rows_of(tmp_path / "class-doubtful.csv")
    assert [(row["Tile #"], row["reason"].split(" (")[0]) for row in back] == [
        ("2-Sep", "`2-Sep` looks like a cell that a spreadsheet turned into a date or number"),
        ("R212", "no glaze called `Fery Rust`"),
        ("R213", "no glaze called `Fery Rust`"),
        ("Maria Lopez", "this looks like a person's name or address, not a tile's code"),
        ("Jo Bell", "this looks like a person's name or address, not a tile's code"),
        ("R290", "no glaze called `Ferry Rsut`"),
        ("R230", f"tile R230 is written down two ways: `top` is Ferry Rust here and Orchard Bell at {tmp_path}/class.csv:34"),
    ]


def test_no_name_reaches_the_studio_and_no_students_column_is_written_anywhere(
    term: tuple[TakenIn, Path], tmp_path: Path
) -> None:
    _, folder = term
    written = b"".join(contents(folder).values())
    assert [name for name in (*messy.PEOPLE, "Student 1") if name.encode() in written] == []
    assert "Student" not in (tmp_path / "class-doubtful.csv").read_text("utf-8-sig")


def test_a_second_time_adds_nothing_anywhere(term: tuple[TakenIn, Path], tmp_path: Path) -> None:
    _, folder = term
    before, beside = contents(folder), sorted(p.name for p in tmp_path.iterdir())
    again = take_in(tmp_path / "class.csv", folder, None)
    assert (again.taken, again.entries, again.doubtful) == (0, 0, 7)
    assert again.known == messy.ROWS - 7
    assert contents(folder) == before
    assert sorted(p.name for p in tmp_path.iterdir()) == beside


def test_nothing_that_was_there_is_changed(tmp_path: Path) -> None:
    folder = studio(tmp_path)
    before = contents(folder)
    take_in(outside(tmp_path, messy.brushed()), folder, None)
    after = contents(folder)
    assert {path: after[path] for path in before} == before


def test_results_two_weeks_later_fill_the_blanks(term: tuple[TakenIn, Path], tmp_path: Path) -> None:
    _, folder = term
    first = (folder / "logs/2026-autumn-1.csv").read_bytes()
    done = take_in(outside(tmp_path, messy.results(), "results.csv"), folder, None)
    written = rows_of(folder / "logs/2026-autumn-2.csv")
    assert (done.doubtful, done.taken) == (0, len(written)) and len(written) > 45
    assert all(set(row) <= {"tile", "base", "base coats", "top", "top coats", "firing", "kiln shelf", "ran", "faults"} for row in written)
    assert (folder / "logs/2026-autumn-1.csv").read_bytes() == first
    book = check(folder, Silent()).book
    assert book is not None
    tile = next(t for t in book.tiles if t.tile.value == "R203")
    assert (tile.fired, tile.upright, tile.ran.value, tile.clay and tile.clay.id) == (True, True, 3, "quarry-white")
    assert errors(folder) == []


def test_settling_the_misspelling_takes_those_rows_in_too(term: tuple[TakenIn, Path], tmp_path: Path) -> None:
    _, folder = term
    with (folder / "logs/columns.yaml").open("a") as file:
        file.write("read as:\n  Fery Rust: Ferry Rust\n  Ferry Rsut: Ferry Rust\n")
    done = take_in(tmp_path / "class.csv", folder, None)
    assert (done.taken, done.doubtful, done.misread) == (3, 4, {})
    assert [row["tile"] for row in rows_of(folder / "logs/2026-autumn-2.csv")] == ["R212", "R213", "R290"]
