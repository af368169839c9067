"""Cone temperatures against the published chart, value by value.

Source: Edward Orton Jr. Ceramic Foundation, Temperature Equivalents for Orton Pyrometric Cones, 2016, self-supporting
cones (tests/published/cones.csv).
"""

from __future__ import annotations

import csv
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

from combobook.cones import temperature
from tests.judge.building import cone

RATES = (15, 60, 150)


def chart() -> dict[str, tuple[int | None, ...]]:
    with (Path(__file__).parents[1] / "published" / "cones.csv").open(encoding="utf-8") as table:
        return {
            row["cone"]: tuple(int(row[f"C_at_{rate}_C_per_h"] or 0) or None for rate in RATES)
            for row in csv.DictReader(table)
        }


def test_every_printed_value_is_given_at_its_rate_and_nothing_where_none_is_printed() -> None:
    read = {text: tuple(temperature(cone(text), Fraction(rate)) for rate in RATES) for text in chart()}
    assert read == chart()
    assert len(read) > 30


def test_between_two_rates_it_is_linear_and_needs_both_values() -> None:
    for text, values in chart().items():
        for (slow, one), (fast, other) in pairwise(zip(RATES, values, strict=True)):
            middle = Fraction(slow + fast, 2)
            expected = None if one is None or other is None else Fraction(one + other, 2)
            assert temperature(cone(text), middle) == expected, (text, middle)


def test_outside_the_charts_rates_and_for_half_cones_it_does_not_print_there_is_none() -> None:
    assert temperature(cone("6"), Fraction(14)) is None
    assert temperature(cone("6"), Fraction(151)) is None
    assert temperature(cone("6 1/2"), Fraction(60)) is None
