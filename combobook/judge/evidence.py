"""How far to trust a verdict: counts, and the first line of the table that holds (rules.md, 4: house)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from combobook.judge.differ import contrasts, differing
from combobook.judge.odds import failure_bound
from combobook.judge.rows import Row
from combobook.verdicts import Disagreement, Evidence, EvidenceLevel, MoveClass

STEADY_TILES = 3
STEADY_FIRINGS = 3
REPEATED_TILES = 2


def evidence(rows: Iterable[Row]) -> Evidence:
    """Evidence of fired rows only. Tiles are counted by their marks, firings by name, looked over or not."""
    fired = [row for row in rows if row.fired]
    groups = _groups(fired)
    disagreements = tuple(found for group in groups for found in _disagreements(group))
    trials = {row.firing for row in fired if row.looked}
    failed = {row.firing for row in fired if row.faulty}
    return Evidence(
        level=_level(fired, groups, bool(disagreements)),
        tiles=_marks(fired),
        firings=len({row.firing for row in fired}),
        looked_over=_marks(row for row in fired if row.looked),
        faulty=_marks(row for row in fired if row.faulty),
        disagreements=disagreements,
        firings_looked_over=len(trials),
        firings_faulty=len(failed),
        faulty_at_most=failure_bound(len(failed), len(trials)),
        contrasts=contrasts(fired, disagreements),
    )


def _level(fired: Sequence[Row], groups: Sequence[Sequence[Row]], disagree: bool) -> EvidenceLevel:
    """The first line of the table that holds."""
    if not fired:
        return EvidenceLevel.UNTESTED
    if all(row.old for row in fired):
        return EvidenceLevel.OLD
    if disagree:
        return EvidenceLevel.DISAGREES
    if any(_steady(group) for group in groups):
        return EvidenceLevel.STEADY
    if any(_marks(row for row in group if row.looked) >= REPEATED_TILES for group in groups):
        return EvidenceLevel.REPEATED
    return EvidenceLevel.SEEN_ONCE


def _marks(rows: Iterable[Row]) -> int:
    return len({row.mark for row in rows})


def _groups(fired: Iterable[Row]) -> tuple[tuple[Row, ...], ...]:
    """Rows of the same coats and clay, in that order. A blank clay is never the same clay."""
    found: dict[tuple[tuple[int, ...], str], list[Row]] = {}
    for row in fired:
        if row.clay is not None:
            found.setdefault((row.coats, row.clay), []).append(row)
    return tuple(tuple(found[key]) for key in sorted(found))


def _steady(group: Sequence[Row]) -> bool:
    good = [row for row in group if row.looked and row.current]
    return _marks(good) >= STEADY_TILES and len({row.firing for row in good}) >= STEADY_FIRINGS


def _disagreements(group: Sequence[Row]) -> tuple[Disagreement, ...]:
    """What rows of one coat count and clay say against each other: about running, about faults."""
    looked = [row for row in group if row.looked]
    if len(looked) < REPEATED_TILES:
        return ()
    found: list[tuple[str, Sequence[Row]]] = []
    runs = {row.run for row in group}
    if MoveClass.STABLE in runs and MoveClass.RUNNY in runs:
        found.append(("running", [row for row in group if row.run is not None]))
    faulty = sum(row.faulty for row in looked)
    if len(looked) <= 3 * faulty <= 2 * len(looked):
        found.append(("faults", looked))
    clay = group[0].tile.clay
    assert clay is not None, "rows without a clay are in no group"
    return tuple(
        Disagreement(
            coats=group[0].coats,
            clay=clay,
            about=about,
            tiles=tuple(row.tile for row in rows),
            differ=differing(rows),
        )
        for about, rows in found
    )
