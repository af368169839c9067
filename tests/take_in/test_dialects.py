"""Tables as spreadsheets and forms save them."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.take_in import take_in
from tests.take_in.classes import contents, errors, outside, rows_of, said, studio, taken

PLAIN = "tile,base,base coats,top,top coats,clay,looks\nC1,Ferry Rust,2,Pond Lantern,1,Quarry White,grün\n"
GOOD = [{"tile": "C1", "base": "ferry-rust", "base coats": "2", "top": "pond-lantern", "top coats": "1",
         "clay": "quarry-white", "looks": "grün"}]  # fmt: skip

DIALECTS: dict[str, bytes] = {
    "commas": PLAIN.encode(),
    "semicolons": PLAIN.replace(",", ";").encode(),
    "tabs": PLAIN.replace(",", "\t").encode(),
    "byte-order mark": PLAIN.encode("utf-8-sig"),
    "UTF-16": PLAIN.encode("utf-16"),
    "UTF-16, big end first": b"\xfe\xff" + PLAIN.encode("utf-16-be"),
    "UTF-16 without a mark": PLAIN.encode("utf-16-le"),
    "Windows-1252": PLAIN.encode("cp1252"),
    "line ends of Windows": PLAIN.replace("\n", "\r\n").encode(),
    "line ends of old": PLAIN.replace("\n", "\r").encode(),
    "no line end at the end": PLAIN.strip().encode(),
    "quotes around every cell": "\n".join(
        ",".join(f'"{c}"' for c in line.split(",")) for line in PLAIN.splitlines()
    ).encode(),
    "curly quotes around cells": PLAIN.replace("Ferry Rust", "“Ferry Rust”").encode(),
    "title lines above": ("Autumn tiles, period 3\n\nGlazes on tiles,,\n" + PLAIN).encode(),
    "a spreadsheet's own first line": ("sep=;\n" + PLAIN.replace(",", ";")).encode(),
    "blank rows": PLAIN.replace("\nC1", "\n\n,,,,,,\nC1").encode(),
    "blank columns at the end": PLAIN.replace("\n", ",,,\n").encode(),
    "blank cells left off": (PLAIN.replace(",looks", ",looks,photo,base lot")).encode(),
    "a line break in a heading": PLAIN.replace("base coats", '"base\ncoats"').encode(),
    "two tables put together": PLAIN.replace("C1", "\ufeffC1").encode("utf-8-sig"),
    "no-break spaces": PLAIN.replace("Ferry Rust", "Ferry\N{NO-BREAK SPACE}Rust ").encode(),
}


@pytest.mark.parametrize("dialect", DIALECTS)
def test_a_table_says_the_same_in_every_dialect(dialect: str, tmp_path: Path) -> None:
    done, folder = taken(tmp_path, DIALECTS[dialect])
    assert (done.stopped, said(done), done.taken, done.doubtful) == ("", [], 1, 0)
    assert rows_of(folder / "logs/2026-autumn-1.csv") == GOOD
    assert errors(folder) == []


def test_a_line_break_and_a_separator_within_quotes_are_part_of_the_cell(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, 'tile,base,base coats,looks,stood\nC1,FR,2,"milky,\n“blue” at the rim",upright\n')
    assert said(done) == []
    assert rows_of(folder / "logs/2026-autumn-1.csv")[0]["looks"] == "milky, “blue” at the rim"


def test_a_row_with_too_many_cells_goes_back_whole(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "tile,base,base coats,looks\nC1,FR,2,milky, blue\nC2,FR,2,brown\n")
    assert said(done) == ["2:16 ragged-row"]
    assert [row["tile"] for row in rows_of(folder / "logs/2026-autumn-1.csv")] == ["C2"]
    lines = (tmp_path / "class-doubtful.csv").read_text("utf-8-sig").splitlines()
    assert lines[0] == "tile,base,base coats,looks,,reason,row"
    assert lines[1].startswith("C1,FR,2,milky,blue,") and lines[1].endswith(",2")


@pytest.mark.parametrize(
    ("data", "code", "message"),
    [
        (b"PK\x03\x04 and so on", "not-a-table", "this is a spreadsheet's own file, not a table as text"),
        (b"tile\x01,base\n", "not-a-table", "this is no text in UTF-8, UTF-16 or Windows-1252"),
        (b"", "empty-log", "this log is empty: expected a header"),
        (b'tile,base,base coats\n"C1,FR,2\n', "unclosed-quote", "this quotation mark is never closed"),
        (b"x" * 4_000_001, "too-large", "this file has more than 4 MB, the most that is taken in at once"),
    ],
)
def test_what_is_no_table_is_said_and_nothing_is_written(data: bytes, code: str, message: str, tmp_path: Path) -> None:
    folder = studio(tmp_path)
    before = contents(folder)
    done = take_in(outside(tmp_path, data), folder, None)
    assert [(p.code, p.message) for p in done.problems] == [(code, message)]
    assert done.stopped == "nothing was taken in"
    assert contents(folder) == before and [p.name for p in tmp_path.glob("*doubtful*")] == []
