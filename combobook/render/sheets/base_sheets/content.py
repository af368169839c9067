"""Which layerings stand on which base sheet, and what a finished base sheet is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from combobook.edition import Edition
from combobook.render.chart.content import ChartCard, chart_card, on_chart
from combobook.render.chart.views import TileView
from combobook.render.letters import Line
from combobook.render.sheets.frame import Frame
from combobook.render.sheets.shelf import pairs_on_the_shelf

READ_FROM = Fraction(1250)
"""mm: a base sheet is read standing before the jars (house)."""
MOST = 6
"""Tops on one sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseGroup:
    """A first glaze, and each top over it that is on the chart and on the shelf, by mark."""

    base: str
    mark: str
    first: str
    cards: tuple[ChartCard, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseCardView:
    """One top on a sheet; lines are folded already."""

    style: str
    tile: TileView | None
    place: str
    """What stands in an empty place."""
    place_size: str
    """Of a place to hang a tile: how large a tile it holds."""
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
class BaseSheetView:
    """One sheet: its first glaze, which of its sheets, and its cards in rows."""

    first: tuple[Line, ...]
    aside: str
    rows: tuple[tuple[BaseCardView, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseSheets:
    """All base sheets of one form, ready for the template."""

    form: str
    """`pictured` or `hung`."""
    furnished: Frame
    style: str
    sheets: tuple[BaseSheetView, ...]
    files: Mapping[str, bytes]


def base_groups(edition: Edition) -> tuple[BaseGroup, ...]:
    """Every first glaze on the shelf that has a layering on the chart, by mark."""
    shown = [v for v in pairs_on_the_shelf(edition) if on_chart(v)]
    found = [list(group) for _, group in groupby(shown, key=lambda v: v.base.id)]
    return tuple(
        BaseGroup(
            base=group[0].base.name.value,
            mark=group[0].base.mark.value,
            first=edition.words("coats.first", base=group[0].base.name.value),
            cards=tuple(chart_card(edition, verdict) for verdict in group),
        )
        for group in found
    )


def drawings_key(groups: tuple[BaseGroup, ...]) -> str:
    """`edition.drawings` where all pictures are, `edition.some_drawings` where some are, else empty."""
    shown = [t.card.picture.picture.drawing for g in groups for t in g.cards if t.card.picture is not None]
    if not any(shown):
        return ""
    return "edition.drawings" if all(shown) else "edition.some_drawings"
