"""The wall chart in its three forms: whole, in grey, and in pieces for the studio's own printer."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.chart import PATH, grey, wall_chart
from combobook.render.drawn import Drawn, drawn
from combobook.render.sheets.poster import poster_cut


def wall_charts(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """`print/wall-chart.pdf` and from its pages `-grey` and `-cut`; nothing where the chart itself cannot be made."""
    pages: list[Drawn] = []
    files, problems = wall_chart(edition, then=lambda pdf: pages.append(drawn(pdf)))
    if PATH not in files:
        return files, problems
    pieces, more = poster_cut(edition, pages[0])
    return {**files, grey.PATH: grey.in_grey(files[PATH]), **pieces}, (*problems, *more)
