"""Laws of lab reports over generated studios and reports: what they lift, lower and never touch, under each regime."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from combobook.entries import NOT_KNOWN, Limits, Ware
from combobook.judge.lab import CANNOT_BE_JUDGED, EXCEEDS, WITHIN, finding
from combobook.judge.limits import limit
from combobook.measures import Reading
from combobook.verdicts import Band, FoodLevel, GlazeVerdict, LabFinding, LayeringVerdict
from tests.judge.building import glaze, report
from tests.laws.sketches import Sketch, report_specs, sketches
from tests.laws.test_laws import improvements, judged, law, verdicts
from tests.reference.second_reading import judge_report

A, B = glaze("amber"), glaze("birch")
METALS = ("lead", "cadmium")
WORST = {"limits": Limits.CANADA, "ware": Ware.SMALL_HOLLOWWARE, "lead": ("2.1",), "cadmium": ("0.1",)}
BEST = {"limits": Limits.CANADA, "ware": Ware.SMALL_HOLLOWWARE, "lead": ("0.1",), "cadmium": ("0.1",)}
AMOUNTS = (
    "0.01", "0.05", "0.07", "0.1", "0.11", "0.25", "0.26", "0.3", "0.45", "0.46", "0.5", "0.51", "0.8", "1", "1.1",
    "1.2", "1.5", "2", "2.25", "2.3", "3", "3.1", "4", "4.1", "6", "6.1", "18.1",
)  # fmt: skip


def and_report(sketch: Sketch, spec: dict[str, Any]) -> Sketch:
    return replace(sketch, reports=(*sketch.reports, spec))


def with_report(sketch: Sketch, number: int, **changed: Any) -> Sketch:
    reports = list(sketch.reports)
    reports[number] = reports[number] | changed
    return replace(sketch, reports=tuple(reports))


@st.composite
def pieces(draw: st.DrawFn, unit: str) -> tuple[str, ...]:
    if draw(st.booleans()):
        # Six clean pieces, else hardly a report would be within.
        return (*(f"0.01 {unit}" for _ in range(5)), f"{draw(st.sampled_from(AMOUNTS[:4]))} {unit}")
    amounts = st.tuples(st.sampled_from(("", "", "", "<")), st.sampled_from(AMOUNTS))
    return tuple(f"{sign}{amount} {unit}" for sign, amount in draw(st.lists(amounts, max_size=8)))


@st.composite
def reports(draw: st.DrawFn, limits: Limits) -> Any:
    ware, units = draw(st.sampled_from(list(Ware))), {}
    for metal in METALS:
        row = limit(limits, ware, metal)
        own = row.unit if row else "mg/L"
        units[metal] = draw(st.sampled_from([own] * 5 + ["mg/dm2" if own == "mg/L" else "mg/L"]))
    readings = {metal: draw(pieces(units[metal])) for metal in METALS}
    return report((A, B), ware=ware, limits=limits, **readings)


# -- each regime, its categories, units and bases -----------------------------------------------------------------------------
@pytest.mark.parametrize("limits", Limits)
@law
@given(data=st.data())
def test_two_readings_of_each_regime_agree_on_every_report(limits: Limits, data: st.DataObject) -> None:
    found = data.draw(reports(limits))
    first, second = finding(found), judge_report(found)
    assert (first.outcome.replace(CANNOT_BE_JUDGED, "open"), list(first.exceeding)) == second


@pytest.mark.parametrize("limits", Limits)
@law
@given(data=st.data())
def test_a_higher_reading_never_improves_a_report(limits: Limits, data: st.DataObject) -> None:
    # A reading marked as less than is left out: above the limit it cannot be judged, by the rules' own words.
    before = data.draw(reports(limits))
    metal = data.draw(st.sampled_from(METALS))
    written = getattr(before, metal)
    plain = [n for n, piece in enumerate(written.value) if not piece.below]
    assume(plain)
    n = data.draw(st.sampled_from(plain))
    more = replace(written.value[n], amount=written.value[n].amount * data.draw(st.sampled_from([2, 5, 100])))
    after = replace(
        before, **{metal: replace(written, value=(*written.value[:n], more, *written.value[n + 1 :]))}
    )
    order = (EXCEEDS, CANNOT_BE_JUDGED, WITHIN)
    assert order.index(finding(after).outcome) <= order.index(finding(before).outcome)


@pytest.mark.parametrize("limits", Limits)
@law
@given(data=st.data())
def test_within_needs_both_metals_in_the_rows_unit_a_published_limit_and_for_the_fda_six_pieces(
    limits: Limits, data: st.DataObject
) -> None:
    found = data.draw(reports(limits))
    assume(finding(found).outcome == WITHIN)
    for metal in METALS:
        row, read = limit(limits, found.ware.value, metal), getattr(found, metal).value
        assert row is not None and not row.from_memory
        assert read and {piece.unit for piece in read} == {row.unit}
        assert len(read) >= (6 if limits is Limits.FDA else 1)
        assert not any(piece.below and piece.amount > row.amount for piece in read)
        assert min(piece.amount for piece in read) <= row.amount


@pytest.mark.parametrize("limits", Limits)
@law
@given(data=st.data())
def test_a_reading_in_the_other_unit_is_held_against_nothing(limits: Limits, data: st.DataObject) -> None:
    before = data.draw(reports(limits))
    after = before
    for metal in METALS:
        row = limit(limits, before.ware.value, metal)
        other = "mg/dm2" if row is None or row.unit == "mg/L" else "mg/L"
        written = getattr(before, metal)
        moved: tuple[Reading, ...] = tuple(replace(piece, unit=other) for piece in written.value)
        after = replace(after, **{metal: replace(written, value=moved)})
    assert finding(after).outcome == CANNOT_BE_JUDGED


def places(found: LayeringVerdict | GlazeVerdict) -> list[Band]:
    """Where the top may go; the first glaze's own band, which is of that glaze alone, left out."""
    return [replace(band, base_from_mm=0, base_to_mm=None) for band in found.bands]


# -- what a report does to verdicts ------------------------------------------------------------------------------------------
@law
@given(sketches(), report_specs(9))
def test_a_further_report_that_exceeds_never_improves_and_keeps_its_layers_off_food(
    sketch: Sketch, spec: dict[str, Any]
) -> None:
    after = judged(and_report(sketch, spec | WORST))
    assert improvements(judged(sketch), after) == []
    key = spec["layers"][0] if len(spec["layers"]) == 1 else spec["layers"]
    assert verdicts(after)[key].food.level is FoodLevel.KEEP_OFF


@law
@given(sketches(), report_specs(9))
def test_a_further_report_touches_nothing_but_the_food_of_its_own_layers_in_their_order(
    sketch: Sketch, spec: dict[str, Any]
) -> None:
    before, after = verdicts(judged(sketch)), verdicts(judged(and_report(sketch, spec)))
    own = spec["layers"][0] if len(spec["layers"]) == 1 else spec["layers"]
    for key in before:
        assert replace(after[key].movement, worst_tile=None) == replace(before[key].movement, worst_tile=None)
        assert after[key].evidence == before[key].evidence
        if key != own:
            assert after[key].food == before[key].food
            assert places(after[key]) == places(before[key])


@law
@given(
    sketches(),
    report_specs(9),
    st.sampled_from(
        [{"at_cone": "5 1/2"}, {"at_cone": NOT_KNOWN}, {"clay": ""}, {"coats": NOT_KNOWN}, {"coats": 9}, {"lead": ()}]
    ),
)
def test_a_report_that_does_not_match_exactly_never_lifts(
    sketch: Sketch, spec: dict[str, Any], off: dict[str, Any]
) -> None:
    if off.get("coats") == 9:
        off = {"coats": tuple(9 for _ in spec["layers"])}
    further = and_report(sketch, spec | BEST | off)
    assert improvements(judged(sketch), judged(further)) == []


@law
@given(sketches(), report_specs(9), st.sampled_from([Ware.CUP_OR_MUG, Ware.COOKING_WARE, Ware.STORAGE_WARE]))
def test_a_report_against_a_limit_from_memory_never_lifts(sketch: Sketch, spec: dict[str, Any], ware: Ware) -> None:
    clean = {"limits": Limits.ISO, "ware": ware, "lead": ("0.01",) * 6, "cadmium": ("0.01",) * 6}
    assert improvements(judged(sketch), judged(and_report(sketch, spec | clean))) == []


@law
@given(sketches())
def test_a_reports_good_word_turned_into_not_known_never_improves(sketch: Sketch) -> None:
    within = [n for n, each in enumerate(sketch.made().reports) if finding(each).outcome == WITHIN]
    assume(within)
    before = judged(sketch)
    for n in within:
        for blank in ({"coats": NOT_KNOWN}, {"clay": ""}, {"at_cone": NOT_KNOWN}, {"lead": ()}, {"cadmium": ()}):
            assert improvements(before, judged(with_report(sketch, n, **blank))) == []


@law
@given(sketches())
def test_a_lab_report_is_the_verdict_only_where_every_clay_has_its_own_and_none_exceeds(sketch: Sketch) -> None:
    book, found = sketch.made(), judged(sketch)
    for pair in found.layerings.values():
        if pair.food.level is not FoodLevel.LAB_REPORT:
            continue
        outcomes: list[LabFinding] = [finding(each) for each in book.reports if each.layers == (pair.base, pair.top)]
        assert pair.coats is not None or pair.tiles
        assert EXCEEDS not in {each.outcome for each in outcomes}
        asked = {t.coats for t in pair.tiles if t.fired} if pair.coats is None else {(pair.coats.base, pair.coats.top)}
        for coats in asked:
            clays = {t.clay for t in pair.tiles if t.fired and t.coats == coats}
            lifted = {
                each.report.clay for each in outcomes
                if each.outcome == WITHIN and each.report.coats == coats and each.report.cone == book.studio.cone.value
            }  # fmt: skip
            assert lifted and clays <= lifted and None not in clays


# -- an entry, and house rules about reports ----------------------------------------------------------------------------------
@law
@given(sketches(), st.integers(0, 2))
def test_an_entry_that_keeps_its_layering_off_food_never_improves_whatever_a_report_says(
    sketch: Sketch, which: int
) -> None:
    assume(which < len(sketch.entries) and sketch.entries[which][3] is None)
    base, top, coats, _ = sketch.entries[which]
    entries = list(sketch.entries)
    entries[which] = (base, top, coats, "smells odd")
    after = judged(replace(sketch, entries=tuple(entries)))
    assert improvements(judged(sketch), after) == []
    assert after.layerings[base, top].food.level is FoodLevel.KEEP_OFF
