"""Base sheets: what goes over one first glaze, for the wall by its jar; replaced one at a time."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.sheets.base_sheets.content import base_groups
from combobook.render.sheets.base_sheets.hang import hung
from combobook.render.sheets.base_sheets.rows import pictured
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import printed

PATH, HANG_PATH = "print/base-sheets.pdf", "print/base-sheets-to-hang.pdf"


def base_sheets(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """A sheet of `paper` or more for each first glaze on the shelf, legible from 1.25 m: with pictures, and to hang.

    With pictures: up to six tops a sheet. To hang: empty places for the tiles themselves, as many as the paper holds,
    six at most; for those whose printer is black and white, and for those who would rather show the tile.
    """
    groups, files, problems = base_groups(edition), dict[str, bytes](), list[Problem]()
    for path, made in ((PATH, pictured(edition, groups)), (HANG_PATH, hung(edition, groups))):
        if made is None:
            problems.append(too_small(edition, path.removeprefix("print/")))
            continue
        pdf, found = printed(
            edition,
            "print/base-sheets.html",
            path=path,
            furnished=made.furnished,
            styles=("print-base-sheets.css",),
            files=made.files,
            sheets=made.sheets,
            form=made.form,
            style=made.style,
            moves=edition.words("base_sheets.moves"),
            empty="" if made.sheets else edition.words("chart.empty"),
        )
        files |= pdf
        problems += found
    return files, tuple(problems)
