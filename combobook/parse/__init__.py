"""The parse stage: texts to raw entries, each value still text with its line and column. Converts nothing."""

from __future__ import annotations

from functools import partial
from typing import Any

from combobook.kept import Kept
from combobook.parse.editions import edition
from combobook.parse.front_matter import entry, studio
from combobook.parse.table import log
from combobook.problems import Problem
from combobook.raw import RawEdition, RawEntries, RawEntry, RawLog
from combobook.sources import Content, Source

_KEPT: Kept[Any] = Kept()
"""Each file's raw entry and problems, while its text is the same."""


def parse(content: Content) -> tuple[RawEntries, tuple[Problem, ...]]:
    """Every entry and log of the content; files that cannot be parsed are in `broken`, each with its problem."""
    problems: list[Problem] = []
    entries: list[RawEntry] = []
    logs: list[RawLog] = []
    editions: list[RawEdition] = []
    withdrawn = None
    broken: list[Source] = list(content.unread)
    the_studio = None
    for source in content.sources:
        if source.folder == "logs":
            table, found = _KEPT(source.path, (source,), partial(log, source))
            logs += [table] if table else []
            whole = table is not None
        elif source.folder == "editions" and source.stem == "withdrawn" and source.path.endswith(".csv"):
            withdrawn, found = _KEPT(source.path, (source,), partial(log, source))
            whole = withdrawn is not None
        elif source.folder == "editions":
            past, found = _KEPT(source.path, (source,), partial(edition, source))
            editions += [past] if past else []
            whole = past is not None
        elif source.folder:
            raw, found = _KEPT(source.path, (source,), partial(entry, source))
            entries += [raw] if raw else []
            whole = raw is not None
        else:
            the_studio, found = _KEPT(source.path, (source,), partial(studio, source))
            whole = the_studio is not None
        problems += found
        broken += [] if whole else [source]
    raw_entries = RawEntries(
        studio=the_studio,
        entries=tuple(entries),
        logs=tuple(logs),
        editions=tuple(editions),
        withdrawn=withdrawn,
        broken=tuple(broken),
    )
    return raw_entries, tuple(problems)
