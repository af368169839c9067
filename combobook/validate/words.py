"""Words out of a list, dates, papers, readings, addresses, marks and codes: text to values."""

from __future__ import annotations

import csv
import datetime as dt
import re
from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TypeVar
from urllib.parse import urlsplit

from combobook.entries import FoodLabel
from combobook.measures import Paper, Reading
from combobook.spelling import did_you_mean
from combobook.validate.quantities import LENGTHS, NUMBER, length, read_number
from combobook.validate.refusal import Converter, Refusal

E = TypeVar("E", bound=Enum)
T = TypeVar("T")
STEM = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
"""Of an entry's file."""
_DATE = re.compile(r"(\d{4})-(\d{2})-(\d{2})", re.ASCII)
_READING = re.compile(rf"(<?)\s*({NUMBER})\s*(\S.*)?")
_READING_UNITS = {
    "mg/l": "mg/L",
    "ug/ml": "mg/L",
    "µg/ml": "mg/L",
    "μg/ml": "mg/L",
    "mg/dm2": "mg/dm2",
    "mg/dm²": "mg/dm2",
}
_SIDES = re.compile(rf"({NUMBER})\s*([a-z\"″”]*)\s*(?:x|×|by)\s*({NUMBER})\s*([a-z\"″”]*)", re.IGNORECASE)
_HANDLING_WORDS = re.compile(r"\bnon[\s-]*tox", re.IGNORECASE)
SMALLEST_SIDE, LARGEST_SIDE = 90, 3000
"""mm: a sheet smaller than a postcard cannot carry its cautions, one larger fits no printer we know of (house)."""


def text(words: str) -> str:
    """Any text, as written."""
    return words


def one_of(words: Mapping[str, T]) -> Converter[T]:
    """A converter for one of a list of words, letter case and spacing aside."""
    folded = {word.casefold(): value for word, value in words.items()}

    def convert(text: str) -> T | Refusal:
        found = folded.get(text.casefold()) if text.casefold() in folded else folded.get(_plain(text))
        return found if found is not None else not_one_of(text, tuple(words))

    return convert


def choice(kind: type[E]) -> Converter[E]:
    """A converter for the words of an enumeration."""
    return one_of({str(member.value): member for member in kind})


def not_one_of(text: str, words: tuple[str, ...]) -> Refusal:
    """The problem of a word that is not on the list."""
    listed = [f"`{word}`" for word in words]
    expected = f"{', '.join(listed[:-1])} or {listed[-1]}"
    return Refusal(
        code="not-one-of",
        message=f"expected {expected}, got `{text}`",
        help=did_you_mean(text, words) or f"write one of these: {' · '.join(listed)}",
    )


def yes_no(text: str) -> bool | Refusal:
    """`yes` or `no`."""
    return _YES_NO(text)


_YES_NO: Converter[bool] = one_of({"yes": True, "no": False})
_FOOD_LABEL: Converter[FoodLabel] = choice(FoodLabel)


def food_label(text: str) -> FoodLabel | Refusal:
    """What the label says about food; `non-toxic` is another matter."""
    if _HANDLING_WORDS.search(text):
        return Refusal(
            code="label-says-non-toxic",
            message="`non-toxic` speaks of handling the wet glaze, not of eating from the fired one",
            help="write what the label says about food: `yes` · `no` · `conditional` · `not stated`; its "
            "own words go into `label says`",
        )
    return _FOOD_LABEL(text)


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def date(text: str) -> dt.date | Refusal:
    """A day, ISO 8601 (`2026-10-14`)."""
    match = _DATE.fullmatch(text)
    if match is None:
        return Refusal(
            code="bad-date",
            message=f"expected a date such as `2026-10-14`, got `{text}`",
            help="write year, month and day with hyphens: `2026-10-14`",
        )
    try:
        return dt.date(int(match[1]), int(match[2]), int(match[3]))
    except ValueError:
        return Refusal(
            code="impossible-date",
            message=f"`{text}` is no day of the calendar",
            help="write the day as year-month-day, such as `2026-10-14`",
        )


@cache
def _papers() -> Mapping[str, Paper]:
    table = Path(__file__).parents[1] / "figures" / "paper_sizes.csv"
    rows = csv.DictReader(table.read_text("utf-8").splitlines())
    return {r["name"].casefold(): Paper(r["name"], Fraction(r["width_mm"]), Fraction(r["height_mm"])) for r in rows}


def paper(text: str) -> Paper | Refusal:
    """A named sheet or its two sides, in mm."""
    if named := _papers().get(_plain(text)):
        return named
    match = _SIDES.fullmatch(text)
    if match is None:
        names = ", ".join(p.name for p in _papers().values())
        return Refusal(
            code="bad-paper",
            message=f"expected a paper such as `letter` or `24 x 36 in`, got `{text}`",
            help=did_you_mean(text, _papers()) or f"write two sides with their unit, or one of: {names}",
        )
    unit = match[4].casefold()
    if not unit:
        return Refusal(
            code="no-unit",
            message=f"`{text}` has no unit: expected a paper such as `24 x 36 in`",
            help=f"write the unit: `{text} in` or `{text} mm`?",
        )
    width, height = length(f"{match[1]} {match[2] or unit}"), length(f"{match[3]} {unit}")
    if isinstance(width, Refusal) or isinstance(height, Refusal) or unit not in LENGTHS:
        return Refusal(
            code="bad-unit",
            message=f"`{match[4]}` is no unit of a paper's sides",
            help="write the sides as `24 x 36 in` or `600 x 900 mm`",
            start=match.start(4),
            width=len(match[4]),
        )
    if not (min(width, height) >= SMALLEST_SIDE and max(width, height) <= LARGEST_SIDE):
        return Refusal(
            code="paper-size",
            message=f"no sheet of `{text}` can be printed",
            help=f"write sides between {SMALLEST_SIDE} and {LARGEST_SIDE} mm",
        )
    return Paper(" ".join(text.split()), width, height)


def reading(text: str) -> Reading | Refusal:
    """One piece's leach result: `0.02 mg/L`, `<0.01 mg/L`, `0.5 mg/dm2`."""
    match = _READING.fullmatch(text)
    amount = read_number(match[2]) if match else None
    if match is None or amount is None:
        return Refusal(
            code="bad-reading",
            message=f"expected a reading such as `0.02 mg/L`, got `{text}`",
            help="write the report's figure with its unit: `<0.01 mg/L`",
        )
    if match[3] is None:
        return Refusal(
            code="no-unit",
            message=f"`{text}` has no unit: expected a reading such as `0.02 mg/L`",
            help=f"write the report's unit: `{text} mg/L` or `{text} mg/dm2`?",
        )
    unit = _READING_UNITS.get(match[3].casefold().replace(" ", ""))
    if unit is None:
        return Refusal(
            code="bad-unit",
            message=f"`{match[3]}` is no unit of a reading",
            help="units read here: mg/L, ug/mL, mg/dm2",
            start=match.start(3),
            width=len(match[3]),
        )
    return Reading(amount, unit, bool(match[1]))


def address(text: str) -> str | Refusal:
    """An http or https address."""
    try:
        parts = urlsplit(text)
        good = parts.scheme in ("http", "https") and bool(parts.hostname) and not re.search(r"[\s<>\"]", text)
        _ = parts.port
    except ValueError:
        good = False
    if good:
        return text
    return Refusal(
        code="bad-address",
        message=f"expected the address of the site, got `{text}`",
        help="write it as browsers show it, beginning with https:// or http://",
    )


def mark(text: str) -> str | Refusal:
    """1 to 4 letters or digits, as on lid and tile."""
    if 1 <= len(text) <= 4 and text.isalnum():
        return text
    return Refusal(
        code="bad-mark",
        message=f"`{text}` is no mark: expected 1 to 4 letters or digits",
        help="write what stands on the lid and on tiles, such as `FR`",
    )


def reason(text: str) -> str | Refusal:
    """Why to keep food away; a bare yes or no says nothing that the next reader can use."""
    if _plain(text) in ("yes", "no"):
        fix = "write the reason: `keep off food: crazes on every mug`; where there is none, delete the line"
        return Refusal(code="reason-due", message=f"`keep off food` takes a reason, not `{text}`", help=fix)
    return text


def file_stem(text: str) -> str | Refusal:
    """The name of an entry's file, without its ending."""
    if STEM.fullmatch(text):
        return text
    plain = re.sub(r"[^a-z0-9]+", "-", text.lower().removesuffix(".md")).strip("-") or "old-name"
    return Refusal(
        code="bad-file-name",
        message=f"`{text}` is no file's name: expected lower case letters, digits and hyphens",
        help=f"write the file's name as it was, without its ending: `{plain}`",
    )


def photo_name(text: str) -> str | Refusal:
    """The name of a file in photos/."""
    name = text.removeprefix("photos/")
    if re.search(r'[/\\:*?"<>|\x00-\x1f]', name) or not name.lower().endswith(
        (".jpg", ".jpeg", ".png", ".webp", ".heic")
    ):
        return Refusal(
            code="bad-photo-name",
            message=f"`{text}` is no name of a photo in photos/",
            help="write the file's name alone, with its ending: .jpg .jpeg .png .webp or .heic",
        )
    return name
