"""Cones, temperatures, rates: text to values."""

from __future__ import annotations

import re
from fractions import Fraction

from combobook.cones import Cone, ConeRange, read_cone
from combobook.validate.quantities import NUMBER, TO, read_number, reversed_range
from combobook.validate.refusal import Refusal

_RANGE = re.compile(rf"(\d.*?){TO}(\d.*)", re.IGNORECASE)
_DEGREES = re.compile(rf"({NUMBER})\s*°?\s*([CF]|celsius|fahrenheit)", re.IGNORECASE)
_RATE = re.compile(rf"({NUMBER})\s*°?\s*([CF])\s*(?:/|\s+per\s+|\s+an\s+)\s*(?:h|hr|hour)", re.IGNORECASE)
_PREFIX = re.compile(r"(?:cone|△|\^)\s*", re.IGNORECASE)


def cone(text: str) -> Cone | Refusal:
    """One cone, a half included."""
    found = read_cone(text)
    return found if found is not None else _no_cone(text)


def cone_range(text: str) -> ConeRange | Refusal:
    """`5 to 6`, or one cone for both ends; low to high by heat."""
    match = _RANGE.fullmatch(text)
    if match is None:
        one = cone(text)
        return one if isinstance(one, Refusal) else ConeRange(one, one)
    low, high = cone(match[1]), cone(match[2])
    if isinstance(low, Refusal):
        return low
    if isinstance(high, Refusal):
        return Refusal(code=high.code, message=high.message, help=high.help, start=match.start(2), width=len(match[2]))
    if low > high:
        return reversed_range(text, f"{match[2]} to {match[1]}", "from the cooler cone to the hotter")
    return ConeRange(low, high)


def _no_cone(text: str) -> Refusal:
    fix = "cones run 022 … 01, then 1 … 14; half a cone is written `5 1/2`"
    if bare := _PREFIX.match(text):
        if read_cone(text[bare.end() :]):
            fix = f"write the number alone: `{text[bare.end() :].strip()}`"
    elif re.fullmatch(r"\d+\.0+", text) and read_cone(text.partition(".")[0]):
        fix = f"write `{text.partition('.')[0]}`: {fix}"
    elif re.fullmatch(r"[1-9]0", text):
        fix = f"write `{text[0]}`, or `0{text[0]}` for the cooler cone with a zero in front: {fix}"
    return Refusal(code="bad-cone", message=f"`{text}` is no cone", help=fix, width=len(text))


def temperature(text: str) -> Fraction | Refusal:
    """°C."""
    match = _DEGREES.fullmatch(text)
    amount = read_number(match[1]) if match else None
    if match is None or amount is None:
        return _no_degrees(text, "a temperature", "1222 C", "C")
    celsius = amount if match[2][0] in "Cc" else (amount - 32) * Fraction(5, 9)
    return celsius if celsius > 0 else _not_hot(text, "a temperature")


def rate(text: str) -> Fraction | Refusal:
    """°C per hour."""
    match = _RATE.fullmatch(text)
    amount = read_number(match[1]) if match else None
    if match is None or amount is None:
        return _no_degrees(text, "a rate of heating", "60 C/h", "C/h")
    celsius = amount if match[2] in "Cc" else amount * Fraction(5, 9)
    return celsius if celsius > 0 else _not_hot(text, "a rate of heating")


def _no_degrees(text: str, what: str, sample: str, unit: str) -> Refusal:
    if read_number(text) is not None:
        return Refusal(
            code="no-unit",
            message=f"`{text}` has no unit: expected {what} such as `{sample}`",
            help=f"write the unit: `{text} {unit}` or `{text} {unit.replace('C', 'F')}`?",
        )
    return Refusal(
        code="bad-quantity",
        message=f"expected {what} such as `{sample}`, got `{text}`",
        help=f"write it as `{sample}`, or in degrees F with an F",
    )


def _not_hot(text: str, what: str) -> Refusal:
    return Refusal(
        code="not-over-zero",
        message=f"expected {what} over 0 degrees C, got `{text}`",
        help="write what the controller said, or `?` where nobody knows",
    )
