"""Lab reports on a page: what was read, and what it says against its limits."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from combobook.book import LabReport
from combobook.entries import Unknown
from combobook.leach import LeachLimit, further_reading
from combobook.measures import Reading
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import known
from combobook.verdicts import GlazeVerdict, HeldAgainst, LabFinding, LayeringVerdict
from combobook.wording import number, upper_first


@dataclass(frozen=True, slots=True, kw_only=True)
class LabView:
    """A lab report measured against its limits."""

    name: str
    found: str
    counts: str
    """What that does to the verdict of this page."""
    limits: tuple[str, ...]
    surface: str
    readings: tuple[str, ...]
    at: str
    notes: Markup


def lab_views(desk: Desk, verdict: GlazeVerdict | LayeringVerdict, root: str) -> tuple[LabView, ...]:
    """Each report on exactly these layers in this order."""
    return tuple(
        LabView(
            name=desk.text("lab.name", ware=finding.report.ware.value, limits=finding.report.limits.value),
            found=_found(desk, finding),
            counts=" ".join(desk.words(f"lab.counts.{key}", **dict(facts)) for key, facts in finding.counts),
            limits=tuple(_limit(desk, held, finding.report.ware.value.value) for held in finding.held_against),
            surface=_surface(desk, finding.report),
            readings=_readings(desk, finding.report),
            at=finding.report.layers_place.at,
            notes=desk.prose(finding.report.body, root, under=3),
        )
        for finding in verdict.findings
    )


def further_views(desk: Desk) -> tuple[str, ...]:
    """The published limits that nothing is judged by, a sentence each, for whoever reads on."""
    key = ("further", "")
    if key not in desk.kept:
        desk.kept[key] = _further(desk)
    made: tuple[str, ...] = desk.kept[key]
    return made


def _further(desk: Desk) -> tuple[str, ...]:
    return tuple(
        desk.text("lab.further_row", regime=row.regime, basis=row.basis, **_figures(row)) + _unverified(desk, row)
        for row in further_reading()
    )


def _limit(desk: Desk, held: HeldAgainst, ware: str) -> str:
    """The limit that readings were held against, with its document."""
    row = held.row
    basis = "one in four" if row.regime == "EU" else row.basis
    key = "_".join(basis.replace("(", "").replace(")", "").split())
    names = {"metal": desk.text(f"lab.limit_metals.{row.metal}"), "basis": desk.text(f"lab.bases.{key}")}
    instead = f" {desk.text('lab.another_ware', ware=ware)}" if held.another_ware else ""
    return desk.text("lab.limit", **_figures(row) | names) + instead + _unverified(desk, row)


def _figures(row: LeachLimit) -> dict[str, object]:
    unit = row.unit.replace("ug/mL", "mg/L").replace("dm2", "dm²")  # The two are one.
    return {
        "metal": row.metal,
        "category": row.category.replace("<=", "≤").replace(">=", "≥"),
        "amount": row.amount,
        "unit": unit,
        "document": upper_first(row.cited),
        "year": row.year.rstrip("."),
    }


def _unverified(desk: Desk, row: LeachLimit) -> str:
    return f" {desk.text('lab.from_memory')}" if row.from_memory else ""


def _found(desk: Desk, finding: LabFinding) -> str:
    said = desk.words(f"lab.{finding.wording}", **dict(finding.facts))
    return f"{said} {desk.text('lab.unverified')}" if finding.unverified else said


def _surface(desk: Desk, report: LabReport) -> str:
    """Which coats, clay and cone the report speaks of; what it does not say is said so."""
    words, coats = desk.words, report.coats
    not_known = words("not_known")
    return desk.text(
        "lab.surface",
        coats=not_known if isinstance(coats, Unknown) else _coats(desk, report, coats),
        clay=report.clay.name.value if report.clay is not None else not_known,
        cone=not_known if isinstance(report.cone, Unknown) else str(report.cone),
        lab=known(report.lab, desk),
        method=known(report.method, desk),
    )


def _coats(desk: Desk, report: LabReport, coats: tuple[int, ...]) -> str:
    first, names = desk.words.counted("coats", coats[0]), [glaze.name.value for glaze in report.layers]
    if len(coats) == 1:
        return desk.words("coats.alone", first=first, glaze=names[0])
    return desk.words("coats.layering", first=first, base=names[0], n=coats[1], top=names[1])


def _readings(desk: Desk, report: LabReport) -> tuple[str, ...]:
    return tuple(
        desk.text(f"lab.{metal}", readings=", ".join(_reading(each) for each in written.value))
        for metal, written in (("lead", report.lead), ("cadmium", report.cadmium))
        if written.value
    )


def _reading(reading: Reading) -> str:
    unit = reading.unit.replace("dm2", "dm²")
    return f"{'<' if reading.below else ''}{number(reading.amount)} {unit}"
