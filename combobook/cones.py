"""Pyrometric cones: order, text, and the published temperatures. Leaf module.

Source of the order and the table: Edward Orton Jr. Ceramic Foundation, Temperature Equivalents for Orton
Pyrometric Cones, 2016, self-supporting cones (figures/cones.csv).
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

WHOLE_CONES: tuple[str, ...] = (
    tuple(f"0{n}" for n in range(22, 9, -1))
    + tuple(f"0{n}" for n in range(9, 0, -1))
    + tuple(str(n) for n in range(1, 15))
)
RATES: tuple[int, ...] = (15, 60, 150)
"""The rates of the published table, in °C per hour over the last 100 °C."""

_CONE = re.compile(r"(0?)([1-9]|1\d|2[0-2])(?:\s*(½)|\s+(1/2)|(\.5))?")


@dataclass(frozen=True, slots=True, order=True)
class Cone:
    """A cone by heat: `halves` counts half steps from cone 022, so that hotter compares greater."""

    halves: int

    def __str__(self) -> str:
        if self.halves % 2 == 0:
            return WHOLE_CONES[self.halves // 2]
        cooler, hotter = WHOLE_CONES[self.halves // 2], WHOLE_CONES[self.halves // 2 + 1]
        return f"{hotter} 1/2" if hotter.startswith("0") else f"{cooler} 1/2"

    def shifted(self, halves: int) -> Cone:
        """The cone so many half steps hotter (cooler if negative); may lie beyond the table, for comparing only."""
        return Cone(self.halves + halves)


@dataclass(frozen=True, slots=True)
class ConeRange:
    """A label's range, low to high by heat, both ends included."""

    low: Cone
    high: Cone

    def __contains__(self, cone: Cone) -> bool:
        return self.low <= cone <= self.high

    def shares_a_cone_with(self, other: ConeRange) -> bool:
        """True when some cone lies in both ranges."""
        return self.low <= other.high and other.low <= self.high


def read_cone(text: str) -> Cone | None:
    """The cone a potter wrote (`6`, `06`, `5 1/2`, `5½`, `5.5`), or None where it is no cone (`60`, `6.0`, `00`).

    `05 1/2` lies between 06 and 05, `5 1/2` between 5 and 6; `022 1/2` and `14 1/2` are no cones.
    """
    match = _CONE.fullmatch(text.strip())
    if match is None:
        return None
    whole = match[1] + match[2]
    if whole not in WHOLE_CONES:
        return None
    halves = 2 * WHOLE_CONES.index(whole)
    if match[3] or match[4] or match[5]:
        halves += -1 if match[1] else 1
    return Cone(halves) if 0 <= halves <= 2 * (len(WHOLE_CONES) - 1) else None


@cache
def _table() -> dict[str, tuple[int | None, ...]]:
    text = Path(__file__).with_name("figures").joinpath("cones.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {
        row["cone"]: tuple(int(row[f"C_at_{rate}_C_per_h"]) if row[f"C_at_{rate}_C_per_h"] else None for rate in RATES)
        for row in rows
    }


def temperature(cone: Cone, rate: Fraction) -> Fraction | None:
    """End point of a self-supporting cone in °C at `rate` °C/h over the last 100 °C.

    Linear between the chart's rates 15, 60 and 150; None outside them, or where the chart prints nothing.
    Source: figures/cones.csv (Orton 2016).
    """
    row = _table().get(str(cone))
    if row is None:
        return None
    for (r0, t0), (r1, t1) in pairwise(zip(RATES, row, strict=True)):
        if rate == r0 and t0 is not None:
            return Fraction(t0)
        if rate == r1 and t1 is not None:
            return Fraction(t1)
        if r0 < rate < r1:
            if t0 is None or t1 is None:
                return None
            return t0 + (t1 - t0) * (rate - r0) / Fraction(r1 - r0)
    return None
