"""Base sheets with pictures: one row a top, six to a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.edition import Edition
from combobook.render.chart.content import ChartCard
from combobook.render.chart.lengths import mm
from combobook.render.chart.sizes import TILE_SHAPE
from combobook.render.chart.views import tile_view
from combobook.render.letters import width
from combobook.render.sheets.base_sheets.content import (
    MOST,
    READ_FROM,
    BaseCardView,
    BaseGroup,
    BaseSheets,
    BaseSheetView,
    drawings_key,
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

_SMALL = (5.6, 4.4, 3.5, 2.8)
"""mm: small print is as large as six rows leave room for."""
_GAP, _PAD, _KEY = 3.0, 1.0, 3.6
_FEW = 12
"""Letters of small print that must stand side by side at least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One choice of type sizes, and every sheet that it leads to: cards with their heights."""

    type: Type
    row: float
    """The least height of a row."""
    tile: float
    words: float
    frame: float
    sheets: tuple[tuple[BaseGroup, tuple[int, int], tuple[tuple[ChartCard, Folded, float], ...]], ...]


def pictured(edition: Edition, groups: tuple[BaseGroup, ...]) -> BaseSheets | None:
    """The sheets with pictures, upright; None where the paper cannot hold one row in letters legible from 1.25 m."""
    furnished = frame(
        edition,
        edition.words("base_sheets.title", cone=str(edition.book.studio.cone.value)),
        edition.book.studio.paper.value,
        read_from=READ_FROM,
        key=("food", "clays"),
        drawings=drawings_key(groups),
    )
    sizes = furnished.sizes
    types = (
        Type(large=sizes.large, name=name, small=small)
        for small in _SMALL
        for name in (sizes.name_most, sizes.large)
    )  # fmt: skip
    ways = [way for way in (_way(groups, furnished, each) for each in types) if way is not None]
    if not ways:
        return None
    best = min(ways, key=lambda way: len(way.sheets))
    files: dict[str, bytes] = {}
    return BaseSheets(
        form="pictured",
        furnished=furnished,
        style=_style(best, sizes.name_most),
        sheets=tuple(_sheet(edition, best, furnished, n, files) for n in range(len(best.sheets))),
        files=files,
    )


def _way(groups: tuple[BaseGroup, ...], furnished: Frame, type_: Type) -> _Way | None:
    head = _head_height(groups, furnished)
    room = furnished.height - head - _KEY
    row = room / MOST
    tile = (row - 2 * _PAD) * TILE_SHAPE
    food = frame_width(groups, type_)
    words = furnished.width - tile - food - 2 * _GAP
    if row <= 3 * _PAD or words < max(words_width(groups, type_), _FEW * type_.small):
        return None
    sheets: list[tuple[BaseGroup, tuple[int, int], tuple[tuple[ChartCard, Folded, float], ...]]] = []
    for group in groups:
        rows = [_row(told, type_, words, food, row) for told in group.cards]
        if any(high > room + 1e-6 for _, _, high in rows):
            return None
        parts = _parts(rows, room)
        sheets += [(group, (n + 1, len(parts)), part) for n, part in enumerate(parts)]
    return _Way(type=type_, row=row, tile=tile, words=words, frame=food, sheets=tuple(sheets))


def _row(
    told: ChartCard, type_: Type, words: float, food: float, least: float
) -> tuple[ChartCard, Folded, float]:  # fmt: skip
    fold = folded(told, type_, words=words, frame=food, small=words)
    text = len(fold.name) * type_.name_line + (len(fold.coats) + len(fold.trust)) * type_.small_line + type_.do_line
    return told, fold, max(least, text + _PAD, fold.frame + 2 * _PAD)


def _parts(
    rows: list[tuple[ChartCard, Folded, float]], room: float
) -> tuple[tuple[tuple[ChartCard, Folded, float], ...], ...]:
    """Up to six rows a sheet, in order; the last two sheets share what they have, so that none holds one row alone."""
    parts: list[list[tuple[ChartCard, Folded, float]]] = []
    for row in rows:
        if parts and len(parts[-1]) < MOST and sum(each[2] for each in (*parts[-1], row)) <= room + 1e-6:
            parts[-1].append(row)
        else:
            parts.append([row])
    if len(parts) > 1 and len(parts[-1]) == 1 and len(parts[-2]) > 2:
        parts[-1].insert(0, parts[-2].pop())
    return tuple(tuple(part) for part in parts)


def _head_height(groups: tuple[BaseGroup, ...], furnished: Frame) -> float:
    size = furnished.sizes.name_most
    most = max((len(head_lines(g.first, g.base, size, _head_room(g, furnished))) for g in groups), default=1)
    return most * size * 1.1 + 2.5


def _head_room(group: BaseGroup, furnished: Frame) -> float:
    return furnished.width - width(group.mark, furnished.sizes.name_most, True) - 30


def _sheet(edition: Edition, way: _Way, furnished: Frame, n: int, files: dict[str, bytes]) -> BaseSheetView:
    group, (part, parts), rows = way.sheets[n]
    return BaseSheetView(
        first=head_lines(group.first, group.base, furnished.sizes.name_most, _head_room(group, furnished)),
        aside=edition.words("base_sheets.part", mark=group.mark, n=part, m=parts) if parts > 1 else group.mark,
        rows=tuple((_card(edition, way, *row, files),) for row in rows),
    )


def _card(
    edition: Edition, way: _Way, told: ChartCard, fold: Folded, high: float, files: dict[str, bytes]
) -> BaseCardView:
    picture = told.card.picture
    tile = tile_view(picture, way.tile, way.row - 2 * _PAD, files) if picture else None
    return base_card(edition, told, fold, high=high, tile=tile, place=edition.words("picture.none"))


def _style(way: _Way, head: float) -> str:
    lengths = {
        **way.type.properties(),
        "head-size": mm(head),
        "head-line": mm(1.08 * head),
        "tile-wide": mm(way.tile),
        "tile-high": mm(way.row - 2 * _PAD),
        "tile-cell": mm(way.tile + _GAP),
        "words-cell": mm(way.words + _GAP),
        "frame": mm(way.frame),
        "gap": mm(_GAP),
        "pad": mm(_PAD),
    }
    return ";".join(f"--{name}:{length}" for name, length in lengths.items())
