"""What so few firings leave open: for the teacher's page only."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Way
from combobook.render.views.retest import Verdict, counted_kinds, name_of, page_of, verdicts


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenView:
    """All layerings and glazes with the same count of firings, and how much that leaves open."""

    counted: str
    """`3 firings, no fault`."""
    says: str
    """`up to 63 in 100 could still fail`."""
    percent: int
    kinds: str
    ways: tuple[Way, ...]


def left_open(desk: Desk) -> tuple[OpenView, ...]:
    """Those with least left open first; a layering counts over all its coats and clays, a firing once."""
    groups: dict[tuple[float, int, int], list[Verdict]] = {}
    for verdict in verdicts(desk):
        evidence = verdict.evidence
        if evidence.faulty_at_most is not None:
            key = (evidence.faulty_at_most, -evidence.firings_looked_over, evidence.firings_faulty)
            groups.setdefault(key, []).append(verdict)
    return tuple(_group(desk, *key, groups[key]) for key in sorted(groups))


def _group(desk: Desk, bound: float, minus_firings: int, faulty: int, alike: list[Verdict]) -> OpenView:
    firings, percent = -minus_firings, round(100 * bound)
    ways = sorted((name_of(desk, verdict), page_of(verdict)) for verdict in alike)
    key = "none" if not faulty else "all" if faulty == firings else "some"
    return OpenView(
        counted=desk.text(f"open.{key}", firings=desk.words.counted("firings", firings), n=faulty),
        says=desk.text("open.nothing_excluded" if key == "all" else "open.up_to", percent=percent),
        percent=percent,
        kinds=counted_kinds(desk, alike),
        ways=tuple(Way(href=href, words=name) for name, href in ways),
    )
