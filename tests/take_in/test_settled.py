"""logs/columns.yaml: what a teacher settles once."""

from __future__ import annotations

from pathlib import Path

from combobook.take_in import take_in
from combobook.take_in.settled import settled, with_columns
from tests.take_in.classes import outside, rows_of, said, studio, taken


def with_settled(tmp_path: Path, text: str) -> Path:
    folder = studio(tmp_path)
    (folder / "logs/columns.yaml").write_text(text)
    return folder


def test_a_heading_and_a_word_are_read_as_they_were_settled(tmp_path: Path) -> None:
    yaml = "columns:\n  Thing: tile\n  Mood: leave out\nread as:\n  Fery Rust: ferry-rust\nread as faults:\n  fine: none\n"
    folder = with_settled(tmp_path, yaml)
    done = take_in(outside(tmp_path, "THING,base,base coats,Mood,firing,faults\nC1,fery rust,2,fine,f01,Fine\n"), folder, None)
    assert said(done) == []
    assert rows_of(folder / "logs/2026-autumn-1.csv") == [
        {"tile": "C1", "base": "ferry-rust", "base coats": "2", "firing": "f01", "faults": "none"}
    ]
    assert (folder / "logs/columns.yaml").read_text() == yaml


def test_a_misspelling_comes_with_the_lines_that_settle_it(tmp_path: Path) -> None:
    done, _ = taken(tmp_path, "tile,base,base coats\nC1,Fery Rust,2\nC2,Fery Rust,2\n")
    assert done.misread == {("Fery Rust", "Ferry Rust"): 2}


def test_new_headings_are_added_and_all_else_stands_as_its_author_wrote_it() -> None:
    text = '# mine\ncolumns:   # as we say\n  "#": tile\nread as:\n  x: y\n'
    old, problems = settled(text, "columns.yaml")
    assert problems == ()
    assert with_columns(old, "columns", [("1st: glaze", "base"), ("#", "tile")], "columns.yaml") == (
        '# mine\ncolumns:   # as we say\n  "1st: glaze": base\n  "#": tile\nread as:\n  x: y\n'
    )


def test_a_file_that_lines_cannot_be_added_to_is_left_alone() -> None:
    old, _ = settled('columns: {"#": tile}\n', "columns.yaml")
    assert old.column("columns", "#") == "tile"
    assert with_columns(old, "columns", [("First", "base")], "columns.yaml") is None


def test_a_mistake_in_it_stops_the_take_in_and_says_where(tmp_path: Path) -> None:
    folder = with_settled(tmp_path, "columns:\n  Thing: tiles\nreed as:\n  a: b\n")
    done = take_in(outside(tmp_path, "tile,base,base coats\nC1,FR,2\n"), folder, None)
    assert said(done) == ["2:10 unknown-column", "3:1 unknown-field"]
    assert [p.help for p in done.problems] == ["did you mean `tile`?", "did you mean `read as`?"]
    assert sorted(p.name for p in (folder / "logs").iterdir()) == ["autumn.csv", "columns.yaml"]
