"""The poster cut: the wall chart over the studio printer's own sheets, with marks to cut by and a plan to hang by.

The chart is in the file once, as one Form XObject a chart sheet, drawn on every piece with a clip and a shift: copied
into each piece it would be five times as large. For who listens a piece is one picture, whose words say which it is
and that the wall chart's own file has what stands on it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from markupsafe import Markup, escape

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.chart.head import counted
from combobook.render.chart.lengths import mm
from combobook.render.chart.pieces import OVERLAP, Cut, Piece, cut, letters
from combobook.render.drawn import Drawn
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.poster_pages import deal_out

PATH = "print/wall-chart-cut.pdf"
_POINTS = 72 / 25.4
_CELL = 14.0
"""mm: a piece on the plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """What stands under one piece, and the words for those who listen."""

    name: str
    number: str
    """Which sheet of how many."""
    told: str
    alt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    row: str
    cells: tuple[tuple[str, str], ...]
    """Name of the piece and its sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """How one sheet of the chart is put together."""

    title: str
    wide: str
    """As a CSS length: written out, so that the plan is laid out once and not also to find its width."""
    columns: tuple[str, ...]
    rows: tuple[PlanRow, ...]


def poster_cut(edition: Edition, chart: Drawn) -> tuple[dict[str, bytes], tuple[Problem, ...]]:
    """The finished chart's pages, all of one size, in pieces on the studio's `paper`."""
    width, height = chart.pages[0].width / _POINTS, chart.pages[0].height / _POINTS
    made = cut(width, height, edition.book.studio.paper.value)
    pdf, problems, plan_pages = _made(edition, made, chart, plan_pages=1)
    if plan_pages != 1:
        pdf, problems, _ = _made(edition, made, chart, plan_pages=plan_pages)
    return {PATH: pdf}, problems


def _made(edition: Edition, made: Cut, chart: Drawn, *, plan_pages: int) -> tuple[bytes, tuple[Problem, ...], int]:
    """The plan and the pieces, and how many pages the plan really took.

    Numbers of sheets are written out: pages that had to ask how many there are would all be laid out three times.
    """
    paper, words, sheets = edition.book.studio.paper.value, edition.words, len(chart.pages)
    count = plan_pages + sheets * len(made.pieces)
    turned = made.paper_width > made.paper_height
    took: list[int] = []
    pieces = tuple(
        _piece(edition, piece, n, sheets, words("edition.sheet", n=plan_pages + place, m=count))
        for n in range(sheets)
        for place, piece in enumerate(made.pieces, n * len(made.pieces) + 1)
    )

    def dealt(pdf: Any) -> None:
        took.append(len(pdf.page_references) - 1)
        deal_out(pdf, chart, made, [piece.alt for piece in pieces])

    files, problems = printed(
        edition,
        "print/wall-chart-cut.html",
        path=PATH,
        furnished=frame(edition, words("sheets.cut.title"), paper, key=(), across=turned),
        styles=("print-cut.css",),
        then=dealt,
        xml=True,
        paper=f"{mm(made.paper_width)} {mm(made.paper_height)}",
        piece_high=mm(made.paper_height),
        counted=counted(edition, count),
        plans=tuple(_plan(edition, made, n, sheets, plan_pages) for n in range(sheets)),
        steps=words.lines("sheets.cut.steps"),
        overlap=words("sheets.cut.overlap", overlap_mm=int(OVERLAP)),
        ruler=_ruler(edition),
        pieces=pieces,
    )
    return files[PATH], problems, took[0]


def _plan(edition: Edition, made: Cut, n: int, sheets: int, plan_pages: int) -> PlanView:
    first = plan_pages + 1 + n * len(made.pieces)
    cells = [(piece.name, edition.words("sheets.cut.cell", n=first + i)) for i, piece in enumerate(made.pieces)]
    return PlanView(
        title=edition.words("sheets.cut.plan", n=n + 1, m=sheets),
        wide=mm((made.across + 1) * _CELL),
        columns=tuple(letters(column) for column in range(made.across)),
        rows=tuple(
            PlanRow(row=str(row + 1), cells=tuple(cells[row * made.across : (row + 1) * made.across]))
            for row in range(made.down)
        ),
    )


def _piece(edition: Edition, piece: Piece, n: int, sheets: int, number: str) -> PieceView:
    words, studio = edition.words, edition.book.studio
    return PieceView(
        name=words("sheets.cut.piece", n=n + 1, m=sheets, piece=piece.name),
        number=number,
        told=f" · {studio.name.value} · {words('site.edition', edition=studio.edition.value)}",
        alt=words("sheets.cut.alt", n=n + 1, m=sheets, piece=piece.name, sheet=number),
    )


def _ruler(edition: Edition) -> Markup:
    """A line of 100 mm and one of 4 in, to see that the printer did not shrink the sheets."""
    title = escape(edition.words("sheets.cut.ruler"))
    return Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" class="ruler" width="106mm" height="17mm" viewBox="0 0 106 17">'
        f"<title>{title}</title>"
        '<path d="M1 1v5M1 3.5h100M101 1v5M1 10v5M1 12.5h101.6M102.6 10v5" fill="none" '
        'stroke="#1f1d1a" stroke-width="0.3"/></svg>'
    )
