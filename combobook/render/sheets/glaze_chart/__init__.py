"""The glaze chart: every glaze on the shelf by itself, one line each, read from across the room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.our_kiln import refused
from combobook.render.sheets.frame import printed
from combobook.render.sheets.glaze_chart.lines import GlazeLine, glaze_line
from combobook.render.sheets.glaze_chart.plan import Plan, plans, style
from combobook.render.sheets.posted import both_units, not_legible
from combobook.render.sheets.shelf import on_the_shelf

PATH = "print/glaze-chart.pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidLine:
    """A line with its reason as it is folded beside the food words."""

    told: GlazeLine
    reason: tuple[str, ...]
    reason_style: str


def glaze_chart(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """The chart on tabloid or A3 across, else on `chart paper`: names, food words, what to do legible from `read from`.

    What does not fit goes to another sheet. Where neither paper holds a line there is no chart, and a warning says so.
    """
    shelf = on_the_shelf(edition)
    lines = tuple(glaze_line(edition, verdict) for verdict in shelf)
    plan = next((found for found in plans(edition, lines) if found is not None), None)
    if plan is None:
        return {}, (not_legible(edition, "glaze-chart.pdf"),)
    sheets = -(-len(lines) // plan.most) or 1
    each = -(-len(lines) // sheets)
    laid = tuple(_laid(line, plan) for line in lines)
    movements = [verdict.movement for verdict in shelf if not refused(verdict, edition.book)]
    return printed(
        edition,
        "print/glaze-chart.html",
        path=PATH,
        furnished=plan.furnished,
        styles=("print-glaze-chart.css",),
        sheets=tuple(laid[n * each : (n + 1) * each] for n in range(sheets)),
        plan=plan,
        style=style(plan, each),
        heads=edition.words.lines("glaze_chart.heads"),
        moves=edition.words("glaze_chart.moves"),
        inches="" if plan.unit else both_units(edition, movements),
        empty="" if lines else edition.words("glaze_chart.empty"),
    )


def _laid(line: GlazeLine, plan: Plan) -> LaidLine:
    folded, size = plan.reason(line)
    return LaidLine(told=line, reason=folded, reason_style=size)
