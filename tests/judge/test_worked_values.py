"""Figures that rules.md and entry-format.md work out themselves, each beside its source."""

from __future__ import annotations

from fractions import Fraction

import pytest

from combobook.cones import temperature
from combobook.entries import Units
from combobook.measures import Coats
from combobook.render.letters import capital_height, type_size
from combobook.theme import load_theme
from combobook.validate.quantities import length
from combobook.wording import Words, coats_words
from tests.judge.building import book, cone


def test_cone_06_and_cone_6_are_224_degrees_apart() -> None:
    """Orton 2016, self-supporting cones at 60 °C/h: 998 and 1222 °C."""
    hot, cool = temperature(cone("6"), Fraction(60)), temperature(cone("06"), Fraction(60))
    assert hot is not None and cool is not None and hot - cool == 224


@pytest.mark.parametrize(("arcmin", "capital", "points"), [(16, 9.3, 39.5), (20, 11.6, 49.4)])
def test_letters_for_two_metres(arcmin: int, capital: float, points: float) -> None:
    """ISO 9241-3:1992: 16 minutes of arc at least, 20 preferred; Atkinson Hyperlegible's capitals are 0.668 of its size."""
    height = capital_height(2000, arcmin)
    assert height == pytest.approx(capital, abs=0.05)
    assert height / 0.668 / 25.4 * 72 == pytest.approx(points, abs=0.05)
    assert type_size(2000, arcmin) >= height / 0.668


def test_half_an_inch_is_exactly_127_tenths_of_a_millimetre() -> None:
    """The international yard and pound agreement of 1959: an inch is 25.4 mm."""
    assert length("1/2 in") == Fraction(127, 10)


def test_coats_are_said_in_the_order_in_which_they_go_on() -> None:
    studio = book().studio
    theme, _ = load_theme("daylight", "en", studio.theme.place, studio.language.place)
    assert theme is not None
    words = Words(theme.table, Units.MM)
    said = coats_words("Ferry Rust", "Pond Lantern", Coats(2, 1), words)
    assert said == "2 coats Ferry Rust, then 1 Pond Lantern"
