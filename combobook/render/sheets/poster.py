"""The poster cut: the wall chart over the studio printer's own sheets, with marks to cut by and a plan to hang by.

The chart is in the file once, as one Form XObject a chart sheet, drawn on every piece with a clip and a shift: copied
into each piece it would be five times as large. For who listens a piece is one picture, whose words say which it is
and that the wall chart's own file has what stands on it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from markupsafe import Markup, escape

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.chart.lengths import mm
from combobook.render.chart.pieces import MARGIN, OVERLAP, Cut, Piece, cut, letters
from combobook.render.sheets.frame import frame, printed

PATH = "print/wall-chart-cut.pdf"
_POINTS = 72 / 25.4
_MARKED = re.compile(rb"/\w+\s*<<[^>]*>>\s*BDC|/Artifact\s+BMC")


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """One sheet of small paper."""

    name: str
    number: str
    """Which sheet of how many."""
    told: str
    figure: Markup
    """The marks, as large as the paper, with the words for those who listen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    row: str
    cells: tuple[tuple[str, str], ...]
    """Name of the piece and its sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """How one sheet of the chart is put together."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[PlanRow, ...]


def poster_cut(edition: Edition, chart: bytes) -> tuple[dict[str, bytes], tuple[Problem, ...]]:
    """The finished chart's pages, all of one size, in pieces on the studio's `paper`."""
    from pypdf import PdfReader

    source = PdfReader(BytesIO(chart))
    sheets, box = len(source.pages), source.pages[0].mediabox
    width, height = float(box.width) / _POINTS, float(box.height) / _POINTS
    made = cut(width, height, edition.book.studio.paper.value)
    pieces, problems = _numbered(edition, made, sheets, plan_pages=1)
    if (plan_pages := len(pieces.pages) - sheets * len(made.pieces)) != 1:
        pieces, problems = _numbered(edition, made, sheets, plan_pages=plan_pages)
    return {PATH: _with_chart(pieces, source, made, height)}, problems


def _numbered(
    edition: Edition, made: Cut, sheets: int, *, plan_pages: int
) -> tuple[Any, tuple[Problem, ...]]:
    """The plan and the pieces, read as a PDF, before the chart is under them.

    Numbers of sheets are written out: pages that had to ask how many there are would all be laid out three times.
    """
    from pypdf import PdfReader

    paper, words = edition.book.studio.paper.value, edition.words
    count = plan_pages + sheets * len(made.pieces)
    turned = made.paper_width > made.paper_height
    files, problems = printed(
        edition,
        "print/wall-chart-cut.html",
        path=PATH,
        furnished=frame(edition, words("sheets.cut.title"), paper, key=(), across=turned),
        styles=("print-cut.css",),
        paper=f"{mm(made.paper_width)} {mm(made.paper_height)}",
        piece_high=mm(made.paper_height),
        plans=tuple(_plan(edition, made, n, sheets, plan_pages) for n in range(sheets)),
        steps=words.lines("sheets.cut.steps"),
        overlap=words("sheets.cut.overlap", overlap_mm=int(OVERLAP)),
        ruler=_ruler(edition),
        pieces=tuple(
            _piece(edition, made, piece, n, sheets, words("edition.sheet", n=plan_pages + place, m=count))
            for n in range(sheets)
            for place, piece in enumerate(made.pieces, n * len(made.pieces) + 1)
        ),
    )
    return PdfReader(BytesIO(files[PATH])), problems


def _plan(edition: Edition, made: Cut, n: int, sheets: int, plan_pages: int) -> PlanView:
    first = plan_pages + 1 + n * len(made.pieces)
    cells = [(piece.name, edition.words("sheets.cut.cell", n=first + i)) for i, piece in enumerate(made.pieces)]
    return PlanView(
        title=edition.words("sheets.cut.plan", n=n + 1, m=sheets),
        columns=tuple(letters(column) for column in range(made.across)),
        rows=tuple(
            PlanRow(row=str(row + 1), cells=tuple(cells[row * made.across : (row + 1) * made.across]))
            for row in range(made.down)
        ),
    )


def _piece(edition: Edition, made: Cut, piece: Piece, n: int, sheets: int, number: str) -> PieceView:
    words, studio = edition.words, edition.book.studio
    told = words("sheets.cut.piece", n=n + 1, m=sheets, piece=piece.name)
    return PieceView(
        name=told,
        number=number,
        told=f" · {studio.name.value} · {words('site.edition', edition=studio.edition.value)}",
        figure=_marks(made, piece, words("sheets.cut.alt", n=n + 1, m=sheets, piece=piece.name)),
    )


def _marks(made: Cut, piece: Piece, alt: str) -> Markup:
    """Long marks in the margin where to cut, short ones where the next piece's edge comes to lie."""
    left, top = MARGIN, MARGIN
    right, bottom = left + piece.width, top + piece.height
    lines = [
        *(f"M{x:.2f} {top - 6}V{top - 1}M{x:.2f} {bottom + 1:.2f}v3" for x in (left, right)),
        *(f"M{left - 6} {y:.2f}H{left - 1}M{right + 1:.2f} {y:.2f}h5" for y in (top, bottom)),
    ]
    if piece.column + 1 < made.across:
        lines.append(f"M{right - OVERLAP:.2f} {top - 3}V{top - 1}M{right - OVERLAP:.2f} {bottom + 1:.2f}v2")
    if piece.row + 1 < made.down:
        lines.append(f"M{left - 3} {bottom - OVERLAP:.2f}H{left - 1}M{right + 1:.2f} {bottom - OVERLAP:.2f}h2")
    wide, high = made.paper_width, made.paper_height
    return Markup(
        f'<svg class="marks" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">'
        f"<title>{escape(alt)}</title>"
        f'<path d="{"".join(lines)}" fill="none" stroke="#1f1d1a" stroke-width="0.25"/></svg>'
    )


def _ruler(edition: Edition) -> Markup:
    """A line of 100 mm and one of 4 in, to see that the printer did not shrink the sheets."""
    title = escape(edition.words("sheets.cut.ruler"))
    return Markup(
        f'<svg class="ruler" width="106mm" height="17mm" viewBox="0 0 106 17"><title>{title}</title>'
        '<path d="M1 1v5M1 3.5h100M101 1v5M1 10v5M1 12.5h101.6M102.6 10v5" fill="none" '
        'stroke="#1f1d1a" stroke-width="0.3"/></svg>'
    )


def _with_chart(pieces: Any, source: Any, made: Cut, height: float) -> bytes:
    """The sheets of pieces with the chart under their marks. Their tags stay, for it is their file that is copied."""
    from pypdf import PdfWriter
    from pypdf.generic import ArrayObject, NameObject

    writer = PdfWriter(clone_from=pieces)
    forms = [writer._add_object(_form(writer, page)) for page in source.pages]
    root: Any = writer.root_object
    parents = root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    for n, page in enumerate(list(writer.pages)[-len(forms) * len(made.pieces) :]):
        sheet, piece = divmod(n, len(made.pieces))
        name = f"/WallChart{sheet + 1}"  # Pages may share their resources: each chart sheet has a name of its own.
        number = _in_the_figure(parents, page, made, made.pieces[piece])
        drawn = writer._add_object(_stream(_drawing(made, made.pieces[piece], height, name, number)))
        resources: Any = page["/Resources"]
        resources[NameObject("/XObject")] = _named(name, forms[sheet], resources.get("/XObject"))
        page[NameObject("/Contents")] = ArrayObject([drawn, page.raw_get("/Contents")])
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def _in_the_figure(parents: Any, page: Any, made: Cut, piece: Piece) -> int:
    """Marks what is drawn on a page as part of its one figure, which has the words; gives the number of the mark."""
    from pypdf.generic import ArrayObject, FloatObject, NameObject, NumberObject

    its = parents[2 * page["/StructParents"] + 1].get_object()
    figure = next(e for e in its if "/S" in e.get_object() and e.get_object()["/S"] == "/Figure")
    number = NumberObject(len(its))
    its.append(figure)
    figure.get_object()["/K"].append(number)
    bottom = made.paper_height - MARGIN - piece.height
    box = (MARGIN, bottom, MARGIN + piece.width, bottom + piece.height)
    figure.get_object()["/A"][NameObject("/BBox")] = ArrayObject([FloatObject(f"{x * _POINTS:.3f}") for x in box])
    return number


def _form(writer: Any, page: Any) -> Any:
    """A page of the chart as a Form XObject, its marks without their tags."""
    from pypdf.generic import NameObject

    # Marks must stay in pairs; what they were part of is another file's tree.
    data = _MARKED.sub(b"/Span BMC", page.get_contents().get_data())
    form = _stream(data)
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = page.mediabox.clone(writer)
    form[NameObject("/Resources")] = page["/Resources"].clone(writer)
    return form


def _stream(data: bytes) -> Any:
    from pypdf.generic import StreamObject

    stream = StreamObject()
    stream.set_data(data)
    return stream.flate_encode()


def _named(name: str, form: Any, others: Any) -> Any:
    from pypdf.generic import DictionaryObject, NameObject

    return DictionaryObject({**(others.get_object() if others is not None else {}), NameObject(name): form})


def _drawing(made: Cut, piece: Piece, height: float, name: str, number: int) -> bytes:
    """Clip to the piece, shift the chart under it."""
    bottom = made.paper_height - MARGIN - piece.height
    right, up = MARGIN - piece.left, made.paper_height - MARGIN + piece.top - height
    box = " ".join(f"{length * _POINTS:.3f}" for length in (MARGIN, bottom, piece.width, piece.height))
    shift = f"1 0 0 1 {right * _POINTS:.3f} {up * _POINTS:.3f} cm"
    return f"q {box} re W n {shift} /Figure <</MCID {number}>> BDC {name} Do EMC Q\n".encode()
