"""A reference reads a file name, a name or a mark, in any letter case; one cause gives one problem."""

from __future__ import annotations

import pytest

from tests.studios import entry, glaze, log, make_with, said

LAYERING = "combinations/pond-lantern-over-ferry-rust.md"


@pytest.mark.parametrize("word", ["FR", "fr", "Ferry Rust", "ferry rust", "FERRY  RUST", "ferry-rust", "Ferry-Rust"])
def test_a_glaze_is_named_by_file_name_name_or_mark_in_any_letter_case(word: str) -> None:
    book, problems = make_with({LAYERING: entry(f"base: {word}", "top: PL")})
    assert book.combinations["pond-lantern-over-ferry-rust"].base is book.glazes["ferry-rust"]
    assert problems == ()


@pytest.mark.parametrize(("name", "word"), [("Fa\u0308hre", "F\u00e4hre"), ("F\u00e4hre", "fa\u0308hre")])
def test_an_accent_is_the_same_however_a_machine_puts_it_together(name: str, word: str) -> None:
    book, problems = make_with(
        {"glazes/faehre.md": glaze(name, "FX"), "combinations/pond-lantern-over-faehre.md": entry(f"base: {word}", "top: PL")}
    )
    assert book.combinations["pond-lantern-over-faehre"].base is book.glazes["faehre"]
    assert problems == ()


def test_a_log_names_glazes_clays_and_firings_in_any_of_their_ways() -> None:
    book, problems = make_with(
        {"clays/quarry-white.md": entry("name: Quarry White", "mark: QW", "cone: 5 to 7"),
         "logs/autumn.csv": log("B1, ferry RUST ,2,pond-lantern,1,qw,F01", "B2,fr,2,PL,1,QUARRY-white,f01")}
    )  # fmt: skip
    assert [(t.base.id, t.top and t.top.id, t.clay and t.clay.id, t.firing and t.firing.id) for t in book.tiles] == [
        ("ferry-rust", "pond-lantern", "quarry-white", "f01")
    ] * 2
    assert problems == ()


def test_a_word_that_fits_two_glazes_is_an_error_that_names_both() -> None:
    book, problems = make_with(
        {"glazes/moss-cellar.md": glaze("Moss Cellar", "MC"), "glazes/mc.md": glaze("Slate Hop", "SH"),
         LAYERING: entry("base: mc", "top: PL"), "logs/autumn.csv": log("B1,PL,2")}
    )  # fmt: skip
    assert said(problems) == [f"{LAYERING}:2:7 error ambiguous-reference"]
    assert "glazes/mc.md" in problems[0].message and "glazes/moss-cellar.md" in problems[0].message
    assert book.combinations == {}


def test_an_entry_whose_name_is_also_its_file_name_and_mark_is_not_two() -> None:
    _, problems = make_with({"glazes/sh.md": glaze("SH", "SH"), LAYERING: entry("base: sh", "top: PL"), "logs/autumn.csv": log("B1,SH,2,PL,1")})
    assert problems == ()


@pytest.mark.parametrize(
    ("row", "problem", "word"),
    [
        ("B1,Fery Rust,2,PL,1,QUARRY WHITE,f01", "logs/autumn.csv:2:4 error unknown-glaze", "Ferry Rust"),
        ("B1,FR,2,Pond Lanten,1,Quarry White,f01", "logs/autumn.csv:2:9 error unknown-glaze", "Pond Lantern"),
        ("B1,FR,2,PL,1,Quary White,f01", "logs/autumn.csv:2:14 error unknown-clay", "Quarry White"),
        ("B1,FR,2,PL,1,Quarry White,f1", "logs/autumn.csv:2:27 error unknown-firing", "f01"),
    ],
)
def test_an_unknown_word_is_an_error_at_the_word_with_the_nearest_one(row: str, problem: str, word: str) -> None:
    book, problems = make_with({"logs/autumn.csv": log(row)})
    assert said(problems) == [problem]
    assert f"did you mean `{word.lower()}`?" in problems[0].help.lower()
    assert book.tiles == ()


def test_every_unknown_word_of_a_row_is_found_in_one_run() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,Zebra,2,Yak,1,Xylem,w99,,,,,,v.jpg")})
    assert [p.code for p in problems] == ["unknown-glaze", "unknown-glaze", "unknown-clay", "unknown-firing", "unknown-photo"]


def test_a_reference_to_an_entry_that_has_its_own_problem_has_no_second_one() -> None:
    book, problems = make_with({"glazes/ferry-rust.md": entry("name: Ferry Rust", "mark: ?"), LAYERING: entry("base: ferry-rust", "top: PL"),
                                "logs/autumn.csv": log("B1,Ferry Rust,2,PL,1")})  # fmt: skip
    assert said(problems) == ["glazes/ferry-rust.md:3:7 error must-be-known"]
    assert (book.combinations, book.tiles) == ({}, ())


def test_a_row_about_a_withheld_firing_does_not_say_that_a_firing_was_forgotten() -> None:
    _, problems = make_with({"firings/f01.md": entry("cone: 60")})
    assert said(problems) == ["firings/f01.md:2:7 error bad-cone"]


def test_a_row_with_an_unknown_firing_does_not_also_say_that_a_firing_was_forgotten() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,,f9"), "logs/later.csv": log("B1,FR,2,PL,1,,,,,2 mm,none")})
    assert said(problems) == ["logs/autumn.csv:2:15 error unknown-firing"]


def test_a_pair_whose_entry_is_withheld_has_an_entry() -> None:
    _, problems = make_with({LAYERING: entry("base: FR", "top: PL", "top: PL")})
    assert said(problems) == [f"{LAYERING}:4:1 error repeated-key"]


def test_a_pair_whose_entry_misspells_a_glaze_has_one_problem() -> None:
    _, problems = make_with({LAYERING: entry("base: Fery Rust", "top: PL")})
    assert said(problems) == [f"{LAYERING}:2:7 error unknown-glaze"]


def test_a_lab_report_names_its_layers_and_its_clay() -> None:
    fields = ("ware: cup or mug", "limits: FDA", "clay: quarry white")
    book, problems = make_with({"lab/mug.md": entry("base: fr", "top: Pond Lantern", "coats: 2 + 1", *fields),
                                "lab/alone.md": entry("glaze: PL", "coats: 2", *fields)})  # fmt: skip
    assert problems == ()
    alone, mug = book.reports
    assert ([g.id for g in mug.layers], mug.coats, mug.layers_place.at) == (["ferry-rust", "pond-lantern"], (2, 1), "lab/mug.md:2")
    assert ([g.id for g in alone.layers], alone.coats, alone.clay) == (["pond-lantern"], (2,), book.clays["quarry-white"])


def test_a_lab_report_about_unknown_glazes_and_clays_is_left_out_with_a_problem_for_each() -> None:
    book, problems = make_with({"lab/mug.md": entry("base: Zebra", "top: PL", "clay: Yak", "ware: cup or mug", "limits: FDA")})
    assert said(problems) == ["lab/mug.md:2:7 error unknown-glaze", "lab/mug.md:4:7 error unknown-clay"]
    assert book.reports == ()
