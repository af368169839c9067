"""Rows of a class's log: taken in, known already, or doubtful with a reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.take_in import take_in
from tests.take_in.classes import contents, errors, outside, rows_of, said, studio, taken

HEAD = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults,looks\n"


def test_cells_are_written_as_the_format_has_them_and_names_by_their_files(tmp_path: Path) -> None:
    text = "tile;base;base coats;top;top coats;clay;firing;kiln shelf;stood;ran;faults\n"
    text += "C1;fr;2 coats;POND LANTERN;1x;quarry white;F01;Top;standing;1,5 cm;pinhole, crazed\n"
    text += "C2;FR;3;-;;?;f01;mid;lying;no;none\n"
    done, folder = taken(tmp_path, text)
    assert said(done) == []
    assert (folder / "logs/2026-autumn-1.csv").read_text() == (
        "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults,looks,photo,base lot,top lot\n"
        "C1,ferry-rust,2,pond-lantern,1,quarry-white,f01,upper,upright,1.5 cm,pinholes; crazing,,,,\n"
        "C2,ferry-rust,3,,,,f01,middle,flat,no,none,,,,\n"
    )


@pytest.mark.parametrize(
    ("heading", "cell", "written"),
    [("ran", "1/4 in", "1/4 in"), ("ran mm", "3", "3 mm"), ("run (in)", "1/4", "1/4 in"), ("ran cm", "1.2", "1.2 cm"),
     ("ran", "0", "no"), ("ran mm", "no run", "no"), ("ran", "ran off", "off the tile")],
)  # fmt: skip
def test_a_run_keeps_its_unit(heading: str, cell: str, written: str, tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"tile,base,base coats,firing,stood,{heading}\nC1,FR,2,f01,upright,{cell}\n")
    assert said(done) == []
    assert rows_of(folder / "logs/2026-autumn-1.csv")[0]["ran"] == written


DOUBTFUL = {
    "a mark turned into a date": ("2-Sep,FR,2", "2:1 mangled-cell", "`2-Sep` looks like a cell that a spreadsheet turned into a date or number"),
    "a person for a tile": ("Maria Lopez,FR,2", "2:1 tile-is-a-name", "this looks like a person's name or address, not a tile's code"),
    "an e-mail address": ("C1,FR,2,,,,,,,,,ask jo@example.org", "2:17 of-a-person", "`looks` holds an e-mail address: nothing of a person's is taken in"),
    "a telephone number": ("C1,FR,2,,,,,,,,,call 555-123-4567", "2:17 of-a-person", "`looks` holds a telephone number: nothing of a person's is taken in"),
    "a formula": ("C1,FR,2,,,,,,,,,=1+1", "2:17 formula", "`=1+1` is a formula to a spreadsheet"),
    "a claim": ("C1,FR,2,,,,,,,,,food safe", "2:17 claim", "`food safe` claims what no glaze, label or tile can promise of a piece"),
    "a misspelt glaze": ("C1,Fery Rust,2", "2:4 unknown-glaze", "no glaze called `Fery Rust`"),
    "no coats": ("C1,FR,", "2:7 missing-cell", "`base coats` must be filled in this row"),
    "an unknown firing": ("C1,FR,2,,,,f77", "2:12 unknown-firing", "no firing called `f77`"),
    "an unknown fault": ("C1,FR,2,,,,f01,,,,sparkles", "2:19 not-one-of", "`sparkles` is no fault this book knows"),
    "a run without a unit": ("C1,FR,2,,,,f01,,,4", "2:18 no-unit", "`4` has no unit"),
    "a finding of a tile that nobody brushed": ("C9,,,,,,f01,,,2 mm", "2:1 unknown-tile", "this row names no base, and no log has a tile `C9`"),
    "a clay that melts": ("C1,FR,2,,,Garden Pot", "2:1 do-not-load", "do not load"),
}  # fmt: skip


@pytest.mark.parametrize("what", DOUBTFUL)
def test_a_doubtful_row_goes_back_with_its_reason(what: str, tmp_path: Path) -> None:
    row, problem, message = DOUBTFUL[what]
    low = "---\nname: Garden Pot\ncone: 06 to 04\n---\n"
    done, folder = taken(tmp_path, f"{HEAD}{row}{',' * (11 - row.count(','))}\n", clays__garden_pot=low)
    assert said(done) == [problem]
    assert message in done.problems[0].message
    assert (done.taken, done.known, done.doubtful) == (0, 0, 1)
    [back] = rows_of(tmp_path / "class-doubtful.csv")
    assert (back["row"], message in back["reason"]) == ("2", True)
    assert [path for path in contents(folder) if path.startswith("logs/")] == ["logs/autumn.csv"]
    assert errors(folder) == []


def test_of_two_rows_that_contradict_the_first_stands(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}C1,FR,2,PL,1,,,,,,,\nC1,FR,2,AM,1,,,,,,,\n")
    assert [p.message for p in done.problems] == [
        f"tile C1 is written down two ways: `top` is Attic Moth here and Pond Lantern at {tmp_path}/class.csv:2"
    ]
    assert [row["top"] for row in rows_of(folder / "logs/2026-autumn-1.csv")] == ["pond-lantern"]
    assert [row["row"] for row in rows_of(tmp_path / "class-doubtful.csv")] == ["3"]


def test_a_row_that_contradicts_the_logs_is_doubtful(tmp_path: Path) -> None:
    done, _ = taken(tmp_path, f"{HEAD}B1,FR,2,PL,1,,,upper,,,,\n")
    assert [p.message for p in done.problems] == [
        "tile B1 is written down two ways: `kiln shelf` is upper here and middle at logs/autumn.csv:2"
    ]


@pytest.mark.parametrize("spelling", ["b1", "B-1", "b 1", "B_1"])
def test_a_tile_spelt_otherwise_is_the_tile_that_is_there(spelling: str, tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}{spelling},FR,2,PL,1,,,,,,,glossy\n")
    assert said(done) == []
    assert done.respelt == (() if spelling == "b1" else ((spelling, "B1"),))
    assert {row["tile"].upper() for row in rows_of(folder / "logs/2026-autumn-1.csv")} == {"B1"}


def test_a_result_fills_the_blanks_of_the_row_that_was_brushed(tmp_path: Path) -> None:
    brushed = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults\nB9,FR,2,PL,1,Quarry White,,,,,\n"
    done, folder = taken(tmp_path, "Tile,Firing,Stood,Ran (mm)\nb9,f01,upright,4\n", logs__autumn=brushed)
    assert said(done) == []
    assert rows_of(folder / "logs/2026-autumn-1.csv") == [
        {"tile": "b9", "base": "ferry-rust", "base coats": "2", "top": "pond-lantern", "top coats": "1", "firing": "f01",
         "stood": "upright", "ran": "4 mm"}
    ]  # fmt: skip
    assert errors(folder) == []


def test_a_result_of_a_tile_with_two_coat_counts_must_say_which(tmp_path: Path) -> None:
    brushed = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults\nB9,FR,2,,,,,,,,\nB9,FR,3,,,,,,,,\n"
    done, folder = taken(tmp_path, "Tile,base coats,Firing\nB9,,f01\nB9,3,f01\n", logs__autumn=brushed)
    assert [p.message for p in done.problems] == ["tile `B9` is known with 2 and 3 coats: which is this row's?"]
    assert [(r["base coats"], r["firing"]) for r in rows_of(folder / "logs/2026-autumn-1.csv")] == [("3", "f01")]


def test_a_blank_top_is_one_glaze_alone_and_never_filled_in(tmp_path: Path) -> None:
    done, _ = taken(tmp_path, f"{HEAD}B1,FR,2,,,,,,,,,glossy\n")
    assert [p.message for p in done.problems] == [
        "tile B1 is written down two ways: `top` is blank here and Pond Lantern at logs/autumn.csv:2"
    ]


def test_what_is_there_already_adds_nothing(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}B1,FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none,\n")
    assert (said(done), done.taken, done.known) == ([], 0, 1)
    assert [path for path in contents(folder) if path.startswith("logs/")] == ["logs/autumn.csv"]


def test_a_withdrawn_tile_is_never_taken_in_again(tmp_path: Path) -> None:
    folder = studio(tmp_path)
    (folder / "editions").mkdir()
    (folder / "editions/withdrawn.csv").write_text("tile,date\nC1,2026-10-20\n")
    done = take_in(outside(tmp_path, f"{HEAD}c-1,FR,2,,,,,,,,,\n"), folder, None)
    assert [p.message for p in done.problems] == ["tile `c-1` was withdrawn, and is never taken in again"]


def test_a_pair_without_an_entry_gets_one_that_is_off_the_chart(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}C1,FR,2,AM,1,,,,,,,\nC2,FR,2,AM,1,,,,,,,\nC3,FR,2,PL,1,,,,,,,\n")
    assert (said(done), done.entries) == ([], 1)
    text = (folder / "combinations/attic-moth-over-ferry-rust.md").read_text()
    fields = [line for line in text.splitlines() if not line.startswith("#")]
    assert fields == ["---", "base: ferry-rust", "top: attic-moth", "on chart: no", "coats: ?", "looks: ?", "---"]
    assert errors(folder) == []


def test_a_file_that_has_another_layering_under_that_name_is_left_alone(tmp_path: Path) -> None:
    other = "---\nbase: OB\ntop: WL\n---\n"
    done, folder = taken(
        tmp_path, f"{HEAD}C1,FR,2,AM,1,,,,,,,\n", combinations__attic_moth_over_ferry_rust=other
    )
    assert done.entries == 1
    assert (folder / "combinations/attic-moth-over-ferry-rust.md").read_text() == other
    assert "top: attic-moth" in (folder / "combinations/attic-moth-over-ferry-rust-2.md").read_text()


def test_logs_are_numbered_on_and_a_number_is_not_used_again(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}C1,FR,2,,,,,,,,,\n", logs__2026_autumn_7=f"{HEAD}C0,FR,2,,,,,,,,,\n")
    assert done.log.endswith("logs/2026-autumn-8.csv")
    assert sorted(p.name for p in (folder / "logs").iterdir()) == ["2026-autumn-7.csv", "2026-autumn-8.csv", "autumn.csv"]


def test_a_mended_doubtful_file_is_taken_in_as_it_is(tmp_path: Path) -> None:
    _, folder = taken(tmp_path, "Student,tile,base,base coats\nMaria Lopez,C1,Fery Rust,2\nJo Bell,C2,nothing,2\n")
    back = tmp_path / "class-doubtful.csv"
    assert "Maria" not in back.read_text("utf-8-sig") and back.read_text("utf-8-sig").startswith("tile,base,base coats,reason,row")
    back.write_text(back.read_text("utf-8-sig").replace("C1,Fery Rust", "C1,Ferry Rust"))
    done = take_in(back, folder, None)
    assert (done.taken, done.doubtful, Path(done.doubtful_file).name) == (1, 1, "class-doubtful-2.csv")
    assert [row["tile"] for row in rows_of(tmp_path / "class-doubtful-2.csv")] == ["C2"]


def test_nothing_is_added_to_a_folder_with_errors(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}C1,FR,2,,,,,,,,,\n", firings__f02="---\ncone: sixty\n---\n")
    assert [p.code for p in done.problems] == ["bad-cone"]
    assert done.stopped == "nothing was taken in: mend what stands in the folder first"
    assert sorted(p.name for p in (folder / "logs").iterdir()) == ["autumn.csv"]


def test_an_error_in_what_a_log_never_asks_about_keeps_nothing_out(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, f"{HEAD}C1,FR,2,,,,,,,,,\n", forms__mug="---\nname: Mug\nheight: tall\n---\n")
    assert (done.stopped, done.taken) == ("", 1)
    assert [problem.code for problem in errors(folder)] == ["bad-quantity"]


def test_a_file_in_the_studios_own_folder_is_refused(tmp_path: Path) -> None:
    folder = studio(tmp_path)
    done = take_in(outside(folder, f"{HEAD}C1,FR,2,,,,,,,,,\n"), folder, None)
    assert "lies in the studio's own folder" in done.stopped
