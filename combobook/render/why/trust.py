"""How far to trust it: the level, tiles that disagree, what made them old, and every tile that it rests on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Glaze
from combobook.render import said
from combobook.render.cards import tile_coats
from combobook.render.why.rests import came_out_at, tile_said
from combobook.render.why.view import Asked, Part, Point
from combobook.verdicts import EvidenceLevel, FoodLevel
from combobook.wording import evidence_words, upper_first


def trust(asked: Asked) -> Part:
    """The level in words with what it means; under it the tiles that disagree, or what made them old."""
    evidence, words = asked.verdict.evidence, asked.words
    means = said.trust_means(evidence, words)
    looked = said.looked_over(evidence, words)
    under = (means, looked) if looked else (means,)
    if evidence.level >= EvidenceLevel.REPEATED and asked.verdict.food.level < FoodLevel.LABELS_ALLOW:
        under = (*under, words("why.steady_not_food"))
    apart = tuple(said.apart(found, words) for found in evidence.disagreements)
    return Part(
        key="trust",
        title=words("site.index.key.evidence"),
        verdict=upper_first(evidence_words(evidence, words)),
        under=under,
        points=(*_disagreeing(asked), *_made_old(asked)),
        notes=(*apart, words("site.layering.differ_lead")) if apart else (),
    )


def _disagreeing(asked: Asked) -> Iterator[Point]:
    words = asked.words
    for found in asked.verdict.evidence.disagreements:
        for tile in found.tiles:
            what = said.ran(tile, words) if found.about == "running" else said.faults(tile, words)
            says = words(f"why.differ.{found.about}", tile=tile.tile.value, said=what)
            at = tile.ran.at.at if found.about == "running" else tile.faults.at.at
            yield Point(says=says, rests_on=tile_said(asked, tile), at=at, rule="")


def _made_old(asked: Asked) -> Iterator[Point]:
    """The lot in use and the re-test date of each glaze, where every tile is old."""
    if asked.verdict.evidence.level is not EvidenceLevel.OLD:
        return
    for glaze in asked.glazes:
        lot, since = glaze.lot, glaze.retest_since
        if lot.value is not NOT_KNOWN:
            yield _of_jar(asked, glaze, "why.old.lot", lot.at.at, lot=lot.value)
        if isinstance(since.value, dt.date):
            yield _of_jar(asked, glaze, "why.old.since", since.at.at, since=since.value)


def _of_jar(asked: Asked, glaze: Glaze, key: str, at: str, **facts: object) -> Point:
    return Point(says=asked.words(key, glaze=glaze.name.value, **facts), rests_on="", at=at, rule="")


def tiles(asked: Asked) -> Part:
    """Every tile of it: what came out, then how it was made and fired."""
    made = tuple(
        Point(says=_came_out(asked, tile), rests_on=_made(asked, tile), at=came_out_at(tile), rule="")
        for tile in asked.verdict.tiles
    )
    return Part(key="tiles", title=asked.words("why.title.tiles"), verdict="", under=(), points=made)


def _came_out(asked: Asked, tile: TestTile) -> str:
    words, mark = asked.words, tile.tile.value
    if not tile.fired and not tile.looked_over and tile.ran.value is NOT_KNOWN:
        return words("why.tile_due", tile=mark)
    stood = words(f"why.stood.{str(tile.stood.value.value).replace(' ', '_')}")
    return words("why.tile", tile=mark, stood=stood, ran=said.ran(tile, words), faults=said.faults(tile, words))


def _made(asked: Asked, tile: TestTile) -> str:
    """Coats, clay, firing, the cone it reached, and the lots it was brushed from where they are written."""
    words = asked.words
    clay = words("tile.clay", clay=tile.clay.name.value) if tile.clay else words("tile.no_clay")
    told = [tile_coats(tile, words), clay]
    told += [words("tile.firing", firing=tile.firing.id)] if tile.firing else []
    told.append(said.fired(asked.judged.tile_fire.get(tile.place), words))
    lots = [(tile.base, tile.base_lot.value), (tile.top, tile.top_lot.value)]
    told += [words("why.from_lot", glaze=g.name.value, lot=lot) for g, lot in lots if g and lot is not NOT_KNOWN]
    return ", ".join(told)
