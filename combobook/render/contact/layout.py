"""Contact sheets laid out: tiles in rows at half size, rows and headings on pages; lengths in mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from math import ceil

from combobook.render.chart.sizes import Sizes
from combobook.render.contact.content import ContactGroup, ContactTile
from combobook.render.contact.placed import TILE_MM
from combobook.render.letters import Run, wrapped

SCALE = 0.5
"""Tiles come out at half their size on every sheet."""
TILE_WIDE, TILE_HIGH = TILE_MM[0] * SCALE, TILE_MM[1] * SCALE
BESIDE, GAP = 2.5, 4.0
"""Between a picture and its words; between neighbours."""
_LETTERS = 12
"""Words are never narrower than this many times their size, or they fold again and again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidTile:
    """A tile with the height that it takes."""

    tile: ContactTile
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Tiles beside each other."""

    tiles: tuple[LaidTile, ...]
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Rows under one part's heading on one page; `goes_on` where the part began on an earlier one."""

    title: str
    goes_on: bool
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A group, or what of it stands on one page."""

    group: ContactGroup
    goes_on: bool
    stretches: tuple[Stretch, ...]


Blocks = tuple[Block, ...]
"""One page: a firing's sheet stands alone, glazes follow each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """What the room of a page comes to in columns and heights."""

    columns: int
    column: float
    words: float
    """The width of a tile's words."""
    mark: float
    """Type size of a tile's mark, and of a group's heading."""
    name: float
    """Of a part's heading."""
    small: float
    small_line: float
    head: float
    """Height of a group's heading."""
    part: float
    """Height of a part's heading."""
    room: float


def measures(width: float, height: float, sizes: Sizes) -> Measures | None:
    """How a page of this room is divided, or None where it has none for a single tile."""
    least = TILE_WIDE + BESIDE + _LETTERS * sizes.small
    columns = int((width + GAP) // (least + GAP))
    if columns < 1:
        return None
    column = (width - (columns - 1) * GAP) / columns
    mark = 1.25 * sizes.name_most
    made = Measures(
        columns=columns, column=column, words=column - TILE_WIDE - BESIDE, mark=mark, name=sizes.name_most,
        small=sizes.small, small_line=sizes.small_line, head=1.25 * mark + 2, part=1.3 * sizes.name_most + 2.5,
        room=height,
    )  # fmt: skip
    return made if made.head + made.part + TILE_HIGH + GAP <= height else None


def lines_of(tile: ContactTile) -> tuple[str, ...]:
    """The lines beside a tile, under its mark."""
    return tuple(line for line in (tile.coats, tile.clay, tile.fired, tile.shown) if line)


def laid_out(groups: Iterable[ContactGroup], by: Measures) -> tuple[Blocks, ...]:
    """A firing from the top of a page of its own, for it hangs alone; a glaze where two rows of it still fit.

    A row is never split, and a heading never stands without one.
    """
    pages: list[list[Block]] = []
    left = 0.0
    for group in groups:
        rows = [(part.title, row) for part in group.parts for row in _rows(part.tiles, by)]
        least = by.head + by.part + sum(row.height for _, row in rows[:2]) + (by.part if _apart(rows) else 0)
        if group.kind == "firing" or least > left:
            left = 0.0
        for block, height in _blocks(group, rows, by, left or by.room):
            if not left or block.goes_on:
                pages.append([])
                left = by.room
            pages[-1].append(block)
            left -= height
        if group.kind == "firing":
            left = 0.0
    return tuple(tuple(page) for page in pages)


def _apart(rows: list[tuple[str, Row]]) -> bool:
    """The first two rows stand under headings of their own."""
    return len(rows) > 1 and rows[0][0] != rows[1][0]


def _blocks(
    group: ContactGroup, rows: list[tuple[str, Row]], by: Measures, room: float
) -> Iterator[tuple[Block, float]]:
    """The group in pieces that fill first `room`, then a whole page each, with the height of each."""
    used, here, before, goes_on = by.head, list[tuple[str, Row]](), "", False
    for title, row in rows:
        new = not here or here[-1][0] != title
        if here and used + row.height + (by.part if new else 0) > room:
            yield Block(group=group, goes_on=goes_on, stretches=_stretches(here, before)), used
            used, before, here, goes_on, room, new = by.head, here[-1][0], [], True, by.room, True
        used += row.height + (by.part if new else 0)
        here.append((title, row))
    yield Block(group=group, goes_on=goes_on, stretches=_stretches(here, before)), used


def _stretches(rows: list[tuple[str, Row]], before: str) -> tuple[Stretch, ...]:
    """Rows by their part; the first goes on where the page before ended with the same part."""
    return tuple(
        Stretch(title=title, goes_on=title == before, rows=tuple(row for _, row in some))
        for title, some in groupby(rows, key=lambda pair: pair[0])
    )


def _rows(tiles: tuple[ContactTile, ...], by: Measures) -> Iterator[Row]:
    laid = [LaidTile(tile=tile, height=_height(tile, by)) for tile in tiles]
    for n in range(0, len(laid), by.columns):
        some = tuple(laid[n : n + by.columns])
        yield Row(tiles=some, height=ceil(max(each.height for each in some) * 10) / 10 + GAP)


def _height(tile: ContactTile, by: Measures) -> float:
    lines = sum(len(wrapped((Run(line),), by.small, by.words)) for line in lines_of(tile))
    mark = len(wrapped((Run(tile.mark, True),), by.mark, by.words))
    return max(TILE_HIGH, mark * 1.15 * by.mark + lines * by.small_line)
