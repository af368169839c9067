"""A line that nobody wrote by hand."""

from __future__ import annotations

from combobook.problems import Place, Problem, Severity
from combobook.sources import LONGEST_LINE


def too_long(path: str, line: int) -> Problem:
    """The problem of a line of more characters than a field or a row of a log may have."""
    return Problem(
        place=Place(path=path, line=line),
        severity=Severity.ERROR,
        code="line-too-long",
        message=f"this line has more than {LONGEST_LINE:,} characters, the most a field or a row of a log may have",
        help="put long text below the front matter, where a line may be as long as you like",
    )
