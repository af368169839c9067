"""One headline for a layering or a glaze, and a verdict for each of its coat counts and clays (rules.md, section 1)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from combobook.entries import Clay
from combobook.judge.evidence import evidence
from combobook.judge.food import food
from combobook.judge.reasons import listed
from combobook.judge.rows import Row
from combobook.judge.surface import Layering, at_coats
from combobook.measures import CoatRange
from combobook.verdicts import Evidence, FoodVerdict, SurfaceVerdict

Counts = tuple[tuple[int, ...], ...]


def headline(layering: Layering, counts: Counts) -> FoodVerdict:
    """The worst verdict of these coat counts over all clays, with the reasons of every count at that level.

    Without a count, what can be said of the layers alone.
    """
    return worst(tuple(food(at_coats(layering, count)) for count in counts) or (food(at_coats(layering, None)),))


def worst(verdicts: tuple[FoodVerdict, ...]) -> FoodVerdict:
    """The worst of one or more verdicts, with the reasons of each at that level."""
    if len(verdicts) == 1:
        return verdicts[0]
    level = min(each.level for each in verdicts)
    deciding = [each for each in verdicts if each.level == level]
    return replace(deciding[0], reasons=listed(found for each in deciding for found in each.reasons))


def counts_named(rows: Iterable[Row]) -> Counts:
    """The coat counts that a fired tile or a fault (fired or not) names."""
    return tuple(sorted({row.coats for row in rows if row.fired or row.faulty}))


def counts_of_label(layering: Layering) -> Counts:
    """Of one glaze alone: every count its label allows; where that is not known, those its tiles name."""
    label = layering.layers[0].coats.value
    if isinstance(label, CoatRange):
        return tuple((coats,) for coats in range(label.low, label.high + 1))
    return counts_named(layering.rows)


def surfaces(layering: Layering, judged: tuple[int, ...] | None) -> tuple[SurfaceVerdict, ...]:
    """Each coat count that has a tile, and the judged one: over all clays first, then on each clay.

    The clays are all those that have a tile of these layers, at whatever coats.
    """
    counts = {row.coats for row in layering.rows} | ({judged} if judged else set())
    clays = {row.tile.clay.id: row.tile.clay for row in layering.rows if row.tile.clay is not None}
    return tuple(each for coats in sorted(counts) for each in _of_count(layering, coats, clays))


def _of_count(layering: Layering, coats: tuple[int, ...], clays: Mapping[str, Clay]) -> tuple[SurfaceVerdict, ...]:
    whole = at_coats(layering, coats)
    found, known = food(whole), evidence(whole.rows)
    verdicts = [_surface(coats, None, whole.rows, found, known)]
    # A layering whose tiles of these coats are all on one clay has the same verdict there: nothing else is filtered.
    only = {row.clay for row in whole.rows}
    for clay_id in sorted(clays):
        same = not layering.alone and only == {clay_id}
        part = whole if same else at_coats(layering, coats, clay_id)
        on_clay = (found, known) if same else (food(part), evidence(part.rows))
        verdicts.append(_surface(coats, clays[clay_id], part.rows, *on_clay))
    return tuple(verdicts)


def _surface(
    coats: tuple[int, ...], clay: Clay | None, rows: tuple[Row, ...], found: FoodVerdict, known: Evidence
) -> SurfaceVerdict:
    return SurfaceVerdict(coats=coats, clay=clay, food=found, evidence=known, tiles=tuple(row.tile for row in rows))


def deciding_clays(layering: Layering, verdict: FoodVerdict) -> tuple[Clay, ...]:
    """The clays whose faulty tiles alone bring the verdict down to its level; empty where something else does too."""
    at_level = [each for each in verdict.reasons if each.severity == verdict.level]
    if not at_level or any(each.rule != "F2" for each in at_level):
        return ()
    places = {each.place for each in at_level}
    clays = {row.tile.clay.id: row.tile.clay for row in layering.rows if row.tile.clay and row.tile.faults.at in places}
    return tuple(clays[clay] for clay in sorted(clays))
