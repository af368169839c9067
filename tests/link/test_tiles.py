"""Rows of the same tile and coats, in any files, are one; two that differ are an error with both places."""

from __future__ import annotations

from fractions import Fraction

import pytest

from combobook.entries import NOT_KNOWN, Fault, KilnShelf, Stood
from tests.studios import entry, glaze, log, make_with, said

BRUSHED, UNLOADED = "logs/a-brushed.csv", "logs/b-unloaded.csv"
WITHOUT = ["logs/autumn.csv"]
LOW_CLAY = {"clays/brick.md": entry("name: Brick", "cone: 06 to 04")}
LOW_WARNING = "clays/brick.md:3:7 warning clay-cone"


def test_a_tile_brushed_one_week_and_unloaded_the_next_is_one_tile() -> None:
    book, problems = make_with(
        {BRUSHED: log("B1,FR,2,PL,1,Quarry White"), UNLOADED: log("B1,Ferry Rust,2,pond-lantern,1,,f01,upper,upright,3 mm,crazing;pits,blue,,,")},
        WITHOUT,
    )  # fmt: skip
    assert problems == ()
    (tile,) = book.tiles
    assert tile.clay is book.clays["quarry-white"] and tile.firing is book.firings["f01"]
    assert (tile.kiln_shelf.value, tile.stood.value, tile.ran.value) == (KilnShelf.UPPER, Stood.UPRIGHT, Fraction(3))
    assert set(tile.faults.value) == {Fault.CRAZING, Fault.PITS}  # type: ignore[arg-type]
    assert (tile.place.at, tile.ran.at.at, tile.faults.at.at) == (f"{BRUSHED}:2", f"{UNLOADED}:2", f"{UNLOADED}:2")
    assert book.tiles_of == {("ferry-rust", "pond-lantern"): (tile,)}


def test_a_blank_is_filled_from_another_row_of_the_tile_whatever_its_coats() -> None:
    book, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,Quarry White,f01,upper,upright,0", "B1,FR,3,PL,1")})
    assert problems == ()
    assert [(t.coats, t.clay, t.firing, t.kiln_shelf.value, t.stood.value) for t in book.tiles] == [
        (coats, book.clays["quarry-white"], book.firings["f01"], KilnShelf.UPPER, Stood.UPRIGHT) for coats in ((2, 1), (3, 1))
    ]
    assert [t.ran.value for t in book.tiles] == [0, NOT_KNOWN]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("B1,FR,2,PL,1,Quarry White,f01,upper,upright,3 mm,pits;dry", "B1,Ferry Rust,2,Pond Lantern,1,quarry-white,F01,Upper,UPRIGHT,0.3 cm,dry;pits"),
        ("B1,FR,2,PL,1,,f01,,,no,none", "B1,FR,2,PL,1,,f01,,,0,None"),
        ("B1,FR,2,PL,1,,f01,,,1/2 in,,,,l1,", "B1,FR,2,PL,1,,f01,,,12.7 mm,,,, l1 ,"),
        ("B1,FR,2,PL,1,,f01,,,?,?", "B1,FR,2,PL,1,,f01,,,2 mm,crazing"),
    ],
)  # fmt: skip
def test_cells_are_compared_by_what_they_mean(first: str, second: str) -> None:
    lot = {"glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "lot: l1")}
    book, problems = make_with({**lot, BRUSHED: log(first), UNLOADED: log(second)}, WITHOUT)
    assert problems == ()
    assert len(book.tiles) == 1


@pytest.mark.parametrize(
    ("first", "second", "column"),
    [
        ("B1,FR,2,PL,1,,f01,,,2 mm", "B1,FR,2,PL,1,,f01,,,3 mm", 21),
        ("B1,FR,2,PL,1,,f01,,,no", "B1,FR,2,PL,1,,f01,,,off the tile", 21),
        ("B1,FR,2,PL,1,,f01,,,,none", "B1,FR,2,PL,1,,f01,,,,pits", 22),
        ("B1,FR,2,PL,1,,f01,,,,pits;dry", "B1,FR,2,PL,1,,f01,,,,pits", 22),
        ("B1,FR,2,PL,1,,f01,upper", "B1,FR,2,PL,1,,f01,lower", 19),
        ("B1,FR,2,PL,1,,f01,,flat", "B1,FR,2,PL,1,,f01,,upright", 20),
        ("B1,FR,2,PL,1,,f01,upper", "B1,FR,3,PL,1,,f01,lower", 19),
        ("B1,FR,2,PL,1,,f01", "B1,FR,2,PL,1,,f02", 15),
        ("B1,FR,2,PL,1", "B1,SH,2,PL,1", 4),
        ("B1,FR,2,PL,1", "B1,FR,1,SH,1", 9),
        ("B1,FR,2,PL,1,Quarry White", "B1,FR,2,PL,1,Weir", 14),
        ("B1,FR,2,PL,1,,f01,,,,,blue", "B1,FR,2,PL,1,,f01,,,,,green", 23),
        ("B1,FR,2,PL,1,,f01,,,,,,,l1", "B1,FR,2,PL,1,,f01,,,,,,,l2", 25),
    ],
)  # fmt: skip
def test_one_tile_written_down_two_ways_is_an_error_at_the_later_place(first: str, second: str, column: int) -> None:
    others = {
        "firings/f02.md": entry("cone: 6", "date: 2026-10-20"), "clays/weir.md": entry("name: Weir", "cone: 5 to 7"),
        "glazes/slate-hop.md": glaze("Slate Hop", "SH"), "combinations/a.md": entry("base: SH", "top: PL"),
        "combinations/b.md": entry("base: FR", "top: SH"), "glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "lot: l1"),
    }  # fmt: skip
    _, problems = make_with({**others, BRUSHED: log(first), UNLOADED: log(second)}, WITHOUT)
    assert said(problems) == [f"{UNLOADED}:2:{column} error tile-two-ways"]
    assert f"{BRUSHED}:2" in problems[0].message


def test_the_first_of_two_ways_stands_in_the_book_whatever_the_order_of_files() -> None:
    logs = {UNLOADED: log("B1,FR,2,PL,1,,f01,,upright,3 mm"), BRUSHED: log("B1,FR,2,PL,1,,f01,,upright,2 mm")}
    book, problems = make_with(logs, WITHOUT)
    assert [t.ran.value for t in book.tiles] == [2]
    assert said(problems) == [f"{UNLOADED}:2:21 error tile-two-ways"] or len(problems) == 1


def test_tiles_stand_by_their_code_then_by_their_coats() -> None:
    book, problems = make_with({"logs/autumn.csv": log("B2,FR,3,PL,1", "A9,FR,2,PL,1", "B2,FR,1,PL,2", "B2,FR,1,PL,1")})
    assert [(t.tile.value, t.coats) for t in book.tiles] == [("A9", (2, 1)), ("B2", (1, 1)), ("B2", (1, 2)), ("B2", (3, 1))]
    assert problems == ()


def test_a_tile_not_yet_fired_on_a_clay_that_cannot_take_the_cone_must_not_be_loaded() -> None:
    _, problems = make_with({**LOW_CLAY, "logs/autumn.csv": log("B1,FR,2,PL,1,Brick", "B1,FR,3,PL,1,Brick")})
    assert said(problems) == [LOW_WARNING, "logs/autumn.csv:2:14 error do-not-load"]
    assert "do not load: it can melt and take the shelf with it" in problems[1].message


def test_a_tile_already_fired_on_such_a_clay_only_has_the_clays_warning() -> None:
    _, problems = make_with({**LOW_CLAY, BRUSHED: log("B1,FR,2,PL,1,Brick"), UNLOADED: log("B1,FR,2,PL,1,,f01")}, WITHOUT)
    assert said(problems) == [LOW_WARNING]


@pytest.mark.parametrize(("cells", "column"), [(",,,,,,2 mm", 21), (",,,,,,,pits", 22), (",,,,,,off the tile", 21), (",,,,,,2 mm,pits", 21)])
def test_a_fault_or_a_run_without_a_firing_is_a_warning_once_a_tile(cells: str, column: int) -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1" + cells[1:])})
    assert said(problems) == [f"logs/autumn.csv:2:{column - 3} warning firing-forgotten"]


def test_a_firing_named_in_another_row_of_the_tile_was_not_forgotten() -> None:
    _, problems = make_with({BRUSHED: log("B1,FR,2,PL,1,,f01"), UNLOADED: log("B1,FR,3,PL,1,,,,,2 mm,pits")}, WITHOUT)
    assert problems == ()


def test_a_lot_where_the_glaze_has_none_is_a_warning() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,,,,,,,,,L1,")})
    assert said(problems) == ["logs/autumn.csv:2:22 warning lot-not-on-shelf"]


def test_a_lot_where_the_glaze_has_one_is_none() -> None:
    _, problems = make_with({"glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "lot: L2"), "logs/autumn.csv": log("B1,FR,2,PL,1,,,,,,,,,L1,")})
    assert problems == ()


def test_one_code_for_two_tiles_is_one_problem_that_names_every_cell() -> None:
    _, problems = make_with({BRUSHED: log("B1,FR,2,PL,1,,f01,upper,upright,2.5 mm,none"), UNLOADED: log("B1,FR,2,PL,1,,f01,lower,flat,0,pits")}, WITHOUT)
    assert said(problems) == [f"{UNLOADED}:2:19 error tile-two-ways"]
    assert problems[0].message.endswith("`kiln shelf` is lower here and upper at logs/a-brushed.csv:2; so with `stood`, `ran`, `faults`")


def test_a_run_is_said_in_mm() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,,f01,,,1/2 in", "B1,FR,2,PL,1,,f01,,,no")})
    assert problems[0].message.endswith("`ran` is no run here and 12.7 mm at logs/autumn.csv:2")


def test_a_row_without_a_top_is_about_one_glaze_alone_and_so_about_another_tile() -> None:
    book, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1", "B1,FR,2")})
    assert said(problems) == ["logs/autumn.csv:3:1 error tile-two-ways"]
    assert "`top` is blank here and Pond Lantern at logs/autumn.csv:2" in problems[0].message
    assert [tile.layers for tile in book.tiles] == [("ferry-rust", "pond-lantern")]


def test_a_glaze_over_itself_is_that_glaze_alone_in_as_many_coats() -> None:
    book, problems = make_with({"logs/autumn.csv": log("B1,FR,2,ferry rust,1")})
    assert said(problems) == ["logs/autumn.csv:2:9 warning tile-over-itself"]
    assert [(tile.layers, tile.coats) for tile in book.tiles] == [(("ferry-rust",), (3,))]


def test_a_tile_code_is_the_same_in_any_letter_case() -> None:
    book, problems = make_with({"logs/autumn.csv": log("b1,FR,2,PL,1", "B1,FR,2,PL,1,,f01")})
    assert [(tile.tile.value, tile.fired) for tile in book.tiles] == [("b1", True)]
    assert problems == ()


def test_a_firing_that_could_not_be_read_was_not_forgotten() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,,#REF!,,,2 mm")})
    assert said(problems) == ["logs/autumn.csv:2:15 error mangled-cell"]


def test_a_row_that_could_not_be_read_may_name_the_firing() -> None:
    _, problems = make_with({BRUSHED: log("B1,FR,0,PL,1,,f01"), UNLOADED: log("B1,FR,2,PL,1,,,,,2 mm")}, WITHOUT)
    assert [p.place.at for p in problems if p.is_error] == [f"{BRUSHED}:2"] and len(problems) == 1
