"""Contents and index of the book: lines with page numbers, packed into columns in code, for CSS is slow at it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from combobook.entries import Glaze
from combobook.render.book.views import glaze_anchor, layering_anchor
from combobook.render.letters import Run, wrapped
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import layering_card
from combobook.verdicts import LayeringVerdict

_NUMBERS = 16.0
"""mm kept free for page numbers at the end of a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line of contents or index: words, then the pages of these anchors."""

    words: str
    anchors: tuple[str, ...] = ()
    head: bool = False


Column = tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListView:
    """A titled list: pages of columns."""

    anchor: str
    title: str
    pages: tuple[tuple[Column, ...], ...]


def listed(
    anchor: str, title: str, lines: Sequence[Line], *, columns: int, width: float, size: float, high: float
) -> ListView:
    """The lines in columns of `width` mm, no column higher than `high` mm in letters of `size`; heads never last."""
    most = int(high / (1.3 * size))
    packed: list[list[Line]] = [[]]
    used = 0
    for n, line in enumerate(lines):
        takes = _takes(line, width, size)
        after = _takes(lines[n + 1], width, size) if line.head and n + 1 < len(lines) else 0
        if packed[-1] and used + takes + after > most:
            packed.append([])
            used = 0
        packed[-1].append(line)
        used += takes
    made = tuple(tuple(column) for column in packed)
    pages = tuple(made[n : n + columns] for n in range(0, len(made), columns))
    return ListView(anchor=anchor, title=title, pages=pages)


def _takes(line: Line, width: float, size: float) -> int:
    """Lines that a line folds into, its page numbers included; a head has half a line of air above."""
    numbers = max(0, len(line.anchors) - 1) * 0.6 * _NUMBERS
    room = width - _NUMBERS - min(numbers, width / 2)
    return len(wrapped((Run(line.words, line.head),), size, room)) + (1 if line.head else 0)


def by_first(desk: Desk) -> Iterator[Line]:
    """Each first glaze by name, and what went over it."""
    for glaze in _glazes(desk, desk.on):
        yield Line(words=f"{glaze.name.value} ({glaze.mark.value})", anchors=(glaze_anchor(glaze.id),), head=True)
        for verdict in _sorted(desk.on[glaze.id], top=True):
            yield Line(words=layering_card(desk, verdict).then, anchors=(layering_anchor(verdict.id),))


def by_top(desk: Desk) -> Iterator[Line]:
    """Each top by name, and what it went over."""
    for glaze in _glazes(desk, desk.over):
        yield Line(words=f"{glaze.name.value} ({glaze.mark.value})", anchors=(glaze_anchor(glaze.id),), head=True)
        for verdict in _sorted(desk.over[glaze.id], top=False):
            over = desk.text("lists.over", base=verdict.base.name.value)
            yield Line(words=over, anchors=(layering_anchor(verdict.id),))


def by_mark(desk: Desk) -> Iterator[Line]:
    """Each jar's mark, as on its lid."""
    for glaze in sorted(desk.book.glazes.values(), key=lambda g: (g.mark.value.casefold(), g.id)):
        yield Line(words=f"{glaze.mark.value}  {glaze.name.value}", anchors=(glaze_anchor(glaze.id),))


def by_tile(desk: Desk) -> Iterator[Line]:
    """Each tile's mark, and the entry it rests in."""
    found: dict[str, dict[str, None]] = {}
    for tile in desk.book.tiles:
        top = tile.top
        anchor = glaze_anchor(tile.base.id) if top is None else layering_anchor(f"{top.id}-over-{tile.base.id}")
        found.setdefault(tile.tile.value, {})[anchor] = None
    for mark, anchors in found.items():
        yield Line(words=mark, anchors=tuple(anchors))


def _glazes(desk: Desk, by: Mapping[str, object]) -> list[Glaze]:
    return sorted((desk.book.glazes[glaze] for glaze in by), key=lambda g: (g.name.value.casefold(), g.id))


def _sorted(verdicts: Iterable[LayeringVerdict], *, top: bool) -> list[LayeringVerdict]:
    return sorted(verdicts, key=lambda v: (v.top if top else v.base).name.value.casefold())
