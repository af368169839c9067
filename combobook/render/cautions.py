"""What must be said beside a verdict on food, where it says less than a reader could take from it.

Words only, for pages and `why` alike; nothing here decides.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from combobook.book import Book
from combobook.cones import ConeRange
from combobook.entries import Clay, FoodRule, Glaze
from combobook.measures import CoatRange
from combobook.render.cards import short_reason
from combobook.render.said import Verdict
from combobook.verdicts import (
    EvidenceLevel,
    FoodLevel,
    FoodVerdict,
    GlazeVerdict,
    Judged,
    LayeringVerdict,
    SurfaceVerdict,
)
from combobook.wording import Words

KIND = FoodLevel.LABELS_ALLOW
"""From here on a verdict lets something touch food, so that what it does not speak of must be said."""


def cautions(verdict: Verdict, book: Book, judged: Judged, words: Words) -> tuple[str, ...]:
    """Finished sentences, the gravest first; empty where the verdict says it all. `judged` has each glaze by itself.

    Where the house makes nothing for food only what the kiln asks is said.
    """
    never = book.studio.food_rule.value is FoodRule.NEVER
    rules: tuple[Rule, ...] = (no_shared_cone,) if never else RULES
    return tuple(said for rule in rules for said in rule(verdict, book, judged, words))


def in_short(verdict: LayeringVerdict, judged: Judged, words: Words) -> tuple[str, ...]:
    """For lists of what may touch food: a layer that is kept off by itself, or has fewer coats than its label names."""
    alone = [glaze.name.value for glaze in _kept_off_alone(verdict, judged)]
    thin = dict.fromkeys(glaze.name.value for coats in _judged_coats(verdict) for glaze, _ in _thin(coats, verdict))
    of_layers = (words("cautions_beside.short.by_itself", glaze=name) for name in alone)
    return (*of_layers, *(words("cautions_beside.short.too_few", glaze=name) for name in thin))


def no_shared_cone(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """Two labels without a cone in common: before all else, nobody should fire the two together."""
    layers = _layers(verdict)
    ranges = [glaze.cone.value for glaze in layers if isinstance(glaze.cone.value, ConeRange)]
    if len(ranges) == 2 and not ranges[0].shares_a_cone_with(ranges[1]):
        yield words("cautions_beside.no_shared_cone", base=layers[0].name.value, top=layers[1].name.value)


def by_itself(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """A layer that is kept off food by its own tiles or its own report, which the rules do not hold against a pair."""
    if not isinstance(verdict, LayeringVerdict) or verdict.food.level < KIND:
        return
    for glaze in _kept_off_alone(verdict, judged):
        why = _why(judged.glazes[glaze.id].food, words)
        yield words("cautions_beside.by_itself", glaze=glaze.name.value, why=why)


def too_few_coats(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """Fewer coats of a layer than its label names: the label does not speak of so few."""
    if not isinstance(verdict, LayeringVerdict) or verdict.food.level < KIND:
        return
    said = (too_few(coats, verdict, words) for coats in _judged_coats(verdict))
    yield from dict.fromkeys(sentence for some in said for sentence in some)


def too_few(coats: tuple[int, ...], verdict: Verdict, words: Words) -> tuple[str, ...]:
    """A sentence for each layer that has fewer of these coats than its label names; none where that is not known."""
    found = []
    for glaze, label in _thin(coats, verdict):
        count = words.counted("coats", coats[_layers(verdict).index(glaze)])
        key = "cautions_beside.too_few" if label.low == label.high else "cautions_beside.too_few_range"
        found.append(words(key, glaze=glaze.name.value, coats=count, low=label.low, high=label.high))
    return tuple(found)


def report_speaks_of(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """What the report that lifts the verdict measured, and that it says nothing of other ware."""
    food = verdict.food
    if food.level is not FoodLevel.LAB_REPORT:
        return
    lifting = {reason.place.path for reason in food.reasons}
    for report in (each.report for each in verdict.findings if each.report.path in lifting):
        assert report.clay is not None  # Without a clay it lifts nothing.
        facts = {"ware": report.ware.value, "clay": report.clay.name.value, "cone": report.cone}
        yield words("cautions_beside.report", **facts)


def clays_seen(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """On which clays these coats were fired, where one that the studio can fire has none; then clays that differ."""
    if isinstance(verdict, LayeringVerdict) and verdict.food.level is KIND:
        seen = {clay.id: clay.name.value for clay, _ in _on_clays(verdict)}
        if seen and any(clay.id not in seen for clay in book.clays.values() if _can_be_fired(clay, book)):
            yield words("cautions_beside.seen_only_on", clays=words.listed(list(seen.values())))
    yield from _clays_that_differ(verdict, words)


def only_old(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """Every tile is from an earlier jar or before a re-test date, and the verdict lets something touch food."""
    if verdict.food.level >= KIND and verdict.evidence.level is EvidenceLevel.OLD:
        yield words("cautions_beside.only_old")


Rule = Callable[[Verdict, Book, Judged, Words], Iterator[str]]
RULES: tuple[Rule, ...] = (no_shared_cone, by_itself, too_few_coats, report_speaks_of, clays_seen, only_old)


def _layers(verdict: Verdict) -> tuple[Glaze, ...]:
    return (verdict.glaze,) if isinstance(verdict, GlazeVerdict) else (verdict.base, verdict.top)


def _kept_off_alone(verdict: LayeringVerdict, judged: Judged) -> tuple[Glaze, ...]:
    return tuple(glaze for glaze in _layers(verdict) if judged.glazes[glaze.id].food.level < KIND)


def _thin(coats: tuple[int, ...], verdict: Verdict) -> Iterator[tuple[Glaze, CoatRange]]:
    """The layers that have fewer of these coats than their label names, with what it names."""
    for glaze, count in zip(_layers(verdict), coats, strict=True):
        label = glaze.coats.value
        if isinstance(label, CoatRange) and count < label.low:
            yield glaze, label


def _judged_coats(verdict: Verdict) -> tuple[tuple[int, ...], ...]:
    """The coat counts that the headline speaks of: a layering's own, a glaze's by its label; else all tried."""
    tried = dict.fromkeys(surface.coats for surface in verdict.surfaces)
    if isinstance(verdict, LayeringVerdict):
        return tuple(tried) if verdict.coats is None else ((verdict.coats.base, verdict.coats.top),)
    label = verdict.glaze.coats.value
    return tuple(each for each in tried if not isinstance(label, CoatRange) or label.low <= each[0] <= label.high)


def _on_clays(verdict: Verdict) -> Iterator[tuple[Clay, tuple[SurfaceVerdict, ...]]]:
    """Each clay with its verdicts at the judged coats, where a tile of those coats was fired on it."""
    counts = _judged_coats(verdict)
    clays = {surface.clay.id: surface.clay for surface in verdict.surfaces if surface.clay is not None}
    for clay_id in sorted(clays):
        cells = [s for s in verdict.surfaces if s.clay is not None and s.clay.id == clay_id and s.coats in counts]
        made = tuple(cell for cell in cells if any(tile.fired for tile in cell.tiles))
        if made:
            yield clays[clay_id], made


def _clays_that_differ(verdict: Verdict, words: Words) -> Iterator[str]:
    """Clays on which the same coats come to another answer than the whole: kinder ones count for nothing."""
    level = {clay.name.value: min(cell.food.level for cell in cells) for clay, cells in _on_clays(verdict)}
    if verdict.food.level >= KIND:
        worse = [name for name, found in level.items() if found < KIND]
        if worse:
            yield words("cautions_beside.worse_on", clays=words.listed(worse))
        return
    kinder = [name for name, found in level.items() if found >= KIND]
    if kinder:
        yield words("cautions_beside.kinder_on", clays=words.listed(kinder))


def _can_be_fired(clay: Clay, book: Book) -> bool:
    """Its own range reaches the studio's cone, or nobody knows it."""
    span = clay.cone.value
    return not isinstance(span, ConeRange) or book.studio.cone.value in span


def _why(food: FoodVerdict, words: Words) -> str:
    return next((said for said in (short_reason(reason, words) for reason in food.reasons) if said), "")
