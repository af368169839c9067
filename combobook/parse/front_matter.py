"""An entry's two parts: the fields between its two `---` lines, and the Markdown below."""

from __future__ import annotations

from combobook.entries import Body
from combobook.parse.compose import compose
from combobook.parse.fields import fields
from combobook.parse.too_long import too_long
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawEntry
from combobook.sources import LONGEST_LINE, Source

FENCE = "---"
NOTHING: tuple[Problem, ...] = ()


def entry(source: Source) -> tuple[RawEntry | None, tuple[Problem, ...]]:
    """A Markdown file with front matter; None, with the problem, where its front matter cannot be found or read."""
    lines = source.lines
    if lines[0].rstrip() != FENCE:
        what = "this file is empty" if not source.text.strip() else "the file does not begin with front matter"
        return None, (
            _problem(
                source,
                1,
                code="no-front-matter",
                message=f"{what}: expected a line `---`",
                help="begin the file with the entry's fields between two lines\n---\nname: …\n---",
            ),
        )
    end = next((n for n, line in enumerate(lines) if n and line.rstrip() == FENCE), None)
    if end is None:
        return None, (
            _problem(
                source,
                1,
                code="unclosed-front-matter",
                message="the front matter has no closing `---`",
                help="write a line `---` below the last field",
            ),
        )
    text = "\n".join(lines[end + 1 :])
    body = Body(text=text, path=source.path, line=end + 2) if text.strip() else no_body(source.path)
    return _raw(source, lines[1:end], 2, body)


def studio(source: Source) -> tuple[RawEntry | None, tuple[Problem, ...]]:
    """studio.yaml: fields alone, with or without `---` lines around them."""
    lines = source.lines
    first = 1 if lines[0].rstrip() == FENCE else 0
    end = next((n for n, line in enumerate(lines) if n >= first and line.rstrip() == FENCE), len(lines))
    if extra := next((n for n in range(end + 1, len(lines)) if lines[n].strip()), None):
        message = "studio.yaml has text below its closing `---`: one set of fields was expected"
        return None, (
            _problem(
                source,
                extra + 1,
                code="text-after-fields",
                message=message,
                help="move these lines above the `---`, or delete it",
            ),
        )
    return _raw(source, lines[first:end], first + 1, no_body(source.path))


def no_body(path: str) -> Body:
    """The body of a file that has none: no text, line 0."""
    return Body(text="", path=path, line=0)


def _raw(
    source: Source, lines: tuple[str, ...], first_line: int, body: Body
) -> tuple[RawEntry | None, tuple[Problem, ...]]:
    if (long := next((n for n, line in enumerate(lines) if len(line) > LONGEST_LINE), None)) is not None:
        return None, (too_long(source.path, first_line + long),)
    composed, problems = compose(lines, source.path, first_line)
    if composed is None:
        return None, problems
    found, more = fields(composed, source.path, first_line)
    if found is None:
        return None, (*problems, *more)
    raw = RawEntry(path=source.path, folder=source.folder, stem=source.stem, fields=found, body=body)
    return raw, (*problems, *more) if problems or more else NOTHING


def _problem(source: Source, line: int, *, code: str, message: str, help: str) -> Problem:
    place = Place(path=source.path, line=line)
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=3)
