"""Which ordered pairs are worth another tile, how it would be made, and what it would be worth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from combobook.book import Book, TestTile
from combobook.cones import Cone, ConeRange
from combobook.entries import NOT_KNOWN, Clay, Glaze, Status
from combobook.measures import CoatRange, Coats
from combobook.plans import AGAIN, ENOUGH, LOW_JAR, OTHER_ORDER, Candidate, Ground, Why
from combobook.verdicts import EvidenceLevel, LayeringVerdict

_WHY = {
    EvidenceLevel.UNTESTED: Why.NEW,
    EvidenceLevel.OLD: Why.OLD,
    EvidenceLevel.DISAGREES: Why.DISAGREES,
    EvidenceLevel.SEEN_ONCE: Why.ONCE,
    EvidenceLevel.REPEATED: Why.REPEATED,
}
"""Steady is settled."""
_AT_MOST = {Why.DISAGREES: 2, Why.REPEATED: 1}
"""Further tiles of a pair at once, where it is not simply three less what there is."""
NO_COATS = Coats(2, 1)
"""Where neither entry, house nor labels say how many (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """The shelf looked through: what to test, and what not, and why not."""

    candidates: tuple[Candidate, ...]
    pairs: int
    missing: int
    left_out: tuple[tuple[Ground, Glaze | Clay], ...]
    pairs_left_out: Mapping[Ground, int]
    not_fired: tuple[TestTile, ...]


def survey(book: Book, verdicts: Mapping[tuple[str, str], LayeringVerdict]) -> Survey:
    """Every ordered pair of the glazes that may be tested, in order of ids. `verdicts` has at least those pairs."""
    cone = book.studio.cone.value
    left_out: list[tuple[Ground, Glaze | Clay]] = []
    glazes = [each for each in book.glazes.values() if _kept(_ground(each, cone), each, left_out)]
    clays = [each for each in book.clays.values() if _kept(_heat(each.cone.value, cone), each, left_out)]
    pairs = tuple((base.id, top.id) for base in glazes for top in glazes if base is not top)
    usual_clays = _by_use(clays, book)
    candidates: list[Candidate] = []
    barred: Counter[Ground] = Counter()
    allowed = missing = 0
    for pair in pairs:
        verdict = verdicts[pair]
        ground = _pair_ground(verdict)
        if ground is not None:
            barred[ground] += 1
        if ground in (None, Ground.SETTLED):
            allowed += 1
            missing += max(0, ENOUGH - _there(verdict))
        if ground is None:
            candidates += _candidates(verdict, verdicts[pair[1], pair[0]], usual_clays, book)
    return Survey(
        candidates=tuple(candidates),
        pairs=allowed,
        missing=missing,
        left_out=tuple(left_out),
        pairs_left_out=dict(barred),
        not_fired=tuple(tile for tile in book.tiles if not tile.fired),
    )


def _kept(ground: Ground | None, each: Glaze | Clay, left_out: list[tuple[Ground, Glaze | Clay]]) -> bool:
    if ground is not None:
        left_out.append((ground, each))
    return ground is None


def _ground(glaze: Glaze, cone: Cone) -> Ground | None:
    """Why a glaze is in no plan; a status nobody knows is no invitation."""
    status = glaze.status.value
    if status is Status.RETIRED:
        return Ground.RETIRED
    if status is Status.OUT:
        return Ground.OUT
    if status is NOT_KNOWN:
        return Ground.STATUS
    return _heat(glaze.cone.value, cone)


def _heat(label: ConeRange | object, cone: Cone) -> Ground | None:
    """What melts before this kiln is done could take the shelf with it: a range nobody knows is left out too."""
    if not isinstance(label, ConeRange):
        return Ground.NO_CONE
    return None if cone in label else Ground.OTHER_CONE


def _pair_ground(verdict: LayeringVerdict) -> Ground | None:
    """Why no further tile of this order is asked for. Cones are shared, as both labels hold the studio's."""
    if verdict.base.rim_only:
        return Ground.RIM_ONLY_FIRST
    if verdict.movement.off_the_tile:
        return Ground.OFF_THE_TILE  # the worst run stands for good: no further tile can give it a place
    return Ground.SETTLED if verdict.evidence.level is EvidenceLevel.STEADY else None


def _there(verdict: LayeringVerdict) -> int:
    """Tiles of this order that are fired and not all old, or wait for a firing."""
    old = verdict.evidence.level is EvidenceLevel.OLD
    return len({tile.tile.value for tile in verdict.tiles if not (old and tile.fired)})


def _candidates(
    verdict: LayeringVerdict, other: LayeringVerdict, clays: tuple[Clay, ...], book: Book
) -> tuple[Candidate, ...]:
    """One, or none where as many as may be made already wait for a firing."""
    level = verdict.evidence.level
    flat = level is not EvidenceLevel.UNTESTED and verdict.movement.untested_upright
    why = Why.UPRIGHT if flat and _WHY[level].value < Why.UPRIGHT.value else _WHY[level]
    waiting = len({tile.tile.value for tile in verdict.tiles if not tile.fired})
    at_most = max(1, ENOUGH - _there(verdict) + waiting)
    at_most = min(at_most, _AT_MOST.get(why, at_most))
    low = Status.RUNNING_LOW in (verdict.base.status.value, verdict.top.status.value)
    full = (why.value + (OTHER_ORDER if other.evidence.tiles else 0)) // (LOW_JAR if low else 1)
    worth = tuple(full // AGAIN**times for times in range(waiting, at_most))
    if not worth:
        return ()
    coats, clay = _like_before(verdict, clays) or (_coats(verdict, book), clays[0] if clays else None)
    return (Candidate(base=verdict.base, top=verdict.top, coats=coats, clay=clay, why=why, worth=worth),)


def _like_before(verdict: LayeringVerdict, clays: tuple[Clay, ...]) -> tuple[Coats, Clay | None] | None:
    """The coats and clay that need fewest further tiles to tell: those that disagree, else those with most tiles."""
    if verdict.evidence.disagreements:
        first = verdict.evidence.disagreements[0]
        if first.clay in clays:
            return Coats(*first.coats), first.clay
    groups = Counter(
        (tile.coats, tile.clay.id) for tile in verdict.tiles if tile.clay is not None and tile.clay in clays
    )
    wanted = (verdict.coats.base, verdict.coats.top) if verdict.coats else None
    best = max(groups, key=lambda group: (group[0] == wanted, groups[group], group), default=None)
    if best is None or (wanted is not None and best[0] != wanted):
        return None
    return Coats(*best[0]), next(clay for clay in clays if clay.id == best[1])


def _coats(verdict: LayeringVerdict, book: Book) -> Coats:
    """The coats judged; else the fewest that both labels allow, as far as the house's most coats goes."""
    if verdict.coats is not None:
        return verdict.coats
    labels = [glaze.coats.value for glaze in (verdict.base, verdict.top)]
    if all(isinstance(label, CoatRange) for label in labels):
        low = Coats(*(label.low for label in labels if isinstance(label, CoatRange)))
        if low.total <= book.studio.most_coats.value:
            return low
    return NO_COATS if book.studio.most_coats.value >= NO_COATS.total else Coats(1, 1)


def _by_use(clays: Iterable[Clay], book: Book) -> tuple[Clay, ...]:
    """The clay of most tiles first: new tiles are made from it, so that they can be compared."""
    used = Counter(tile.clay.id for tile in book.tiles if tile.clay is not None)
    return tuple(sorted(clays, key=lambda clay: (-used[clay.id], clay.id)))
