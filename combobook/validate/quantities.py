"""Lengths, ranges, areas, volumes, times and plain numbers: text to exact fractions.

Units: the inch is 25.4 mm exactly (NIST SP 811, appendix B.8); the US gallon is 231 cubic inches, four quarts, eight
liquid pints (NIST Handbook 44, appendix C).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from combobook.measures import MM_PER_INCH, CoatRange, Coats, Span
from combobook.validate.refusal import Refusal

NUMBER = r"(?:\d+\s*[½¼¾⅓⅔⅛⅜⅝⅞]|[½¼¾⅓⅔⅛⅜⅝⅞]|\d+\s+\d+\s*[/⁄]\s*\d+|\d+\s*[/⁄]\s*\d+|\d+(?:\.\d+)?|\.\d+)"
TO = r"(?:\s+to\s+|\s*[-–—]\s*)"
_SIGNS = {
    "½": (1, 2),
    "¼": (1, 4),
    "¾": (3, 4),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
    "⅞": (7, 8),
}
_QUANTITY = re.compile(rf"({NUMBER})\s*(\D*)")
_RANGE = re.compile(rf"({NUMBER})\s*([^\d\s.½¼¾⅓⅔⅛⅜⅝⅞–—-]*){TO}({NUMBER})\s*(\D*)", re.IGNORECASE)
_MINUS = re.compile(r"[-−–]\s*[\d.½¼¾⅓⅔⅛⅜⅝⅞]")
_MOST_DIGITS = 30

Units = Mapping[str, Fraction]


def _units(**names: tuple[str, Fraction]) -> Units:
    return {name: size for words, size in names.values() for name in words.split("|")}


_INCH, _FOOT = MM_PER_INCH, 12 * MM_PER_INCH
_PINT = Fraction(231, 8) * _INCH**3 / 1_000_000
LENGTHS = _units(
    mm=("mm|millimetre|millimetres|millimeter|millimeters", Fraction(1)),
    cm=("cm|centimetre|centimetres|centimeter|centimeters", Fraction(10)),
    m=("m|metre|metres|meter|meters", Fraction(1000)),
    inch=("in|in.|inch|inches|\"|″|”|''", _INCH),
    foot=("ft|ft.|foot|feet|'|′|’", _FOOT),
)
AREAS = _units(
    mm2=("mm2|mm²|mm^2|sq mm", Fraction(1, 1_000_000)),
    cm2=("cm2|cm²|cm^2|sq cm", Fraction(1, 10_000)),
    m2=("m2|m²|m^2|sq m", Fraction(1)),
    in2=("in2|in²|in^2|sq in", _INCH**2 / 1_000_000),
    ft2=("ft2|ft²|ft^2|sq ft", _FOOT**2 / 1_000_000),
)
VOLUMES = _units(
    ml=("ml|millilitre|millilitres|milliliter|milliliters", Fraction(1, 1000)),
    cl=("cl|centilitre|centilitres|centiliter|centiliters", Fraction(1, 100)),
    litre=("l|litre|litres|liter|liters", Fraction(1)),
    cup=("cup|cups", _PINT / 2),
    pint=("pint|pints|pt", _PINT),
    quart=("quart|quarts|qt", 2 * _PINT),
    gallon=("gallon|gallons|gal", 8 * _PINT),
    ounce=("fl oz|fl. oz.|floz", _PINT / 16),
)
MINUTES = _units(
    s=("s|sec|second|seconds", Fraction(1, 60)),
    min=("min|mins|min.|minute|minutes", Fraction(1)),
    hour=("h|hr|hrs|hour|hours", Fraction(60)),
)


def read_number(text: str) -> Fraction | None:
    """`2`, `1.5`, `1/2`, `1 1/2`, `½`, `1½` exactly; None for anything else, a zero below the line included."""
    text = text.strip().replace("⁄", "/")
    if len(text) > _MOST_DIGITS or not re.fullmatch(NUMBER, text) or not text.isprintable():
        return None
    if text[-1] in _SIGNS:
        whole = text[:-1].strip()
        return (_fraction(whole) if whole else Fraction(0)) + Fraction(*_SIGNS[text[-1]])
    if "/" not in text:
        return _fraction(text)
    top, _, bottom = text.partition("/")
    whole, _, part = top.strip().rpartition(" ")
    if not int(bottom):
        return None
    return (_fraction(whole) if whole else Fraction(0)) + Fraction(int(part), int(bottom))


def _fraction(digits: str) -> Fraction:
    return Fraction(int(digits)) if digits.isdecimal() else Fraction(digits)


def _measured(text: str, units: Units, what: str, sample: str) -> Fraction | Refusal:
    """A number with its unit, in the unit whose size is 1; a help for each way to get it wrong."""
    match = _QUANTITY.fullmatch(text)
    amount = read_number(match[1]) if match else None
    if match is None or amount is None:
        return _no_quantity(text, what, sample)
    unit = " ".join(match[2].split())
    if not unit:
        shown = next(iter(units))
        return Refusal(
            code="no-unit",
            message=f"`{text}` has no unit: expected {what} such as `{sample}`",
            help=f"write the unit you measured in: `{text} {shown}`?",
        )
    size = units.get(unit) or units.get(unit.casefold())
    if size is None:
        return Refusal(
            code="bad-unit",
            message=f"`{unit}` is no unit of {what}",
            help=f"write it as `{sample}`; units read here: {', '.join(_short(units))}",
            start=text.find(unit),
            width=len(unit),
        )
    return amount * size


def _short(units: Units) -> list[str]:
    """The first name of each unit."""
    return list({size: name for name, size in reversed(list(units.items()))}.values())[::-1]


def _no_quantity(text: str, what: str, sample: str) -> Refusal:
    if _MINUS.match(text):
        return Refusal(
            code="negative",
            message=f"`{text}` is below zero: expected {what} such as `{sample}`",
            help="write it without the minus",
        )
    fix = f"write it as `{sample}`"
    if comma := re.fullmatch(r"(\d+),(\d+)(\D*)", text):
        fix = f"write the decimals with a point: `{comma[1]}.{comma[2]}{comma[3]}`"
    return Refusal(code="bad-quantity", message=f"expected {what} such as `{sample}`, got `{text}`", help=fix)


def _over_zero(value: Fraction | Refusal, text: str, what: str) -> Fraction | Refusal:
    if isinstance(value, Fraction) and value <= 0:
        return Refusal(
            code="not-over-zero",
            message=f"expected {what} over 0, got `{text}`",
            help="write what was measured, or `?` where nobody knows",
        )
    return value


def length(text: str) -> Fraction | Refusal:
    """mm, 0 included."""
    return _measured(text, LENGTHS, "a length", "13 mm")


def length_over_zero(text: str) -> Fraction | Refusal:
    """mm, over 0."""
    return _over_zero(length(text), text, "a length")


def distance(text: str) -> Fraction | Refusal:
    """mm, over 0."""
    return _over_zero(_measured(text, LENGTHS, "a distance", "2 m"), text, "a distance")


def span(text: str) -> Span | Refusal:
    """A range of lengths in mm; one length is both ends."""
    match = _RANGE.fullmatch(text)
    if match is None:
        one = length(text)
        return one if isinstance(one, Refusal) else Span(one, one)
    unit = match[4].strip()
    low, high = (length(f"{number} {own or unit}") for number, own in ((match[1], match[2]), (match[3], unit)))
    if isinstance(low, Refusal) or isinstance(high, Refusal):
        refusal = low if isinstance(low, Refusal) else high
        assert isinstance(refusal, Refusal)
        if refusal.code == "no-unit":
            return Refusal(
                code="no-unit",
                message=f"`{text}` has no unit: expected lengths such as `13 to 25 mm`",
                help=f"write the unit you measured in: `{text} mm`?",
            )
        return Refusal(code=refusal.code, message=refusal.message, help=refusal.help)
    if low > high:
        own = match[2] if match[2] and match[2] != unit else ""
        return reversed_range(text, f"{match[3]}{f' {unit}' if own else ''} to {match[1]} {own or unit}")
    return Span(low, high)


def reversed_range(text: str, fix: str, how: str = "low to high") -> Refusal:
    """The problem of a range written the wrong way round."""
    return Refusal(
        code="range-reversed",
        message=f"`{text}` runs the wrong way: a range goes {how}",
        help=f"write `{' '.join(fix.split())}`",
    )


def area(text: str) -> Fraction | Refusal:
    """m², over 0."""
    return _over_zero(_measured_power(text, AREAS, "an area", "350 cm2"), text, "an area")


def _measured_power(text: str, units: Units, what: str, sample: str) -> Fraction | Refusal:
    """As `_measured`, for units that end in a digit."""
    match = re.fullmatch(rf"({NUMBER})\s*([A-Za-z][A-Za-z ]*(?:\^?2|²)?)", text)
    amount = read_number(match[1]) if match else None
    size = units.get(" ".join(match[2].split()).casefold()) if match else None
    if amount is None or size is None:
        return (
            _measured(text, units, what, sample)
            if match is None or amount is None
            else Refusal(
                code="bad-unit",
                message=f"`{match[2]}` is no unit of {what}",
                start=match.start(2),
                width=len(match[2]),
                help=f"write it as `{sample}`; units read here: {', '.join(_short(units))}",
            )
        )
    return amount * size


def volume(text: str) -> Fraction | Refusal:
    """Litres, over 0. Pints and their kin are US liquid measure."""
    return _over_zero(_measured(text, VOLUMES, "a volume", "473 ml"), text, "a volume")


def duration(text: str) -> Fraction | Refusal:
    """Minutes, over 0: `10 min`, `1 h`, `1 h 30 min`."""
    if both := re.fullmatch(rf"({NUMBER}\s*[A-Za-z]+)\s+(?:and\s+)?({NUMBER}\s*[A-Za-z.]+)", text):
        hours, minutes = (_measured(part, MINUTES, "a time", "10 min") for part in both.groups())
        if isinstance(hours, Fraction) and isinstance(minutes, Fraction) and minutes < 60 <= hours:
            return hours + minutes
    return _over_zero(_measured(text, MINUTES, "a time", "10 min"), text, "a time")


def number(text: str) -> Fraction | Refusal:
    """A plain number over 0."""
    value = read_number(text)
    return _over_zero(value if value is not None else _no_quantity(text, "a number", "1.5"), text, "a number")


_COATS = "coats are whole numbers from 1 to 9"


def coats(text: str) -> int | Refusal:
    """A whole number of coats, 1 to 9."""
    if re.fullmatch(r"[1-9]", text):
        return int(text)
    return Refusal(
        code="bad-coats",
        message=f"expected a number of coats, got `{text}`: {_COATS}",
        help="write how many coats, such as `2`",
    )


def coats_in_all(text: str) -> int | Refusal:
    """A whole number of coats over all layers, 1 to 18 (two layers of 9)."""
    if re.fullmatch(r"[1-9]|1[0-8]", text):
        return int(text)
    return coats(text)


def coat_range(text: str) -> CoatRange | Refusal:
    """`2` or `2 to 3`; one number is both ends."""
    match = re.fullmatch(rf"([1-9])(?:{TO}([1-9]))?(?:\s*coats?)?", text, re.IGNORECASE)
    if match is None:
        return Refusal(
            code="bad-coats",
            message=f"expected coats such as `2` or `2 to 3`, got `{text}`: {_COATS}",
            help="write the label's number of coats: `2 to 3`",
        )
    low, high = int(match[1]), int(match[2] or match[1])
    return reversed_range(text, f"{high} to {low}") if low > high else CoatRange(low, high)


def layering_coats(text: str) -> Coats | Refusal:
    """`2 + 1`: the base's coats, then the top's."""
    match = re.fullmatch(r"([1-9])\s*\+\s*([1-9])", text)
    if match is None:
        return Refusal(
            code="bad-coats",
            message=f"expected coats of base + top such as `2 + 1`, got `{text}`: {_COATS}",
            help="write the base's coats, a plus, and the top's: `2 + 1`",
        )
    return Coats(int(match[1]), int(match[2]))
