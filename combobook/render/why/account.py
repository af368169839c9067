"""The account of one verdict: the order said back, food, running, places, trust, fire, what would change it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping

from combobook.entries import Status
from combobook.measures import Coats, mm_up
from combobook.render import said
from combobook.render.cards import tile_coats
from combobook.render.cautions import cautions, stops
from combobook.render.our_kiln import refused, to_do
from combobook.render.why.change import changes
from combobook.render.why.places import fire, places
from combobook.render.why.rests import points, report_words
from combobook.render.why.trust import tiles, trust
from combobook.render.why.view import Asked, Part, Point, Why
from combobook.verdicts import EvidenceLevel, FoodLevel, LayeringVerdict, ToDo
from combobook.wording import (
    MOVE_KEYS,
    Words,
    coats_words,
    evidence_words,
    food_in_full,
    order_words,
)


def _order(asked: Asked) -> str:
    pair = asked.layering
    if pair is None:
        assert not isinstance(asked.verdict, LayeringVerdict)
        return asked.words("why.alone", glaze=asked.verdict.glaze.name.value)
    return f"{order_words(pair.base.name.value, pair.top.name.value, asked.words)}."


def _coats(asked: Asked) -> str:
    """The coats that are judged, and who named them."""
    pair, words, cone = asked.layering, asked.words, asked.book.studio.cone.value
    if pair is None:
        return words("why.coats.alone", cone=cone)
    if pair.coats is None:
        tried = any(tile.fired or tile.looked_over for tile in pair.tiles)
        return words("why.coats.none" if tried else "why.coats.none_tried", cone=cone)
    coats = coats_words(pair.base.name.value, pair.top.name.value, pair.coats, words)
    own = pair.entry is not None and isinstance(pair.entry.coats.value, Coats)
    return words("why.coats.entry" if own else "why.coats.usual", coats=coats, cone=cone)


def _notices(asked: Asked) -> Iterator[str]:
    pair, words = asked.layering, asked.words
    yield from stops(asked.verdict, asked.book, asked.judged, words)
    for glaze in asked.glazes:
        if glaze.status.value in (Status.OUT, Status.RETIRED):
            yield words(f"why.shelf.{glaze.status.value.value}", glaze=glaze.name.value)
    if pair is not None and pair.entry is None:
        yield words("why.no_entry_tiles" if pair.tiles else "why.no_entry")


def _untested(asked: Asked) -> str:
    """That nobody has seen the two glazes together; empty where somebody has."""
    pair = asked.layering
    if pair is None or pair.evidence.level is not EvidenceLevel.UNTESTED:
        return ""
    return asked.words("why.not_fired" if pair.tiles else "why.never_tested")


def _food(asked: Asked) -> Part:
    verdict, words = asked.verdict, asked.words
    food, pair = verdict.food, asked.layering
    under = [] if asked.never else [words(f"site.food.ware_{'yes' if food.food_ware else 'no'}")]
    if pair is not None and pair.deciding_clays:
        under.append(words("site.food.deciding", clays=words.listed([c.name.value for c in pair.deciding_clays])))
    house, reasons = _house(asked), points(asked, food.reasons)
    told = tuple(stops(verdict, asked.book, asked.judged, words))  # It stands before all else.
    return Part(
        key="food",
        title=words("site.index.key.food"),
        verdict=food_in_full(food, asked.never, words, one_glaze=pair is None),
        under=tuple(under),
        points=reasons if house is None else (house, *reasons) if asked.never else (*reasons, house),
        notes=tuple(_reports(asked)),
        beside=cautions(verdict, asked.book, asked.judged, words)[len(told) :],
    )


def _house(asked: Asked) -> Point | None:
    """The house's food rule, where it is what keeps a layering away from food or lets it go there."""
    if asked.verdict.food.level < FoodLevel.LABELS_ALLOW and not asked.never:
        return None
    rule, words = asked.book.studio.food_rule, asked.words
    return Point(
        says=words(f"why.house.{rule.value.name.lower()}"),
        rests_on=words("why.rests.house" if rule.stated else "why.rests.house_unwritten"),
        at=rule.at.at,
        rule="house",
    )


def _reports(asked: Asked) -> Iterator[str]:
    """What each report on these layers comes to, where it is not among the reasons."""
    told = {each.place.path for each in asked.verdict.food.reasons}
    for finding in asked.verdict.findings:
        if finding.report.path in told:
            continue
        words, report = asked.words, finding.report
        outcome = words(f"lab.{finding.wording}", **dict(finding.facts))
        yield words("why.report", report=report_words(report, words), outcome=outcome, at=report.layers_place.at)
        if finding.outcome == "within":
            yield words("why.report_other_surface")


def _running(asked: Asked) -> Part:
    moves, words, pair = asked.verdict.movement, asked.words, asked.layering
    top = asked.glazes[-1].name.value
    key = MOVE_KEYS[moves.cls]
    verdict = to_do(asked.verdict, asked.book, words)
    out = refused(asked.verdict, asked.book)
    if moves.catch_plate and not out:
        verdict = words("why.with_catch_plate", to_do=verdict, catch_plate=words("to_do.catch_plate"))
    elif moves.to_do is not ToDo.NOT_ON_WALLS and not out:
        verdict = words("why.no_catch_plate", to_do=verdict)
    counts_as = words(
        "site.running.counts_as",
        word=words(f"movement.{key}.word").lower(),
        means=words(f"movement.{key}.means"),
        limits=words("movement.house_limits"),
    )
    return Part(
        key="running",
        title=words("site.index.key.movement"),
        verdict=verdict,
        under=(*(() if out else said.steps(moves, top, words)), said.runs(asked.verdict, words)),
        points=points(asked, moves.reasons),
        notes=(counts_as, *_why_so_far(asked, pair)),
    )


def _why_so_far(asked: Asked, pair: LayeringVerdict | None) -> Iterator[str]:
    """How the bare margin and the band come about, from the house's figures."""
    moves, studio, words = asked.verdict.movement, asked.book.studio, asked.words
    if moves.worst_run:
        factor = studio.run_factor.value
        times = words("why.times.twice") if factor == 2 else words("why.times.other", factor=factor)
        facts = {"run_mm": moves.worst_run, "product_up_mm": mm_up(factor * moves.worst_run)}
        yield words("why.margin_run", times=times, least_up_mm=studio.foot_margin.value.high, **facts)
    elif not moves.off_the_tile:
        yield words("why.margin_least", margin_up_mm=moves.margin_mm)
    if pair is not None:
        yield from _worst_run_of_other_coats(pair, words)
        yield from _ran_further_alone(asked, pair)
    if pair is not None and pair.top.rim_only:
        yield words("why.rim_only", glaze=pair.top.name.value)
    elif moves.to_do is ToDo.TOP_BAND:
        yield words("why.runny_band", reach_down_mm=moves.reach_mm)


def _worst_run_of_other_coats(pair: LayeringVerdict, words: Words) -> Iterator[str]:
    tile, coats = pair.movement.worst_tile, pair.coats
    if tile is not None and pair.movement.worst_run and coats is not None and tile.coats != (coats.base, coats.top):
        yield words("why.margin_other_coats", tile=tile.tile.value, coats=tile_coats(tile, words))


def _ran_further_alone(asked: Asked, pair: LayeringVerdict) -> Iterator[str]:
    """Layers whose own worst runs would ask for more bare clay than the layering's runs do."""
    alone = [(glaze.name.value, asked.judged.glazes[glaze.id].movement) for glaze in asked.glazes]
    further = [n for n, moves in alone if moves.off_the_tile or moves.margin_mm > pair.movement.margin_mm]
    if further:
        yield asked.words("why.margin_alone", glazes=asked.words.listed(further))


def _glossary(asked: Asked) -> Part:
    words = asked.words
    title, lines = words("why.glossary.title"), words.lines("why.glossary.lines")
    return Part(key="words", title=title, verdict="", under=(), points=(), notes=lines)


def _change(asked: Asked) -> Part:
    words = asked.words
    return Part(
        key="change", title=words("why.title.change"), verdict="", under=(), points=(), notes=changes(asked)
    )


def _other_way(asked: Asked) -> str:
    other, words = asked.reverse, asked.words
    if other is None:
        return ""
    return words(
        "why.other_way",
        order=order_words(other.base.name.value, other.top.name.value, words),
        food=food_in_full(other.food, asked.never, words),
        to_do=to_do(other, asked.book, words),
        evidence=evidence_words(other.evidence, words),
    )


PARTS: Mapping[str, Callable[[Asked], Part]] = {
    "food": _food,
    "running": _running,
    "places": places,
    "trust": trust,
    "tiles": tiles,
    "fire": fire,
    "change": _change,
    "words": _glossary,
}
"""Every part, in the order in which they are told."""
EVERY = tuple(PARTS)


def why(asked: Asked, keys: Collection[str] = EVERY) -> Why:
    """What led to the verdict, in finished words: the parts of these keys, less those that have nothing to say."""
    words = asked.words
    made = [PARTS[key](asked) for key in EVERY if key in keys]
    return Why(
        order=_order(asked),
        coats=_coats(asked),
        untested=_untested(asked),
        notices=tuple(_notices(asked)),
        parts=tuple(part for part in made if part.verdict or part.under or part.points or part.notes),
        other_way=_other_way(asked),
        cautions=(words("food.piece"), words("site.caution")),
    )
