"""The account as text for a terminal: a line wide enough to read, the place and the rule at the end of each reason."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator

from combobook.render.why.view import Part, Point, Why
from combobook.wording import Words

NARROWEST, WIDEST = 40, 96
TOGETHER = "\N{NO-BREAK SPACE}"
_WITH_UNIT = re.compile(r"(?<=\d) (?=(?:mm|in)\b)")
INDENT = "  "
"""Of a reason; what it rests on stands deeper."""


def as_text(why: Why, words: Words, *, folder: str, width: int, other_command: str) -> str:
    """The whole account. `folder` stands before each place; `other_command` is what asks about the other order."""
    page = _Page(folder=folder, width=max(NARROWEST, min(width, WIDEST)))
    blocks = [_head(why, page), *(_part(part, page) for part in why.parts)]
    if why.other_way:
        asked = words("why.ask_other", command=other_command)
        blocks.append("\n".join((*page.wrapped(why.other_way), *page.wrapped(asked))))
    blocks.append("\n".join(line for each in why.cautions for line in page.wrapped(each)))
    if any(point.rule for part in why.parts for point in part.points):
        blocks.append("\n".join(page.wrapped(words("why.codes"))))
    return "\n\n".join(blocks) + "\n"


class _Page:
    """Lines no wider than the terminal; places are never broken."""

    def __init__(self, *, folder: str, width: int) -> None:
        self._folder, self._width = folder, width

    def wrapped(self, text: str, first: str = "", rest: str | None = None) -> list[str]:
        lines = textwrap.wrap(
            _WITH_UNIT.sub(TOGETHER, text),
            self._width,
            initial_indent=first,
            subsequent_indent=first if rest is None else rest,
            break_long_words=False,
            break_on_hyphens=False,
        )
        return [line.replace(TOGETHER, " ") for line in lines]

    def place(self, point: Point) -> str:
        """`content/glazes/ferry-rust.md:6  [F1]`, kept together."""
        rule = f"  [{point.rule}]" if point.rule else ""
        return f"{self._folder}{point.at}{rule}".replace(" ", TOGETHER)


def _head(why: Why, page: _Page) -> str:
    said = f"{why.order} {why.coats}"
    first = [said, *([why.untested] if why.untested else []), *why.notices]
    return "\n".join(line for each in first for line in page.wrapped(each))


def _part(part: Part, page: _Page) -> str:
    lines = [part.title.upper()]
    if part.verdict:
        lines += page.wrapped(part.verdict, INDENT)
    if part.under:
        lines += page.wrapped(" ".join(part.under), INDENT)
    lines += (line for each in part.beside for line in page.wrapped(each, f"{INDENT}! ", f"{INDENT}  "))
    lines += _points(part.points, page)
    first, rest = (f"{INDENT}- ", f"{INDENT}  ") if part.key in ("change", "words") else (INDENT, INDENT)
    lines += (line for note in part.notes for line in page.wrapped(note, first, rest))
    return "\n".join(lines)


def _points(points: Iterable[Point], page: _Page) -> Iterator[str]:
    for point in points:
        yield from page.wrapped(point.says, f"{INDENT}- ", f"{INDENT}  ")
        deeper = f"{INDENT}    "
        rests_on = f"{point.rests_on}: " if point.rests_on else ""
        yield from page.wrapped(f"{rests_on}{page.place(point)}", deeper)
