"""Leach reports against their limits: within, exceeds, or cannot be judged and why (rules.md, "Lab reports")."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from combobook.book import Book, LabReport, Layers
from combobook.entries import Written
from combobook.judge.limits import METALS, Basis, Limit, limit
from combobook.measures import Reading
from combobook.verdicts import HeldAgainst, LabFinding

WITHIN = "within"
EXCEEDS = "exceeds"
CANNOT_BE_JUDGED = "cannot be judged"
SIX = 6
FOUR = 4
EU_MOST_OVER = Fraction(3, 2)
"""One piece may be over by at most 50 %: Directive 84/500/EEC, Art. 2(5)."""

Facts = tuple[tuple[str, object], ...]


def findings(book: Book) -> Mapping[Layers, tuple[LabFinding, ...]]:
    """Every report measured, by its ordered layers; a layering's reports by their id."""
    found: dict[Layers, list[LabFinding]] = {}
    for report in sorted(book.reports, key=lambda report: report.id):
        found.setdefault(tuple(glaze.id for glaze in report.layers), []).append(finding(report))
    return {layers: tuple(some) for layers, some in found.items()}


def finding(report: LabReport) -> LabFinding:
    """The report against its limits. One metal over is enough to exceed; `within` needs both."""
    metals = {metal: _metal(report, metal) for metal in METALS}
    over = tuple(metal for metal, outcome in metals.items() if outcome.outcome == EXCEEDS)
    if over:
        unverified = all(metals[metal].from_memory for metal in over)
        return _finding(report, EXCEEDS, over, unverified, "exceeds", (("metals", over),))
    for metal, outcome in metals.items():
        if outcome.outcome == CANNOT_BE_JUDGED:
            facts = (("metal", metal), ("ware", report.ware.value.value), *outcome.facts)
            return _finding(report, CANNOT_BE_JUDGED, (), outcome.from_memory, outcome.wording, facts)
    return _finding(report, WITHIN, (), False, "within", ())


def readings(report: LabReport, metal: str) -> Written[tuple[Reading, ...]]:
    """The report's readings of `lead` or `cadmium`, one a piece."""
    return report.lead if metal == "lead" else report.cadmium


def from_memory(report: LabReport, metal: str) -> bool:
    """The limit for this metal is one that nobody has checked against its document."""
    found = limit(report.limits.value, report.ware.value, metal)
    return found is not None and found.from_memory


def _finding(
    report: LabReport, outcome: str, over: tuple[str, ...], unverified: bool, wording: str, facts: Facts
) -> LabFinding:
    rows = [limit(report.limits.value, report.ware.value, metal) for metal in METALS]
    common: Facts = (("report", report.id), ("limits", report.limits.value.value))
    return LabFinding(
        report=report,
        outcome=outcome,
        exceeding=over,
        unverified=unverified,
        wording=wording,
        facts=(*common, *facts),
        held_against=tuple(HeldAgainst(row=row.row, another_ware=row.another_ware) for row in rows if row),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Outcome:
    """One metal's outcome; `wording` and `facts` say why where it cannot be judged."""

    outcome: str
    wording: str = ""
    facts: Facts = ()
    from_memory: bool = False


def _cannot(wording: str, *facts: tuple[str, object], from_memory: bool = False) -> _Outcome:
    return _Outcome(outcome=CANNOT_BE_JUDGED, wording=wording, facts=facts, from_memory=from_memory)


def _metal(report: LabReport, metal: str) -> _Outcome:
    row = limit(report.limits.value, report.ware.value, metal)
    if row is None:
        return _cannot("no_row")
    pieces = readings(report, metal).value
    if not pieces:
        return _cannot("no_readings")
    sure = _sure(pieces, row)
    if _exceeds(sure, len(pieces), row):
        return _Outcome(outcome=EXCEEDS, from_memory=row.from_memory)
    if any(piece.unit != row.unit for piece in pieces):
        return _cannot("other_unit", ("unit", row.unit))
    if len(sure) < len(pieces):
        return _cannot("below_too_coarse", ("limit", row.amount), ("unit", row.unit))
    if row.basis in (Basis.AVERAGE_OF_SIX, Basis.ANY_OF_SIX) and len(pieces) < SIX:
        return _cannot("too_few", ("pieces", len(pieces)), ("needed", SIX))
    if row.from_memory:
        return _cannot("from_memory", from_memory=True)
    return _Outcome(outcome=WITHIN)


def _sure(pieces: tuple[Reading, ...], row: Limit) -> tuple[Fraction, ...]:
    """The amounts that can be held against the limit: in its unit, and not a `<x` with x above it; `<x` counts as x."""
    return tuple(
        piece.amount for piece in pieces if piece.unit == row.unit and not (piece.below and piece.amount > row.amount)
    )


def _exceeds(sure: tuple[Fraction, ...], pieces: int, row: Limit) -> bool:
    """True where what was read is over; exactly at the limit is within.

    A reading that can be held against nothing never takes an excess back, nor does it count among the EU's "all others
    within", which it does not show.
    """
    over = [amount for amount in sure if amount > row.amount]
    if row.basis is Basis.AVERAGE_OF_SIX:
        return sum(sure) > max(pieces, SIX) * row.amount
    if row.basis is Basis.MEAN:
        return sum(sure) > pieces * row.amount
    if row.basis is Basis.ONE_IN_FOUR and len(over) == 1:
        allowed = pieces >= FOUR and len(sure) == pieces and over[0] <= EU_MOST_OVER * row.amount
        return not allowed
    return bool(over)
