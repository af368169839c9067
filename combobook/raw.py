"""Raw entries: each field's text with its line and column, nothing converted. Leaf module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from combobook.entries import Body
from combobook.sources import Source

# Named tuples, not dataclasses: there is one for every value of every entry, and they are dropped once converted.


class RawText(NamedTuple):
    """A piece of text and where it starts, both from 1; `width` is how many characters of that line it takes."""

    text: str
    line: int
    column: int
    width: int


class RawOther(NamedTuple):
    """A list in a list or a map in a map, where nothing of the kind is ever due; `shown` as of a list."""

    line: int
    column: int
    shown: str


class RawList(NamedTuple):
    """A YAML list; `shown` is what the author typed where it stands on one line, else empty (of a map too)."""

    items: tuple[RawText | RawOther, ...]
    line: int
    column: int
    shown: str


class RawMap(NamedTuple):
    items: tuple[tuple[RawText, RawText | RawOther], ...]
    line: int
    column: int
    shown: str


class RawField(NamedTuple):
    """A field: its key and what stands behind it."""

    key: RawText
    value: RawText | RawList | RawMap


@dataclass(frozen=True, slots=True, kw_only=True)
class RawEntry:
    """An entry's front matter (or all of studio.yaml) by field name, and its body."""

    path: str
    folder: str
    stem: str
    fields: Mapping[str, RawField]
    body: Body


class RawRow(NamedTuple):
    """A row of a log: its line, its cells in the order of the header."""

    line: int
    cells: tuple[RawText, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RawLog:
    """A CSV file: its header and its rows; rows that are blank throughout are left out, and so are ragged ones."""

    path: str
    delimiter: str
    header: tuple[RawText, ...]
    rows: tuple[RawRow, ...]
    ragged: tuple[RawRow, ...] = ()
    """Rows with a problem of their own: for guesses only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RawEdition:
    """A closed edition's file, as JSON has it."""

    path: str
    stem: str
    value: object


@dataclass(frozen=True, slots=True, kw_only=True)
class RawEntries:
    """What `parse` gives, in order of path."""

    studio: RawEntry | None
    entries: tuple[RawEntry, ...]
    logs: tuple[RawLog, ...]
    editions: tuple[RawEdition, ...]
    withdrawn: RawLog | None
    broken: tuple[Source, ...]
    """Files that could not be read or parsed, each with its problem: what they say is unknown, not wrong."""
