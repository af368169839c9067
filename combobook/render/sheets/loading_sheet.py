"""The loading sheet: every judged pair on the shelf for whoever loads the kiln, worst first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import Glaze
from combobook.problems import Problem
from combobook.render.chart.content import mark_order
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.shelf import on_the_shelf, pairs_on_the_shelf
from combobook.verdicts import GlazeVerdict, LayeringVerdict, MovementVerdict, ToDo
from combobook.wording import Words, upper_first

PATH = "print/loading-sheet.pdf"
Verdict = GlazeVerdict | LayeringVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadLine:
    """One pair (or glaze) as a loader asks for it; marks apart from names, as the marks are on the ticket."""

    first_mark: str
    first: str
    then_mark: str
    """Empty for one glaze alone."""
    then: str
    plate: str
    plate_mark: str
    """The class of the catch-plate mark, or empty."""
    bare: str
    refuse: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadGroup:
    """Lines that ask for the same: its heading, and whether a line names two glazes."""

    title: str
    pairs: bool
    lines: tuple[LoadLine, ...]


def loading_sheet(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """On `paper`: what must not stand upright, then what needs a catch plate, then the rest; then one glaze alone.

    Within each the widest bare margin comes first, then the longest run, then the marks.
    """
    words = edition.words
    groups = (*_pairs(edition), *_alone(edition))
    return printed(
        edition,
        "print/loading-sheet.html",
        path=PATH,
        furnished=frame(edition, words("loading_sheet.title"), edition.book.studio.paper.value, key=("moves",)),
        styles=("print-loading-sheet.css",),
        groups=groups,
        notes=words.lines("loading_sheet.notes"),
        heads=words.lines("loading_sheet.heads"),
        empty="" if groups else words("loading_sheet.empty"),
    )


def _pairs(edition: Edition) -> tuple[LoadGroup, ...]:
    shown = sorted(pairs_on_the_shelf(edition), key=_order)
    return tuple(
        LoadGroup(
            title=edition.words(f"loading_sheet.groups.{key}"),
            pairs=True,
            lines=tuple(_line(edition.words, verdict) for verdict in some),
        )
        for key in ("not_on_walls", "catch_plate", "plain")
        if (some := [verdict for verdict in shown if _group(verdict.movement) == key])
    )


def _alone(edition: Edition) -> tuple[LoadGroup, ...]:
    lines = tuple(_line(edition.words, verdict) for verdict in sorted(on_the_shelf(edition), key=_order))
    return (LoadGroup(title=edition.words("loading_sheet.groups.alone"), pairs=False, lines=lines),) if lines else ()


def _group(movement: MovementVerdict) -> str:
    if movement.to_do is ToDo.NOT_ON_WALLS:
        return "not_on_walls"
    return "catch_plate" if movement.catch_plate else "plain"


def _order(verdict: Verdict) -> tuple[object, ...]:
    movement = verdict.movement
    first, then = _glazes(verdict)
    return (
        not movement.off_the_tile,
        -movement.margin_mm,
        -(movement.worst_run or 0),
        movement.reach_mm is None,
        mark_order(first),
        *(() if then is None else (mark_order(then),)),
    )


def _glazes(verdict: Verdict) -> tuple[Glaze, Glaze | None]:
    return (verdict.glaze, None) if isinstance(verdict, GlazeVerdict) else (verdict.base, verdict.top)


def _line(words: Words, verdict: Verdict) -> LoadLine:
    movement = verdict.movement
    first, then = _glazes(verdict)
    top = first if then is None else then
    return LoadLine(
        first_mark=first.mark.value,
        first=first.name.value,
        then_mark="" if then is None else then.mark.value,
        then="" if then is None else then.name.value,
        plate=words("loading_sheet.plate" if movement.catch_plate else "loading_sheet.no_plate"),
        plate_mark="m-catch-plate" if movement.catch_plate else "",
        bare=words.length(movement.margin_mm, "up"),
        refuse=_refuse(words, movement, top.mark.value),
    )


def _refuse(words: Words, movement: MovementVerdict, top: str) -> str:
    """Every cause to leave the piece out of the kiln, in one line."""
    return words("loading_sheet.refuse.whole", causes=upper_first(_either(words, _causes(words, movement, top))))


def _causes(words: Words, movement: MovementVerdict, top: str) -> Iterable[str]:
    if movement.to_do is ToDo.NOT_ON_WALLS:
        yield words("loading_sheet.refuse.upright")
    else:
        yield words("loading_sheet.refuse.margin")
    if movement.catch_plate:
        yield words("loading_sheet.refuse.plate")
    if movement.to_do is not ToDo.NOT_ON_WALLS and movement.reach_mm is not None:
        yield words("loading_sheet.refuse.reach", top=top, reach_down_mm=movement.reach_mm)
    if movement.to_do is not ToDo.NOT_ON_WALLS and movement.untested_upright:
        yield words("loading_sheet.refuse.third", top=top)


def _either(words: Words, causes: Iterable[str]) -> str:
    *most, last = causes
    return words("loading_sheet.refuse.or", most=", ".join(most), last=last) if most else last
