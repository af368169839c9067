"""Base sheets to hang tiles on: an empty place for each tile, its words beside and below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from combobook.edition import Edition
from combobook.render.chart.content import ChartCard
from combobook.render.chart.lengths import mm
from combobook.render.letters import width
from combobook.render.sheets.base_sheets.content import (
    MOST,
    READ_FROM,
    BaseCardView,
    BaseGroup,
    BaseSheets,
    BaseSheetView,
)
from combobook.render.sheets.base_sheets.fit import (
    Folded,
    Type,
    base_card,
    folded,
    frame_width,
    head_lines,
    words_width,
)
from combobook.render.sheets.frame import Frame, frame

PLACE = (50.0, 84.0)
"""mm: the place for a tile; it is cut down to `_LEAST_HIGH` where the paper asks for that (house)."""
_LEAST_HIGH = 70.0
_GAP, _PAD, _KEY = 4.0, 1.5, 3.6
_BESIDE = 24.0
"""mm of small print that stand beside a place at least."""
_SMALL = 3.5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """The sheet one way round: how many places, and how high they can be."""

    furnished: Frame
    type: Type
    columns: int
    rows: int
    column: float
    place: float
    card: float

    @property
    def most(self) -> int:
        return min(MOST, self.columns * self.rows)


def hung(edition: Edition, groups: tuple[BaseGroup, ...]) -> BaseSheets | None:
    """The sheets to hang, whichever way round holds more places; None where the paper holds not one."""
    ways = [way for way in (_way(edition, groups, across=across) for across in (False, True)) if way is not None]
    if not ways:
        return None
    way = max(ways, key=lambda each: each.most)
    sheets = tuple(
        (group, n + 1, group.cards[n * way.most : (n + 1) * way.most])
        for group in groups
        for n in range(-(-len(group.cards) // way.most))
    )
    return BaseSheets(
        form="hung",
        furnished=way.furnished,
        style=_style(way),
        sheets=tuple(_sheet(edition, way, *each) for each in sheets),
        files={},
    )


def _way(edition: Edition, groups: tuple[BaseGroup, ...], *, across: bool) -> _Way | None:
    furnished = frame(
        edition,
        edition.words("base_sheets.title", cone=str(edition.book.studio.cone.value)),
        edition.book.studio.paper.value,
        read_from=READ_FROM,
        key=("food",),
        across=across,
    )
    sizes = furnished.sizes
    type_ = Type(large=sizes.large, name=sizes.large, small=_SMALL)
    least = max(frame_width(groups, type_), words_width(groups, type_), PLACE[0] + 2 + _BESIDE)
    columns = min(MOST, int((furnished.width + _GAP) // (least + _GAP)))
    head = max((len(_first(g, furnished)) for g in groups), default=1) * sizes.name_most * 1.1 + 2.5
    if columns < 1:
        return None
    column = (furnished.width - (columns - 1) * _GAP) / columns
    words = _words_height([_folded(told, type_, column) for group in groups for told in group.cards], type_)
    room = furnished.height - head - _KEY
    rows = int(room // (_LEAST_HIGH + words))
    if rows < 1:
        return None
    rows = min(rows, -(-MOST // columns))
    place = min(PLACE[1], room / rows - words)
    return _Way(
        furnished=furnished, type=type_, columns=columns, rows=rows, column=column, place=place, card=place + words
    )


def _folded(told: ChartCard, type_: Type, column: float) -> Folded:
    return folded(told, type_, words=column, frame=column, small=column - PLACE[0] - 2)


def _words_height(folds: Sequence[Folded], type_: Type) -> float:
    """What stands under the places of any row: name, food frame, instruction, each as high as the highest of them."""
    return _name_height(folds, type_) + _frame_height(folds) + type_.do_line + 3 * _PAD


def _name_height(folds: Sequence[Folded], type_: Type) -> float:
    return max((len(fold.name) for fold in folds), default=0) * type_.name_line


def _frame_height(folds: Sequence[Folded]) -> float:
    return max((fold.frame for fold in folds), default=0.0)


def _first(group: BaseGroup, furnished: Frame) -> tuple[object, ...]:
    return head_lines(group.first, group.base, furnished.sizes.name_most, _head_room(group, furnished))


def _head_room(group: BaseGroup, furnished: Frame) -> float:
    return furnished.width - width(group.mark, furnished.sizes.name_most, True) - 30


def _sheet(edition: Edition, way: _Way, group: BaseGroup, part: int, cards: tuple[ChartCard, ...]) -> BaseSheetView:
    parts = -(-len(group.cards) // way.most)
    rows = tuple(cards[start : start + way.columns] for start in range(0, len(cards), way.columns))
    return BaseSheetView(
        first=head_lines(group.first, group.base, way.furnished.sizes.name_most, _head_room(group, way.furnished)),
        aside=edition.words("base_sheets.part", mark=group.mark, n=part, m=parts) if parts > 1 else group.mark,
        rows=tuple(_row(edition, way, row) for row in rows),
    )


def _row(edition: Edition, way: _Way, row: Sequence[ChartCard]) -> tuple[BaseCardView, ...]:
    """Cards side by side: names, frames and instructions of all at the same height."""
    folds = [_folded(told, way.type, way.column) for told in row]
    names, frame = _name_height(folds, way.type), _frame_height(folds)
    return tuple(
        _card(edition, way, told, fold, names=names, frame=frame) for told, fold in zip(row, folds, strict=True)
    )


def _card(
    edition: Edition, way: _Way, told: ChartCard, fold: Folded, *, names: float, frame: float
) -> BaseCardView:
    words, type_ = edition.words, way.type
    card = base_card(
        edition,
        told,
        fold,
        high=way.card,
        tile=None,
        place=words("base_sheets.place"),
        size=words("base_sheets.place_size", wide_down_mm=int(PLACE[0]), high_down_mm=int(way.place)),
    )
    food = len(told.card.food_lines) * type_.food_line + len(fold.food_small) * type_.small_line
    heights = {"names": names, "frame": frame, "above": (frame - food) / 2}
    return replace(card, style=";".join((card.style, *(f"--{name}:{mm(high)}" for name, high in heights.items()))))


def _style(way: _Way) -> str:
    lengths = {
        **way.type.properties(),
        "head-size": mm(way.furnished.sizes.name_most),
        "head-line": mm(1.08 * way.furnished.sizes.name_most),
        "beside": mm(PLACE[0] + 2),
        "back-up": mm(-way.place),
        "half-pad": mm(_PAD / 2),
        "tile-wide": mm(PLACE[0]),
        "tile-high": mm(way.place),
        "column": mm(way.column),
        "gap": mm(_GAP),
        "pad": mm(_PAD),
    }
    return ";".join(f"--{name}:{length}" for name, length in lengths.items())
