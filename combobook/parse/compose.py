"""YAML to nodes, and what to do where YAML refuses, or would change, what a potter typed.

A line that YAML refuses is reported with the line to paste, mended in memory, and the reading goes on, so that one
slip neither hides the other problems of its file nor makes the entry unknown to those that name it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import yaml

try:
    from yaml import CSafeLoader as Quickest
except ImportError:  # PyYAML built without its C part: the same results, seventeen times slower
    from yaml import SafeLoader as Quickest  # type: ignore[assignment]

from combobook.problems import Place, Problem, Severity


class TextLoader(Quickest):
    """Composes every value as text: none is looked at for being a number or a date (a third of the time saved)."""

    yaml_implicit_resolvers = {}  # noqa: RUF012  # as PyYAML declares it: of each loader, never changed here


LOADER: type[Quickest] = TextLoader
MOST_REPAIRS = 40

_BARE_QUESTION = re.compile(r"((?:[^#'\"]*:|\s*-)[ \t]+)\?(?=[ \t]*(?:$|[ \t]#))")
_MARKED = re.compile(r"(?:^|[\s\[{,])[&*!]")
_OTHER_BREAKS = re.compile("[\x85\u2028\u2029]")
_KEY = re.compile(r"(?P<lead>\s*(?:-\s+)?)(?P<key>[^\s:#'\"&*!|>%@`\[\]{}-][^:#]*?)\s*:\s+(?P<value>\S.*?)\s*")
_KEY_CLOSE = re.compile(r"(?P<lead>\s*)(?P<key>[A-Za-z][A-Za-z ]*):(?P<value>[^\s:/].*?)\s*")
_ITEM = re.compile(r"(?P<lead>\s*-\s+)(?P<value>\S.*?)\s*")


@dataclass(frozen=True, slots=True)
class Composed:
    """The root node (None where there are no fields), and the lines it was made from, mends included."""

    root: yaml.Node | None
    lines: Sequence[str]


@dataclass(frozen=True, slots=True)
class _Mend:
    """One way to mend a line: the new line, where the trouble starts in the old one, and what to say."""

    line: str
    column: int
    width: int
    code: str
    message: str
    help: str


def compose(lines: Sequence[str], path: str, first_line: int) -> tuple[Composed | None, tuple[Problem, ...]]:
    """The fields' nodes; None, with a problem, where no mend helps. `first_line` is the file's line of `lines[0]`."""
    text = [_BARE_QUESTION.sub(r"\1'?'", line) if "?" in line else line for line in lines]
    if not "\n".join(text).isascii():
        text = [_OTHER_BREAKS.sub(" ", line) for line in text]
    problems = _quote_marks(text, path, first_line)
    for _ in range(MOST_REPAIRS):
        root, error = _attempt(text)
        if error is None:
            return Composed(root, text), tuple(problems)
        number = min(_line_at_fault(error), len(text) - 1)
        mend = next((m for m in _mends(text[number]) if _gets_further(text, number, m.line)), None)
        problems.append(_refusal(error, number, mend, text, path, first_line))
        if mend is None:
            break
        text[number] = mend.line
    return None, tuple(problems)


def _attempt(text: Sequence[str]) -> tuple[yaml.Node | None, yaml.YAMLError | RecursionError | None]:
    try:
        return yaml.compose("\n".join(text) + "\n", Loader=LOADER), None
    except (yaml.YAMLError, RecursionError) as error:
        return None, error


def _line_at_fault(error: yaml.YAMLError | RecursionError) -> int:
    """The line, from 0, on which the author went wrong: where something was opened, or where the reading stopped."""
    context, mark = getattr(error, "context", None) or "", getattr(error, "problem_mark", None)
    started = context.startswith(("while scanning a quoted", "while parsing a flow", "while scanning a simple key"))
    if started or mark is None:
        mark = getattr(error, "context_mark", None) or mark
    return mark.line if mark is not None else 0


def _gets_further(text: Sequence[str], number: int, line: str) -> bool:
    _, error = _attempt([*text[:number], line, *text[number + 1 :]])
    return error is None or _line_at_fault(error) > number


def _mends(line: str) -> Iterator[_Mend]:
    """Ways to mend a line that YAML refuses, likeliest first."""
    lead = len(line) - len(line.lstrip())
    for spaces in ("  ", "") if "\t" in line[:lead] else ():
        yield _Mend(
            line[:lead].replace("\t", spaces) + line[lead:],
            1,
            lead,
            code="yaml-tab",
            message="a tab at the start of the line: YAML takes only spaces there",
            help="replace the tab with two spaces" if spaces else "delete the tab",
        )
    for match in filter(None, (_ITEM.fullmatch(line), _KEY.fullmatch(line))):
        yield _quoting(line, match, "YAML cannot read this text as it stands")
    if close := _KEY_CLOSE.fullmatch(line):
        fixed = f"{close['lead']}{close['key']}: {close['value']}"
        yield _Mend(
            fixed,
            close.start("value"),
            1,
            code="yaml-syntax",
            message="there is no space after the colon, so this is no field",
            help=_pasted(fixed),
        )
    if lead and _KEY.fullmatch(line):
        yield _Mend(
            line.lstrip(),
            1,
            lead,
            code="yaml-syntax",
            message="this line is set in, though nothing above it can hold it",
            help=_pasted(line.strip()),
        )


def _quoting(line: str, match: re.Match[str], message: str, code: str = "yaml-syntax") -> _Mend:
    start, end = match.span("value")
    fixed = line[:start] + quoted(match["value"])
    return _Mend(
        fixed, start + 1, end - start, code=code, message=message, help="put the text in quotes:\n" + fixed.strip()
    )


def quoted(text: str) -> str:
    """The text between quotes, so that YAML reads it letter by letter."""
    return f'"{text}"' if not re.search(r'["\\]', text) else "'" + text.replace("'", "''") + "'"


def _pasted(line: str) -> str:
    return f"write:\n{line}"


def _refusal(
    error: yaml.YAMLError | RecursionError, number: int, mend: _Mend | None, text: Sequence[str], path: str, first: int
) -> Problem:
    if mend is not None:
        place = Place(path=path, line=first + number, column=mend.column)
        return Problem(
            place=place, severity=Severity.ERROR, code=mend.code, message=mend.message, help=mend.help, width=mend.width
        )
    line = text[number] if number < len(text) else ""
    place = Place(path=path, line=first + number, column=len(line) - len(line.lstrip()) + 1)
    what = getattr(error, "problem", None) or "nested too deeply"
    return Problem(
        place=place,
        severity=Severity.ERROR,
        code="yaml-syntax",
        width=max(1, len(line.strip())),
        message=f"YAML cannot read this line ({what})",
        help="write each field on a line of its own, as `field: value`, and put text with punctuation in double quotes",
    )


def _quote_marks(text: list[str], path: str, first_line: int) -> list[Problem]:
    """Quotes what starts with `&`, `*` or `!`, which YAML would drop or take for something else; reports each."""
    if not _MARKED.search("\n".join(text)):
        return []
    problems = []
    for number in _marked_lines(text):
        line = text[number]
        match = next(filter(None, (shape.fullmatch(line) for shape in (_ITEM, _KEY))), None)
        if match is None:
            continue
        mend = _quoting(
            line, match, f"YAML gives `{match['value'][0]}` a meaning of its own and drops it from the text"
        )
        place = Place(path=path, line=first_line + number, column=mend.column)
        problems.append(
            Problem(
                place=place,
                severity=Severity.ERROR,
                code="yaml-mark",
                message=mend.message,
                help=mend.help,
                width=mend.width,
            )
        )
        text[number] = mend.line
    return problems


def _marked_lines(text: Sequence[str]) -> list[int]:
    """Lines, from 0, on which a tag, an anchor or an alias stands, up to the first thing that YAML refuses."""
    lines: dict[int, None] = {}
    parse: Callable[..., Iterator[yaml.Event]] = yaml.parse
    try:
        for event in parse("\n".join(text) + "\n", Loader=LOADER):
            marked = isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None) or getattr(event, "tag", None)
            if marked and event.start_mark is not None:
                lines[event.start_mark.line] = None
    except (yaml.YAMLError, RecursionError):
        pass
    return list(lines)
