"""Cards and base heads of the wall chart, fitted to a column: lines, sizes, heights."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import floor

from combobook.render.chart.content import ChartCard, ChartGroup
from combobook.render.chart.sizes import Sizes
from combobook.render.letters import Line, Run, width, wrapped

_FEW_LETTERS = 15
"""A card's words are never narrower than this many times the small size, or its small lines fold again and again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidHead:
    """`Ferry Rust first`, in one line or more, with the jar's mark at the right."""

    lines: tuple[Line, ...]
    size: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidCard:
    """A card's lines. `other_unit` is empty where it does not fit beside the instruction."""

    told: ChartCard
    name: tuple[Line, ...]
    coats: tuple[str, ...]
    small: tuple[str, ...]
    """In the food frame under the words."""
    trust: tuple[str, ...]
    other_unit: str
    height: float


def emphasised(sentence: str, name: str) -> Line:
    """A short phrase with the name in it set bold."""
    before, found, after = sentence.partition(name)
    return tuple(run for run in (Run(before), Run(found, True), Run(after)) if run.text)


def name_size(groups: tuple[ChartGroup, ...], sizes: Sizes, column: float) -> float:
    """One size for all names: the largest, 16 to 20 minutes of arc, at which none folds that need not."""
    words = column - sizes.text_left
    return _one_size([(_name(told), words) for group in groups for told in group.cards], sizes)


def head_size(groups: tuple[ChartGroup, ...], sizes: Sizes, column: float) -> float:
    """One size for all heads, likewise."""
    return _one_size([(_first(group), column - _beside_head(group, sizes)) for group in groups], sizes)


def _one_size(lines: Iterable[tuple[Line, float]], sizes: Sizes) -> float:
    """The largest size of the bold words at which no line folds that need not, from 16 to 20 minutes of arc."""
    largest = sizes.name_most
    for line, room in lines:
        if _mixed_width(line, sizes.large, sizes.large) <= room:
            bold = sum(width(run.text, 1, True) for run in line if run.bold)
            plain = sum(width(run.text, sizes.large) for run in line if not run.bold)
            largest = min(largest, (room - plain) / bold)
    return max(sizes.large, floor(largest * 10) / 10)


def laid_head(group: ChartGroup, sizes: Sizes, column: float, size: float) -> LaidHead:
    """The head of a group in one line, or in more where even the least size does not fit."""
    line, room = _first(group), column - _beside_head(group, sizes)
    lines = (line,) if _mixed_width(line, size, sizes.large) <= room else wrapped(line, size, room)
    return LaidHead(lines=lines, size=size, height=len(lines) * size + sizes.of(2.2))


def _first(group: ChartGroup) -> Line:
    return emphasised(group.cards[0].card.first, group.base)


def _beside_head(group: ChartGroup, sizes: Sizes) -> float:
    """What of a head's width is the jar's mark, `continued` and air."""
    return width(f"{group.mark} · {group.continued}", sizes.caution) + sizes.of(7.5)


def laid_card(told: ChartCard, sizes: Sizes, column: float, names: float) -> LaidCard:
    """A card in its column. Its large words fit: `least_column` saw to that."""
    words = column - sizes.text_left
    line = _name(told)
    name = (line,) if _mixed_width(line, names, sizes.large) <= words else wrapped(line, names, words)
    coats = _small_lines((told.coats, told.shelf), sizes, words)
    small = _small_lines((told.reason,), sizes, words - _frame_extra(sizes))
    beside = _other_unit_fits(told, sizes, words)
    trust = _small_lines((told.trust if beside else told.trust_with_unit,), sizes, words)
    frame = len(told.card.food_lines) * sizes.large_line + len(small) * sizes.small_line + sizes.frame_edges
    more = (
        (len(name) * names - sizes.large)
        + (len(coats) + len(trust) - 2) * sizes.small_line
        + max(0.0, frame - sizes.frame)
    )
    return LaidCard(
        told=told,
        name=name,
        coats=coats,
        small=small,
        trust=trust,
        other_unit=told.other_unit if beside else "",
        height=sizes.plain_card + more,
    )


def least_column(groups: tuple[ChartGroup, ...], sizes: Sizes) -> float:
    """The narrowest column in which every card's large words fit."""
    cards = [told for group in groups for told in group.cards]
    needs = [_FEW_LETTERS * sizes.small]
    needs += [width(line, sizes.large, True) + _frame_extra(sizes) for t in cards for line in t.card.food_lines]
    needs += [_to_do_width(told, sizes) for told in cards]
    return sizes.text_left + max(needs)


def _name(told: ChartCard) -> Line:
    return emphasised(told.card.then, told.card.top)


def _mixed_width(line: Line, names: float, others: float) -> float:
    """Names in bold at one size, the words about them at another."""
    return sum(width(run.text, names if run.bold else others, run.bold) for run in line)


def _frame_extra(sizes: Sizes) -> float:
    """What of a food frame's width is not its words: mark, edges, air."""
    return sizes.food_mark + sizes.of(7)


def _to_do_width(told: ChartCard, sizes: Sizes) -> float:
    asides = int(told.card.rim_band) + int(bool(told.card.catch_plate))
    return sizes.mark_room + width(told.card.to_do, sizes.large, True) + asides * (sizes.mark + sizes.of(2))


def _other_unit_fits(told: ChartCard, sizes: Sizes, words: float) -> bool:
    return _to_do_width(told, sizes) + width(told.other_unit, sizes.small) + sizes.of(2.5) <= words


def _small_lines(texts: tuple[str, ...], sizes: Sizes, room: float) -> tuple[str, ...]:
    return tuple(
        "".join(run.text for run in line) for text in texts if text for line in wrapped((Run(text),), sizes.small, room)
    )
