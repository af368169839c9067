"""A list of glazes, one row each."""

from __future__ import annotations

from pathlib import Path

from combobook.take_in.shelf import file_stem
from tests.take_in.classes import contents, errors, rows_of, said, taken


def test_each_row_becomes_an_entry_with_what_it_lacks_left_to_fill_in(tmp_path: Path) -> None:
    text = "Our glazes,,,\nGlaze,Mark,Cone,Food label,Movement,Cautions,Notes,Lot\n"
    text += 'Marsh Candle,MC,5 to 6,yes,stable,Do not eat; Keep off skin,"green: like moss #4",06\n'
    done, folder = taken(tmp_path, text)
    assert (said(done), done.taken, done.what) == ([], 1, "glazes")
    assert (folder / "glazes/marsh-candle.md").read_text() == (
        "---\nname: Marsh Candle\nmark: MC\ncone: 5 to 6\nfood label: yes\ndata sheet: ?\nflow: stable\ncoats: ?\n"
        'looks: "green: like moss #4"\nhandling:\n  - Do not eat\n  - Keep off skin\nlot: 06\n---\n'
    )
    assert errors(folder) == []


def test_marks_are_unique_and_made_where_the_list_has_none(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "name,mark,cone\nFog Rail,,6\nFern Road,,6\nFlint Row,FL,6\nOwl,FR,6\n")
    assert done.glazes == ("Fog Rail (FO)", "Fern Road (FE)")
    assert said(done) == ["5:5 doubled-mark"]
    assert done.problems[0].message == "the mark `FR` is already that of glazes/ferry-rust.md"
    assert errors(folder) == []


def test_a_glaze_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "name,mark,cone\nFerry Rust,FR,5 - 6\nferry rust,,?\nPond Lantern,PX,6\nNew One,NO,6\n")
    assert (done.known, done.taken, said(done)) == (2, 1, ["4:1 doubled-name"])
    before = (folder / "glazes/ferry-rust.md").read_text()
    assert "cone: 5 to 6" in before


def test_a_row_that_says_otherwise_than_the_entry_is_doubtful_and_names_each_cell(tmp_path: Path) -> None:
    text = "name,mark,cone,food label,flow,coats,lot\nFerry Rust,FR,06 to 04,no,stable,2-3,L9\nElm,EM,6,yes,,,\nElm,EM,6,no,,,\n"
    done, folder = taken(tmp_path, text)
    assert (done.known, done.taken) == (0, 1)
    assert said(done) == [
        "2:15 entry-says-otherwise", "2:24 entry-says-otherwise", "2:38 entry-says-otherwise", "4:10 entry-says-otherwise"
    ]
    assert done.problems[1].message == "glazes/ferry-rust.md does not say `food label: no`, as this row does"
    assert [row["name"] for row in rows_of(tmp_path / "class-doubtful.csv")] == ["Ferry Rust", "Elm"]
    assert "food label: yes" in (folder / "glazes/ferry-rust.md").read_text()


def test_a_row_that_would_be_an_error_is_doubtful(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "name,mark,cone,looks\nFog Rail,FG,sixty,\nOwl,OW,6,food safe\nElm,EM,6,brown\n")
    assert said(done) == ["2:13 bad-cone", "3:10 claim"]
    assert [row["name"] for row in rows_of(tmp_path / "class-doubtful.csv")] == ["Fog Rail", "Owl"]
    assert [path for path in contents(folder) if path in ("glazes/elm.md", "glazes/owl.md")] == ["glazes/elm.md"]


def test_a_column_that_holds_marks_is_told_by_its_cells(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "Glaze,Lid,Cone\nFog Rail,RA,6\nFern Road,RO,6\n")
    assert [(p.code, p.message) for p in done.problems] == [("column-guessed", "`Lid` is read as `mark`")]
    assert "mark: RA" in (folder / "glazes/fog-rail.md").read_text()


def test_names_become_file_names() -> None:
    assert [file_stem(n) for n in ("Heron’s Wake #2", "Grün", "Fog over Rail", "???")] == [
        "herons-wake-2", "grun", "fog-on-rail", "glaze",
    ]  # fmt: skip
