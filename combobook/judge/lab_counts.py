"""What a lab report does to the verdict it stands beside, and why, for the page to say (rules.md, F3 and F9).

The verdict itself is food's; here it is only told apart why a report counts, or does not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from combobook.entries import Unknown
from combobook.judge.headline import Counts
from combobook.judge.lab import EXCEEDS, WITHIN
from combobook.judge.surface import Layering, at_coats
from combobook.verdicts import FoodLevel, FoodVerdict, LabFinding

Sentence = tuple[str, tuple[tuple[str, object], ...]]


def counted(layering: Layering, counts: Counts, food: FoodVerdict) -> tuple[LabFinding, ...]:
    """The layering's findings, each with the sentences about what it does to `food`, judged for these coat counts."""
    return tuple(
        replace(each, counts=tuple(_counts(each, layering, counts, food))) for each in layering.findings
    )


def _counts(finding: LabFinding, layering: Layering, counts: Counts, food: FoodVerdict) -> Iterator[Sentence]:
    if finding.outcome == EXCEEDS:
        yield ("against_alone" if layering.alone else "against"), ()
        return
    if finding.outcome != WITHIN:
        yield "nothing", ()
        return
    apart = tuple(_apart(finding, layering, counts))
    if not apart and food.level is FoodLevel.LAB_REPORT:
        yield "lifts", ()
        return
    yield from apart or tuple(_missing(finding, layering, counts)) or (("outweighed", ()),)
    yield "lifts_nothing", ()


def _apart(finding: LabFinding, layering: Layering, counts: Counts) -> Iterator[Sentence]:
    """In what the report's surface is not the one judged."""
    report, ours = finding.report, layering.studio.cone.value
    if isinstance(report.coats, Unknown):
        yield "coats_not_known", ()
    elif report.coats not in counts:
        yield "other_coats", ()
    if report.clay is None:
        yield "clay_not_known", ()
    if isinstance(report.cone, Unknown):
        yield "cone_not_known", ()
    elif report.cone != ours:
        yield "other_cone", (("cone", str(report.cone)), ("ours", str(ours)))


def _missing(finding: LabFinding, layering: Layering, counts: Counts) -> Iterator[Sentence]:
    """Of what the verdict speaks too, and no report within its limits does."""
    same = (each for each in layering.findings if not tuple(_apart(each, layering, counts)))
    within = [each.report for each in same if each.outcome == WITHIN]
    fired = [row for row in at_coats(layering, _coats(finding)).rows if row.fired]
    reported = {report.clay.id for report in within if report.clay is not None and report.coats == _coats(finding)}
    clays = {row.tile.clay.id: row.tile.clay.name.value for row in fired if row.tile.clay is not None}
    others = tuple(name for id_, name in sorted(clays.items()) if id_ not in reported)
    if others:
        yield "other_clays", (("clays", others),)
    if any(row.tile.clay is None for row in fired):
        yield "clay_not_written", ()
    if not others and set(counts) - {report.coats for report in within}:
        yield "more_coats", ()


def _coats(finding: LabFinding) -> tuple[int, ...]:
    coats = finding.report.coats
    return () if isinstance(coats, Unknown) else coats
