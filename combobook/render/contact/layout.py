"""Contact sheets laid out: tiles in rows at half size, rows and headings on pages; lengths in mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from combobook.render.chart.sizes import Sizes
from combobook.render.contact.content import CANVAS_MM, TILE_MM, ContactGroup, ContactTile
from combobook.render.letters import Run, wrapped

SCALE = 0.5
"""A drawing's tile comes out at half its size on every sheet."""
CANVAS_WIDE, CANVAS_HIGH = CANVAS_MM[0] * SCALE, CANVAS_MM[1] * SCALE
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
class SheetPage:
    """One page: a group, or what is left of it."""

    group: ContactGroup
    goes_on: bool
    stretches: tuple[Stretch, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """What the room of a page comes to in columns and heights."""

    columns: int
    column: float
    words: float
    """The width of a tile's words."""
    mark: float
    """Type size of a tile's mark, and of a heading."""
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
        columns=columns, column=column, words=column - TILE_WIDE - BESIDE, mark=mark, small=sizes.small,
        small_line=sizes.small_line, head=1.25 * mark + 2, part=1.35 * sizes.name_most + 2, room=height,
    )  # fmt: skip
    return made if made.head + made.part + TILE_HIGH + GAP <= height else None


def lines_of(tile: ContactTile) -> tuple[str, ...]:
    """The lines beside a tile, under its mark."""
    return tuple(line for line in (tile.coats, tile.clay, tile.fired, tile.shown) if line)


def laid_out(groups: Iterable[ContactGroup], by: Measures) -> tuple[SheetPage, ...]:
    """Every group from the top of a page of its own; a row is never split, and a heading never stands alone."""
    return tuple(page for group in groups for page in _pages(group, by))


def _pages(group: ContactGroup, by: Measures) -> Iterator[SheetPage]:
    used, goes_on = by.head, False
    stretches: list[Stretch] = []
    for part in group.parts:
        rows: list[Row] = []
        begun = False
        used += by.part
        for row in _rows(part.tiles, by):
            if used + row.height > by.room and (rows or stretches):
                stretches += [Stretch(title=part.title, goes_on=begun, rows=tuple(rows))] if rows else []
                yield SheetPage(group=group, goes_on=goes_on, stretches=tuple(stretches))
                begun, goes_on = begun or bool(rows), True
                stretches, rows = [], []
                used = by.head + by.part
            rows.append(row)
            used += row.height
        stretches.append(Stretch(title=part.title, goes_on=begun, rows=tuple(rows)))
    yield SheetPage(group=group, goes_on=goes_on, stretches=tuple(stretches))


def _rows(tiles: tuple[ContactTile, ...], by: Measures) -> Iterator[Row]:
    laid = [LaidTile(tile=tile, height=_height(tile, by)) for tile in tiles]
    for n in range(0, len(laid), by.columns):
        some = tuple(laid[n : n + by.columns])
        yield Row(tiles=some, height=ceil(max(each.height for each in some) * 10) / 10 + GAP)


def _height(tile: ContactTile, by: Measures) -> float:
    lines = sum(len(wrapped((Run(line),), by.small, by.words)) for line in lines_of(tile))
    mark = len(wrapped((Run(tile.mark, True),), by.mark, by.words))
    return max(TILE_HIGH, mark * 1.15 * by.mark + lines * by.small_line)
