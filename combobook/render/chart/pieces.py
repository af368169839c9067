"""A chart cut over small paper: which piece shows what, and how the pieces overlap. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from string import ascii_uppercase

from combobook.measures import Paper

MARGIN = 10.0
"""Blank on every side, for marks: office printers leave about 6 mm white (common practice, no source)."""
LABEL = 8.0
"""Below a piece: which it is."""
OVERLAP = 12.0
"""What two neighbours both show: half an inch, enough to paste on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What one sheet of small paper shows: from `left`, `top` of the chart, so wide and so high."""

    name: str
    """Column and row: `B3`."""
    column: int
    row: int
    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """How each sheet of a chart falls into pieces, and the small paper as it is turned."""

    paper_width: float
    paper_height: float
    across: int
    down: int
    pieces: tuple[Piece, ...]
    """Row by row."""


def cut(width: float, height: float, paper: Paper) -> Cut:
    """The cut of a chart of that size with the fewest pieces, the paper upright where both ways take as many.

    The paper's sides must be 100 mm or more, as those of every paper a studio can name.
    """
    short, long = sorted((float(paper.width), float(paper.height)))
    ways = (_way(width, height, *sides) for sides in ((short, long), (long, short)))
    return min(ways, key=lambda way: way.across * way.down)


def _way(width: float, height: float, paper_width: float, paper_height: float) -> Cut:
    shown_wide, shown_high = paper_width - 2 * MARGIN, paper_height - 2 * MARGIN - LABEL
    across, down = _count(width, shown_wide), _count(height, shown_high)
    pieces = tuple(
        Piece(
            name=f"{letters(column)}{row + 1}",
            column=column,
            row=row,
            left=column * (shown_wide - OVERLAP),
            top=row * (shown_high - OVERLAP),
            width=min(shown_wide, width - column * (shown_wide - OVERLAP)),
            height=min(shown_high, height - row * (shown_high - OVERLAP)),
        )
        for row in range(down)
        for column in range(across)
    )
    return Cut(paper_width=paper_width, paper_height=paper_height, across=across, down=down, pieces=pieces)


def _count(length: float, shown: float) -> int:
    """How many pieces in a row: each after the first adds what it shows less the overlap."""
    return max(1, ceil((length - OVERLAP) / (shown - OVERLAP) - 1e-6))


def letters(column: int) -> str:
    """A … Z, AA, AB …"""
    head, last = divmod(column, len(ascii_uppercase))
    return (letters(head - 1) if head else "") + ascii_uppercase[last]
