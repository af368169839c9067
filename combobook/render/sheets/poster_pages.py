"""The poster cut's pages: one page with the labels of every piece becomes a page a piece, the chart drawn on each.

Laying out a page a piece takes longer than everything else about them; their labels all stand at one place anyway.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from combobook.render.chart.pieces import MARGIN, OVERLAP, Cut, Piece
from combobook.render.drawn import Drawn, forms
from combobook.render.sheet import INK

_POINTS = 72 / 25.4


def deal_out(pdf: Any, chart: Drawn, made: Cut, alts: Sequence[str]) -> None:
    """The last page of `pdf` holds a paragraph a piece, in order; each gets a page of its own.

    For who listens a page is one figure with the words of `alts`; its label is pagination, as of any sheet.
    """
    import pydyf

    objects = {thing.reference: thing for thing in pdf.objects}
    model = objects[pdf.page_references[-1]]
    tree = objects[objects[pdf.catalog["StructTreeRoot"]]["ParentTree"]]["Nums"]
    labels = _labels(objects, tree[2 * model["StructParents"] + 1], objects[model["Contents"]].stream)
    bookmarks = [t for t in pdf.objects if isinstance(t, dict) and model.reference in t.get("Dest", ())]
    drawings = forms(pdf, chart)
    shown = objects[model["Resources"]]["XObject"]
    shown.update({f"WallChart{n}": form.reference for n, form in enumerate(drawings, 1)})
    for n, (figure, label) in enumerate(labels):
        sheet, place = divmod(n, len(made.pieces))
        piece, page = made.pieces[place], model
        content = _content(made, piece, chart.pages[sheet].height, f"/WallChart{sheet + 1}", label)
        stream = pydyf.Stream(content, compress=True)
        pdf.add_object(stream)
        if n:
            page = pydyf.Dictionary({**model, "StructParents": max(tree[::2]) + 1})
            pdf.add_page(page)
            tree.extend((page["StructParents"], pydyf.Array()))
        page["Contents"] = stream.reference
        tree[2 * tree[::2].index(page["StructParents"]) + 1] = pydyf.Array([figure.reference])
        _figure(figure, page.reference, _box(made, piece), alts[n])
        bookmarks[n]["Dest"] = pydyf.Array([page.reference, "/Fit"])


def _labels(objects: Any, parents: list[Any], operations: list[Any]) -> list[tuple[Any, list[Any]]]:
    """Each paragraph's element and its drawing operations, in order. What it held is emptied: nothing leads there."""
    found: dict[int, tuple[Any, list[Any]]] = {}
    for n, operation in enumerate(operations):
        if isinstance(operation, dict) and "MCID" in operation:
            element = objects[parents[operation["MCID"]]]
            while element["S"] != "/P":
                above = objects[element["P"]]
                element.clear()
                element = above
            _, label = found.setdefault(element.number, (element, []))
            label.extend(operations[n + 2 : operations.index(b"EMC", n)])
    return list(found.values())


def _figure(element: Any, page: bytes, box: Sequence[float], alt: str) -> None:
    import pydyf

    measures = pydyf.Dictionary({"O": "/Layout", "BBox": pydyf.Array(box)})
    element.update({"S": "/Figure", "K": pydyf.Array([0]), "Pg": page, "A": measures, "Alt": pydyf.String(alt)})


def _box(made: Cut, piece: Piece) -> tuple[float, ...]:
    """Where the piece lies on its page: left, bottom, right, top in points."""
    bottom = made.paper_height - MARGIN - piece.height
    box = (MARGIN, bottom, MARGIN + piece.width, bottom + piece.height)
    return tuple(round(length * _POINTS, 3) for length in box)


def _content(made: Cut, piece: Piece, height: float, name: str, label: list[Any]) -> list[Any]:
    """The chart shifted under the piece and clipped to it, the marks in the margin, the label."""
    left, bottom, right, top = _box(made, piece)
    across, up = (MARGIN - piece.left) * _POINTS, top + piece.top * _POINTS - height
    high = made.paper_height * _POINTS
    return [
        b"/Figure <</MCID 0>> BDC",
        f"q {left} {bottom} {right - left:.3f} {top - bottom:.3f} re W n 1 0 0 1 {across:.3f} {up:.3f} cm {name} Do Q",
        f"q 1 0 0 -1 0 {high:.3f} cm {_POINTS:.6f} 0 0 {_POINTS:.6f} 0 0 cm",
        f"{' '.join(f'{int(INK[n : n + 2], 16) / 255:.4f}' for n in (1, 3, 5))} RG 0.25 w {_marks(made, piece)} S Q",
        b"EMC",
        b"/Artifact <</Type /Pagination>> BDC",
        f"q 1 0 0 -1 0 {high:.3f} cm 0.75 0 0 0.75 0 0 cm",
        *label,
        b"Q",
        b"EMC",
    ]


def _marks(made: Cut, piece: Piece) -> str:
    """Long marks in the margin where to cut, short ones where the next piece's edge comes to lie; in mm from above."""
    left, top = MARGIN, MARGIN
    right, bottom = left + piece.width, top + piece.height
    lines = [
        *((x, y, x, y + long) for x in (left, right) for y, long in ((top - 6, 5), (bottom + 1, 3))),
        *((x, y, x + 5, y) for y in (top, bottom) for x in (left - 6, right + 1)),
    ]
    if piece.column + 1 < made.across:
        lines += ((right - OVERLAP, y, right - OVERLAP, y + 2) for y in (top - 3, bottom + 1))
    if piece.row + 1 < made.down:
        lines += ((x, bottom - OVERLAP, x + 2, bottom - OVERLAP) for x in (left - 3, right + 1))
    return " ".join(f"{x0:.2f} {y0:.2f} m {x1:.2f} {y1:.2f} l" for x0, y0, x1, y1 in lines)
