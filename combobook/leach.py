"""The published leach limits, a row each, as they stand in figures/leach_limits.csv. Leaf module.

Sources are in the rows: US FDA CPG 545.400 and 545.450, Canada SOR/2016-175, Directive 84/500/EEC as amended by
2005/31/EC, ISO 6486-2:1999; the others are further reading, which nothing is judged by.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources

_METALS = {"Pb": "lead", "Cd": "cadmium"}
_JUDGMENT = "consent judgment"
_JUDGED_BY = {"US FDA": "", "Canada": "", "EU": "", "ISO": "ISO 6486-2"}
"""The regimes that a report may name, and how the document begins where a regime has others too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeachLimit:
    """One row. `unit` and `basis` are the file's own words."""

    regime: str
    document: str
    year: str
    category: str
    metal: str
    """`lead` or `cadmium`."""
    amount: Fraction
    unit: str
    basis: str
    from_memory: bool
    """Its status is exactly `from memory`: nobody has checked it against its document."""

    @property
    def cited(self) -> str:
        """The document, to be printed. A court's is named after its parties: makers, whose names stand nowhere here."""
        return _JUDGMENT if _JUDGMENT in self.document else self.document

    @property
    def judged_by(self) -> bool:
        """It belongs to a regime that a report may name; else it is further reading."""
        start = _JUDGED_BY.get(self.regime)
        return start is not None and self.document.startswith(start)


@cache
def leach_limits() -> tuple[LeachLimit, ...]:
    """Every row, in the file's order."""
    text = resources.files("combobook").joinpath("figures/leach_limits.csv").read_text(encoding="utf-8")
    return tuple(
        LeachLimit(
            regime=row["regime"],
            document=row["document"],
            year=row["year"],
            category=row["category"],
            metal=_METALS[row["metal"]],
            amount=Fraction(row["limit"]),
            unit=row["unit"],
            basis=row["basis"],
            from_memory=row["status"] == "from memory",
        )
        for row in csv.DictReader(text.splitlines())
    )


def further_reading() -> tuple[LeachLimit, ...]:
    """The rows that nothing here is judged by."""
    return tuple(row for row in leach_limits() if not row.judged_by)
