"""What the teacher has settled once, in logs/columns.yaml: which column a heading is, and what a word is read as."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from combobook.parse.front_matter import studio as fields_alone
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawEntry, RawField, RawMap, RawText
from combobook.sources import Source
from combobook.spelling import did_you_mean
from combobook.take_in.headings import CM, COATS, LEAVE_OUT
from combobook.validate.entry import in_quotes
from combobook.validate.known import KNOWN
from combobook.validate.log import COLUMNS

PATH = "logs/columns.yaml"
LOG, GLAZES = "columns", "glaze columns"
"""Sections of headings: of a class's log, of a list of glazes."""
READ_AS = "read as"
_DUE: Mapping[str, tuple[str, ...]] = {
    LOG: (*COLUMNS, COATS, CM, LEAVE_OUT),
    GLAZES: (*KNOWN["glazes"], LEAVE_OUT),
}
_BEGIN = """\
# How take-in reads a class's tables. Edit it as you like: the next take-in goes by it.
# Under `columns` a heading and the column it is, or `leave out`; under `read as` what a word in a cell stands for:
#   Ferry Rst: Ferry Rust
# `read as faults:` (or any other column) is for that column's cells alone.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """The file as understood. Headings and words are compared without letter case and outer space."""

    text: str = ""
    headings: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """By section, then heading: the column."""
    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """By column ("" for any), then word: what it is read as."""

    def column(self, section: str, heading: str) -> str | None:
        """The column that was settled for a heading, None where none was."""
        return self.headings.get(section, {}).get(folded(heading))

    def read(self, column: str, word: str) -> str:
        """What a cell's text stands for; itself where nothing was settled."""
        key = folded(word)
        own, every = self.words.get(column, {}), self.words.get("", {})
        return own.get(key, every.get(key, word))


def folded(words: str) -> str:
    """As headings and words are compared."""
    return " ".join(words.split()).casefold()


def settled(text: str, path: str) -> tuple[Settled, tuple[Problem, ...]]:
    """What a columns.yaml says. `path` is the file's as people are to read it."""
    if not text.strip():
        return Settled(text=text), ()
    raw, problems = fields_alone(Source(path=path, folder="logs", stem="columns", text=text))
    if raw is None:
        return Settled(text=text), problems
    return _understood(raw, text, list(problems))


def _understood(raw: RawEntry, text: str, problems: list[Problem]) -> tuple[Settled, tuple[Problem, ...]]:
    headings: dict[str, Mapping[str, str]] = {}
    words: dict[str, Mapping[str, str]] = {}
    for name, found in raw.fields.items():
        column = name.removeprefix(READ_AS).strip()
        if name in _DUE:
            headings[name] = _columns(raw.path, found, _DUE[name], problems)
        elif name.startswith(READ_AS) and (not column or column in (*COLUMNS, *KNOWN["glazes"])):
            words[column] = {folded(key.text): value.text for key, value in _pairs(raw.path, found, problems)}
        else:
            sections = (LOG, GLAZES, READ_AS, *(f"{READ_AS} {column}" for column in COLUMNS))
            every = f"sections are `{LOG}`, `{GLAZES}`, `{READ_AS}` and `{READ_AS} <column>`"
            fix = did_you_mean(name, sections) or every
            problems.append(_problem(raw.path, found.key, "unknown-field", f"there is no section `{name}`", fix))
    return Settled(text=text, headings=headings, words=words), tuple(problems)


def _columns(path: str, found: RawField, due: tuple[str, ...], problems: list[Problem]) -> Mapping[str, str]:
    columns = {}
    for key, value in _pairs(path, found, problems):
        column = folded(value.text)
        if column in due:
            columns[folded(key.text)] = column
        elif column and column != "?":
            fix = did_you_mean(column, due) or f"write one of: {', '.join(due)}"
            problems.append(_problem(path, value, "unknown-column", f"there is no column `{value.text}`", fix))
    return columns


def _pairs(path: str, found: RawField, problems: list[Problem]) -> list[tuple[RawText, RawText]]:
    value = found.value
    if isinstance(value, RawText) and not value.text:
        return []
    pairs = []
    for key, item in value.items if isinstance(value, RawMap) else ():
        if isinstance(item, RawText):
            pairs.append((key, item))
        else:
            problems.append(_wrong(path, key))
    if not isinstance(value, RawMap):
        problems.append(_wrong(path, found.key))
    return pairs


def _wrong(path: str, key: RawText) -> Problem:
    fix = f"write one line for each, such as\n{READ_AS}:\n  Ferry Rst: Ferry Rust"
    return _problem(path, key, "wrong-shape", f"`{key.text}` is not followed by `word: meaning` lines", fix)


def with_columns(old: Settled, section: str, columns: Iterable[tuple[str, str]], path: str) -> str | None:
    """The file's text with lines for these headings in `section`, all else as it stands.

    None where nothing is to be added, or where its author writes in a way that lines cannot simply be added to.
    """
    new = [(heading, column) for heading, column in columns if old.column(section, heading) is None]
    if not new:
        return None
    lines = [f"  {in_quotes(' '.join(heading.split()))}: {column}" for heading, column in new]
    text = old.text or _BEGIN
    text += "" if text.endswith("\n") else "\n"
    head = re.search(rf"(?m)^{section}:[ \t]*(?:#.*)?\n", text)
    text = (
        f"{text[: head.end()]}{chr(10).join(lines)}\n{text[head.end() :]}"
        if head
        else f"{text}{section}:\n{chr(10).join(lines)}\n"
    )
    then, problems = settled(text, path)
    kept = then.words == old.words and all(then.column(section, heading) == column for heading, column in new)
    return text if kept and not problems else None


def _problem(path: str, at: RawText, code: str, message: str, help: str) -> Problem:
    place = Place(path=path, line=at.line, column=at.column)
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=at.width)
