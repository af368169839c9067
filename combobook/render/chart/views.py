"""The finished views that the wall chart's template places: words and CSS lengths, nothing left to decide."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from combobook.edition import Edition
from combobook.pictures import Picture, PictureFile
from combobook.render.cards import LayeringCard, PictureView, food_classes
from combobook.render.chart.cards import LaidCard, LaidHead
from combobook.render.chart.content import ChartGroup
from combobook.render.chart.foot import Foot, FootColumn, Row
from combobook.render.chart.head import counted, told_lines
from combobook.render.chart.lengths import lengths, mm
from combobook.render.chart.pack import Column
from combobook.render.chart.plan import Plan
from combobook.render.letters import Line, wrapped

_CANVAS, _TILE = (72.0, 96.0), (52.0, 86.0)
"""A drawing's canvas in mm, and the part of it that its tile takes with 1 mm about it."""
_FINE = 5.5
"""Pixels a printed mm that a picture should have at least; below it the next larger one is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TileView:
    src: str
    alt: str
    style: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardView:
    kind: str
    """`card`."""
    style: str
    tile: TileView | None
    no_tile: str
    name: tuple[Line, ...]
    coats: tuple[str, ...]
    food: str
    """The class of the frame and its mark."""
    food_lines: tuple[str, ...]
    food_small: tuple[str, ...]
    movement: str
    to_do: str
    other_unit: str
    aside: str
    """The class that shows the marks for rim band and catch plate."""
    trust: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadView:
    """The head of a group in one column."""

    kind: str
    """`head`."""
    style: str
    lines: tuple[Line, ...]
    aside: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CellView:
    style: str
    mark: str
    runs: Line


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    kind: str
    cells: tuple[CellView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FootColumnView:
    style: str
    rows: tuple[RowView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetView:
    columns: tuple[tuple[CardView | HeadView, ...], ...]
    empty: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartView:
    language: str
    title: str
    lengths: Mapping[str, str]
    """CSS lengths by name, for the style sheet."""
    style: Markup
    """The page, and the sheet's number in words."""
    title_lines: tuple[str, ...]
    told: tuple[Line, ...]
    """The bold run is the sheet's number, which each page counts for itself."""
    head: str
    """`beside` or `below`: where the edition stands by the title."""
    foot: tuple[FootColumnView, ...]
    sheets: tuple[SheetView, ...]


def chart_view(edition: Edition, groups: tuple[ChartGroup, ...], plan: Plan) -> tuple[ChartView, dict[str, bytes]]:
    """The view of the whole chart, and the pictures it shows by the names it uses."""
    files: dict[str, bytes] = {}
    sheets = tuple(_sheet(edition, groups, plan, n, files) for n in range(plan.sheets))
    view = ChartView(
        language=edition.theme.language,
        title=f"{' '.join(plan.head.title)} · {edition.book.studio.name.value} · {edition.book.studio.edition.value}",
        lengths={name: mm(length) for name, length in lengths(plan).items()},
        style=_page(edition, plan),
        title_lines=plan.head.title,
        told=_told(edition, groups, plan),
        foot=tuple(foot_column(column, plan.foot, n == 0) for n, column in enumerate(plan.foot.columns)),
        head="beside" if plan.head.beside else "below",
        sheets=sheets,
    )
    return view, files


def _sheet(edition: Edition, groups: tuple[ChartGroup, ...], plan: Plan, n: int, files: dict[str, bytes]) -> SheetView:
    columns = plan.packed[n * plan.columns : (n + 1) * plan.columns]
    return SheetView(
        columns=tuple(_column(edition, groups, plan, column, files) for column in columns),
        empty="" if plan.packed else edition.words("chart.empty"),
    )


def _page(edition: Edition, plan: Plan) -> Markup:
    """Head and foot stand in the page's margins, so that they are read out once and not on every sheet."""
    top, bottom = plan.edge + plan.head.height, plan.edge + plan.foot.height + plan.sizes.apart
    margins = " ".join(mm(length) for length in (top, plan.side, bottom))
    return Markup(f"@page{{size:{mm(plan.width)} {mm(plan.height)};margin:{margins}}}{counted(edition)}")


def _told(edition: Edition, groups: tuple[ChartGroup, ...], plan: Plan) -> tuple[Line, ...]:
    lines = told_lines(edition, groups, str(plan.sheets), str(plan.sheets))
    if plan.head.beside:
        return lines
    return tuple(part for line in lines for part in wrapped(line, plan.sizes.caution, plan.width - 2 * plan.side))


def _column(
    edition: Edition, groups: tuple[ChartGroup, ...], plan: Plan, column: Column, files: dict[str, bytes]
) -> tuple[CardView | HeadView, ...]:
    views: list[CardView | HeadView] = []
    for stretch in column:
        group, laid = groups[stretch.group], plan.heads[stretch.group]
        views.append(_head(group, laid, plan, continued=stretch.start > 0))
        views.extend(
            _card(edition, card, plan, files) for card in plan.cards[stretch.group][stretch.start : stretch.stop]
        )
    return tuple(views)


def _head(group: ChartGroup, laid: LaidHead, plan: Plan, *, continued: bool) -> HeadView:
    line = (laid.height - plan.sizes.head_rule) / len(laid.lines)
    return HeadView(
        kind="head",
        style=f"height:{mm(laid.height)};--name:{mm(laid.size)};--line:{mm(line)}",
        lines=laid.lines,
        aside=f"{group.mark} · {group.continued}" if continued else group.mark,
    )


def _card(edition: Edition, laid: LaidCard, plan: Plan, files: dict[str, bytes]) -> CardView:
    card = laid.told.card
    return CardView(
        kind="card",
        style=f"height:{mm(laid.height + plan.air)}",
        tile=_tile(card.picture, plan, files) if card.picture else None,
        no_tile=edition.words("picture.none"),
        name=laid.name,
        coats=laid.coats,
        food=food_classes(card.food_key, edition.words),
        food_lines=card.food_lines,
        food_small=laid.small,
        movement=f"m-{card.movement_mark}",
        to_do=card.to_do,
        other_unit=laid.other_unit,
        aside=aside(card),
        trust=laid.trust,
    )


def aside(card: LayeringCard) -> str:
    """The class of the marks that stand at the right of the instruction: rim band, catch plate, both, or none."""
    if card.rim_band and card.catch_plate:
        return "m-rim-and-plate"
    return "m-rim-only" if card.rim_band else "m-catch-plate" if card.catch_plate else ""


def _tile(view: PictureView, plan: Plan, files: dict[str, bytes]) -> TileView:
    return tile_view(view, plan.sizes.tile_width, plan.sizes.tile_height + plan.air * 0.5, files)


def tile_view(view: PictureView, wide: float, high: float, files: dict[str, bytes]) -> TileView:
    """The picture covering its box of `wide` × `high` mm; of a drawing, whose canvas is known, the tile alone.

    Its bytes are put into `files` by the name that the view uses.
    """
    file = view.picture.card
    if max(file.width, file.height) < _FINE * high:
        file = view.picture.page
    files[file.path] = file.data
    return TileView(src=file.path, alt=view.alt, style=_placed(file, view.picture, wide, high))


def _placed(file: PictureFile, picture: Picture, wide: float, high: float) -> str:
    """Width, height and shift of the picture behind its window of `wide` × `high` mm: covering it, its tile in view."""
    scale, middle = max(wide / file.width, high / file.height), (0.5, 0.5)
    if picture.drawing and abs(file.width / file.height - _CANVAS[0] / _CANVAS[1]) < 0.01:
        fit = min(wide / _TILE[0], high / _TILE[1])
        scale = max(scale, fit * _CANVAS[0] / file.width)
    elif not picture.drawing and picture.tile is not None:
        left, top, right, low = picture.tile
        fit = min(wide / ((right - left) * file.width), high / ((low - top) * file.height))
        scale, middle = max(scale, fit), ((left + right) / 2, (top + low) / 2)
    across, up = file.width * scale, file.height * scale
    at = (_covering(wide, across, middle[0]), _covering(high, up, middle[1]))
    return f"width:{mm(across)};height:{mm(up)};left:{mm(at[0])};top:{mm(at[1])}"


def _covering(window: float, picture: float, middle: float) -> float:
    """Where a picture begins so that its `middle` is the window's, as far as it still covers the window."""
    return min(0.0, max(window - picture, window / 2 - middle * picture))


def foot_column(column: FootColumn, foot: Foot, first: bool) -> FootColumnView:
    """A column of the foot as its template places it."""
    style = f"width:{mm(column.width)}" + ("" if first else f";padding-left:{mm(foot.gap)}")
    return FootColumnView(style=style, rows=tuple(_row(row) for row in column.rows))


def _row(row: Row) -> RowView:
    return RowView(
        kind=row.kind,
        cells=tuple(
            CellView(
                style=(f"width:{mm(cell.width)};" if len(row.cells) > 1 else "") + f"text-indent:{mm(cell.indent)}",
                mark=f"m-{cell.mark}" if cell.mark else "",
                runs=cell.line,
            )
            for cell in row.cells
        ),
    )
