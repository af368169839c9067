"""Paper for sheets that are read from across the room and are no wall chart: the larger sheet of an office printer."""

from __future__ import annotations

from collections.abc import Sequence

from combobook.edition import Edition
from combobook.measures import Paper
from combobook.problems import Problem, Severity
from combobook.render.chart.papers import NAMED_PAPERS
from combobook.verdicts import MovementVerdict, ToDo

_LARGER = {paper.name: paper for paper in NAMED_PAPERS if paper.name in ("tabloid", "A3")}


def poster_papers(edition: Edition) -> tuple[Paper, ...]:
    """The papers to try, in order: A3 where the studio prints on an A size, else tabloid; then the chart's.

    Most schools print 11 × 17 in or A3 themselves, and a chart of single glazes does not fill a poster (house).
    """
    own = edition.book.studio.paper.value.name.casefold()
    small = _LARGER["A3" if own.startswith("a") and own[1:].isdigit() else "tabloid"]
    return small, edition.book.studio.chart_paper.value


def both_units(edition: Edition, movements: Sequence[MovementVerdict]) -> str:
    """Every length of these instructions in mm and inches, where a sheet has room for one unit; empty without one."""
    down = {m.to_do_mm for m in movements if m.to_do is ToDo.TOP_BAND and m.to_do_mm is not None}
    up = {m.to_do_mm for m in movements if m.to_do is ToDo.LEAVE and m.to_do_mm is not None}
    lengths = sorted([(length, "up") for length in up] + [(length, "down") for length in down - up])
    said = ", ".join(edition.words.length(length, way) for length, way in lengths)
    return edition.words("posted.lengths", lengths=said) if said else ""


def not_legible(edition: Edition, sheet: str) -> Problem:
    """That no paper at hand holds this sheet in letters legible from `read from`, at the studio's own words."""
    studio = edition.book.studio
    return Problem(
        place=studio.read_from.place,
        severity=Severity.WARNING,
        code="not-legible",
        message=f"`{sheet}` is not made: no paper of this studio holds it in letters that can be read from there",
        help="write a nearer `read from` or a larger `chart paper`",
    )
