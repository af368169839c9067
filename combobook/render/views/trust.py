"""How far to trust it: the level, tiles and firings counted, and what disagrees side by side."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.render.said import looked_over, trust_means
from combobook.render.views.desk import Desk
from combobook.render.views.differ import DifferView, differ_view
from combobook.render.views.pieces import Signed, sign, upper_first
from combobook.verdicts import Evidence, EvidenceLevel
from combobook.wording import EVIDENCE_KEYS, level_words


@dataclass(frozen=True, slots=True, kw_only=True)
class TrustView:
    """How far to trust it, as counts."""

    sign: Signed
    counts: tuple[str, ...]
    means: str
    looked: str
    differ: tuple[DifferView, ...]
    """What disagrees."""
    contrasts: tuple[DifferView, ...]
    """What was made differently and came out differently."""


def trust_view(desk: Desk, evidence: Evidence) -> TrustView:
    """The level with what it means, tiles and firings counted, and what disagrees."""
    key, words = EVIDENCE_KEYS[evidence.level], desk.words
    level, counts = trust_words(desk, evidence)
    return TrustView(
        sign=Signed(key=key, mark=sign(key.replace("_", "-")), words=level),
        counts=counts,
        means=trust_means(evidence, words),
        looked=looked_over(evidence, words),
        differ=tuple(differ_view(desk, found) for found in evidence.disagreements),
        contrasts=tuple(differ_view(desk, found) for found in evidence.contrasts),
    )


def trust_words(desk: Desk, evidence: Evidence) -> tuple[str, tuple[str, ...]]:
    """The level's words, and tiles and firings counted; nothing is counted where no tile was fired."""
    words, untested = desk.words, evidence.level is EvidenceLevel.UNTESTED
    counts = (words.counted("tiles", evidence.tiles), words.counted("firings", evidence.firings))
    return upper_first(level_words(evidence, words)), () if untested else counts
