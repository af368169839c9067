"""The look-up: first glaze down, top across, and in each square what a loader must find, legible at arm's length."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from combobook.edition import Edition
from combobook.entries import Glaze
from combobook.render.chart.lengths import mm
from combobook.render.letters import LEAST_ARCMIN, type_size, width
from combobook.render.our_kiln import unread
from combobook.render.said import Verdict
from combobook.render.sheets.frame import Frame
from combobook.render.sheets.loading_sheet.asks import marked
from combobook.render.sheets.loading_sheet.square import NAME, Square, look_up_key, square
from combobook.render.sheets.shelf import every_pair_on_the_shelf, on_the_shelf
from combobook.verdicts import GlazeVerdict
from combobook.wording import Words

ARM = Fraction(600)
"""mm: an outstretched arm, of who holds a piece beside the sheet (common practice, no source)."""
_LETTER = type_size(float(ARM), LEAST_ARCMIN)
_FIGURE = 1.1 * _LETTER
_KEY_LINE, _TITLE = 3.5, 7.0
"""mm: a line of the key, and the heading's height."""
_PAD, _RULE, _SPACE, _SPARE = 0.4, 0.25, 2.0, 1.0
"""mm beside a square's words, of lines between squares, beside a name, and left free below the key."""
_LEAST_ROW, _TALLEST = _FIGURE + 1.05 * _LETTER + _RULE, 1.4
"""mm: the least height of a row; a row is no higher than so many times that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """One first glaze."""

    mark: str
    name: str
    squares: tuple[Square, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadTable:
    """One sheet of the look-up."""

    title: str
    tops: tuple[tuple[str, str], ...]
    """Each top's mark, and the sign under it where nobody knows its cone."""
    rows: tuple[TableRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LookUp:
    """All its sheets, with lengths as CSS properties and the key that stands on each."""

    sheets: tuple[LoadTable, ...]
    named: bool
    """Whether names stand beside the first glazes' marks."""
    style: str
    key: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """How many squares a sheet has, and lengths in mm."""

    named: bool
    marks: float
    names: float
    across: int
    down: int
    sheets: int
    square: float
    row: float


def look_up(edition: Edition, furnished: Frame) -> LookUp:
    """Every pair of the shelf, on one sheet where it fits; else by first glaze over several. Empty without a glaze.

    Where names beside the marks would ask for more sheets, the marks stand alone.
    """
    shelf = on_the_shelf(edition)
    pairs = {(v.base.id, v.top.id): v for v in every_pair_on_the_shelf(edition)}
    rows = tuple(_row(edition, first, shelf, pairs) for first in shelf)
    tops = tuple(_top(verdict.glaze, edition.words) for verdict in shelf)
    key = look_up_key(edition, [square for row in rows for square in row.squares], furnished.width)
    plans = (_plan(furnished, rows, tops, key, named=named) for named in (True, False))
    plan = min(plans, key=lambda each: each.sheets)
    sheets = tuple(_sheets(edition.words, rows, tops, plan))
    return LookUp(sheets=sheets, named=plan.named, style=_style(plan), key=key)


def _plan(
    furnished: Frame, rows: Sequence[TableRow], tops: Sequence[tuple[str, str]], key: Sequence[str], *, named: bool
) -> _Plan:
    """Squares as small as their words allow, then stretched over the sheet."""
    squares = [square for row in rows for square in row.squares]
    large = [*(square.figure for square in squares), *(mark for mark, _ in tops)]
    words = [width(text, _FIGURE, True) for text in large] + [width(s.letters, _LETTER, True) for s in squares]
    marks = max((width(row.mark, _FIGURE, True) for row in rows), default=0.0) + 2 * _PAD
    names = max((width(row.name, NAME) for row in rows), default=0.0) + _SPACE if named else 0.0
    room_wide = furnished.width - marks - names - 2 * _RULE
    room_high = furnished.height - _TITLE - len(key) * _KEY_LINE - _SPARE
    across = _shared(len(tops), int(room_wide // (max(words, default=1.0) + 2 * _PAD + _RULE)))
    down = _shared(len(rows), int(room_high // _LEAST_ROW) - 1)
    return _Plan(
        named=named, marks=marks, names=names, across=across, down=down,
        sheets=-(-len(tops) // max(across, 1)) * -(-len(rows) // max(down, 1)),
        square=room_wide / max(across, 1) - _RULE, row=min(room_high / (down + 1), _TALLEST * _LEAST_ROW) - _RULE,
    )  # fmt: skip


def _style(plan: _Plan) -> str:
    lengths = {
        "figure": _FIGURE, "letter": _LETTER, "name": NAME, "key": _KEY_LINE, "title": _TITLE,
        "square": plan.square, "row": plan.row, "marks": plan.marks, "corner": plan.marks + plan.names,
    }  # fmt: skip
    return ";".join(f"--{name}:{mm(length)}" for name, length in lengths.items())


def _top(glaze: Glaze, words: Words) -> tuple[str, str]:
    return glaze.mark.value, words("loading_sheet.unread", mark="").strip() if unread(glaze) else ""


def _row(
    edition: Edition, first: GlazeVerdict, shelf: Sequence[GlazeVerdict], pairs: Mapping[tuple[str, str], Verdict]
) -> TableRow:
    squares = (
        square(edition, first if top is first else pairs.get((first.glaze.id, top.glaze.id)), same=top is first)
        for top in shelf
    )
    return TableRow(mark=marked(first.glaze, edition.words), name=first.glaze.name.value, squares=tuple(squares))


def _shared(count: int, most: int) -> int:
    """So many on each sheet that all sheets hold about as many; at least one."""
    sheets = -(-count // max(most, 1)) or 1
    return -(-count // sheets)


def _sheets(
    words: Words, rows: Sequence[TableRow], tops: Sequence[tuple[str, str]], plan: _Plan
) -> Iterator[LoadTable]:
    title = words("loading_sheet.table.title")
    for start in range(0, len(rows), max(plan.down, 1)):
        for left in range(0, len(tops), max(plan.across, 1)):
            some, over = rows[start : start + plan.down], tops[left : left + plan.across]
            part = {"first": some[0].mark, "last": some[-1].mark, "left": over[0][0], "right": over[-1][0]}
            yield LoadTable(
                title=f"{title} · {words('loading_sheet.table.part', **part)}" if plan.sheets > 1 else title,
                tops=tuple(over),
                rows=tuple(replace(row, squares=row.squares[left : left + plan.across]) for row in some),
            )
