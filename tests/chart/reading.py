"""A PDF's words, letter heights and boxes, read with pdfminer.six."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

from pdfminer.high_level import extract_pages
from pdfminer.layout import LAParams, LTChar, LTPage, LTTextLine

CAPITAL = 0.668
"""Cap height of Atkinson Hyperlegible in ems: its OS/2 table says 668 of 1000."""
POINTS = 72 / 25.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A line of letters of one size: capital height in mm, and the box of its capitals in points."""

    text: str
    capital: float
    x0: float
    x1: float
    foot: float
    top: float


def pages(pdf: bytes) -> tuple[LTPage, ...]:
    return tuple(extract_pages(BytesIO(pdf), laparams=LAParams(char_margin=1.2, line_margin=0.05, boxes_flow=None)))


def pieces(page: LTPage) -> tuple[Piece, ...]:
    """Every line of the page, divided where the size of letters changes."""
    return tuple(piece for line in _lines(page) for piece in _divided(line))


def _lines(page: LTPage) -> Iterator[list[LTChar]]:
    stack = list(page)
    while stack:
        item = stack.pop()
        if isinstance(item, LTTextLine):
            yield [c for c in item if isinstance(c, LTChar)]
        elif hasattr(item, "__iter__"):
            stack.extend(item)


def _divided(letters: list[LTChar]) -> Iterator[Piece]:
    runs: list[list[LTChar]] = []
    for letter in letters:
        if runs and abs(runs[-1][-1].size - letter.size) < 0.01:
            runs[-1].append(letter)
        else:
            runs.append([letter])
    for run in runs:
        text = "".join(c.get_text() for c in run).strip()
        if text:
            size, foot = run[0].size, run[0].matrix[5]
            yield Piece(
                text=text,
                capital=size * CAPITAL / POINTS,
                x0=run[0].x0,
                x1=run[-1].x1,
                foot=foot,
                top=foot + size * CAPITAL,
            )
