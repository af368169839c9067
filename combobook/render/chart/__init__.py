"""The wall chart: every layering the studio put on it, read from across the room."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from combobook.edition import Edition
from combobook.measures import Paper
from combobook.problems import Problem, Severity
from combobook.render.chart.content import ChartGroup, chart_groups
from combobook.render.chart.papers import NAMED_PAPERS
from combobook.render.chart.plan import fits, plan
from combobook.render.chart.views import chart_view
from combobook.render.letters import not_in_the_face
from combobook.render.sheet import filled, sheet

PATH = "print/wall-chart.pdf"
_STEP = Fraction(100)
"""mm by which nearer reading distances are tried."""


def wall_chart(
    edition: Edition, *, then: Callable[[Any], None] | None = None
) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """The chart as a PDF at `print/wall-chart.pdf`, on as many sheets as it takes.

    On the studio's `chart paper`, every name, food word, instruction and the key to them at 16 minutes of arc or more
    at `read from`. Where the paper cannot hold that there is no chart and an error names what would do. `then` is as
    `render.sheet` has it.
    """
    studio, groups = edition.book.studio, chart_groups(edition)
    laid = plan(edition, groups, studio.chart_paper.value, studio.read_from.value)
    if laid is None:
        return {}, (_too_small(edition, groups),)
    view, pictures = chart_view(edition, groups, laid)
    html = filled(edition.theme, "print/wall-chart.html", chart=view)
    styles = ("print-sheet.css", "print-chart.css")
    pdf, problems = sheet(html, theme=edition.theme, style=styles, files=pictures, path=PATH, then=then)
    return {PATH: pdf}, (*_other_letters(edition, groups), *problems)


def _too_small(edition: Edition, groups: tuple[ChartGroup, ...]) -> Problem:
    studio = edition.book.studio
    paper, distance = studio.chart_paper.value, studio.read_from.value
    ways = [_larger_paper(edition, groups, paper, distance), _nearer(edition, groups, paper, distance)]
    return Problem(
        place=studio.chart_paper.place,
        severity=Severity.ERROR,
        code="chart-paper-too-small",
        message=f"no card and its key fit on {paper.name} in letters that can be read from {_metres(distance)}",
        help=" or ".join(way for way in ways if way) or "use larger paper",
        width=len(paper.name) if studio.chart_paper.stated else 1,
    )


def _larger_paper(edition: Edition, groups: tuple[ChartGroup, ...], paper: Paper, distance: Fraction) -> str:
    """The smallest named paper that does, larger than this one."""
    larger = (p for p in NAMED_PAPERS if p.width * p.height > paper.width * paper.height)
    found = next((p for p in larger if fits(edition, groups, p, distance)), None)
    return f"write `chart paper: {found.name}`" if found else ""


def _nearer(edition: Edition, groups: tuple[ChartGroup, ...], paper: Paper, distance: Fraction) -> str:
    """The farthest distance in tenths of a metre at which this paper does."""
    does, fails = 0, -(-distance // _STEP)
    while fails - does > 1:
        between = (does + fails) // 2
        if fits(edition, groups, paper, between * _STEP):
            does = between
        else:
            fails = between
    return f"write `read from: {_metres(does * _STEP)}`" if does else ""


def _metres(distance: Fraction) -> str:
    return f"{float(distance) / 1000:.3f}".rstrip("0").rstrip(".") + " m"


def _other_letters(edition: Edition, groups: tuple[ChartGroup, ...]) -> tuple[Problem, ...]:
    """A warning for each name on the chart with letters that our face does not have."""
    shown = {verdict for group in groups for verdict in (group.base, *(c.card.top for c in group.cards))}
    names = [g.name for g in edition.book.glazes.values() if g.name.value in shown]
    names.append(edition.book.studio.name)
    return tuple(
        Problem(
            place=name.place,
            severity=Severity.WARNING,
            code="letters-not-in-the-face",
            message=f"the face of the printed sheets has no `{missing}`, so another face of this machine stands in",
            help="look whether the printed chart still reads well, or spell the name in other letters",
            width=len(name.value),
        )
        for name in names
        if (missing := not_in_the_face(name.value))
    )
