"""Movement, rules.md section 2: classes, measuring, margin, reach and catch plate, with reasons."""

from __future__ import annotations

from typing import Any

import pytest

from combobook.entries import NOT_KNOWN, OFF_THE_TILE, Flow, Glaze, GoesOn, Stood
from combobook.judge import judge, judge_pair
from combobook.measures import Coats, Span
from combobook.verdicts import GlazeVerdict, MovementVerdict, ToDo
from tests.judge.building import FIRINGS, Tile, book, cones, entry, firing, form, glaze, mm, rules_at, tile

A, B = glaze("amber"), glaze("birch")
ROW = "logs/log.csv:{}".format
COATS = "combinations/birch-over-amber.md:4"
LABELS = [("label", "glazes/amber.md:6"), ("label", "glazes/birch.md:6")]


def movement(*tiles: Tile, base: Glaze = A, top: Glaze = B, coats: Any = (1, 1), **more: Any) -> MovementVerdict:
    return judge_pair(book([entry(base, top, coats)], tiles, **more), base.id, top.id).movement


def alone(*tiles: Tile, of: Glaze = A, **more: Any) -> GlazeVerdict:
    return judge(book(tiles=tiles, glazes=[of], **more))[0].glazes[of.id]


@pytest.mark.parametrize(
    ("ran", "cls"),
    [(0, "STABLE"), (1, "STABLE"), ("1.01", "MOVES"), ("4.99", "MOVES"), (5, "RUNNY"), (OFF_THE_TILE, "RUNNY")],
)
def test_a_run_has_a_class_and_the_limits_belong_to_the_calmer_below_and_the_runnier_above(ran: Any, cls: str) -> None:
    found = movement(tile("T1", (A, B), ran=ran))
    assert found.cls.name == cls
    assert rules_at(found.reasons) == (LABELS if cls == "STABLE" else [("M3", ROW(2))])


def test_a_layering_is_as_runny_as_its_runnier_layer() -> None:
    runny = glaze("birch", flow=Flow.RUNNY)
    for base, top in ((A, runny), (runny, A)):
        found = movement(tile("T1", (base, top)), base=base, top=top)
        assert (found.cls.name, rules_at(found.reasons)) == ("RUNNY", [("M1", "glazes/birch.md:6")])


@pytest.mark.parametrize(
    ("flows", "cls"), [((Flow.STABLE, Flow.STABLE), "MOVES"), ((Flow.STABLE, Flow.MOVES), "RUNNY"),
                       ((Flow.RUNNY, Flow.STABLE), "RUNNY")]
)  # fmt: skip
def test_an_untested_layering_is_one_step_up(flows: tuple[Flow, Flow], cls: str) -> None:
    base, top = glaze("amber", flow=flows[0]), glaze("birch", flow=flows[1])
    found = movement(base=base, top=top)
    assert (found.cls.name, found.untested_upright, found.catch_plate) == (cls, True, True)
    assert ("M2", COATS) in rules_at(found.reasons)


@pytest.mark.parametrize(
    "useless",
    [
        tile("T1", (A, B), (2, 1), stood=Stood.FLAT),
        tile("T1", (A, B), (2, 1), stood=NOT_KNOWN),
        tile("T1", (A, B), (2, 1), ran=NOT_KNOWN),
        tile("T1", (A, B), (2, 1), firing=None),
        tile("T1", (A, B), (2, 1), firing=firing("f09", witness={"middle": "5"})),
        tile("T1", (A, B), (1, 3)),
        tile("T1", (B, A), (2, 1)),
    ],
    ids=["flat", "stood blank", "not measured", "not fired", "a cone cool", "thin base", "other order"],
)
def test_a_tile_that_does_not_measure_leaves_a_layering_untested(useless: Tile) -> None:
    assert movement(useless, coats=(2, 1)).untested_upright
    assert not movement(useless, tile("T2", (A, B), (3, 1)), coats=(2, 1)).untested_upright


def test_half_a_cone_cool_still_measures_and_without_coats_any_tile_does() -> None:
    half = tile("T1", (A, B), (2, 2), firing=firing("f09", witness={"middle": "5 1/2"}))
    assert not movement(half, coats=(2, 1)).untested_upright
    assert not movement(half, coats=None).untested_upright
    assert movement(half, coats=None, usual_coats=Coats(3, 1)).untested_upright


def test_a_flow_nobody_knows_is_runny_until_a_tile_of_that_glaze_alone_measures_it() -> None:
    unknown = glaze("amber", flow=NOT_KNOWN)
    assert (alone(of=unknown).movement.cls.name, rules_at(alone(of=unknown).movement.reasons)) == (
        "RUNNY",
        [("M1", "glazes/amber.md:6")],
    )
    flat = tile("T1", (unknown,), stood=Stood.FLAT)
    assert alone(flat, of=unknown).movement.cls.name == "RUNNY"
    measured = alone(tile("T1", (unknown,), (4,)), of=unknown).movement
    assert (measured.cls.name, rules_at(measured.reasons)) == ("STABLE", [("label", "glazes/amber.md:6")])
    assert measured.reasons[0].wording == "flow_measured"
    moved = alone(tile("T1", (unknown,)), tile("T2", (unknown,), ran=3, firing=None), of=unknown).movement
    assert (moved.cls.name, rules_at(moved.reasons)) == ("MOVES", [("M1", ROW(3))])


def test_a_run_of_a_glaze_alone_raises_its_layerings_and_never_lowers_its_flow() -> None:
    ran = tile("T1", (A,), ran=6)
    found = movement(tile("T2", (A, B)), ran)
    assert (found.cls.name, rules_at(found.reasons)) == ("RUNNY", [("M1", ROW(2))])
    runny = glaze("amber", flow=Flow.RUNNY)
    assert alone(tile("T1", (runny,)), of=runny).movement.cls.name == "RUNNY"


def test_worst_run_is_of_any_upright_row_cool_thin_or_with_its_firing_forgotten() -> None:
    tiles = (
        tile("T1", (A, B), ran=2),
        tile("T2", (A, B), (3, 3), ran=3, firing=firing("f09", witness={"middle": "01"})),
        tile("T3", (A, B), ran="3.5", firing=None),
        tile("T4", (A, B), ran=9, stood=Stood.FLAT),
        tile("T5", (A, B), ran=9, stood=NOT_KNOWN),
    )
    found = movement(*tiles)
    assert (found.worst_run, found.cls.name, found.off_the_tile) == (mm("3.5"), "MOVES", False)
    assert found.worst_tile is not None and found.worst_tile.tile.value == "T3"
    assert rules_at(found.reasons) == [("M3", ROW(2)), ("M3", ROW(3)), ("M3", ROW(4))]
    assert [each.wording for each in found.reasons][-1] == "ran_layering_not_fired"


def test_no_run_is_zero_and_only_off_the_tile_or_nothing_is_null() -> None:
    assert movement(tile("T1", (A, B))).worst_run == 0
    off = movement(tile("T1", (A, B), ran=OFF_THE_TILE))
    assert (off.worst_run, off.off_the_tile, off.to_do) == (None, True, ToDo.NOT_ON_WALLS)
    assert movement().worst_run is None
    forgotten = movement(tile("T1", (A, B), ran=OFF_THE_TILE, firing=None))
    assert (forgotten.off_the_tile, forgotten.cls.name) == (True, "RUNNY")


def test_margin_is_twice_the_worst_run_or_the_foot_margin_rounded_up() -> None:
    assert movement(tile("T1", (A, B))).margin_mm == 13
    assert movement(tile("T1", (A, B), ran="6.6")).margin_mm == 14
    assert movement(tile("T1", (A, B)), foot_margin=Span(mm("6.35"), mm("12.7"))).margin_mm == 13
    assert alone(foot_margin=Span(mm("6.35"), mm("12.7"))).movement.margin_mm == 7
    assert alone(of=glaze("amber", flow=Flow.MOVES)).movement.margin_mm == 13
    assert alone(tile("T1", (A,), ran="0.9"), run_factor=mm(10)).movement.margin_mm == 9


def test_a_catch_plate_goes_under_twice_the_worst_run_over_ten_millimetres() -> None:
    assert not movement(tile("T1", (A, B), ran="4.9")).catch_plate
    assert not movement(tile("T1", (A, B), ran="2"), run_factor=mm(5)).catch_plate
    assert movement(tile("T1", (A, B), ran="2.01"), run_factor=mm(5)).catch_plate
    assert not alone().movement.catch_plate
    assert alone(of=glaze("amber", flow=Flow.RUNNY)).movement.catch_plate


def steady(layers: tuple[Glaze, Glaze], coats: tuple[int, int] = (1, 1), **more: Any) -> list[Tile]:
    return [tile(f"S{n}", layers, coats, firing=FIRINGS[f"f0{n}"], **more) for n in (1, 2, 3)]


def test_a_runny_layering_keeps_to_the_rim_band_until_its_coats_are_steady_upright() -> None:
    runny = glaze("birch", flow=Flow.RUNNY)
    tiles = steady((A, runny))
    assert movement(*tiles[:2], top=runny).reach_mm == 25
    assert movement(*tiles, top=runny).reach_mm is None
    assert movement(*tiles, top=runny, coats=None).reach_mm == 25
    assert movement(*steady((A, runny), (2, 1)), top=runny).reach_mm == 25, "other coats are steady, not these"
    assert movement(*steady((A, runny), stood=Stood.FLAT), top=runny).reach_mm == 25
    assert movement(*tiles[:2], top=runny, rim_band=Span(mm(13), mm("25.4"))).reach_mm == 25


def test_a_rim_only_top_keeps_to_its_own_band_always_and_the_smaller_reach_counts() -> None:
    rim = glaze("birch", goes_on=GoesOn.RIM_ONLY)
    assert movement(*steady((A, rim)), top=rim).reach_mm == 25
    narrow = glaze("birch", goes_on=NOT_KNOWN, rim_band=Span(mm(10), mm("15.5")))
    assert movement(*steady((A, narrow)), top=narrow).reach_mm == 15
    wide = glaze("birch", goes_on=GoesOn.RIM_ONLY, rim_band=Span(mm(10), mm(40)), flow=Flow.RUNNY)
    assert movement(top=wide).reach_mm == 25
    assert movement(*steady((A, wide)), top=wide).reach_mm == 40


def test_the_one_instruction() -> None:
    def told(found: MovementVerdict) -> tuple[str, int | None]:
        return found.to_do.name, found.to_do_mm

    assert told(movement(tile("T1", (A, B)))) == ("LEAVE", 13)
    assert told(movement()) == ("TOP_THIRD", None)
    assert told(movement(top=glaze("birch", flow=Flow.RUNNY))) == ("TOP_BAND", 25)
    assert told(movement(base=glaze("amber", goes_on=GoesOn.RIM_ONLY))) == ("NOT_ON_WALLS", None)
    assert told(movement(top=glaze("birch", cone=cones("04")))) == ("NOT_ON_WALLS", None)
    assert told(movement(tile("T1", (A, B), ran=45), forms=[form("mug")])) == ("NOT_ON_WALLS", None)
    tall = [form("mug"), form("jar", 200, holds_food=False)]
    assert told(movement(*steady((A, B), ran=45), forms=tall)) == ("LEAVE", 90)
    assert told(movement(tile("T1", (A, B)), forms=[form("mug", NOT_KNOWN)])) == ("LEAVE", 13)


def test_one_runny_glaze_alone_may_go_to_its_margin_on_a_catch_plate() -> None:
    found = alone(of=glaze("amber", flow=Flow.RUNNY)).movement
    assert (found.reach_mm, found.to_do, found.to_do_mm, found.catch_plate) == (None, ToDo.LEAVE, 13, True)
