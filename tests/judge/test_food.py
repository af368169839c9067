"""Food, rules.md section 1: each sub-clause, the level and every reason with its line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest

from combobook.book import LabReport
from combobook.entries import NOT_KNOWN, Flow, FoodLabel, FoodRule, Glaze, KilnShelf
from combobook.judge import judge, judge_pair
from combobook.measures import CoatRange, Coats
from combobook.verdicts import FoodLevel, LayeringVerdict
from tests.judge.building import (
    CRAWLING,
    FIRINGS,
    PINHOLES,
    RED,
    WHITE,
    Tile,
    book,
    cones,
    entry,
    firing,
    food_of,
    glaze,
    report,
    rules_at,
    tile,
)

A, B = glaze("amber"), glaze("birch")
ROW = "logs/log.csv:{}".format
COATS, BASE = "combinations/birch-over-amber.md:4", "combinations/birch-over-amber.md:2"


def verdict(
    *tiles: Tile,
    base: Glaze = A,
    top: Glaze = B,
    coats: Any = (1, 1),
    keep_off: str | None = None,
    reports: Iterable[LabReport] = (),
    **house: Any,
) -> LayeringVerdict:
    return judge_pair(book([entry(base, top, coats, keep_off)], tiles, reports=reports, **house), base.id, top.id)


GOOD = tile("T1", (A, B))


def test_a_looked_over_tile_and_two_labels_that_allow_food_give_labels_allow_with_both_label_lines() -> None:
    found = verdict(GOOD)
    assert food_of(found) == ("LABELS_ALLOW", [("label", "glazes/amber.md:5"), ("label", "glazes/birch.md:5")])
    assert found.deciding_clays == ()


def test_a_glaze_that_says_no_keeps_every_layering_off_food() -> None:
    no = glaze("birch", food_label=FoodLabel.NO)
    assert food_of(verdict(tile("T1", (A, no)), top=no)) == ("KEEP_OFF", [("F1", "glazes/birch.md:5")])
    under = verdict(tile("T1", (no, A)), base=no, top=A)
    assert food_of(under) == ("KEEP_OFF", [("F1", "glazes/birch.md:5")])


@pytest.mark.parametrize("label", [FoodLabel.CONDITIONAL, FoodLabel.NOT_STATED, NOT_KNOWN])
def test_a_label_that_does_not_say_yes_is_not_known(label: object) -> None:
    other = glaze("birch", food_label=label)
    assert food_of(verdict(tile("T1", (A, other)), top=other)) == ("NOT_KNOWN", [("F5", "glazes/birch.md:5")])


@pytest.mark.parametrize(("clean", "level"), [(0, "KEEP_OFF"), (4, "KEEP_OFF"), (5, "NOT_KNOWN")])
def test_one_faulty_tile_in_five_keeps_off_and_fewer_is_not_known(clean: int, level: str) -> None:
    tiles = [tile("T9", (A, B), faults=PINHOLES), *(tile(f"T{n}", (A, B)) for n in range(1, clean + 1))]
    assert food_of(verdict(*tiles)) == (level, [("F2", ROW(10))])


def test_each_faulty_tile_is_a_reason_and_the_count_is_said() -> None:
    found = verdict(tile("T1", (A, B), faults=PINHOLES), tile("T2", (A, B), faults=CRAWLING), GOOD_3)
    assert food_of(found) == ("KEEP_OFF", [("F2", ROW(2)), ("F2", ROW(3))])
    assert dict(found.food.reasons[1].facts) == {"tile": "T2", "faults": ("crawling",), "count": 2, "looked": 3}


GOOD_3 = tile("T3", (A, B))


def test_a_fault_on_a_row_that_names_no_firing_counts_and_a_clean_unfired_row_does_not() -> None:
    unfired = tile("T5", (A, B), firing=None, faults=PINHOLES)
    clean = [tile(f"T{n}", (A, B), firing=None) for n in (6, 7, 8)]
    assert food_of(verdict(GOOD, unfired, *clean)) == ("KEEP_OFF", [("F2", ROW(6))])
    looked = [tile(f"T{n}", (A, B)) for n in range(10, 14)]
    assert dict(verdict(GOOD, unfired, *looked).food.reasons[0].facts)["looked"] == 6


def test_a_fault_at_other_coats_or_in_the_other_order_says_nothing_of_these() -> None:
    others = tile("T5", (A, B), (2, 1), faults=PINHOLES), tile("T6", (B, A), faults=PINHOLES)
    assert verdict(GOOD, *others).food.level is FoodLevel.LABELS_ALLOW


def test_a_fault_fired_far_too_hot_on_another_clay_still_counts() -> None:
    hot = firing("f09", "8", witness={"middle": "8"})
    found = verdict(GOOD, tile("T5", (A, B), clay=RED, firing=hot, faults=PINHOLES))
    assert food_of(found) == ("KEEP_OFF", [("F2", ROW(6))])
    assert [each.id for each in found.deciding_clays] == ["river-red"]


def test_an_exceeding_report_keeps_off_whatever_its_coats_clay_and_cone_but_only_in_its_order() -> None:
    over = report((A, B), (3, 3), clay=None, at_cone=NOT_KNOWN, lead=("2.1",), cadmium=("0.6",))
    found = verdict(GOOD, reports=[over])
    assert food_of(found) == ("KEEP_OFF", [("F3", "lab/leach-1.md:8"), ("F3", "lab/leach-1.md:9")])
    other_order = report((B, A), lead=("2.1",))
    alone = report((A,), lead=("2.1",), id_="leach-2")
    assert verdict(GOOD, reports=[other_order, alone]).food.level is FoodLevel.LABELS_ALLOW


@pytest.mark.parametrize("why", ["smells odd", ""])
def test_an_entry_may_keep_its_layering_off_food_for_a_reason_or_a_blank_one(why: str) -> None:
    assert food_of(verdict(GOOD, keep_off=why)) == ("KEEP_OFF", [("F4", "combinations/birch-over-amber.md:5")])


def test_more_coats_than_a_label_allows_is_not_known_and_exactly_as_many_are_fine() -> None:
    thin = glaze("birch", coats=CoatRange(1, 2))
    two, three = tile("T1", (A, thin), (1, 2)), tile("T2", (A, thin), (1, 3))
    assert verdict(two, top=thin, coats=(1, 2), most_coats=4).food.level is FoodLevel.LABELS_ALLOW
    over = verdict(three, top=thin, coats=(1, 3), most_coats=4)
    assert food_of(over) == ("NOT_KNOWN", [("F6", "glazes/birch.md:7")])


def test_fewer_coats_than_the_label_are_asked_about_of_one_glaze_alone_only() -> None:
    thick = glaze("birch", coats=CoatRange(2, 3))
    assert verdict(tile("T1", (A, thick)), top=thick).food.level is FoodLevel.LABELS_ALLOW
    found = judge(book(tiles=[tile("T1", (thick,), (1,))]))[0].glazes["birch"]
    assert [(each.coats, each.food.level.name, rules_at(each.food.reasons)) for each in found.surfaces] == [
        ((1,), "NOT_KNOWN", [("F6", "glazes/birch.md:7")]),
        ((1,), "NOT_KNOWN", [("F6", "glazes/birch.md:7")]),
    ]
    assert found.food.level is FoodLevel.LABELS_ALLOW, "its headline is of the coats that its label says"


def test_label_coats_that_nobody_knows_are_not_known() -> None:
    other = glaze("birch", coats=NOT_KNOWN)
    assert food_of(verdict(tile("T1", (A, other)), top=other)) == ("NOT_KNOWN", [("F6", "glazes/birch.md:7")])
    assert rules_at(judge(book(glazes=[other]))[0].glazes["birch"].food.reasons) == [("F6", "glazes/birch.md:7")]


def test_more_coats_in_all_than_the_house_allows_rest_on_the_coats_line_or_on_the_base_line() -> None:
    found = verdict(tile("T1", (A, B), (2, 2)), coats=(2, 2))
    assert food_of(found) == ("NOT_KNOWN", [("F6", COATS)])
    usual = verdict(tile("T1", (A, B), (2, 2)), coats=None, usual_coats=Coats(2, 2))
    assert food_of(usual) == ("NOT_KNOWN", [("F6", BASE)])
    assert usual.coats == Coats(2, 2)


def test_a_pair_without_an_entry_rests_what_is_absent_on_the_bases_name() -> None:
    found = judge_pair(book(glazes=[A, B]), "amber", "birch")
    assert food_of(found) == ("NOT_KNOWN", [("F7", "glazes/amber.md:2"), ("F8", "glazes/amber.md:2")])
    assert (found.entry, found.coats) == (None, None)


def test_the_studios_cone_outside_a_label_rests_on_that_labels_cone() -> None:
    cool = glaze("birch", cone=cones("4 to 5"))
    found = verdict(tile("T1", (A, cool), shelf=KilnShelf.MIDDLE), top=cool)
    assert food_of(found)[1] == [("F7", COATS), ("F7", "glazes/birch.md:4"), ("F8", COATS)]


def test_a_label_range_that_nobody_knows_lets_no_tile_satisfy_it() -> None:
    other = glaze("birch", cone=NOT_KNOWN)
    found = verdict(tile("T1", (A, other)), top=other)
    assert food_of(found) == ("NOT_KNOWN", [("F7", COATS), ("F7", "glazes/birch.md:4"), ("F8", COATS)])


@pytest.mark.parametrize(
    ("bent", "level"),
    [("4 1/2", "NOT_KNOWN"), ("5", "LABELS_ALLOW"), ("6 1/2", "LABELS_ALLOW"), ("7", "NOT_KNOWN")],
)
def test_a_tile_counts_within_every_label_or_up_to_half_a_cone_hotter_ends_included(bent: str, level: str) -> None:
    found = verdict(tile("T1", (A, B), firing=firing("f09", witness={"middle": bent})))
    expected = [("F7", COATS), ("F8", COATS)] if level == "NOT_KNOWN" else [
        ("label", "glazes/amber.md:5"), ("label", "glazes/birch.md:5")]  # fmt: skip
    assert food_of(found) == (level, expected)


def test_one_and_the_same_tile_must_be_within_every_label() -> None:
    wide = glaze("birch", cone=cones("6 to 8"))
    low, high = firing("f08", witness={"middle": "5"}), firing("f09", witness={"middle": "8"})
    found = verdict(tile("T1", (A, wide), firing=low), tile("T2", (A, wide), firing=high), top=wide)
    assert food_of(found) == ("NOT_KNOWN", [("F7", COATS), ("F8", COATS)])


def test_a_tile_that_nobody_looked_over_leaves_f8_and_an_unfired_one_is_evidence_for_nothing() -> None:
    blank = tile("T1", (A, B), faults=NOT_KNOWN)
    assert food_of(verdict(blank)) == ("NOT_KNOWN", [("F8", COATS)])
    unfired = tile("T1", (A, B), firing=None)
    assert food_of(verdict(unfired)) == ("NOT_KNOWN", [("F7", COATS), ("F8", COATS)])


def test_the_tile_looked_over_must_be_one_that_was_fired_within_the_labels() -> None:
    hot = firing("f09", witness={"middle": "8"})
    found = verdict(tile("T1", (A, B), faults=NOT_KNOWN), tile("T2", (A, B), firing=hot))
    assert food_of(found) == ("NOT_KNOWN", [("F8", COATS)])


def test_all_rules_that_apply_are_listed_worst_first_then_by_rule_then_by_place() -> None:
    bad = glaze("amber", food_label=FoodLabel.NO, coats=NOT_KNOWN)
    open_label = glaze("birch", food_label=FoodLabel.NOT_STATED)
    found = verdict(base=bad, top=open_label, keep_off="smells odd")
    assert food_of(found) == (
        "KEEP_OFF",
        [
            ("F1", "glazes/amber.md:5"),
            ("F4", "combinations/birch-over-amber.md:5"),
            ("F5", "glazes/birch.md:5"),
            ("F6", "glazes/amber.md:7"),
            ("F7", COATS),
            ("F8", COATS),
        ],
    )


def test_a_report_within_its_limits_on_exactly_this_surface_gives_lab_report() -> None:
    found = verdict(GOOD, reports=[report((A, B))])
    assert food_of(found) == ("LAB_REPORT", [("F9", "lab/leach-1.md:2")])
    assert found.food.lab is not None and found.food.lab.id == "leach-1"


@pytest.mark.parametrize(
    "other",
    [
        report((B, A)),
        report((A, B), (1, 2)),
        report((A, B), clay=RED),
        report((A, B), clay=None),
        report((A, B), at_cone="5 1/2"),
        report((A, B), at_cone=NOT_KNOWN),
        report((A, B), cadmium=()),
    ],
    ids=["order", "coats", "clay", "no clay", "cone", "no cone", "no cadmium"],
)
def test_a_report_says_nothing_kind_of_another_surface(other: LabReport) -> None:
    assert verdict(GOOD, reports=[other]).food.level is FoodLevel.LABELS_ALLOW


def test_every_clay_on_which_these_coats_were_fired_needs_its_own_report() -> None:
    red = tile("T2", (A, B), clay=RED)
    on_red = report((A, B), clay=RED, id_="leach-2")
    assert verdict(GOOD, red, reports=[report((A, B))]).food.level is FoodLevel.LABELS_ALLOW
    both = verdict(GOOD, red, reports=[report((A, B)), on_red])
    assert food_of(both) == ("LAB_REPORT", [("F9", "lab/leach-1.md:2"), ("F9", "lab/leach-2.md:2")])
    unknown = tile("T3", (A, B), clay=None)
    assert verdict(GOOD, unknown, reports=[report((A, B))]).food.level is FoodLevel.LABELS_ALLOW


def test_nothing_else_may_apply_beside_a_report_within_its_limits() -> None:
    found = verdict(GOOD, reports=[report((A, B))], keep_off="smells odd")
    assert food_of(found) == ("KEEP_OFF", [("F4", "combinations/birch-over-amber.md:5")])


def test_of_several_reports_one_that_exceeds_decides() -> None:
    over = report((A, B), id_="leach-2", lead=("2.5",))
    assert food_of(verdict(GOOD, reports=[report((A, B)), over])) == ("KEEP_OFF", [("F3", "lab/leach-2.md:8")])


@pytest.mark.parametrize(
    ("rule", "pair", "alone", "tested"),
    [
        (FoodRule.ONE_GLAZE_ALONE, False, True, True),
        (FoodRule.LABELS, True, True, True),
        (FoodRule.LAB_REPORTS_ONLY, False, False, True),
        (FoodRule.NEVER, False, False, False),
    ],
)
def test_the_house_rule_decides_what_may_go_inside(rule: FoodRule, pair: bool, alone: bool, tested: bool) -> None:
    one = book([entry(A, B)], [GOOD], food_rule=rule)
    with_report = book([entry(A, B)], [GOOD], reports=[report((A, B))], food_rule=rule)
    assert judge_pair(one, "amber", "birch").food.food_ware is pair
    assert judge(one)[0].glazes["amber"].food.food_ware is alone
    assert judge_pair(with_report, "amber", "birch").food.food_ware is tested


def test_without_suggested_coats_the_worst_count_that_a_tile_names_decides_with_the_reasons_of_every_count_at_it() -> (
    None
):
    tiles = (
        GOOD,
        tile("T2", (A, B), (2, 1), faults=PINHOLES),
        tile("T3", (A, B), (1, 2), faults=CRAWLING, firing=None),
        tile("T4", (A, B), (3, 3), firing=None),
    )
    assert food_of(verdict(*tiles, coats=None)) == ("KEEP_OFF", [
        ("F2", ROW(3)), ("F2", ROW(4)), ("F7", BASE), ("F8", BASE)])  # fmt: skip


def test_without_coats_and_tiles_f7_and_f8_apply_and_f6_is_not_asked() -> None:
    other = glaze("birch", coats=NOT_KNOWN)
    assert food_of(verdict(top=other, coats=None)) == ("NOT_KNOWN", [("F7", BASE), ("F8", BASE)])


def test_each_coat_count_and_each_clay_has_its_own_verdict() -> None:
    found = verdict(GOOD, tile("T2", (A, B), clay=RED, faults=PINHOLES), tile("T3", (A, B), (2, 1)), coats=(2, 1))
    shown = [(each.coats, each.clay.id if each.clay else None, each.food.level.name) for each in found.surfaces]
    assert shown == [
        ((1, 1), None, "KEEP_OFF"),
        ((1, 1), "bank-white", "LABELS_ALLOW"),
        ((1, 1), "river-red", "KEEP_OFF"),
        ((2, 1), None, "LABELS_ALLOW"),
        ((2, 1), "bank-white", "LABELS_ALLOW"),
        ((2, 1), "river-red", "NOT_KNOWN"),
    ]
    assert found.food.level is FoodLevel.LABELS_ALLOW


def test_one_glaze_used_as_its_label_says_needs_no_tile_but_its_faulty_tile_lowers_it() -> None:
    assert judge(book(glazes=[A]))[0].glazes["amber"].food.level is FoodLevel.LABELS_ALLOW
    found = judge(book(tiles=[tile("T1", (A,), (3,), faults=PINHOLES)]))[0].glazes["amber"]
    assert (found.food.level, rules_at(found.food.reasons)) == (FoodLevel.KEEP_OFF, [("F2", ROW(2))])


def test_one_glaze_has_a_lab_report_only_where_every_count_of_its_label_has() -> None:
    one = glaze("amber", coats=CoatRange(2, 2))
    two = glaze("amber", coats=CoatRange(1, 2))
    tests = {"one": [report((one,), (2,))], "two": [report((two,), (2,))]}
    assert judge(book(reports=tests["one"]))[0].glazes["amber"].food.level is FoodLevel.LAB_REPORT
    assert judge(book(reports=tests["two"]))[0].glazes["amber"].food.level is FoodLevel.LABELS_ALLOW


def test_every_entry_its_reverse_and_every_pair_with_a_tile_are_judged() -> None:
    c = glaze("cedar", flow=Flow.MOVES)
    judged, problems = judge(book([entry(A, B)], [tile("T1", (c, A), firing=FIRINGS["f02"])]))
    assert list(judged.layerings) == [("amber", "birch"), ("birch", "amber"), ("cedar", "amber")]
    assert judged.layerings["birch", "amber"].entry is None
    assert WHITE.id in {each.clay.id for each in judged.layerings["cedar", "amber"].surfaces if each.clay}
    assert problems == ()


def test_one_line_is_said_once_however_many_coat_counts_rest_on_it() -> None:
    thin = glaze("birch", coats=CoatRange(1, 1))
    found = verdict(tile("T1", (A, thin), (1, 2)), tile("T2", (A, thin), (1, 3)), top=thin, coats=None, most_coats=2)
    assert food_of(found) == ("NOT_KNOWN", [("F6", BASE), ("F6", "glazes/birch.md:7")])
