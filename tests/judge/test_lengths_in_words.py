"""Lengths as they are printed: never across the two lengths that divide the classes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from combobook.wording import inch_fraction, tenths


@pytest.mark.parametrize(
    ("mm", "said"),
    [("3.96875", "4"), ("12.7", "12.7"), ("13", "13"), ("4.96", "4.96"), ("1.04", "1.04"), ("5", "5"), ("0.96", "0.96")],
)
def test_a_length_is_said_to_a_tenth_unless_that_would_change_its_class(mm: str, said: str) -> None:
    assert tenths(Fraction(mm)) == said


@pytest.mark.parametrize("mm", range(1, 200))
def test_inches_are_never_kinder_than_the_millimetres_by_more_than_half_a_millimetre(mm: int) -> None:
    """1 in is 25.4 mm exactly (NIST SP 811)."""

    def read(text: str) -> Fraction:
        return sum((Fraction(part) for part in text.split()), Fraction(0)) * Fraction("25.4")

    assert read(inch_fraction(mm, "up")) >= mm - Fraction(1, 2)
    assert read(inch_fraction(mm, "down")) <= mm + Fraction(1, 2)
