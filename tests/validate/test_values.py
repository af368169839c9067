"""Every kind of value: what reads, what it comes to exactly, and what is refused."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from combobook.cones import WHOLE_CONES, Cone, ConeRange, read_cone
from combobook.measures import CoatRange, Coats, Reading, Span
from combobook.validate import heat, quantities, words
from combobook.validate.refusal import Refusal, is_not_known

PUBLISHED = Path(__file__).parents[1] / "published"
INCH = Fraction(254, 10)
"""The inch is exactly 25.4 mm: NIST Special Publication 811 (2008), appendix B.8."""


def refusal(value: object) -> str:
    assert isinstance(value, Refusal)
    return value.code


@pytest.mark.parametrize("text", ["", "?", "not known", "Not Known", "NOT  KNOWN"])
def test_blank_question_mark_and_not_known_mean_nobody_knows(text: str) -> None:
    assert is_not_known(text)


@pytest.mark.parametrize("text", ["no", "none", "unknown", "??", "0"])
def test_other_words_are_values(text: str) -> None:
    assert not is_not_known(text)


# Cones: order of tests/published/cones.csv (Orton, 2016).


def test_cones_run_in_the_published_order() -> None:
    with (PUBLISHED / "cones.csv").open(encoding="utf-8") as table:
        published = [row["cone"] for row in csv.DictReader(table)]
    cones = [heat.cone(text) for text in published]
    assert all(isinstance(cone, Cone) for cone in cones)
    assert cones == sorted(cones, key=lambda cone: cone.halves if isinstance(cone, Cone) else -1)
    assert len(set(cones)) == len(published)


def test_a_leading_zero_is_another_cone() -> None:
    assert heat.cone("06") != heat.cone("6")


def test_01_is_next_to_1() -> None:
    below, above = heat.cone("01"), heat.cone("1")
    assert isinstance(below, Cone) and isinstance(above, Cone)
    assert above.halves - below.halves == 2


@pytest.mark.parametrize(
    ("text", "low", "high"), [("5 1/2", "5", "6"), ("5½", "5", "6"), ("5.5", "5", "6"), ("05 1/2", "06", "05")]
)
def test_half_a_cone_lies_between_its_neighbours(text: str, low: str, high: str) -> None:
    cone, below, above = heat.cone(text), heat.cone(low), heat.cone(high)
    assert isinstance(cone, Cone) and isinstance(below, Cone) and isinstance(above, Cone)
    assert (cone.halves - below.halves, above.halves - cone.halves) == (1, 1)


@pytest.mark.parametrize(
    "text", ["60", "6.0", "00", "0", "022 1/2", "14 1/2", "15", "023", "-6", "6 1/3", "6a", "⁶", "٦", "cone 6"]
)
def test_what_is_no_cone_is_refused(text: str) -> None:
    assert refusal(heat.cone(text)) == "bad-cone"


@given(st.integers(0, 2 * (len(WHOLE_CONES) - 1)))
def test_every_cone_reads_back_as_it_is_written(halves: int) -> None:
    assume(halves != 43)  # between 01 and 1: `01 1/2` lies below 01, so nobody can write this one
    assert read_cone(str(Cone(halves))) == Cone(halves)


@pytest.mark.parametrize("text", ["5 to 6", "5-6", "5–6", "5 - 6", "5 TO 6"])
def test_a_cone_range_goes_from_cool_to_hot(text: str) -> None:
    assert heat.cone_range(text) == ConeRange(Cone(52), Cone(54))


def test_a_cone_range_is_ordered_by_heat_not_by_figure() -> None:
    assert isinstance(heat.cone_range("06 to 04"), ConeRange)
    assert refusal(heat.cone_range("04 to 06")) == "range-reversed"
    assert isinstance(heat.cone_range("01-1"), ConeRange)


def test_one_cone_is_both_ends() -> None:
    assert heat.cone_range("6") == ConeRange(Cone(54), Cone(54))
    assert heat.cone_range("5 1/2") == ConeRange(Cone(53), Cone(53))


# Lengths.


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("4 mm", Fraction(4)), ("1.5 cm", Fraction(15)), ("1/2 in", INCH / 2), ('1/4"', INCH / 4), ("1 1/2 in", INCH * 3 / 2),
        ("½ in", INCH / 2), ("1½ inches", INCH * 3 / 2), ("¾ inch", INCH * 3 / 4), ("13mm", Fraction(13)), (".5 in", INCH / 2),
        ("0 mm", Fraction(0)), ("2 m", Fraction(2000)), ("6 ft", 72 * INCH), ("4 MM", Fraction(4)),
    ],
)  # fmt: skip
def test_lengths_are_exact(text: str, mm: Fraction) -> None:
    assert quantities.length(text) == mm


def test_half_an_inch_is_12_7_mm() -> None:
    assert quantities.length("1/2 in") == Fraction(127, 10)


@pytest.mark.parametrize(
    ("text", "code"),
    [("4", "no-unit"), ("1/2", "no-unit"), ("-4 mm", "negative"), ("−4 mm", "negative"), ("4 kg", "bad-unit"), ("four mm", "bad-quantity"),
     ("1/0 in", "bad-quantity"), ("1,5 cm", "bad-quantity"), ("4 mm thick", "bad-unit"), ("", "bad-quantity"), ("9" * 400 + " mm", "bad-quantity")],
)  # fmt: skip
def test_what_is_no_length_is_refused(text: str, code: str) -> None:
    assert refusal(quantities.length(text)) == code


@pytest.mark.parametrize(
    "text", ["13 to 25 mm", "13 mm to 25 mm", "13-25 mm", "13–25mm", "1.3 cm to 25 mm", "13 to 2.5 cm"]
)
def test_a_range_of_lengths(text: str) -> None:
    found = quantities.span(text)
    if text == "13 to 2.5 cm":
        assert refusal(found) == "range-reversed"  # 13 cm to 2.5 cm: the unit is the last one's
    else:
        assert found == Span(Fraction(13), Fraction(25))


def test_a_range_in_inches_with_fractions() -> None:
    assert quantities.span("1/2 to 1 in") == Span(INCH / 2, INCH)
    assert quantities.span('1/2" to 1"') == Span(INCH / 2, INCH)
    assert quantities.span("1/2-1 1/2 in") == Span(INCH / 2, INCH * 3 / 2)


def test_one_length_where_a_range_is_due_is_both_ends() -> None:
    assert quantities.span("25 mm") == Span(Fraction(25), Fraction(25))


@pytest.mark.parametrize(
    ("text", "code"), [("25 to 13 mm", "range-reversed"), ("13 to 25", "no-unit"), ("-5 to 3 mm", "negative")]
)
def test_what_is_no_range_of_lengths_is_refused(text: str, code: str) -> None:
    assert refusal(quantities.span(text)) == code


@given(st.fractions(min_value=0, max_value=1000, max_denominator=64))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_every_fraction_of_an_inch_reads_exactly(amount: Fraction) -> None:
    whole, part = divmod(amount, 1)
    text = f"{whole} {part.numerator}/{part.denominator} in" if part else f"{whole} in"
    assert quantities.length(text) == amount * INCH


# The US liquid pint: 473.1765 ml (NIST Handbook 44, appendix C, units of capacity, liquid measure).


def test_a_pint_is_the_us_liquid_pint() -> None:
    pint = quantities.volume("1 pint")
    assert isinstance(pint, Fraction)
    assert round(pint * 1000, 4) == Fraction("473.1765")
    assert quantities.volume("2 pints") == quantities.volume("1 quart")
    assert quantities.volume("8 pints") == quantities.volume("1 gallon")
    assert quantities.volume("1 gallon") == 231 * INCH**3 / 1_000_000


def test_volumes_areas_and_times() -> None:
    assert quantities.volume("473 ml") == Fraction(473, 1000)
    assert quantities.volume("1.5 L") == Fraction(3, 2)
    assert quantities.area("350 cm2") == Fraction(350, 10_000)
    assert quantities.area("5 m2") == quantities.area("5 m²") == 5
    assert quantities.duration("10 min") == 10
    assert quantities.duration("1 h") == 60
    assert quantities.duration("1 h 30 min") == 90
    assert quantities.distance("2 m") == 2000
    assert quantities.distance("6 ft") == 72 * INCH
    assert quantities.number("1.5") == Fraction(3, 2)


@pytest.mark.parametrize(
    "value",
    [quantities.volume("0 ml"), quantities.area("0 m2"), quantities.duration("0 min"), quantities.number("0"),
     quantities.distance("0 m"), quantities.length_over_zero("0 mm"), heat.rate("0 C/h")],
)  # fmt: skip
def test_what_must_be_over_zero_is(value: object) -> None:
    assert refusal(value) == "not-over-zero"


@pytest.mark.parametrize(
    ("value", "code"),
    [(quantities.volume("473"), "no-unit"), (quantities.area("350"), "no-unit"), (quantities.area("350 mm"), "bad-unit"),
     (quantities.duration("10"), "no-unit"), (quantities.duration("10:30"), "bad-quantity"), (quantities.number("two"), "bad-quantity"),
     (quantities.number("-2"), "negative"), (heat.temperature("1222"), "no-unit"), (heat.rate("60"), "no-unit"),
     (heat.rate("60 C"), "bad-quantity"), (heat.temperature("1222 K"), "bad-quantity")],
)  # fmt: skip
def test_what_is_no_measure_is_refused(value: object, code: str) -> None:
    assert refusal(value) == code


def test_2232_fahrenheit_is_1222_and_2_ninths_celsius() -> None:
    assert heat.temperature("2232 F") == Fraction(2200 * 5, 9)
    assert heat.temperature("1222 C") == heat.temperature("1222 °C") == 1222


def test_108_fahrenheit_an_hour_is_60_celsius_an_hour() -> None:
    # The published chart prints both for its middle column: 60 C/h and 108 F/h (Orton, 2016).
    assert heat.rate("108 F/h") == heat.rate("60 C/h") == 60


# Coats.


def test_coats_of_a_label_and_of_a_layering() -> None:
    assert quantities.coat_range("2") == CoatRange(2, 2)
    assert quantities.coat_range("2 to 3") == quantities.coat_range("2-3") == CoatRange(2, 3)
    assert quantities.layering_coats("2 + 1") == quantities.layering_coats("2+1") == Coats(2, 1)


@pytest.mark.parametrize(
    ("value", "code"),
    [(quantities.coat_range("3 to 2"), "range-reversed"), (quantities.coat_range("0"), "bad-coats"), (quantities.coat_range("10"), "bad-coats"),
     (quantities.coat_range("2.5"), "bad-coats"), (quantities.layering_coats("3"), "bad-coats"), (quantities.layering_coats("0 + 1"), "bad-coats"),
     (quantities.layering_coats("2 + 1 + 1"), "bad-coats"), (quantities.coats("1.0"), "bad-coats"), (quantities.coats("²"), "bad-coats")],
)  # fmt: skip
def test_coats_are_whole_numbers_from_1_to_9(value: object, code: str) -> None:
    assert refusal(value) == code


# Papers: tests/published/paper_sizes.csv.


def test_papers_have_their_published_sizes() -> None:
    with (PUBLISHED / "paper_sizes.csv").open(encoding="utf-8") as table:
        for row in csv.DictReader(table):
            for name in (row["name"], row["name"].lower(), row["name"].upper()):
                found = words.paper(name)
                assert not isinstance(found, Refusal)
                assert (found.width, found.height) == (Fraction(row["width_mm"]), Fraction(row["height_mm"]))


@pytest.mark.parametrize(
    "text", ["24 x 36 in", "24×36 in", "24in x 36in", '24" x 36"', "609.6 x 914.4 mm", "60.96 by 91.44 cm"]
)
def test_a_paper_by_its_sides(text: str) -> None:
    found = words.paper(text)
    assert not isinstance(found, Refusal)
    assert (found.width, found.height) == (24 * INCH, 36 * INCH)


@pytest.mark.parametrize(
    ("text", "code"),
    [("24 x 36", "no-unit"), ("lettre", "bad-paper"), ("A9", "bad-paper"), ("1 x 1 mm", "paper-size"), ("9 x 9 m", "paper-size"), ("24 x 36 ells", "bad-unit")],
)  # fmt: skip
def test_what_is_no_paper_is_refused(text: str, code: str) -> None:
    assert refusal(words.paper(text)) == code


# Readings, dates, words.


def test_readings() -> None:
    assert words.reading("0.02 mg/L") == Reading(Fraction("0.02"), "mg/L", False)
    assert words.reading("<0.01 mg/L") == words.reading("< 0.01 mg/l") == Reading(Fraction("0.01"), "mg/L", True)
    assert words.reading("0.5 mg/dm2") == Reading(Fraction("0.5"), "mg/dm2", False)
    assert words.reading("2 ug/mL") == words.reading("2 µg/mL") == Reading(Fraction(2), "mg/L", False)


@pytest.mark.parametrize(
    ("text", "code"),
    [("0.02", "no-unit"), ("0.02 ppm", "bad-unit"), ("none", "bad-reading"), ("-1 mg/L", "bad-reading")],
)
def test_what_is_no_reading_is_refused(text: str, code: str) -> None:
    assert refusal(words.reading(text)) == code


@given(st.dates())
def test_every_day_reads_back(day: object) -> None:
    assert words.date(str(day)) == day


@pytest.mark.parametrize(
    ("text", "code"),
    [("2026-02-31", "impossible-date"), ("2026-13-01", "impossible-date"), ("0000-01-01", "impossible-date"), ("14/10/2026", "bad-date"),
     ("2026-10", "bad-date"), ("Oct 14", "bad-date"), ("２０２６-10-14", "bad-date"), ("2026-1-2", "bad-date")],
)  # fmt: skip
def test_what_is_no_day_is_refused(text: str, code: str) -> None:
    assert refusal(words.date(text)) == code


@pytest.mark.parametrize("text", ["non-toxic", "Non toxic", "nontoxic", "NON-TOXIC when used as directed"])
def test_non_toxic_is_no_food_label(text: str) -> None:
    assert refusal(words.food_label(text)) == "label-says-non-toxic"


def test_words_read_in_any_letter_case_and_near_misses_get_a_suggestion() -> None:
    assert words.yes_no("Yes") is True
    assert words.yes_no("NO") is False
    near = words.yes_no("yess")
    assert isinstance(near, Refusal) and near.help == "did you mean `yes`?"
    far = words.yes_no("perhaps")
    assert isinstance(far, Refusal) and "`yes` · `no`" in far.help


@pytest.mark.parametrize(
    "text",
    [
        "ftp://x.example",
        "glazes.example",
        "javascript:alert(1)",
        "https://",
        "http://[x",
        "https://a b",
        "http://x:port",
    ],
)
def test_only_web_addresses_are_addresses(text: str) -> None:
    assert refusal(words.address(text)) == "bad-address"


@pytest.mark.parametrize("text", ["http://glazes.example", "https://glazes.example:8000/book/"])
def test_web_addresses_read(text: str) -> None:
    assert words.address(text) == text


@pytest.mark.parametrize("text", ["../b1.jpg", "a/b.jpg", "/etc/passwd", "b1.gif", "b1", "b1.jpg.exe", "..\\b1.jpg"])
def test_a_photo_is_a_file_in_photos(text: str) -> None:
    assert refusal(words.photo_name(text)) == "bad-photo-name"


def test_a_photo_may_be_written_with_its_folder() -> None:
    assert words.photo_name("photos/B1 wet.JPG") == words.photo_name("B1 wet.JPG") == "B1 wet.JPG"
