"""Verdicts that changed, on food and on running, each under the way it went: stricter, kinder or otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.past import Changed, ChangedPart, Changes, PastReason, PastVerdict, Way

WAYS = {Way.STRICTER: "stricter", Way.KINDER: "kinder", Way.OTHERWISE: "others"}
"""In the order of the page; words at `editions`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """A verdict that changed, on food or on running: what was said, what is said now, and why."""

    says: str
    """`Food: was … Now …`."""
    came: tuple[str, ...]
    went: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedView:
    """One glaze or layering, with those of its verdicts that went the same way."""

    href: str
    name: str
    lines: tuple[LineView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WayView:
    """Everything that went one way: stricter, kinder, or otherwise."""

    id: str
    title: str
    items: tuple[ChangedView, ...]


def ways(edition: Edition, found: Changes, gone: frozenset[str]) -> tuple[WayView, ...]:
    """Each way that anything went, the stricter first; `gone` are the marks of withdrawn tiles."""
    return tuple(way for way in (_way(edition, found, way, gone) for way in WAYS) if way.items)


def _way(edition: Edition, found: Changes, way: Way, gone: frozenset[str]) -> WayView:
    shown = ((each, tuple(_lines(edition, each, way, gone))) for each in found.verdicts)
    items = tuple(
        ChangedView(href=page_of(each.now), name=each.now.name, lines=lines) for each, lines in shown if lines
    )
    title = edition.words(f"editions.{WAYS[way]}", n=len(items))
    return WayView(id=WAYS[way], title=title, items=items)


def _lines(edition: Edition, each: Changed, way: Way, gone: frozenset[str]) -> Iterator[LineView]:
    """Those of its verdicts that went this way."""
    words, before, now = edition.words, each.before, each.now
    if each.food is not None and each.food.way is way:
        says = words("editions.food", before=_food(edition, before), now=_food(edition, now))
        yield _line(says, each.food, before.food_reasons, gone)
    if each.movement is not None and each.movement.way is way:
        says = words("editions.running", before=to_do(edition, before), now=to_do(edition, now))
        yield _line(says, each.movement, before.movement_reasons, gone)


def _line(says: str, part: ChangedPart, before: Iterable[PastReason], gone: frozenset[str]) -> LineView:
    still = set(without(before, gone))
    return LineView(says=says, came=part.came, went=tuple(each for each in part.went if each in still))


def _food(edition: Edition, past: PastVerdict) -> str:
    ware = "" if past.food_ware or past.food_level in ("keep off", "not known") else edition.words("editions.no_ware")
    return f"{past.food}{ware}"


def to_do(edition: Edition, past: PastVerdict) -> str:
    """What to do about running in one line: the instruction, the bare margin where it is another, the catch plate."""
    words = edition.words
    margin = words("editions.margin", margin_up_mm=past.margin_mm)
    short = words("to_do.leave", length=words.short_length(past.margin_mm, "up"))
    plate = words("editions.catch_plate") if past.catch_plate else ""
    return f"{past.to_do}{'' if past.to_do == short else margin}{plate}"


def without(reasons: Iterable[PastReason], gone: frozenset[str]) -> tuple[str, ...]:
    """The sentences that rest on no withdrawn tile."""
    return tuple(reason.says for reason in reasons if not gone & {mark.upper() for mark in reason.tiles})


def page_of(past: PastVerdict) -> str:
    """Today's page of a glaze or layering, relative to site/."""
    return f"combinations/{past.id}.html" if past.top else f"glazes/{past.id}.html"
