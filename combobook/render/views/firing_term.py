"""The witness readings of the term: a drawing for each cone aimed at, the same as a table, and what has no date."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from combobook.cones import Cone
from combobook.entries import KilnShelf
from combobook.render.views.desk import Desk
from combobook.render.views.firing_plot import narrow_plot, wide_plot
from combobook.render.views.pieces import known
from combobook.verdicts import FiringVerdict, ShelfFire


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A kiln shelf by name and its cone in words; `off` where it was hot or cool."""

    head: str
    words: str
    off: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """A firing's readings in words, upper shelf first."""

    href: str
    """Relative to site/."""
    name: str
    date: str
    shelves: tuple[Reading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TermView:
    """All firings that aimed at one cone."""

    id: str
    title: str
    label: str
    """Of the drawing."""
    table: str
    """Of the table, for those who listen."""
    wide: Markup
    """Empty where no firing has a date, and so is `narrow`."""
    narrow: Markup
    undated: tuple[ReadingRow, ...]
    rows: tuple[ReadingRow, ...]
    """Earliest first; without a date last."""


def term_views(desk: Desk) -> tuple[TermView, ...]:
    """One for each cone aimed at, the studio's own first, then from hot to cool."""
    own = desk.book.studio.cone.value
    by_aim: dict[Cone, list[FiringVerdict]] = {}
    for verdict in desk.edition.judged.firings.values():
        by_aim.setdefault(verdict.firing.cone.value, []).append(verdict)
    aims = sorted(by_aim, key=lambda cone: (cone != own, -cone.halves))
    return tuple(_term(desk, aim, by_aim[aim]) for aim in aims)


def _term(desk: Desk, aim: Cone, verdicts: Iterable[FiringVerdict]) -> TermView:
    dated: list[tuple[dt.date, FiringVerdict]] = []
    undated: list[FiringVerdict] = []
    for verdict in verdicts:
        day = verdict.firing.date.value
        if isinstance(day, dt.date):
            dated.append((day, verdict))
        else:
            undated.append(verdict)
    dated.sort(key=lambda each: (each[0], each[1].firing.id))
    label = desk.text("firings.plot.label", cone=aim)
    rows = (*(_row(desk, verdict) for _, verdict in dated), *(_row(desk, verdict) for verdict in undated))
    return TermView(
        id=f"aim-{aim}".replace(" ", "-").replace("/", "-"),
        title=desk.text("firings.plot.aimed", cone=aim),
        label=label,
        table=desk.text("firings.plot.table", cone=aim),
        wide=wide_plot(desk, aim, dated, label) if dated else Markup(""),
        narrow=narrow_plot(desk, aim, dated, label) if dated else Markup(""),
        undated=tuple(_row(desk, verdict) for verdict in undated),
        rows=rows,
    )


def _row(desk: Desk, verdict: FiringVerdict) -> ReadingRow:
    read = {shelf.shelf: shelf for shelf in verdict.shelves}
    return ReadingRow(
        href=f"firings/{verdict.firing.id}.html",
        name=verdict.firing.id,
        date=known(verdict.firing.date, desk),
        shelves=tuple(_reading(desk, shelf, read.get(shelf)) for shelf in KilnShelf),
    )


def _reading(desk: Desk, kiln_shelf: KilnShelf, read: ShelfFire | None) -> Reading:
    head = desk.text(f"firings.plot.columns.{kiln_shelf.value}")
    if read is None:
        return Reading(head=head, words=desk.text("firings.plot.no_cone"), off=False)
    said = desk.text("tiles.reached", cone=read.witness)
    if read.fired == "as meant":
        return Reading(head=head, words=said, off=False)
    return Reading(head=head, words=f"{said}, {desk.text(f'tiles.fired_{read.fired}')}", off=True)
