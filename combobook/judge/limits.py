"""The published leach limits: a row per regime, ware and metal. Source: figures/leach_limits.csv, and its documents."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from functools import cache

from combobook.entries import Limits, Ware
from combobook.leach import LeachLimit, leach_limits


class Basis(Enum):
    """What is held against the limit."""

    AVERAGE_OF_SIX = "average of 6 units"
    ANY_OF_SIX = "any one of 6 units"
    ANY = "any"
    MEAN = "mean (basis)"
    ONE_IN_FOUR = "one of at least four may be over by half"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """What a metal may leach. `unit` is mg/L or mg/dm2 (ug/mL is mg/L)."""

    amount: Fraction
    unit: str
    basis: Basis
    from_memory: bool
    """Its status is exactly `from memory`: it can exceed, marked unverified, and lifts nothing."""
    row: LeachLimit
    another_ware: bool = False
    """The regime has none for the ware asked for: this is the stricter of two others."""


REGIMES = {"US FDA": Limits.FDA, "Canada": Limits.CANADA, "EU": Limits.EU, "ISO": Limits.ISO}
"""The file's word for each regime a report may name; its other rows are further reading."""

METALS = ("lead", "cadmium")

_OUR_UNITS = {"ug/mL": "mg/L"}
_CATEGORY_3 = "Category 3: cooking ware; packaging and storage vessels > 3 L"
_CATEGORY_2 = "Category 2: all other articles which can be filled"
_CATEGORY_1 = "Category 1: cannot be filled, or fillable with internal depth <= 25 mm"

CATEGORIES: Mapping[Limits, Mapping[Ware, tuple[str, ...]]] = {
    Limits.FDA: {
        Ware.FLATWARE: ("flatware",),
        Ware.SMALL_HOLLOWWARE: ("small hollowware", "small hollowware (other than cups and mugs)"),
        Ware.LARGE_HOLLOWWARE: ("large hollowware", "large hollowware (other than pitchers)"),
        Ware.CUP_OR_MUG: ("cups and mugs",),
        Ware.PITCHER: ("pitchers (other than creamers)",),
    },
    Limits.CANADA: {
        Ware.FLATWARE: ("flatware",),
        Ware.SMALL_HOLLOWWARE: ("small hollowware except cups and mugs",),
        Ware.LARGE_HOLLOWWARE: ("large hollowware except pitchers",),
        Ware.CUP_OR_MUG: ("cups and mugs",),
        Ware.PITCHER: ("pitchers",),
    },
    Limits.EU: {
        Ware.FLATWARE: (_CATEGORY_1,),
        Ware.SMALL_HOLLOWWARE: (_CATEGORY_2,),
        Ware.LARGE_HOLLOWWARE: (_CATEGORY_2,),
        Ware.CUP_OR_MUG: (_CATEGORY_2,),
        Ware.PITCHER: (_CATEGORY_2,),
        Ware.COOKING_WARE: (_CATEGORY_3,),
        Ware.STORAGE_WARE: (_CATEGORY_3,),
    },
    Limits.ISO: {
        Ware.FLATWARE: ("flatware",),
        Ware.SMALL_HOLLOWWARE: ("small hollowware (< 1.1 L)",),
        Ware.LARGE_HOLLOWWARE: ("large hollowware (>= 1.1 L, < 3 L)",),
        Ware.CUP_OR_MUG: ("cups and mugs",),
        Ware.COOKING_WARE: ("cooking ware",),
        Ware.STORAGE_WARE: ("storage hollowware (>= 3 L)",),
    },
}
"""Each ware's categories in the file. Two names where lead and cadmium stand in documents that word it differently."""

_OWN_OR_STRICTER = (Ware.CUP_OR_MUG, Ware.PITCHER)


@cache
def limit(regime: Limits, ware: Ware, metal: str) -> Limit | None:
    """The limit for `lead` or `cadmium` in that ware, or None where the regime has no row.

    A cup or mug and a pitcher without a row of their own take the stricter of the small and large hollowware rows.
    """
    own = _row(regime, ware, metal)
    if own is not None or ware not in _OWN_OR_STRICTER:
        return own
    others = (_row(regime, hollow, metal) for hollow in (Ware.SMALL_HOLLOWWARE, Ware.LARGE_HOLLOWWARE))
    stricter = min((row for row in others if row is not None), key=lambda row: row.amount, default=None)
    return stricter and replace(stricter, another_ware=True)


def _row(regime: Limits, ware: Ware, metal: str) -> Limit | None:
    for category in CATEGORIES[regime].get(ware, ()):
        found = _table().get((regime, category, metal))
        if found is not None:
            return found
    return None


@cache
def _table() -> Mapping[tuple[Limits, str, str], Limit]:
    return {
        (REGIMES[row.regime], row.category, row.metal): Limit(
            amount=row.amount,
            unit=_OUR_UNITS.get(row.unit, row.unit),
            basis=_basis(REGIMES[row.regime], row.basis),
            from_memory=row.from_memory,
            row=row,
        )
        for row in leach_limits()
        if row.judged_by
    }


def _basis(regime: Limits, written: str) -> Basis:
    if regime is Limits.EU:
        return Basis.ONE_IN_FOUR
    return next((basis for basis in Basis if basis.value == written), Basis.ANY)
