"""The wall chart laid out: how many columns, which card where, or that the paper cannot hold it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from combobook.edition import Edition
from combobook.measures import Paper
from combobook.render.chart.cards import (
    LaidCard,
    LaidHead,
    head_size,
    laid_card,
    laid_head,
    least_column,
    name_size,
)
from combobook.render.chart.content import ChartGroup
from combobook.render.chart.foot import Foot, foot
from combobook.render.chart.head import Head, head
from combobook.render.chart.pack import Column, Group, height, packed
from combobook.render.chart.sizes import Sizes, sizes_for

_WIDEST = 1.35
"""A column is at most this many times as wide as it need be; then there is one more."""
_MOST_AIR = 0.12
"""What a card may be stretched by where a sheet has height to spare."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything decided; lengths in mm."""

    width: float
    height: float
    side: float
    edge: float
    sizes: Sizes
    head: Head
    foot: Foot
    room: float
    """The body's height."""
    column: float
    columns: int
    name_size: float
    heads: tuple[LaidHead, ...]
    cards: tuple[tuple[LaidCard, ...], ...]
    """By group."""
    packed: tuple[Column, ...]
    air: float
    """What every card is stretched by."""

    @property
    def sheets(self) -> int:
        return max(1, ceil(len(self.packed) / self.columns))


def plan(edition: Edition, groups: tuple[ChartGroup, ...], paper: Paper, read_from: Fraction) -> Plan | None:
    """The chart on that paper at that distance: across, or upright where only that fits; None where nothing does.

    Of all ways the one that takes the fewest sheets; of those one that explains the words for evidence too, then the
    one with the largest names.
    """
    across, sizes = paper.landscape, sizes_for(read_from)
    wide, high = float(across.width), float(across.height)
    return _best(edition, groups, wide, high, sizes) or _best(edition, groups, high, wide, sizes)


def fits(edition: Edition, groups: tuple[ChartGroup, ...], paper: Paper, read_from: Fraction) -> bool:
    """Whether there is a plan at all, without looking for the best."""
    across, sizes = paper.landscape, sizes_for(read_from)
    sides = float(across.width), float(across.height)
    return any(
        _in_columns(groups, page, columns, sizes.large) is not None
        for width, height in (sides, sides[::-1])
        for page in _pages(edition, groups, width, height, sizes, notes=(False,))
        for columns in _column_counts(page, least_column(groups, sizes))
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """A sheet before its columns."""

    width: float
    height: float
    side: float
    edge: float
    sizes: Sizes
    head: Head
    foot: Foot

    @property
    def inner(self) -> float:
        return self.width - 2 * self.side

    @property
    def room(self) -> float:
        return self.height - 2 * self.edge - self.head.height - self.foot.height - self.sizes.apart


def _best(edition: Edition, groups: tuple[ChartGroup, ...], width: float, height: float, sizes: Sizes) -> Plan | None:
    plans = (
        _in_columns(groups, page, columns, names)
        for page in _pages(edition, groups, width, height, sizes)
        for columns in _column_counts(page, least_column(groups, sizes))
        for names in (sizes.name_most, sizes.large)
    )
    found = (p for p in plans if p is not None)
    return min(found, key=lambda p: (p.sheets, -p.foot.height, -p.name_size, p.columns), default=None)


def _pages(
    edition: Edition,
    groups: tuple[ChartGroup, ...],
    width: float,
    height: float,
    sizes: Sizes,
    *,
    notes: tuple[bool, ...] = (True, False),
) -> Iterator[_Page]:
    """The sheet with all of the key, and with the part of it that every sheet must have."""
    side, edge = min(14.0, max(7.0, 0.0153 * width)), min(7.5, max(6.5, 0.0125 * height))
    top = head(edition, groups, sizes, width - 2 * side)
    for more in notes:
        bottom = foot(edition, sizes, width - 2 * side, notes=more)
        yield _Page(width=width, height=height, side=side, edge=edge, sizes=sizes, head=top, foot=bottom)


def _column_counts(page: _Page, least: float) -> Iterator[int]:
    """As many columns as fit, and fewer while they do not grow too wide."""
    gap = page.sizes.column_gap
    most = int((page.inner + gap) // (least + gap))
    for columns in range(most, 0, -1):
        if columns == most or (page.inner + gap) / columns - gap <= _WIDEST * least:
            yield columns


def _in_columns(groups: tuple[ChartGroup, ...], page: _Page, columns: int, names_at_most: float) -> Plan | None:
    sizes, room = page.sizes, page.room
    column = (page.inner - (columns - 1) * sizes.column_gap) / columns
    names = min(name_size(groups, sizes, column), names_at_most)
    firsts = min(head_size(groups, sizes, column), names_at_most)
    heads = tuple(laid_head(group, sizes, column, firsts) for group in groups)
    cards = tuple(tuple(laid_card(told, sizes, column, names) for told in group.cards) for group in groups)
    blocks = tuple(
        Group(head=h.height, cards=tuple(c.height for c in laid)) for h, laid in zip(heads, cards, strict=True)
    )
    stacked = packed(blocks, room, columns)
    if stacked is None or room <= 0:
        return None
    return Plan(
        width=page.width,
        height=page.height,
        side=page.side,
        edge=page.edge,
        sizes=sizes,
        head=page.head,
        foot=page.foot,
        room=room,
        column=column,
        columns=columns,
        name_size=names,
        heads=heads,
        cards=cards,
        packed=stacked,
        air=_air(stacked, blocks, room, sizes),
    )


def _air(stacked: tuple[Column, ...], blocks: tuple[Group, ...], room: float, sizes: Sizes) -> float:
    """How much higher every card can be before the fullest column overflows."""
    spare = (
        (room - height(column, blocks)) / sum(stretch.stop - stretch.start for stretch in column) for column in stacked
    )
    return max(0.0, min(min(spare, default=0.0), _MOST_AIR * sizes.plain_card))
