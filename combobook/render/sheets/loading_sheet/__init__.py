"""The loading sheet: every pair on the shelf for whoever loads the kiln, by marks, worst first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby

from combobook.edition import Edition
from combobook.entries import Glaze
from combobook.problems import Problem
from combobook.render.chart.content import mark_order
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.shelf import every_pair_on_the_shelf, on_the_shelf
from combobook.verdicts import GlazeVerdict, LayeringVerdict, ToDo
from combobook.wording import Words, upper_first

PATH = "print/loading-sheet.pdf"
Verdict = GlazeVerdict | LayeringVerdict
_LEAST_WIDE, _LEAST_HIGH = 150.0, 80.0
"""mm between the margins in which the table can be read."""
_GROUPS = ("not_on_walls", "catch_plate", "plain")
"""Worst first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asks:
    """What a loader must find on a piece; pairs that ask for the same stand in one line."""

    group: str
    margin_mm: int
    reach_mm: int | None
    third: bool
    plate: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadLine:
    """A first glaze with the tops over it that ask for the same."""

    mark: str
    first: str
    then: str
    """The tops' marks; empty for one glaze alone."""
    plate: str
    plate_mark: str
    """The class of the catch-plate mark, or empty."""
    bare: str
    refuse: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadGroup:
    """Lines under one heading, and whether they name two glazes."""

    title: str
    pairs: bool
    lines: tuple[LoadLine, ...]


def loading_sheet(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """On `paper`: what must not stand upright, then what needs a catch plate, then the rest; then one glaze alone.

    Within each the widest bare margin comes first, then what keeps to a band, then the marks.
    """
    words = edition.words
    furnished = frame(edition, words("loading_sheet.title"), edition.book.studio.paper.value, key=("moves",))
    if furnished.width < _LEAST_WIDE or furnished.height < _LEAST_HIGH:
        return {}, (too_small(edition, "loading-sheet.pdf"),)
    groups = (*_pairs(edition), *_alone(edition))
    return printed(
        edition,
        "print/loading-sheet.html",
        path=PATH,
        furnished=furnished,
        styles=("print-loading-sheet.css",),
        groups=groups,
        notes=words.lines("loading_sheet.notes"),
        heads=words.lines("loading_sheet.heads"),
        empty="" if groups else words("loading_sheet.empty"),
    )


def _pairs(edition: Edition) -> Iterable[LoadGroup]:
    shown = sorted(every_pair_on_the_shelf(edition), key=lambda v: (*_order(_asks(v)), mark_order(v.base)))
    for group, verdicts in groupby(shown, key=lambda v: _asks(v).group):
        lines = [
            _line(edition.words, asks, base, tuple(verdict.top for verdict in some))
            for (asks, base), some in groupby(verdicts, key=lambda v: (_asks(v), v.base))
        ]
        yield LoadGroup(title=edition.words(f"loading_sheet.groups.{group}"), pairs=True, lines=tuple(lines))


def _alone(edition: Edition) -> tuple[LoadGroup, ...]:
    shown = sorted(on_the_shelf(edition), key=lambda v: (*_order(_asks(v)), mark_order(v.glaze)))
    lines = tuple(_line(edition.words, _asks(verdict), verdict.glaze, ()) for verdict in shown)
    return (LoadGroup(title=edition.words("loading_sheet.groups.alone"), pairs=False, lines=lines),) if lines else ()


def _asks(verdict: Verdict) -> _Asks:
    movement = verdict.movement
    if movement.to_do is ToDo.NOT_ON_WALLS:
        # It lies flat, where neither a margin nor a band has anything to be measured on.
        return _Asks(group=_GROUPS[0], margin_mm=0, reach_mm=None, third=False, plate=movement.catch_plate)
    return _Asks(
        group=_GROUPS[1] if movement.catch_plate else _GROUPS[2],
        margin_mm=movement.margin_mm,
        reach_mm=movement.reach_mm,
        third=movement.untested_upright and isinstance(verdict, LayeringVerdict),
        plate=movement.catch_plate,
    )


def _order(asks: _Asks) -> tuple[object, ...]:
    return (
        _GROUPS.index(asks.group),
        -asks.margin_mm,
        asks.reach_mm is None,
        asks.reach_mm or 0,
        not asks.third,
        not asks.plate,
    )


def _line(words: Words, asks: _Asks, first: Glaze, tops: tuple[Glaze, ...]) -> LoadLine:
    return LoadLine(
        mark=first.mark.value,
        first=first.name.value,
        then=", ".join(top.mark.value for top in sorted(tops, key=mark_order)),
        plate=words("loading_sheet.plate" if asks.plate else "loading_sheet.no_plate"),
        plate_mark="m-catch-plate" if asks.plate else "",
        bare=words.length(asks.margin_mm, "up") if asks.margin_mm else words("loading_sheet.flat"),
        refuse=words("loading_sheet.refuse.whole", causes=upper_first(_either(words, _causes(words, asks)))),
    )


def _causes(words: Words, asks: _Asks) -> Iterable[str]:
    """Every cause to leave the piece out of the kiln."""
    yield words("loading_sheet.refuse.margin" if asks.margin_mm else "loading_sheet.refuse.upright")
    if asks.plate:
        yield words("loading_sheet.refuse.plate")
    if asks.reach_mm is not None:
        yield words("loading_sheet.refuse.reach", reach_down_mm=asks.reach_mm)
    if asks.third:
        yield words("loading_sheet.refuse.third")


def _either(words: Words, causes: Iterable[str]) -> str:
    *most, last = causes
    return words("loading_sheet.refuse.or", most=", ".join(most), last=last) if most else last
