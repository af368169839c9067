"""Measured quantities with exact numbers inside. Leaf module: no reading of text, no formatting of pages."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

MM_PER_INCH = Fraction(254, 10)


@dataclass(frozen=True, slots=True)
class Span:
    """A range of lengths in mm, low to high, ends included."""

    low: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True)
class CoatRange:
    """A label's number of coats, ends included."""

    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Coats:
    """Coats of a layering: the base's, then the top's."""

    base: int
    top: int

    @property
    def total(self) -> int:
        return self.base + self.top


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet as named by the author; sides in mm, as written (portrait for named sizes)."""

    name: str
    width: Fraction
    height: Fraction

    @property
    def landscape(self) -> Paper:
        """The same sheet with its long side across."""
        return self if self.width >= self.height else Paper(self.name, self.height, self.width)


@dataclass(frozen=True, slots=True)
class Sides:
    """Two lengths in mm, across and down."""

    across: Fraction
    down: Fraction


@dataclass(frozen=True, slots=True)
class Reading:
    """One piece's leach result. `unit` is `mg/L` or `mg/dm2` (ug/mL is mg/L); `below` marks a `<` reading."""

    amount: Fraction
    unit: str
    below: bool


def plain_number(value: Fraction | int) -> int | float:
    """For data files: whole numbers without a point."""
    return int(value) if value == int(value) else float(value)


def mm_up(length: Fraction) -> int:
    """Whole mm, rounded up (margins and `from`)."""
    return ceil(length)


def mm_down(length: Fraction) -> int:
    """Whole mm, rounded down (`to` and reaches)."""
    return floor(length)
