"""The laws of rules.md, section 1, over generated studios: a test for each sentence.

*Improves* is a kinder food level or `food_ware`, a lower class, or a smaller margin, of any layering or glaze.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from combobook.cones import ConeRange
from combobook.entries import NOT_KNOWN, OFF_THE_TILE, DoubtfulRule, Fault, Flow, FoodLabel, FoodRule, Stood
from combobook.judge import judge, judge_pair
from combobook.measures import CoatRange, Span
from combobook.verdicts import FoodLevel, GlazeVerdict, Judged, LayeringVerdict
from tests.judge.building import mm
from tests.laws.sketches import NAMES, Sketch, sketches, tile_specs

law = settings(
    max_examples=80,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large],
)


def judged(sketch: Sketch) -> Judged:
    return judge(sketch.made())[0]


def verdicts(found: Judged) -> dict[Any, GlazeVerdict | LayeringVerdict]:
    return {**found.glazes, **found.layerings}


def improvements(before: Judged, after: Judged) -> list[str]:
    """What got better; empty where the law holds."""
    old, new = verdicts(before), verdicts(after)
    found = []
    for key in old.keys() & new.keys():
        a, b = old[key], new[key]
        better = {
            "level": b.food.level > a.food.level,
            "food ware": b.food.food_ware and not a.food.food_ware,
            "class": b.movement.cls < a.movement.cls,
            "margin": b.movement.margin_mm < a.movement.margin_mm,
        }
        found += [f"{what} of {key}" for what, is_better in better.items() if is_better]
    return found


# -- a pair is never kinder than either of its layers by F1, F5, the upper half of F6 and the studio's cone in F7 ----------
@law
@given(sketches())
def test_a_pair_is_never_kinder_than_either_of_its_layers(sketch: Sketch) -> None:
    found, studio = judged(sketch), sketch.made().studio
    for pair in found.layerings.values():
        for n, glaze in enumerate((pair.base, pair.top)):
            label, range_, coats = glaze.food_label.value, glaze.cone.value, glaze.coats.value
            if label is FoodLabel.NO:
                assert pair.food.level is FoodLevel.KEEP_OFF
            if label is not FoodLabel.YES:
                assert pair.food.level <= FoodLevel.NOT_KNOWN
            if not isinstance(range_, ConeRange) or studio.cone.value not in range_:
                assert pair.food.level <= FoodLevel.NOT_KNOWN
            if pair.coats is not None:
                asked = (pair.coats.base, pair.coats.top)[n]
                if not isinstance(coats, CoatRange) or asked > coats.high:
                    assert pair.food.level <= FoodLevel.NOT_KNOWN


@law
@given(sketches())
def test_a_pair_is_never_of_a_lower_class_than_either_of_its_layers(sketch: Sketch) -> None:
    found = judged(sketch)
    for pair in found.layerings.values():
        for glaze in (pair.base, pair.top):
            assert pair.movement.cls >= found.glazes[glaze.id].movement.cls


# -- a further tile with a fault or a longer run never improves -------------------------------------------------------------
@law
@given(sketches(), tile_specs("T90"))
def test_a_further_tile_with_a_fault_never_improves(sketch: Sketch, spec: dict[str, Any]) -> None:
    further = sketch.and_tile(**spec | {"faults": (Fault.PINHOLES,), "ran": NOT_KNOWN})
    assert improvements(judged(sketch), judged(further)) == []


@law
@given(sketches(), tile_specs("T90"), st.sampled_from([5, "11.3", 60, OFF_THE_TILE]))
def test_a_further_tile_with_a_run_of_the_runniest_class_never_improves(
    sketch: Sketch, spec: dict[str, Any], ran: Any
) -> None:
    further = sketch.and_tile(**spec | {"faults": NOT_KNOWN, "stood": Stood.UPRIGHT, "ran": ran})
    before = judged(sketch)
    old = verdicts(before)
    key = spec["layers"][0] if len(spec["layers"]) == 1 else spec["layers"]
    worst = old[key].movement.worst_run if key in old else None
    if worst is not None and ran is not OFF_THE_TILE:
        assume(mm(ran) > worst)
    assert improvements(before, judged(further)) == []


@law
@given(sketches(), st.data(), st.sampled_from(["0.2", 1, 3, 30]))
def test_a_tile_beside_one_that_ran_less_never_improves(sketch: Sketch, data: st.DataObject, more: Any) -> None:
    # A first measuring tile may release M1 and M2 by their own words; a second one of the same surface releases nothing.
    ran = [spec for spec in sketch.tiles if spec["ran"] is not NOT_KNOWN and spec["ran"] is not OFF_THE_TILE]
    assume(ran)
    spec = data.draw(st.sampled_from(ran))
    further = sketch.and_tile(**spec | {"mark": "T90", "faults": NOT_KNOWN, "ran": str(mm(spec["ran"]) + mm(more))})
    assert improvements(judged(sketch), judged(further)) == []


# -- a good word turned into not known never improves -----------------------------------------------------------------------
def spoiled_tiles(field: str, good: Callable[[dict[str, Any]], bool]) -> Callable[[Sketch], list[Sketch]]:
    def spoiled(sketch: Sketch) -> list[Sketch]:
        return [sketch.with_tile(n, **{field: NOT_KNOWN}) for n, spec in enumerate(sketch.tiles) if good(spec)]

    return spoiled


def spoiled_glazes(field: str, good: Callable[[Any], bool]) -> Callable[[Sketch], list[Sketch]]:
    def spoiled(sketch: Sketch) -> list[Sketch]:
        return [sketch.with_glaze(id_, **{field: NOT_KNOWN}) for id_ in NAMES if good(sketch.glazes[id_][field])]

    return spoiled


def matching_lots(sketch: Sketch) -> list[Sketch]:
    """Each tile's lots that equal their glaze's, blanked one by one."""
    found = []
    for n, spec in enumerate(sketch.tiles):
        for k, id_ in enumerate(spec["layers"]):
            if spec["lots"][k] is not NOT_KNOWN and spec["lots"][k] == sketch.glazes[id_]["lot"]:
                found.append(
                    sketch.with_tile(n, lots=tuple(NOT_KNOWN if i == k else x for i, x in enumerate(spec["lots"])))
                )
    return found


def never_improves(sketch: Sketch, spoiled: Callable[[Sketch], list[Sketch]]) -> None:
    worse = spoiled(sketch)
    assume(worse)
    before = judged(sketch)
    for each in worse:
        assert improvements(before, judged(each)) == []


@law
@given(sketches())
def test_yes_turned_into_not_known_never_improves(sketch: Sketch) -> None:
    never_improves(sketch, spoiled_glazes("food_label", lambda value: value is FoodLabel.YES))


@law
@given(sketches())
def test_no_faults_turned_into_not_looked_over_never_improves(sketch: Sketch) -> None:
    never_improves(sketch, spoiled_tiles("faults", lambda spec: spec["faults"] == ()))


@law
@given(sketches())
def test_no_run_turned_into_not_measured_never_improves(sketch: Sketch) -> None:
    never_improves(sketch, spoiled_tiles("ran", lambda spec: spec["ran"] == 0))


@law
@given(sketches())
def test_stable_turned_into_not_known_never_improves(sketch: Sketch) -> None:
    never_improves(sketch, spoiled_glazes("flow", lambda value: value is Flow.STABLE))


@law
@given(sketches())
def test_label_coats_turned_into_not_known_never_improve(sketch: Sketch) -> None:
    never_improves(sketch, spoiled_glazes("coats", lambda value: isinstance(value, CoatRange)))


@law
@given(sketches())
def test_label_cones_turned_into_not_known_never_improve(sketch: Sketch) -> None:
    never_improves(sketch, spoiled_glazes("cone", lambda value: isinstance(value, ConeRange)))


@law
@given(sketches())
def test_a_matching_lot_turned_into_not_known_never_improves_nor_makes_evidence_stronger(sketch: Sketch) -> None:
    worse = matching_lots(sketch)
    assume(worse)
    before = judged(sketch)
    for each in worse:
        after = judged(each)
        assert improvements(before, after) == []
        assert {k: v.evidence.level for k, v in after.layerings.items()} == {
            k: v.evidence.level for k, v in before.layerings.items()
        }


# -- a stricter house rule never improves -----------------------------------------------------------------------------------
STRICTER = (FoodRule.LABELS, FoodRule.ONE_GLAZE_ALONE, FoodRule.LAB_REPORTS_ONLY, FoodRule.NEVER)


@law
@given(sketches(), st.data())
def test_a_stricter_house_rule_never_improves(sketch: Sketch, data: st.DataObject) -> None:
    house, now = sketch.house, STRICTER.index(sketch.house["food_rule"])
    foot: Span = house["foot_margin"]
    changed = data.draw(
        st.sampled_from(
            [
                {"food_rule": rule} for rule in STRICTER[now + 1 :]
            ] + [
                {"doubtful": DoubtfulRule.NEVER},
                {"most_coats": house["most_coats"] - 1},
                {"lip": mm(30)},
                {"run_factor": house["run_factor"] + Fraction(1, 2)},
                {"foot_margin": Span(foot.low, foot.high + 4)},
                {"foot_margin": Span(foot.low + 2, foot.high)},
                {"rim_band": Span(mm(10), mm(15))},
            ]
        )
    )  # fmt: skip
    assert improvements(judged(sketch), judged(sketch.with_house(**changed))) == []


@law
@given(sketches())
def test_no_place_is_added_where_doubtful_glazes_are_kept_off_food_ware(sketch: Sketch) -> None:
    before = judged(sketch.with_house(doubtful=DoubtfulRule.BELOW_THE_LIP))
    after = judged(sketch.with_house(doubtful=DoubtfulRule.NEVER))
    for key, pair in after.layerings.items():
        for now, then in zip(pair.bands, before.layerings[key].bands, strict=True):
            assert now.none or not then.none


# -- order, unrelated entries and unrelated tiles change nothing --------------------------------------------------------------
def said(found: LayeringVerdict | GlazeVerdict) -> tuple[Any, ...]:
    """A verdict but for which of several equal tiles stands for it."""
    return found.food, replace(found.movement, worst_tile=None), replace(found.evidence, disagreements=(), contrasts=()), found.bands


@law
@given(sketches(), st.randoms(use_true_random=False))
def test_the_order_in_which_things_were_written_changes_nothing(sketch: Sketch, chance: Any) -> None:
    book = sketch.made()

    def mixed(items: Any) -> Any:
        mixed_up = list(items.items() if isinstance(items, dict) else items)
        chance.shuffle(mixed_up)
        return dict(mixed_up) if isinstance(items, dict) else tuple(mixed_up)

    other = replace(
        book,
        glazes=mixed(book.glazes),
        combinations=mixed(book.combinations),
        forms=mixed(book.forms),
        firings=mixed(book.firings),
        reports=mixed(book.reports),
        tiles=mixed(book.tiles),
        tiles_of={layers: mixed(tiles) for layers, tiles in mixed(book.tiles_of).items()},
    )
    (first, problems), (second, other_problems) = judge(book), judge(other)
    assert problems == other_problems
    assert list(first.layerings) == list(second.layerings)
    assert [said(each) for each in verdicts(first).values()] == [said(each) for each in verdicts(second).values()]


@law
@given(sketches(), tile_specs("T90"))
def test_an_unrelated_entry_and_an_unrelated_tile_change_nothing(sketch: Sketch, spec: dict[str, Any]) -> None:
    bad = {"layers": ("dusk", "amber"), "coats": (1, 1), "id_": "leach-9", "clay": "bank-white", "lead": ("99",)}
    stranger = {**sketch.glazes, "dusk": {"food_label": FoodLabel.NO, "flow": Flow.RUNNY}}
    further = replace(
        sketch,
        glazes=stranger,
        entries=(*sketch.entries, ("dusk", "birch", None, "smells odd"), ("cedar", "dusk", (3, 3), None)),
        tiles=(*sketch.tiles, spec | {"layers": ("dusk", "amber"), "coats": (1, 1), "ran": OFF_THE_TILE}),
        reports=(*sketch.reports, bad),
    )
    before, after = verdicts(judged(sketch)), verdicts(judged(further))
    assert {key: after[key] for key in before} == before


@law
@given(sketches())
def test_a_pair_judged_alone_is_judged_as_in_the_whole_book(sketch: Sketch) -> None:
    book = sketch.made()
    for (base, top), pair in judge(book)[0].layerings.items():
        assert judge_pair(book, base, top) == pair
