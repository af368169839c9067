"""How far to trust it: the level, tiles and firings counted, and what disagrees side by side."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.book import TestTile
from combobook.render.said import looked_over
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Signed, sign, upper_first
from combobook.render.views.tiles import coats_said, faults_words, ran_words
from combobook.verdicts import Disagreement, Evidence, EvidenceLevel
from combobook.wording import EVIDENCE_KEYS


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferView:
    """Tiles of the same coats and clay that say different things: each said, never an average."""

    about: str
    sides: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrustView:
    """How far to trust it, as counts."""

    sign: Signed
    counts: tuple[str, ...]
    means: str
    looked: str
    differ: tuple[DifferView, ...]


def trust_view(desk: Desk, evidence: Evidence) -> TrustView:
    """The level with what it means, tiles and firings counted, and what disagrees."""
    key, words = EVIDENCE_KEYS[evidence.level], desk.words
    untested = evidence.level is EvidenceLevel.UNTESTED
    counts = (words.counted("tiles", evidence.tiles), words.counted("firings", evidence.firings))
    return TrustView(
        sign=Signed(key=key, mark=sign(key.replace("_", "-")), words=upper_first(words(f"evidence.{key}.short"))),
        counts=() if untested else counts,
        means=upper_first(words(f"evidence.{key}.means")) + ".",
        looked=looked_over(evidence, words),
        differ=tuple(_differ(desk, found) for found in evidence.disagreements if found.tiles),
    )


def _differ(desk: Desk, found: Disagreement) -> DifferView:
    coats = coats_said(desk, found.tiles[0])
    return DifferView(
        about=desk.text(f"trust.differ_{found.about}", clay=found.clay.name.value, coats=coats),
        sides=tuple(_side(desk, tile, found.about) for tile in found.tiles),
    )


def _side(desk: Desk, tile: TestTile, about: str) -> str:
    fired = desk.words("tile.firing", firing=tile.firing.id) if tile.firing else desk.words("tile.not_fired")
    said = ran_words(desk, tile) if about == "running" else faults_words(desk, tile)
    return desk.text("trust.side", tile=tile.tile.value, fired=fired, said=said)
