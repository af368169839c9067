"""Closed editions and the list of withdrawn tiles, as the program wrote them: JSON and CSV, not typed yet."""

from __future__ import annotations

import json

from combobook.past import MEND
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawEdition
from combobook.sources import Source


def edition(source: Source) -> tuple[RawEdition | None, tuple[Problem, ...]]:
    """The file's value; None, with a problem where its text breaks off or is no JSON."""
    try:
        value = json.loads(source.text)
    except json.JSONDecodeError as error:
        return None, (damaged(source.path, f"{error.msg[:1].lower()}{error.msg[1:]}", error.lineno, error.colno),)
    except (RecursionError, ValueError) as error:  # Nested thousands deep, or a number of a million digits.
        return None, (damaged(source.path, str(error) or "it is nested too deep"),)
    return RawEdition(path=source.path, stem=source.stem, value=value), ()


def damaged(path: str, why: str, line: int = 1, column: int = 1) -> Problem:
    """That a file in editions/ cannot be read, and why."""
    return Problem(
        place=Place(path=path, line=line, column=column),
        severity=Severity.ERROR,
        code="damaged-edition",
        message=f"this closed edition cannot be read: {why}",
        help=MEND,
    )
