"""What must be said beside a verdict on food, where it says less than a reader could take from it.

Words only, for pages and `why` alike; nothing here decides.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from combobook.book import Book
from combobook.cones import ConeRange
from combobook.entries import Clay, FoodRule, Glaze
from combobook.measures import CoatRange
from combobook.render.cards import short_reason
from combobook.render.our_kiln import layers as layers_of
from combobook.render.our_kiln import why_refused
from combobook.render.said import Verdict
from combobook.verdicts import (
    EvidenceLevel,
    FoodLevel,
    FoodVerdict,
    Judged,
    LayeringVerdict,
    SurfaceVerdict,
)
from combobook.wording import Words

KIND = FoodLevel.LABELS_ALLOW
"""From here on a verdict lets something touch food, so that what it does not speak of must be said."""


@dataclass(frozen=True, slots=True)
class Say:
    """The words of cautions in one form: whole sentences, or short."""

    words: Words
    form: str
    """The key under which they stand in the words file."""

    def __call__(self, key: str, **facts: object) -> str:
        return self.words(f"{self.form}.{key}", **facts)


def cautions(verdict: Verdict, book: Book, judged: Judged, words: Words) -> tuple[str, ...]:
    """Finished sentences, the gravest first; empty where the verdict says it all. `judged` has each glaze by itself.

    Where the house makes nothing for food only what the kiln asks is said.
    """
    return (*stops(verdict, book, judged, words), *_by_rules(verdict, book, judged, Say(words, "cautions_beside")))


def every_in_short(verdict: Verdict, book: Book, judged: Judged, words: Words) -> tuple[str, ...]:
    """The same cautions in a few words each, without a full stop: for paper that has no room for whole sentences."""
    say = Say(words, "cautions_beside.short")
    barred = any(stops(verdict, book, judged, words))
    return (*((say("stops"),) if barred else ()), *_by_rules(verdict, book, judged, say))


def _by_rules(verdict: Verdict, book: Book, judged: Judged, say: Say) -> Iterator[str]:
    if book.studio.food_rule.value is not FoodRule.NEVER:
        for rule in RULES:
            yield from rule(verdict, book, judged, say)


def in_short(
    verdict: LayeringVerdict, judged: Judged, words: Words, coats: tuple[int, ...] | None = None
) -> tuple[str, ...]:
    """For lists of what may touch food: a layer that is kept off by itself, or has fewer coats than its label names.

    Of these coats, else of those that the headline speaks of.
    """
    counts = _judged_coats(verdict) if coats is None else (coats,)
    alone = [glaze.name.value for glaze in kept_off_alone(verdict, judged)]
    thin = dict.fromkeys(glaze.name.value for count in counts for glaze, _ in _thin(count, verdict))
    of_layers = (words("cautions_beside.short.by_itself", glaze=name) for name in alone)
    return (*of_layers, *(words("cautions_beside.short.too_few", glaze=name) for name in thin))


def asks_first(verdict: LayeringVerdict, judged: Judged) -> bool:
    """Whether its cautions send to the teacher: a layer by itself, too few coats, or nothing but old tiles."""
    thin = any(True for count in _judged_coats(verdict) for _ in _thin(count, verdict))
    return thin or bool(kept_off_alone(verdict, judged)) or verdict.evidence.level is EvidenceLevel.OLD


def only_some_clays(verdict: Verdict, book: Book) -> bool:
    """Whether the studio fires a clay of which its verdict on food says nothing."""
    speak = clays_that_speak(verdict)
    return any(clay.name.value not in speak for clay in book.clays.values() if _can_be_fired(clay, book))


def clays_that_speak(verdict: Verdict) -> tuple[str, ...]:
    """Names of the clays whose own tiles of the judged coats come to an answer that lets something touch food."""
    return tuple(
        clay.name.value for clay, cells in _on_clays(verdict) if min(cell.food.level for cell in cells) >= KIND
    )


def stops(verdict: Verdict, book: Book, judged: Judged, words: Words) -> Iterator[str]:
    """What stands before all else: nobody should fire these together, or this, in the studio's kiln."""
    apart = tuple(no_shared_cone(verdict, words))
    yield from apart or why_refused(verdict, book, words)


def no_shared_cone(verdict: Verdict, words: Words) -> Iterator[str]:
    """Two labels without a cone in common."""
    layers = layers_of(verdict)
    ranges = [glaze.cone.value for glaze in layers if isinstance(glaze.cone.value, ConeRange)]
    if len(ranges) == 2 and not ranges[0].shares_a_cone_with(ranges[1]):
        yield words("cautions_beside.no_shared_cone", base=layers[0].name.value, top=layers[1].name.value)


def by_itself(verdict: Verdict, book: Book, judged: Judged, say: Say) -> Iterator[str]:
    """A layer that is kept off food by its own tiles or its own report, which the rules do not hold against a pair."""
    if not isinstance(verdict, LayeringVerdict) or verdict.food.level < KIND:
        return
    for glaze in kept_off_alone(verdict, judged):
        why = _why(judged.glazes[glaze.id].food, say.words)
        yield say("by_itself", glaze=glaze.name.value, why=why)


def too_few_coats(verdict: Verdict, book: Book, judged: Judged, say: Say) -> Iterator[str]:
    """Fewer coats of a layer than its label names: the label does not speak of so few."""
    if not isinstance(verdict, LayeringVerdict) or verdict.food.level < KIND:
        return
    said = (_too_few(coats, verdict, say) for coats in _judged_coats(verdict))
    yield from dict.fromkeys(sentence for some in said for sentence in some)


def too_few(coats: tuple[int, ...], verdict: Verdict, words: Words) -> tuple[str, ...]:
    """A sentence for each layer that has fewer of these coats than its label names; none where that is not known."""
    return tuple(_too_few(coats, verdict, Say(words, "cautions_beside")))


def _too_few(coats: tuple[int, ...], verdict: Verdict, say: Say) -> Iterator[str]:
    for glaze, label in _thin(coats, verdict):
        count = say.words.counted("coats", coats[layers_of(verdict).index(glaze)])
        key = "too_few" if label.low == label.high else "too_few_range"
        yield say(key, glaze=glaze.name.value, coats=count, low=label.low, high=label.high)


def report_speaks_of(verdict: Verdict, book: Book, judged: Judged, say: Say) -> Iterator[str]:
    """What the report that lifts the verdict measured, and that it says nothing of other ware."""
    food = verdict.food
    if food.level is not FoodLevel.LAB_REPORT:
        return
    lifting = {reason.place.path for reason in food.reasons}
    for report in (each.report for each in verdict.findings if each.report.path in lifting):
        assert report.clay is not None  # Without a clay it lifts nothing.
        facts = {"ware": report.ware.value, "clay": report.clay.name.value, "cone": report.cone}
        yield say("report", **facts)


def clays_seen(verdict: Verdict, book: Book, judged: Judged, say: Say) -> Iterator[str]:
    """On which clays these coats were fired, where one that the studio can fire has none; then clays that differ."""
    if isinstance(verdict, LayeringVerdict) and verdict.food.level is KIND:
        seen = {clay.id: clay.name.value for clay, _ in _on_clays(verdict)}
        if seen and any(clay.id not in seen for clay in book.clays.values() if _can_be_fired(clay, book)):
            yield say("seen_only_on", clays=say.words.listed(list(seen.values())))
    yield from _clays_that_differ(verdict, say)


def only_old(verdict: Verdict, book: Book, judged: Judged, say: Say) -> Iterator[str]:
    """Every tile is from an earlier jar or before a re-test date, and the verdict lets something touch food."""
    if verdict.food.level >= KIND and verdict.evidence.level is EvidenceLevel.OLD:
        yield say("only_old")


Rule = Callable[[Verdict, Book, Judged, Say], Iterator[str]]
RULES: tuple[Rule, ...] = (by_itself, too_few_coats, report_speaks_of, clays_seen, only_old)


def kept_off_alone(verdict: LayeringVerdict, judged: Judged) -> tuple[Glaze, ...]:
    """The layers that by themselves are kept off food."""
    return tuple(glaze for glaze in layers_of(verdict) if judged.glazes[glaze.id].food.level < KIND)


def _thin(coats: tuple[int, ...], verdict: Verdict) -> Iterator[tuple[Glaze, CoatRange]]:
    """The layers that have fewer of these coats than their label names, with what it names."""
    for glaze, count in zip(layers_of(verdict), coats, strict=True):
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


def _clays_that_differ(verdict: Verdict, say: Say) -> Iterator[str]:
    """Clays on which the same coats come to another answer than the whole: kinder ones count for nothing."""
    level = {clay.name.value: min(cell.food.level for cell in cells) for clay, cells in _on_clays(verdict)}
    if verdict.food.level >= KIND:
        worse = [name for name, found in level.items() if found < KIND]
        if worse:
            yield say("worse_on", clays=say.words.listed(worse))
        return
    kinder = [name for name, found in level.items() if found >= KIND]
    if kinder:
        yield say("kinder_on", clays=say.words.listed(kinder))


def _can_be_fired(clay: Clay, book: Book) -> bool:
    """Its own range reaches the studio's cone, or nobody knows it."""
    span = clay.cone.value
    return not isinstance(span, ConeRange) or book.studio.cone.value in span


def _why(food: FoodVerdict, words: Words) -> str:
    return next((said for said in (short_reason(reason, words) for reason in food.reasons) if said), "")
