"""What a layering's page says about running, trust, clay and place: counts and instructions, in sentences."""

from __future__ import annotations

import re

from tests.site.editions import pages_of, text_of
from tests.studios import entry, glaze, log

LAYERING = "combinations/pond-lantern-over-ferry-rust.html"
FIRINGS = {f"firings/f0{n}.md": entry("cone: 6", f"date: 2026-09-0{n}", "witness:", "  middle: 6") for n in (1, 2, 3)}
CALM = {
    "glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "food label: yes", "flow: stable", "coats: 1 to 3"),
    "glazes/pond-lantern.md": glaze("Pond Lantern", "PL", "food label: yes", "flow: stable", "coats: 1 to 3"),
    **FIRINGS,
}
OTHER_LOG = ("logs/autumn.csv",)
"""The good studio's own."""
CLAY = "buff"
WHITE = {f"clays/{CLAY}.md": entry("name: Buff", "cone: 5 to 7", "tone: light")}


def tile(number: int, firing: str, ran: str, faults: str = "none", clay: str = CLAY, coats: tuple[int, int] = (2, 1)) -> str:
    return f"T{number},FR,{coats[0]},PL,{coats[1]},{clay},{firing},middle,upright,{ran},{faults}"


def said(*rows: str, **more: str) -> str:
    files = {**CALM, **WHITE, "logs/spring.csv": log(*rows), **more}
    return text_of(pages_of(files, without=OTHER_LOG)[LAYERING])


def test_no_run_is_said_as_a_count_and_never_as_a_promise() -> None:
    text = said(tile(1, "f01", "0"), tile(2, "f02", "no"), tile(3, "f03", "0 mm"))
    assert "No run in 3 tiles (3 firings)." in text
    assert "does not run" not in text


def test_the_worst_run_stands_with_its_tile_and_never_an_average() -> None:
    text = said(tile(1, "f01", "1 mm"), tile(2, "f02", "8 mm"), tile(3, "f03", "3 mm"))
    assert "Worst run 8 mm (5/16 in), tile T2; 3 tiles measured upright (3 firings)." in text
    assert "Leave 16 mm" in text


def test_a_margin_is_said_in_both_units_and_how_to_measure_it() -> None:
    text = said(tile(1, "f01", "0"), tile(2, "f02", "0"), tile(3, "f03", "0"))
    assert "Leave 13 mm (1/2 in) of bare clay above the kiln shelf, measured straight up and not along the wall." in text


def test_a_layering_that_nobody_measured_says_so() -> None:
    text = said(tile(1, "f01", ""))
    assert "No upright tile has been measured." in text
    assert "Keep Pond Lantern in the top third of the piece until an upright tile of this has been measured." in text
    assert "Put the piece on a catch plate." in text


def test_what_ran_off_the_tile_goes_on_no_wall_and_no_depth_is_named() -> None:
    text = said(tile(1, "f01", "off the tile"), tile(2, "f02", "2 mm"))
    assert "Not on walls" in text
    assert "It ran off the foot of T1: nobody knows how far it would have gone." in text
    assert "Keep it off walls" in text
    assert "Keep Pond Lantern in the top" not in text


def test_tiles_that_disagree_stand_side_by_side() -> None:
    text = said(tile(1, "f01", "0"), tile(2, "f02", "0", faults="crazing"))
    assert "Tiles that disagree" in text
    assert "Tile T1: no fault seen" in text and "They also differ in: firing." in text
    assert "Tile T2: crazing" in text
    assert "average" not in text


def test_steady_is_said_with_its_tiles_and_firings() -> None:
    text = said(tile(1, "f01", "0"), tile(2, "f02", "0"), tile(3, "f03", "0"))
    assert "Steady" in text and "3 tiles · 3 firings" in text
    assert "No fault in 3 tiles looked over (3 firings)." in text


def test_each_clay_and_coat_count_has_its_verdict_and_a_gap_says_not_made_yet() -> None:
    dark = {"clays/peat.md": entry("name: Peat", "cone: 5 to 7", "tone: dark")}
    text = said(tile(1, "f01", "0"), tile(2, "f01", "0", clay="peat", coats=(3, 1)), **dark)
    assert "2 coats Ferry Rust, then 1 Pond Lantern" in text
    assert "3 coats Ferry Rust, then 1 Pond Lantern" in text
    assert text.count("Not made yet") >= 2
    assert "All clays together" in text


def test_the_clay_that_decides_is_named() -> None:
    dark = {"clays/peat.md": entry("name: Peat", "cone: 5 to 7", "tone: dark")}
    text = said(tile(1, "f01", "0"), tile(2, "f02", "0", faults="pinholes", clay="peat"), **dark)
    assert "The tiles on Peat bring it down to this, for every clay." in text


def test_a_tile_whose_clay_nobody_wrote_down_is_shown_and_compared_with_none() -> None:
    text = said(tile(1, "f01", "0"), tile(2, "f02", "0", clay=""))
    assert "Clay not written down" in text
    assert "T2: with no clay written down, it is compared with no other tile." in text


def test_coats_stand_in_words_with_the_first_glaze_first() -> None:
    text = said(tile(1, "f01", "0"))
    assert "2 + 1" not in text
    assert "2 coats Ferry Rust, then 1 Pond Lantern" in text


def test_no_page_shows_a_rule_by_its_code() -> None:
    files = {**CALM, **WHITE, "logs/spring.csv": log(tile(1, "f01", "off the tile", faults="crazing"))}
    for path, page in pages_of(files, without=OTHER_LOG).items():
        assert re.findall(r"\b[FMP]\d\b", text_of(page)) == [], path
