"""The wall chart laid out: how many columns, which card where, or that the paper cannot hold it."""

from __future__ import annotations

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
    """The chart on that paper at that distance: across, or upright where only that fits; None where nothing does."""
    across = paper.landscape
    sizes = sizes_for(read_from)
    wide, high = float(across.width), float(across.height)
    return _on(edition, groups, wide, high, sizes) or _on(edition, groups, high, wide, sizes)


def _on(edition: Edition, groups: tuple[ChartGroup, ...], width: float, high: float, sizes: Sizes) -> Plan | None:
    side = min(14.0, max(7.0, 0.0153 * width))
    edge = min(7.5, max(6.5, 0.0125 * high))
    inner = width - 2 * side
    top, bottom = head(edition, groups, sizes, inner), foot(edition, sizes, inner)
    room = high - 2 * edge - top.height - bottom.height - sizes.of(2)
    least = least_column(groups, sizes)
    most = int((inner + sizes.column_gap) // (least + sizes.column_gap))
    plans = [
        _in_columns(groups, sizes, width, high, side, edge, top, bottom, room, columns, names)
        for columns in range(most, 0, -1)
        if columns == most or (inner + sizes.column_gap) / columns - sizes.column_gap <= _WIDEST * least
        for names in (sizes.name_most, sizes.large)
    ]
    return min((p for p in plans if p is not None), key=lambda p: (p.sheets, -p.name_size, p.columns), default=None)


def _in_columns(
    groups: tuple[ChartGroup, ...],
    sizes: Sizes,
    width: float,
    high: float,
    side: float,
    edge: float,
    top: Head,
    bottom: Foot,
    room: float,
    columns: int,
    names_at_most: float,
) -> Plan | None:
    column = (width - 2 * side - (columns - 1) * sizes.column_gap) / columns
    names = min(name_size(groups, sizes, column), names_at_most)
    first = min(head_size(groups, sizes, column), max(names_at_most, sizes.large))
    heads = tuple(laid_head(group, sizes, column, first) for group in groups)
    cards = tuple(tuple(laid_card(c, sizes, column, names) for c in group.cards) for group in groups)
    blocks = tuple(
        Group(head=h.height, cards=tuple(c.height for c in laid)) for h, laid in zip(heads, cards, strict=True)
    )
    stacked = packed(blocks, room, columns)
    if stacked is None or room <= sizes.large:
        return None
    return Plan(
        width=width,
        height=high,
        side=side,
        edge=edge,
        sizes=sizes,
        head=top,
        foot=bottom,
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
