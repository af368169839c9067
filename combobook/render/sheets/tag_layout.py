"""How tile tags lie on a sheet: on plain paper, to be cut, or on labels as the studio measured them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from combobook import tags
from combobook.entries import Studio
from combobook.measures import Paper, Sides

_PLAIN_FREE = Sides(Fraction(2), Fraction(7))
"""mm left free at each side, above and below tags on plain paper: for the strip of words, and what stays unprinted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TagSheet:
    """How labels (or tags to be cut) lie on a sheet; lengths in mm."""

    columns: int
    rows: int
    left: Fraction
    top: Fraction
    label: Sides
    gaps: Sides
    below: Fraction
    """Free under the last row."""
    plain: bool

    @property
    def holds(self) -> int:
        return self.columns * self.rows

    def corner(self, n: int) -> tuple[Fraction, Fraction]:
        """Where the tag of the `n`th place (from 0, row by row) has its upper left corner: in its label's middle."""
        row, column = divmod(n, self.columns)
        return (
            self.left + column * (self.label.across + self.gaps.across) + (self.label.across - tags.WIDTH_MM) / 2,
            self.top + row * (self.label.down + self.gaps.down) + (self.label.down - tags.HEIGHT_MM) / 2,
        )


def tag_sheet(studio: Studio) -> TagSheet | None:
    """How tags lie on the studio's `paper`; None where it holds not one."""
    paper, size, gaps = studio.paper.value, studio.tag_size.value, studio.tag_gaps.value
    if not isinstance(size, Sides):
        return _centred(paper, Sides(tags.WIDTH_MM, tags.HEIGHT_MM), Sides(Fraction(0), Fraction(0)), _PLAIN_FREE)
    margins = studio.tag_margins.value
    if not isinstance(margins, Sides):
        return _centred(paper, size, gaps, None)
    columns, rows = _how_many(paper, size, gaps, margins.across, margins.down)
    if columns < 1 or rows < 1:
        return None
    return TagSheet(
        columns=columns,
        rows=rows,
        left=margins.across,
        top=margins.down,
        label=size,
        gaps=gaps,
        below=max(paper.width, paper.height) - margins.down - rows * size.down - (rows - 1) * gaps.down,
        plain=False,
    )


def _centred(paper: Paper, size: Sides, gaps: Sides, free: Sides | None) -> TagSheet | None:
    least = free or Sides(Fraction(0), Fraction(0))
    columns, rows = _how_many(paper, size, gaps, 2 * least.across, 2 * least.down)
    if columns < 1 or rows < 1:
        return None
    wide, high = sorted((paper.width, paper.height))
    above = (high - rows * size.down - (rows - 1) * gaps.down) / 2
    return TagSheet(
        columns=columns,
        rows=rows,
        left=(wide - columns * size.across - (columns - 1) * gaps.across) / 2,
        top=above,
        below=above,
        label=size,
        gaps=gaps,
        plain=free is not None,
    )


def _how_many(paper: Paper, size: Sides, gaps: Sides, across: Fraction, down: Fraction) -> tuple[int, int]:
    """Columns and rows on the paper upright, less what is free across and down."""
    wide, high = sorted((paper.width, paper.height))
    columns = (wide - across + gaps.across) // (size.across + gaps.across)
    return int(columns), int((high - down + gaps.down) // (size.down + gaps.down))
