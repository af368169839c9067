"""Sheets that are cut into cards of one size: how many a sheet holds, and the strip of words above them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, TypeVar

from markupsafe import Markup

from combobook.edition import Edition
from combobook.measures import Paper
from combobook.problems import Problem, Severity
from combobook.render.chart.lengths import mm
from combobook.render.letters import Run, width, wrapped

T = TypeVar("T")
CARD_WIDE, CARD_HIGH = Fraction(102), Fraction(66)
"""mm: eight of them on letter and on A4 (house)."""
_STRIP = Fraction(7)
"""mm above and below the cards: the strip of words, and what a printer leaves white."""
_SIDES = Fraction(2)
_SPARE = 0.4
"""mm below the last row, so that rounding sends none to another page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet(Generic[T]):
    """One sheet of cards, row by row; `number` from 1."""

    number: int
    rows: tuple[tuple[T, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLayout:
    """How many cards stand across and down, on the paper upright or with its long side across."""

    columns: int
    rows: int
    across: bool
    side: float
    """mm left free at each side; `above` likewise above and below."""
    above: float

    @property
    def page(self) -> Markup:
        """The margins of such a page: the words stand in them, so that they are not read out sheet after sheet."""
        return Markup(f"<style>@page cut{{margin:{mm(self.above)} 0 {mm(self.above - _SPARE)}}}</style>")

    @property
    def style(self) -> str:
        """The free edges as CSS properties."""
        return f"--cut-side:{mm(self.side)};--cut-above:{mm(self.above)}"


def layout(paper: Paper) -> CutLayout | None:
    """The way round that holds most cards, upright where both hold as many; None where the paper holds none."""
    ways = [way for way in (_way(paper, across=False), _way(paper, across=True)) if way is not None]
    return max(ways, key=lambda way: way.columns * way.rows, default=None)


def _way(paper: Paper, *, across: bool) -> CutLayout | None:
    wide, high = sorted((paper.width, paper.height), reverse=across)
    columns, rows = int((wide - 2 * _SIDES) // CARD_WIDE), int((high - 2 * _STRIP) // CARD_HIGH)
    if columns < 1 or rows < 1:
        return None
    side, above = (wide - columns * CARD_WIDE) / 2, (high - rows * CARD_HIGH) / 2
    return CutLayout(columns=columns, rows=rows, across=across, side=float(side), above=float(above))


def cut_sheets(cards: Sequence[T], laid: CutLayout) -> tuple[CutSheet[T], ...]:
    """The cards in order, row by row, on as many sheets as they take."""
    a_sheet = laid.columns * laid.rows
    return tuple(
        CutSheet(
            number=start // a_sheet + 1,
            rows=tuple(
                tuple(cards[row : min(row + laid.columns, start + a_sheet)])
                for row in range(start, min(start + a_sheet, len(cards)), laid.columns)
            ),
        )
        for start in range(0, len(cards), a_sheet)
    )


def too_small(edition: Edition, sheet: str) -> Problem:
    """That `paper` holds not one card of this sheet, at the studio's own words."""
    paper = edition.book.studio.paper
    return Problem(
        place=paper.place,
        severity=Severity.WARNING,
        code="paper-too-small",
        message=f"`{sheet}` is not made: {paper.value.name} is too small for it",
        help="write a larger `paper`: `letter` and `A4` hold every sheet",
        width=len(paper.value.name) if paper.stated else 1,
    )


def fitted(text: str, room: float, most: float, least: float) -> tuple[tuple[str, ...], float]:
    """A bold text as large as it fits in one line, from `most` down to `least`; else folded at `least`."""
    size = min(most, int(room / width(text, 1, True) * 10) / 10) if text else most
    if size >= least:
        return (text,), size
    return tuple("".join(run.text for run in line) for line in wrapped((Run(text, True),), least, room)), least
