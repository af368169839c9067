"""The wall chart in its three forms: whole, in grey, and in pieces for the studio's own printer."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.chart import PATH, grey, wall_chart
from combobook.render.sheets.poster import poster_cut


def wall_charts(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """`print/wall-chart.pdf` and from its pages `-grey` and `-cut`; nothing where the chart itself cannot be made."""
    files, problems = wall_chart(edition)
    if PATH not in files:
        return files, problems
    pieces, more = poster_cut(edition, files[PATH])
    return {**files, grey.PATH: grey.in_grey(files[PATH]), **pieces}, (*problems, *more)
