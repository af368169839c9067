"""Where it may go, rules.md section 3: the four worked values, and each reason for no place."""

from __future__ import annotations

from typing import Any

import pytest

from combobook.entries import (
    NOT_KNOWN,
    OFF_THE_TILE,
    DoubtfulRule,
    Flow,
    FoodLabel,
    FoodRule,
    Glaze,
    GoesOn,
    Inside,
)
from combobook.judge import judge, judge_pair
from combobook.theme import load_theme, themes_folder
from combobook.verdicts import Band
from combobook.wording import Words, no_band_sentence
from tests.judge.building import FIRINGS, book, cones, entry, form, glaze, mm, tile

A, B = glaze("amber"), glaze("birch")
NO = {"food_label": FoodLabel.NO}
MUG = form("mug", 95)


def band(*tiles: Any, base: Glaze = A, top: Glaze = B, on: Any = MUG, **house: Any) -> Band:
    return judge_pair(book([entry(base, top)], tiles, forms=[on], **house), base.id, top.id).bands[0]


def steady(layers: tuple[Glaze, Glaze], ran: int) -> list[Any]:
    return [tile(f"S{n}", layers, firing=FIRINGS[f"f0{n}"], ran=ran) for n in (1, 2, 3)]


def shown(found: Band) -> tuple[int | None, int | None, list[str]]:
    return found.from_mm, found.to_mm, [each.rule for each in found.none]


def says(found: Band) -> str:
    assert themes_folder().is_dir()
    studio = book().studio
    theme, problems = load_theme("daylight", "en", studio.theme.place, studio.language.place)
    assert theme is not None and not problems
    words = Words(theme.table, studio.units.value)
    return " ".join(no_band_sentence(each, words) for each in found.none)


# rules.md, section 3, "Worked": H = 95 mm, lip 20, rim band to 25, `below the lip`
def test_keep_off_and_runny_and_not_steady_leaves_five_millimetres_so_none() -> None:
    runny = glaze("birch", flow=Flow.RUNNY, **NO)
    found = band(*steady((A, runny), 0)[:2], top=runny)
    assert shown(found) == (None, None, ["P1", "P3"])
    assert says(found) == (
        "Food keeps it below 20 mm (13/16 in) from the rim. "
        "It runs, so it stays in the top 25 mm (1 in): 5 mm (3/16 in) is left, 10 mm (3/8 in) is the least."
    )


def test_the_same_when_steady_with_a_worst_run_of_ten_goes_from_20_to_75() -> None:
    runny = glaze("birch", flow=Flow.RUNNY, **NO)
    assert shown(band(*steady((A, runny), 10), top=runny)) == (20, 75, [])


def test_a_worst_run_of_forty_leaves_fifteen_millimetres_of_wall_so_none() -> None:
    runny = glaze("birch", flow=Flow.RUNNY, **NO)
    found = band(*steady((A, runny), 40), top=runny)
    assert (shown(found), found.margin_mm) == ((None, None, ["P1", "P2"]), 80)


def test_keep_off_and_stable_layers_untested_upright_go_from_20_to_31() -> None:
    found = band(top=glaze("birch", **NO))
    assert (shown(found), found.margin_mm, found.third_mm) == ((20, 31, []), 13, 31)


def test_food_ware_may_go_to_the_rim_and_a_form_that_holds_no_food_asks_no_lip() -> None:
    good = tile("T1", (A, B))
    assert shown(band(good)) == (0, 82, [])
    assert shown(band(good, food_rule=FoodRule.NEVER)) == (20, 82, [])
    assert shown(band(good, food_rule=FoodRule.NEVER, on=form("vase", 95, False))) == (0, 82, [])
    assert shown(band(good, food_rule=FoodRule.NEVER, on=form("vase", 95, NOT_KNOWN))) == (20, 82, [])


def test_from_and_margins_round_up_and_to_rounds_down() -> None:
    good = tile("T1", (A, B), ran="6.6")
    found = band(good, food_rule=FoodRule.NEVER, lip=mm("25.4"), on=form("mug", "95.9"))
    assert (found.margin_mm, found.from_mm, found.reach_mm) == (14, None, 25)
    calm = band(tile("T1", (A, B)), food_rule=FoodRule.NEVER, lip=mm("25.4"), on=form("mug", "95.9"))
    assert shown(calm) == (26, 82, [])
    assert shown(band(on=form("mug", "95.9"))) == (20, 31, [])


@pytest.mark.parametrize(("height", "expected"), [(43, (20, 30, [])), ("42.9", (None, None, ["P1", "P2"]))])
def test_ten_millimetres_are_a_band_on_the_rounded_figures(height: Any, expected: Any) -> None:
    assert shown(band(tile("T1", (A, B)), food_rule=FoodRule.NEVER, on=form("cup", height))) == expected


def test_every_side_that_binds_is_named() -> None:
    found = band(top=glaze("birch", **NO), on=form("cup", 30))
    assert shown(found) == (None, None, ["P1", "P4"])
    assert shown(band(on=form("low", 25, False))) == (None, None, ["P4"])
    assert shown(band(tile("T1", (A, B)), on=form("flat", 13, False))) == (None, None, ["P2"])
    assert says(band(tile("T1", (A, B)), on=form("flat", 13, False))) == (
        "It may run so far that 13 mm (1/2 in) above the shelf must stay bare: that is the whole wall."
    )


def test_a_house_that_keeps_doubtful_glazes_off_food_ware_leaves_no_place_on_it() -> None:
    doubtful = glaze("birch", **NO)
    never = {"doubtful": DoubtfulRule.NEVER}
    assert shown(band(tile("T1", (A, doubtful)), top=doubtful, **never)) == (None, None, ["P5"])
    assert shown(band(tile("T1", (A, doubtful)), top=doubtful, on=form("vase", 95, False), **never)) == (0, 82, [])


def test_what_ran_off_has_no_place() -> None:
    ran_off = tile("T1", (A, B), ran=OFF_THE_TILE, faults=NOT_KNOWN)
    found = band(ran_off, on=form("vase", 95, False))
    assert shown(found) == (None, None, ["P6"])
    assert found.inside is True


def test_a_rim_only_base_or_labels_that_share_no_cone_have_no_place_inside_or_out() -> None:
    vase = form("vase", 200, False)
    rim = glaze("amber", goes_on=GoesOn.RIM_ONLY)
    found = band(tile("T1", (rim, B)), base=rim, on=vase)
    assert (shown(found), found.inside) == ((None, None, ["P7"]), False)
    cool = glaze("birch", cone=cones("06 to 04"))
    assert shown(band(tile("T1", (A, cool)), top=cool, on=vase)) == (None, None, ["P7"])
    unknown = glaze("birch", cone=NOT_KNOWN)
    assert shown(band(tile("T1", (A, unknown)), top=unknown, on=vase)) == (0, 187, [])


def test_a_plate_is_answered_for_its_inside_only() -> None:
    plate = form("plate", 25, True, Inside.OPEN)
    found = band(tile("T1", (A, B)), on=plate)
    assert (shown(found), found.inside) == ((None, None, ["P8"]), True)
    assert band(on=plate).inside is False


@pytest.mark.parametrize(
    ("inside", "holds_food", "allowed", "expected"),
    [
        (Inside.NONE, True, True, None),
        (Inside.NONE, False, False, None),
        (Inside.HOLLOW, True, True, True),
        (Inside.HOLLOW, True, False, False),
        (Inside.HOLLOW, False, False, True),
        (Inside.HOLLOW, NOT_KNOWN, False, False),
        (NOT_KNOWN, False, False, True),
    ],
)
def test_inside(inside: Any, holds_food: Any, allowed: bool, expected: bool | None) -> None:
    rule = FoodRule.LABELS if allowed else FoodRule.NEVER
    assert band(tile("T1", (A, B)), on=form("pot", 95, holds_food, inside), food_rule=rule).inside is expected


def test_a_top_with_a_reach_goes_inside_only_in_the_same_band() -> None:
    rim = glaze("birch", goes_on=GoesOn.RIM_ONLY)
    found = band(tile("T1", (A, rim)), top=rim)
    assert (found.inside, found.inside_to_mm, found.to_mm) == (True, 25, 25)


def test_without_a_height_there_is_no_place_but_an_answer_for_the_inside() -> None:
    found = band(tile("T1", (A, B)), on=form("bowl", NOT_KNOWN))
    assert (shown(found), found.inside) == ((None, None, ["height"]), True)


def test_the_bases_own_band_is_of_that_glaze_alone_and_places_stand_by_file_name() -> None:
    top = glaze("birch", flow=Flow.RUNNY, **NO)
    found = judge_pair(book([entry(A, top)], forms=[form("vase", 200, False), MUG]), "amber", "birch").bands
    assert [each.form.id for each in found] == ["mug", "vase"]
    assert (found[0].base_from_mm, found[0].base_to_mm) == (0, 89)
    own = judge(book(glazes=[A], forms=[MUG]))[0].glazes["amber"].bands[0]
    assert shown(own) == (0, 89, [])
