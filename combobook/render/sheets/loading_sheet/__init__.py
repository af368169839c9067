"""The loading sheet: what goes into no kiln of ours, then every pair on the shelf, worst first and as a look-up."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.loading_sheet.lines import clay_lines, load_groups, refuse_lines
from combobook.render.sheets.loading_sheet.table import look_up

PATH = "print/loading-sheet.pdf"
_LEAST_WIDE, _LEAST_HIGH = 150.0, 80.0
"""mm between the margins in which the tables can be read."""


def loading_sheet(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """On `paper`, for whoever loads the kiln, by marks: clays and glazes to refuse; lists, worst first; the look-up.

    The lists have what must not stand upright, then what needs a catch plate, then the rest; then one glaze alone.
    Within each the widest bare margin comes first, then what keeps to a band, then the marks.
    """
    words, cone = edition.words, edition.book.studio.cone.value
    furnished = frame(
        edition, words("loading_sheet.title", cone=cone), edition.book.studio.paper.value, key=("moves",)
    )  # fmt: skip
    if furnished.width < _LEAST_WIDE or furnished.height < _LEAST_HIGH:
        return {}, (too_small(edition, "loading-sheet.pdf"),)
    refuse, table = refuse_lines(edition), look_up(edition, furnished)
    shelf = bool(table.sheets)
    return printed(
        edition,
        "print/loading-sheet.html",
        path=PATH,
        furnished=furnished,
        styles=("print-loading-sheet.css",),
        clays=tuple(clay_lines(edition)),
        refuse=refuse,
        refuse_title=words("loading_sheet.refuse_title", cone=cone),
        groups=load_groups(edition),
        notes=words.lines("loading_sheet.notes"),
        heads=words.lines("loading_sheet.heads"),
        table=table,
        corner=words("loading_sheet.table.corner"),
        empty="" if shelf else words("loading_sheet.empty"),
    )
