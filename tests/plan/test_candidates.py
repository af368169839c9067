"""Which pairs a plan asks for, which never, and how the tiles are to be made."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from combobook.book import Book
from combobook.entries import NOT_KNOWN, OFF_THE_TILE, Flow, GoesOn, Status, Stood
from combobook.judge import judge_pairs
from combobook.measures import CoatRange, Coats
from combobook.plan import plan
from combobook.plan.candidates import survey
from combobook.plans import Asked, Candidate, Ground, Why
from tests.judge.building import FIRINGS, RED, WHITE, Tile, book, clay, cones, entry, firing, glaze, mm, tile, written

ASH, BAY = glaze("ash"), glaze("bay")
F1, F2, F3 = (FIRINGS[id_] for id_ in ("f01", "f02", "f03"))


def asked_for(of: Book) -> dict[tuple[str, str], Candidate]:
    pairs = tuple((a, b) for a in of.glazes for b in of.glazes if a != b)
    return {each.pair: each for each in survey(of, judge_pairs(of, pairs)).candidates}


def left_out(of: Book) -> list[tuple[Ground, str]]:
    pairs = tuple((a, b) for a in of.glazes for b in of.glazes if a != b)
    return [(ground, each.id) for ground, each in survey(of, judge_pairs(of, pairs)).left_out]


def test_both_orders_of_two_glazes_that_were_never_fired_are_new() -> None:
    found = asked_for(book(glazes=(ASH, BAY)))
    assert {pair: (each.why, each.worth) for pair, each in found.items()} == {
        ("ash", "bay"): (Why.NEW, (100, 33, 11)),
        ("bay", "ash"): (Why.NEW, (100, 33, 11)),
    }


@pytest.mark.parametrize(
    ("changed", "ground"),
    [
        ({"status": Status.RETIRED}, Ground.RETIRED),
        ({"status": Status.OUT}, Ground.OUT),
        ({"status": NOT_KNOWN}, Ground.STATUS),
        ({"cone": NOT_KNOWN}, Ground.NO_CONE),
        ({"cone": cones("06 to 04")}, Ground.OTHER_CONE),
    ],
)
def test_a_glaze_that_is_not_there_or_not_for_this_cone_is_in_no_plan(changed: Any, ground: Ground) -> None:
    of = book(glazes=(ASH, BAY, glaze("cove", **changed)))
    assert set(asked_for(of)) == {("ash", "bay"), ("bay", "ash")}
    assert left_out(of) == [(ground, "cove")]


def test_a_rim_only_glaze_goes_over_others_and_never_first() -> None:
    assert set(asked_for(book(glazes=(ASH, glaze("rim", goes_on=GoesOn.RIM_ONLY))))) == {("ash", "rim")}
    assert set(asked_for(book(glazes=(ASH, glaze("rim", goes_on=NOT_KNOWN))))) == {("ash", "rim")}


@pytest.mark.parametrize("of_the_clay", ["06 to 04", "?"])
def test_a_clay_that_may_melt_in_this_kiln_is_never_planned(of_the_clay: str) -> None:
    low = clay("low")
    cone = NOT_KNOWN if of_the_clay == "?" else cones(of_the_clay)
    low = type(low)(**{**{name: getattr(low, name) for name in low.__slots__}, "cone": written(cone, "clays/low.md", 3)})
    of = book(tiles=[tile("B1", (ASH, BAY), clay=low, firing=None)], glazes=(ASH, BAY))
    assert [each.clay for each in asked_for(of).values()] == [None, None]
    assert left_out(of) == [(Ground.NO_CONE if cone is NOT_KNOWN else Ground.OTHER_CONE, "low")]


def steady() -> list[Tile]:
    return [tile(mark, (ASH, BAY), firing=at) for mark, at in (("B1", F1), ("B2", F2), ("B3", F3))]


def test_a_steady_pair_is_settled_and_its_other_order_is_not() -> None:
    found = asked_for(book(tiles=steady()))
    assert set(found) == {("bay", "ash")}
    assert found["bay", "ash"].worth == (110, 36, 12)


def test_what_ran_off_the_tile_is_not_tried_again() -> None:
    assert set(asked_for(book(tiles=[tile("B1", (ASH, BAY), ran=OFF_THE_TILE)]))) == {("bay", "ash")}


@pytest.mark.parametrize(
    ("tiles", "why", "worth"),
    [
        ([tile("B1", (ASH, BAY))], Why.ONCE, (40, 13)),
        ([tile("B1", (ASH, BAY)), tile("B2", (ASH, BAY))], Why.REPEATED, (25,)),
        ([tile("B1", (ASH, BAY), stood=Stood.FLAT)], Why.UPRIGHT, (80, 26)),
        ([tile("B1", (ASH, BAY)), tile("B2", (ASH, BAY), ran=9, firing=F2)], Why.DISAGREES, (70,)),
        ([tile("B1", (ASH, BAY), firing=None)], Why.NEW, (33, 11)),
        ([tile(f"B{n}", (ASH, BAY), firing=None) for n in (1, 2, 3)], None, ()),
    ],
)
def test_how_much_another_tile_of_a_pair_is_worth(tiles: list[Tile], why: Why | None, worth: tuple[int, ...]) -> None:
    found = asked_for(book(tiles=tiles)).get(("ash", "bay"))
    assert (found.why if found else None, found.worth if found else ()) == (why, worth)


def test_old_evidence_counts_less_than_a_new_pair_and_all_of_its_tiles_are_due_again() -> None:
    newly = glaze("bay", retest_since=dt.date(2026, 10, 1))
    found = asked_for(book(tiles=[tile("B1", (ASH, newly), firing=firing("f01", date=dt.date(2026, 9, 1)))]))
    assert (found["ash", "bay"].why, found["ash", "bay"].worth) == (Why.OLD, (60, 20, 6))


def test_a_jar_that_is_running_low_halves_the_worth() -> None:
    found = asked_for(book(glazes=(ASH, glaze("bay", status=Status.RUNNING_LOW))))
    assert found["ash", "bay"].worth == (50, 16, 5)


def test_a_further_tile_is_made_like_those_that_it_joins() -> None:
    tiles = [tile("B1", (ASH, BAY), (2, 1), clay=RED), tile("B2", (BAY,), clay=WHITE), tile("B3", (BAY,), clay=WHITE)]
    found = asked_for(book(tiles=tiles))
    assert (found["ash", "bay"].coats, found["ash", "bay"].clay) == (Coats(2, 1), RED)
    assert (found["bay", "ash"].coats, found["bay", "ash"].clay) == (Coats(1, 1), WHITE)


def test_tiles_that_disagree_are_repeated_with_their_own_coats_and_clay() -> None:
    tiles = [
        tile("B1", (ASH, BAY), (1, 1), clay=WHITE),
        tile("B2", (ASH, BAY), (2, 1), clay=RED),
        tile("B3", (ASH, BAY), (2, 1), clay=RED, ran=9, firing=F2),
    ]
    found = asked_for(book(tiles=tiles, entries=[entry(ASH, BAY, (1, 1))]))["ash", "bay"]
    assert (found.why, found.coats, found.clay) == (Why.DISAGREES, Coats(2, 1), RED)


def test_coats_come_from_the_entry_then_the_house_then_the_labels() -> None:
    two = glaze("ash", coats=CoatRange(2, 3))
    assert asked_for(book(entries=[entry(ASH, BAY, (3, 2))]))["ash", "bay"].coats == Coats(3, 2)
    assert asked_for(book(glazes=(ASH, BAY), usual_coats=Coats(2, 2)))["ash", "bay"].coats == Coats(2, 2)
    assert asked_for(book(glazes=(two, BAY)))["ash", "bay"].coats == Coats(2, 1)
    assert asked_for(book(glazes=(two, glaze("bay", coats=CoatRange(2, 3)))))["ash", "bay"].coats == Coats(2, 1)


def planned(of: Book, **asked: int) -> Any:
    pairs = tuple((a, b) for a in of.glazes for b in of.glazes if a != b)
    made, problems = plan(of, judge_pairs(of, pairs), Asked(**asked))
    assert problems == ()
    return made


def test_marks_go_on_from_the_highest_in_the_logs() -> None:
    made = planned(book(tiles=[tile("B117", (ASH, BAY)), tile("B98", (BAY,))]), students=1, tiles=2)
    assert [each.mark for each in made.tiles] == ["B118", "B119"]


def test_a_plan_says_how_many_terms_until_every_pair_has_three_tiles() -> None:
    made = planned(book(tiles=steady(), glazes=(ASH, BAY)), students=1, tiles=2)
    assert (made.pairs, made.missing, made.plans_until_enough) == (2, 3, 2)


def test_an_empty_shelf_gives_an_empty_plan() -> None:
    made = planned(book(glazes=(ASH,)), students=3)
    assert (made.tiles, made.worth, made.plans_until_enough) == ((), 0, 0)


def test_every_planned_tile_of_a_runny_glaze_too_stands_in_the_jars_reckoning() -> None:
    """By hand: 2 tiles of 42 cm² with 1 coat each at 6 m² a litre, and three tenths more: 0.00182 L; a cup is 30 ml."""
    of = book(glazes=(glaze("ash", covers=mm(6), left=mm("0.001"), jar=mm("0.5")), glaze("bay", flow=Flow.RUNNY)))
    made = planned(of, students=2, tiles=1, table=2)
    ash = next(each for each in made.pours if each.glaze.id == "ash")
    assert (ash.tiles, ash.coats, ash.tables, ash.covers_assumed) == (2, 2, (1,), False)
    assert (float(ash.needed), float(ash.poured), ash.jars_to_buy) == (pytest.approx(0.00182), 0.03, 1)
    bay = next(each for each in made.pours if each.glaze.id == "bay")
    assert (bay.covers, bay.covers_assumed, bay.left_after, bay.jars_to_buy) == (5, True, None, None)
