"""Problems as data: where, how bad, which, what, and the fix. Leaf module."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Place:
    """Where a piece of text stands: path from the content folder (POSIX), line and column, both from 1."""

    path: str
    line: int
    column: int = 1

    @property
    def at(self) -> str:
        """`path:line`, as reasons quote it."""
        return f"{self.path}:{self.line}"


class Severity(Enum):
    """An error stops an edition; a warning does not (unless `--strict`)."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One cause, one problem. `message` stands alone in lower case; the fix is in `help` (may be empty).

    `width` is how many characters of the author's line the caret covers.
    """

    place: Place
    severity: Severity
    code: str
    message: str
    help: str = ""
    width: int = 1

    @property
    def is_error(self) -> bool:
        return self.severity is Severity.ERROR


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Sorted by place, then severity, code and message; exact repeats dropped."""
    unique = dict.fromkeys(problems)
    return tuple(sorted(unique, key=lambda p: (p.place, p.severity.value, p.code, p.message)))


def printed(problem: Problem, lines: Mapping[str, Sequence[str]], prefix: str = "") -> str:
    """The problem as people read it: place, message, the author's line with a caret, help.

    `lines` maps a path to its lines; a path that is missing there (an unreadable file) prints no line.
    `prefix` is put before the path (the content folder as the user named it).
    """
    place = problem.place
    out = [
        f"{prefix}{place.path}:{place.line}:{place.column}: "
        f"{problem.severity.value}: {problem.message}  [{problem.code}]"
    ]
    texts = lines.get(place.path, ())
    if 0 < place.line <= len(texts) and texts[place.line - 1].strip():
        text = texts[place.line - 1].rstrip("\r\n")
        lead = "".join("\t" if c == "\t" else " " for c in text[: place.column - 1])
        width = max(1, min(problem.width, len(text) - place.column + 1))
        out += [f"    {text}", f"    {lead}{'^' * width}"]
    if problem.help:
        out += [
            f"help: {problem.help}" if "\n" not in problem.help else "help: " + problem.help.replace("\n", "\n      ")
        ]
    return "\n".join(out)
