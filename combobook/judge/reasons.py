"""Reasons in order: worst first, then by rule, then by place, once for each tile or label."""

from __future__ import annotations

from collections.abc import Iterable

from combobook.problems import Place
from combobook.verdicts import Reason


def reason(rule: str, wording: str, place: Place, severity: int, **facts: object) -> Reason:
    """A reason at the line it rests on. `severity` 0 is the worst."""
    return Reason(rule=rule, wording=wording, facts=tuple(facts.items()), place=place, severity=severity)


def listed(reasons: Iterable[Reason]) -> tuple[Reason, ...]:
    """Sorted, and each rule's sentence about one line said once, however many coat counts give it."""
    kept: dict[tuple[str, str, Place], Reason] = {}
    for each in sorted(reasons, key=lambda each: each.sort_key):
        kept.setdefault((each.rule, each.wording, each.place), each)
    return tuple(kept.values())
