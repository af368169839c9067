"""Cards into columns, in order, with the head of their group repeated at a column's top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, inf

_LONE = 0.35
"""What a card parted from its group costs, in columns: worth avoiding, not worth a sheet."""
_PARTED = 0.05
"""What parting a group at all costs."""
_EMPTY = 0.02
"""What empty room costs at the chart's beginning: of equal ways the one that leaves it to the end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The cards of one first glaze: the height of the head and of each card."""

    head: float
    cards: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Cards `start` to `stop` (not included) of one group in one column."""

    group: int
    start: int
    stop: int


Column = tuple[Stretch, ...]


def packed(groups: Sequence[Group], room: float, columns_a_sheet: int) -> tuple[Column, ...] | None:
    """All cards in as few sheets as it takes, or None where a head and its card are higher than `room`.

    Cards alone at a column's end or top are avoided as far as that takes no further sheet.
    """
    if any(group.head + card > room for group in groups for card in group.cards):
        return None
    fewest, kind = _columns(groups, room, 1000.0), _columns(groups, room, 1.0)
    return kind if ceil(len(kind) / columns_a_sheet) == ceil(len(fewest) / columns_a_sheet) else fewest


def height(column: Column, groups: Sequence[Group]) -> float:
    """How much of a column is filled."""
    return sum(groups[s.group].head + sum(groups[s.group].cards[s.start : s.stop]) for s in column)


def _columns(groups: Sequence[Group], room: float, price: float) -> tuple[Column, ...]:
    """The cheapest columns where each costs `price` and each lone card `_LONE`."""
    flat = [(g, c) for g, group in enumerate(groups) for c in range(len(group.cards))]
    best, came = [0.0, *[inf] * len(flat)], [0] * (len(flat) + 1)
    for start in range(len(flat)):
        used, stop = 0.0, start
        while stop < len(flat):
            g, c = flat[stop]
            used += groups[g].cards[c] + (groups[g].head if stop == start or c == 0 else 0.0)
            if used > room + 1e-6:
                break
            stop += 1
            early = _EMPTY * (1 - used / room) * (1 - start / len(flat))
            cost = best[start] + price + _fault(groups, flat, start, stop) + early
            if cost < best[stop]:
                best[stop], came[stop] = cost, start
    return _traced(flat, came)


def _fault(groups: Sequence[Group], flat: Sequence[tuple[int, int]], start: int, stop: int) -> float:
    """What parting groups at a column's two ends costs."""
    cost = 0.0
    (first, card), (last, end) = flat[start], flat[stop - 1]
    if card > 0:
        alone = len(groups[first].cards) - card == 1
        cost += _LONE if alone else 0.0
    if end < len(groups[last].cards) - 1:
        alone = stop - start == 1 or end == 0
        cost += _PARTED + (_LONE if alone else 0.0)
    return cost


def _traced(flat: Sequence[tuple[int, int]], came: Sequence[int]) -> tuple[Column, ...]:
    columns: list[Column] = []
    stop = len(flat)
    while stop:
        start = came[stop]
        stretches: list[Stretch] = []
        for g, c in flat[start:stop]:
            if stretches and stretches[-1].group == g:
                stretches[-1] = Stretch(group=g, start=stretches[-1].start, stop=c + 1)
            else:
                stretches.append(Stretch(group=g, start=c, stop=c + 1))
        columns.append(tuple(stretches))
        stop = start
    return tuple(reversed(columns))
