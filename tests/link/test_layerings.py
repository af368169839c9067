"""Layerings that no wall may carry, and what is said of them in entries and in logs."""

from __future__ import annotations

import pytest

from tests.studios import entry, glaze, log, make_with, said

LAYERING = "combinations/pond-lantern-over-ferry-rust.md"
RIM_ONLY = glaze("Ferry Rust", "FR", "goes on: rim only")
COOL = glaze("Ferry Rust", "FR", "cone: 06 to 04")
NO_COMMON_CONE = {"glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "cone: 6"), "glazes/pond-lantern.md": glaze("Pond Lantern", "PL", "cone: 6 1/2 to 7")}
OUTSIDE = ["glazes/pond-lantern.md:5:7 warning cone-outside-label"]


def test_base_and_top_are_two_glazes() -> None:
    _, problems = make_with({LAYERING: entry("base: FR", "top: ferry-rust")}, without=["logs/autumn.csv"])
    assert said(problems) == [f"{LAYERING}:3:6 error base-is-top"]


def test_base_and_top_are_two_glazes_off_the_chart_too() -> None:
    _, problems = make_with({LAYERING: entry("base: FR", "top: FR", "on chart: no")}, without=["logs/autumn.csv"])
    assert said(problems) == [f"{LAYERING}:3:6 error base-is-top"]


@pytest.mark.parametrize("goes_on", ["rim only", "?", ""])
def test_a_rim_only_base_on_the_chart_is_an_error(goes_on: str) -> None:
    _, problems = make_with({"glazes/ferry-rust.md": glaze("Ferry Rust", "FR", f"goes on: {goes_on}")})
    assert said(problems) == [f"{LAYERING}:2:7 error rim-only-base"]


def test_a_rim_only_top_is_fine() -> None:
    _, problems = make_with({"glazes/pond-lantern.md": glaze("Pond Lantern", "PL", "goes on: rim only")})
    assert problems == ()


def test_labels_that_share_no_cone_on_the_chart_are_an_error() -> None:
    _, problems = make_with(NO_COMMON_CONE)
    assert said(problems) == [f"{LAYERING}:3:6 error no-shared-cone", *OUTSIDE]


def test_a_label_whose_cone_nobody_knows_shares_one_with_any() -> None:
    _, problems = make_with({"glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "cone: ?")})
    assert problems == ()


def test_off_the_chart_neither_is_asked() -> None:
    off = {LAYERING: entry("base: FR", "top: PL", "on chart: no")}
    assert make_with({**off, "glazes/ferry-rust.md": RIM_ONLY})[1] == ()
    assert said(make_with({**off, **NO_COMMON_CONE})[1]) == OUTSIDE


def test_on_the_chart_or_not_when_nobody_knows_is_on_it() -> None:
    book, problems = make_with({LAYERING: entry("base: FR", "top: PL", "on chart: ?"), "glazes/ferry-rust.md": RIM_ONLY})
    assert said(problems) == [f"{LAYERING}:2:7 error rim-only-base"]
    assert book.combinations["pond-lantern-over-ferry-rust"].on_chart


def test_a_goes_on_that_could_not_be_read_is_one_problem() -> None:
    _, problems = make_with({"glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "goes on: the ceiling")})
    assert said(problems) == ["glazes/ferry-rust.md:6:10 error not-one-of"]


@pytest.mark.parametrize("status", ["out", "retired"])
def test_a_glaze_off_the_shelf_on_the_chart_is_a_warning_at_the_entry(status: str) -> None:
    change = {"glazes/pond-lantern.md": glaze("Pond Lantern", "PL", f"status: {status}")}
    assert said(make_with(change)[1]) == [f"{LAYERING}:3:6 warning off-shelf-on-chart"]
    assert make_with({**change, LAYERING: entry("base: FR", "top: PL", "on chart: no")})[1] == ()


def test_a_pair_without_an_entry_is_a_warning_once_at_its_first_row() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B2,PL,1,FR,1", "B3,PL,2,FR,1"), "logs/a.csv": log("B1,PL,1,FR,1")})
    assert said(problems) == ["logs/a.csv:2:1 warning pair-without-entry"] or said(problems) == ["logs/a.csv:2:4 warning pair-without-entry"]


def test_what_was_done_to_a_tile_is_no_error() -> None:
    rows = {"logs/autumn.csv": log("B1,FR,1,PL,1")}
    _, problems = make_with({**rows, "glazes/ferry-rust.md": RIM_ONLY}, without=[LAYERING])
    assert [(p.severity.value, p.code) for p in problems] == [("warning", "pair-without-entry"), ("warning", "rim-only-base-in-log")]
    _, problems = make_with({**rows, **NO_COMMON_CONE}, without=[LAYERING])
    assert sorted((p.severity.value, p.code) for p in problems) == [
        ("warning", "cone-outside-label"), ("warning", "no-shared-cone-in-log"), ("warning", "pair-without-entry"),
    ]  # fmt: skip


def test_one_rim_only_glaze_alone_on_a_tile_is_how_it_is_tested() -> None:
    _, problems = make_with({"glazes/moss.md": glaze("Moss Cellar", "MC", "goes on: rim only"), "logs/autumn.csv": log("B1,MC,2")})
    assert problems == ()
