"""Lab reports, rules.md: each regime's rows and sub-clauses. Every limit is cited from tests/published/leach_limits.csv."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from combobook.entries import Limits, Ware
from combobook.judge import judge, judge_pair
from combobook.judge.lab import finding
from combobook.judge.limits import limit
from tests.judge.building import book, entry, food_of, glaze, report, tile

A, B = glaze("amber"), glaze("birch")
FIGURES = Path(__file__).parents[1] / "published" / "leach_limits.csv"
PUBLISHED = list(csv.DictReader(FIGURES.read_text(encoding="utf-8").splitlines()))
SIX = ("0.1",) * 6
CLEAN = ("0.01",) * 6


def outcome(ware: Ware, limits: Limits, lead: tuple[str, ...], cadmium: tuple[str, ...] = CLEAN) -> tuple[str, str]:
    found = finding(report((A, B), ware=ware, limits=limits, lead=lead, cadmium=cadmium))
    return found.outcome, found.wording


# Sources: US FDA CPG 545.400 (Cd) and 545.450 (Pb); Canada SOR/2016-175; Directive 84/500/EEC as amended by 2005/31/EC;
# ISO 6486-2:1999 (cups and mugs, cooking and storage ware there are from memory and no oracle).
LIMITS = [
    (Limits.FDA, Ware.FLATWARE, "3.0", "0.5", "mg/L"),
    (Limits.FDA, Ware.SMALL_HOLLOWWARE, "2.0", "0.5", "mg/L"),
    (Limits.FDA, Ware.LARGE_HOLLOWWARE, "1.0", "0.25", "mg/L"),
    (Limits.FDA, Ware.CUP_OR_MUG, "0.5", "0.25", "mg/L"),
    (Limits.FDA, Ware.PITCHER, "0.5", "0.25", "mg/L"),
    (Limits.CANADA, Ware.FLATWARE, "3.0", "0.5", "mg/L"),
    (Limits.CANADA, Ware.SMALL_HOLLOWWARE, "2.0", "0.5", "mg/L"),
    (Limits.CANADA, Ware.LARGE_HOLLOWWARE, "1.0", "0.25", "mg/L"),
    (Limits.CANADA, Ware.CUP_OR_MUG, "0.5", "0.5", "mg/L"),
    (Limits.CANADA, Ware.PITCHER, "0.5", "0.25", "mg/L"),
    (Limits.EU, Ware.FLATWARE, "0.8", "0.07", "mg/dm2"),
    (Limits.EU, Ware.SMALL_HOLLOWWARE, "4.0", "0.3", "mg/L"),
    (Limits.EU, Ware.LARGE_HOLLOWWARE, "4.0", "0.3", "mg/L"),
    (Limits.EU, Ware.CUP_OR_MUG, "4.0", "0.3", "mg/L"),
    (Limits.EU, Ware.PITCHER, "4.0", "0.3", "mg/L"),
    (Limits.EU, Ware.COOKING_WARE, "1.5", "0.1", "mg/L"),
    (Limits.EU, Ware.STORAGE_WARE, "1.5", "0.1", "mg/L"),
    (Limits.ISO, Ware.FLATWARE, "0.8", "0.07", "mg/dm2"),
    (Limits.ISO, Ware.SMALL_HOLLOWWARE, "2.0", "0.5", "mg/L"),
    (Limits.ISO, Ware.LARGE_HOLLOWWARE, "1.0", "0.25", "mg/L"),
    (Limits.ISO, Ware.PITCHER, "1.0", "0.25", "mg/L"),
]


@pytest.mark.parametrize(("limits", "ware", "lead", "cadmium", "unit"), LIMITS)
def test_each_ware_takes_its_published_limits(limits: Limits, ware: Ware, lead: str, cadmium: str, unit: str) -> None:
    found = [limit(limits, ware, metal) for metal in ("lead", "cadmium")]
    assert [(each.amount, each.unit, each.from_memory) for each in found if each] == [
        (Fraction(lead), unit, False), (Fraction(cadmium), unit, False)]  # fmt: skip


def test_every_row_of_the_four_regimes_is_used_and_no_other() -> None:
    rows = [
        row for row in PUBLISHED if row["regime"] in ("US FDA", "Canada", "EU") or row["document"] == "ISO 6486-2:1999"
    ]
    amounts = {
        (limits, found.amount, found.from_memory)
        for limits in Limits for ware in Ware for metal in ("lead", "cadmium")
        if (found := limit(limits, ware, metal))
    }  # fmt: skip
    names = {"US FDA": Limits.FDA, "Canada": Limits.CANADA, "EU": Limits.EU, "ISO": Limits.ISO}
    assert amounts == {(names[row["regime"]], Fraction(row["limit"]), row["status"] == "from memory") for row in rows}


@pytest.mark.parametrize("limits", [Limits.FDA, Limits.CANADA])
@pytest.mark.parametrize("ware", [Ware.COOKING_WARE, Ware.STORAGE_WARE])
def test_a_ware_without_a_row_cannot_be_judged_however_much_leaches(limits: Limits, ware: Ware) -> None:
    assert outcome(ware, limits, ("90",) * 6) == ("cannot be judged", "no_row")


@pytest.mark.parametrize(
    ("lead", "expected"),
    [
        (("3",) * 6, ("within", "within")),
        (("9", "9", "0", "0", "0", "0"), ("within", "within")),
        (("9", "9.1", "0", "0", "0", "0"), ("exceeds", "exceeds")),
        (("18.1",), ("exceeds", "exceeds")),
        (("18",), ("cannot be judged", "too_few")),
        (("0.1",) * 5, ("cannot be judged", "too_few")),
        (("<3",) * 6, ("within", "within")),
        (("<4", *("0.1",) * 5), ("cannot be judged", "below_too_coarse")),
        (("<4", "18.1"), ("exceeds", "exceeds")),
    ],
)
def test_fda_flatware_is_judged_on_the_average_of_six(lead: tuple[str, ...], expected: tuple[str, str]) -> None:
    assert outcome(Ware.FLATWARE, Limits.FDA, lead) == expected


@pytest.mark.parametrize(
    ("lead", "expected"),
    [
        (("0.5",) * 6, ("within", "within")),
        (("0.51",), ("exceeds", "exceeds")),
        (("0.51", *SIX), ("exceeds", "exceeds")),
        (("0.1",) * 5, ("cannot be judged", "too_few")),
        (("<0.6", *("0.1",) * 5), ("cannot be judged", "below_too_coarse")),
        ((), ("cannot be judged", "no_readings")),
    ],
)
def test_fda_cups_are_judged_on_any_one_of_six(lead: tuple[str, ...], expected: tuple[str, str]) -> None:
    assert outcome(Ware.CUP_OR_MUG, Limits.FDA, lead) == expected


def test_fda_cadmium_in_a_cup_takes_the_stricter_hollowware_row() -> None:
    assert outcome(Ware.CUP_OR_MUG, Limits.FDA, SIX, ("0.25",) * 6) == ("within", "within")
    assert outcome(Ware.CUP_OR_MUG, Limits.FDA, SIX, ("0.26",)) == ("exceeds", "exceeds")


@pytest.mark.parametrize(
    ("lead", "expected"),
    [(("2",), "within"), (("2.01",), "exceeds"), (("<2.1",), "cannot be judged"), (("<2.1", "2.2"), "exceeds")],
)
def test_canada_asks_that_no_piece_is_over(lead: tuple[str, ...], expected: str) -> None:
    assert outcome(Ware.SMALL_HOLLOWWARE, Limits.CANADA, lead)[0] == expected


@pytest.mark.parametrize(
    ("lead", "expected"),
    [
        (("4",), "within"),
        (("4.1",), "exceeds"),
        (("6", "4", "4"), "exceeds"),
        (("6", "4", "4", "4"), "within"),
        (("6.1", "0", "0", "0"), "exceeds"),
        (("4.1", "4.1", "0", "0"), "exceeds"),
        (("4.1", "<5", "0", "0"), "exceeds"),
        (("<5", "0", "0", "0"), "cannot be judged"),
    ],
)
def test_the_eu_lets_one_of_four_pieces_over_by_half(lead: tuple[str, ...], expected: str) -> None:
    # Directive 84/500/EEC, Art. 2(5); with a further piece that may be over too, the exception is not shown.
    assert outcome(Ware.CUP_OR_MUG, Limits.EU, lead)[0] == expected


def test_iso_flatware_is_judged_on_the_mean_and_other_ware_on_every_specimen() -> None:
    flat = ("1.2 mg/dm2", "0.4 mg/dm2")
    clean = ("0.01 mg/dm2",)
    assert outcome(Ware.FLATWARE, Limits.ISO, flat, clean)[0] == "within"
    assert outcome(Ware.FLATWARE, Limits.ISO, (*flat, "0.9 mg/dm2"), clean)[0] == "exceeds"
    assert outcome(Ware.LARGE_HOLLOWWARE, Limits.ISO, ("1.1", "0.1"))[0] == "exceeds"


def test_milligrams_a_litre_and_a_square_decimetre_are_never_compared() -> None:
    assert outcome(Ware.FLATWARE, Limits.EU, ("90 mg/L",), ("0.01 mg/dm2",)) == ("cannot be judged", "other_unit")
    assert outcome(Ware.CUP_OR_MUG, Limits.EU, ("90 mg/dm2",), ("0.01",)) == ("cannot be judged", "other_unit")


def test_a_limit_from_memory_can_exceed_marked_unverified_and_never_lifts() -> None:
    assert outcome(Ware.CUP_OR_MUG, Limits.ISO, ("0.1",)) == ("cannot be judged", "from_memory")
    over = finding(report((A, B), ware=Ware.CUP_OR_MUG, limits=Limits.ISO, lead=("0.51",)))
    assert (over.outcome, over.exceeding, over.unverified) == ("exceeds", ("lead",), True)
    found = judge_pair(book([entry(A, B)], [tile("T1", (A, B))], reports=[over.report]), "amber", "birch")
    assert food_of(found) == ("KEEP_OFF", [("F3", "lab/leach-1.md:8")])
    assert found.food.reasons[0].wording == "lab_exceeds_unverified"


def test_a_limit_whose_basis_only_is_from_memory_counts_as_published() -> None:
    assert outcome(Ware.SMALL_HOLLOWWARE, Limits.ISO, ("2",)) == ("within", "within")


def test_a_piece_over_in_the_rows_unit_exceeds_whatever_unit_the_others_are_in() -> None:
    assert outcome(Ware.SMALL_HOLLOWWARE, Limits.CANADA, ("2.1", "0.1 mg/dm2"))[0] == "exceeds"
    mixed = outcome(Ware.SMALL_HOLLOWWARE, Limits.CANADA, ("1.9", "0.1 mg/dm2"))
    assert mixed == ("cannot be judged", "other_unit")


def test_a_report_alone_is_judged_although_nobody_wrote_an_entry_or_a_tile() -> None:
    bad = report((A, B), ware=Ware.CUP_OR_MUG, limits=Limits.FDA, lead=("9", *SIX[1:]))
    judged, problems = judge(book(glazes=(A, B), reports=(bad,)))
    assert problems == ()
    assert list(judged.layerings) == [("amber", "birch")]
    assert food_of(judged.layerings["amber", "birch"])[0] == "KEEP_OFF"
