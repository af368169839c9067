"""What a lab report does to the verdict it stands beside, and why, in sentences of the page."""

from __future__ import annotations

from typing import Any

import pytest

from combobook.entries import NOT_KNOWN, Limits, Ware
from combobook.judge import judge, judge_pair
from combobook.judge.lab import finding
from combobook.leach import further_reading, leach_limits
from combobook.measures import CoatRange
from combobook.theme import load_theme
from combobook.verdicts import GlazeVerdict, LayeringVerdict
from combobook.wording import Words
from tests.judge.building import RED, WHITE, book, entry, glaze, report, tile

A, B = glaze("amber"), glaze("birch")
_STUDIO = book().studio
_THEME, _ = load_theme("daylight", "en", _STUDIO.theme.place, _STUDIO.language.place)
assert _THEME is not None
WORDS = Words(_THEME.table, _STUDIO.units.value)
LIFTS_NOTHING = "So it lifts nothing here."


def pair(*reports: Any, tiles: Any = None, keep_off: str | None = None) -> LayeringVerdict:
    rows = [tile("T1", (A, B))] if tiles is None else tiles
    return judge_pair(book([entry(A, B, keep_off=keep_off)], rows, reports=reports), "amber", "birch")


def said(verdict: LayeringVerdict | GlazeVerdict, number: int = 0) -> list[str]:
    return [WORDS(f"lab.counts.{key}", **dict(facts)) for key, facts in verdict.findings[number].counts]


def test_a_report_within_its_limits_on_the_surface_judged_counts() -> None:
    found = pair(report((A, B)))
    assert found.food.level.name == "LAB_REPORT"
    assert said(found) == ["It was made on exactly the surface judged here, so it counts."]


def test_one_that_exceeds_counts_against_whatever_its_surface() -> None:
    found = pair(report((A, B), (3, 3), clay=RED, at_cone="5", lead=("9",)))
    assert found.food.level.name == "KEEP_OFF"
    assert said(found) == ["It counts against these glazes in this order, whatever their coats, clay or cone."]
    alone = judge(book(glazes=(A,), reports=(report((A,), lead=("9",)),)))[0].glazes["amber"]
    assert said(alone) == ["It counts against this glaze, whatever its coats, clay or cone."]


def test_one_that_cannot_be_judged_counts_neither_for_nor_against() -> None:
    found = pair(report((A, B), lead=()))
    assert found.food.level.name == "LABELS_ALLOW"
    assert said(found) == ["So it counts neither for nor against."]


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"coats": (2, 1)}, "The coats tested are not the ones judged here."),
        ({"coats": NOT_KNOWN}, "The report does not say how many coats were tested."),
        ({"clay": None}, "The report does not say on which clay."),
        ({"at_cone": NOT_KNOWN}, "The report does not say to which cone."),
        ({"at_cone": "5 1/2"}, "It was fired to cone 5 1/2; this studio fires to cone 6."),
        ({"clay": RED}, "These coats were also fired on Bank-White, and no report within its limits speaks of that."),
    ],
)
def test_one_on_another_surface_lifts_nothing_and_says_why(changed: dict[str, Any], sentence: str) -> None:
    found = pair(report((A, B), **changed))
    assert found.food.level.name == "LABELS_ALLOW"
    assert said(found) == [sentence, LIFTS_NOTHING]


def test_each_clay_needs_its_own_report_and_a_blank_one_can_have_none() -> None:
    both = [tile("T1", (A, B)), tile("T2", (A, B), clay=RED), tile("T3", (A, B), clay=None)]
    found = pair(report((A, B)), tiles=both)
    assert said(found) == [
        "These coats were also fired on River-Red, and no report within its limits speaks of that.",
        "One tile of these coats does not say its clay, so no report can speak of it.",
        LIFTS_NOTHING,
    ]
    each = pair(report((A, B)), report((A, B), clay=RED, id_="leach-2"), tiles=both[:2])
    assert each.food.level.name == "LAB_REPORT"
    assert said(each, 0) == said(each, 1) == ["It was made on exactly the surface judged here, so it counts."]


def test_what_else_stands_against_the_surface_counts_more() -> None:
    found = pair(report((A, B)), keep_off="smells odd")
    assert said(found) == ["Something else stands against this surface, and that counts more.", LIFTS_NOTHING]


def test_one_glaze_alone_is_judged_for_every_count_of_its_label() -> None:
    two = glaze("amber", coats=CoatRange(1, 2))
    found = judge(book(glazes=(two,), reports=(report((two,), (1,)),)))[0].glazes["amber"]
    assert found.food.level.name == "LABELS_ALLOW"
    assert said(found) == [
        "The label allows other coats too, and no report within its limits speaks of those.",
        LIFTS_NOTHING,
    ]


def test_the_other_order_hears_nothing_of_a_report() -> None:
    found = judge_pair(book([entry(B, A)], [tile("T1", (B, A))], reports=[report((A, B))]), "birch", "amber")
    assert found.findings == () and found.food.level.name == "LABELS_ALLOW"


def test_a_finding_names_the_rows_it_was_held_against_and_where_another_wares_was_taken() -> None:
    found = finding(report((A, B), ware=Ware.CUP_OR_MUG, limits=Limits.FDA))
    assert [(held.row.metal, held.row.category, held.another_ware) for held in found.held_against] == [
        ("lead", "cups and mugs", False),
        ("cadmium", "large hollowware", True),
    ]
    assert finding(report((A, B), ware=Ware.COOKING_WARE, limits=Limits.FDA)).held_against == ()


def test_further_reading_is_every_row_that_nothing_is_judged_by_and_names_no_maker() -> None:
    rows = further_reading()
    assert {row.regime for row in rows} == {"US model code", "ISO", "California Prop 65"}
    assert {row.document[:10] for row in rows if row.regime == "ISO"} == {"ISO 8391-2"}
    used = {
        held.row
        for limits in Limits for ware in Ware
        for held in finding(report((A, B), ware=ware, limits=limits, clay=WHITE)).held_against
    }  # fmt: skip
    assert used | set(rows) == set(leach_limits()) and not used & set(rows)
    assert {row.cited for row in rows if " v. " in row.document} == {"consent judgment"}
