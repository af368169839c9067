"""The parse stage: texts to raw entries, each value still text with its line and column. Converts nothing."""

from __future__ import annotations

from combobook.parse.front_matter import entry, studio
from combobook.parse.table import log
from combobook.problems import Problem
from combobook.raw import RawEntries, RawEntry, RawLog
from combobook.sources import Content, Source


def parse(content: Content) -> tuple[RawEntries, tuple[Problem, ...]]:
    """Every entry and log of the content; files that cannot be parsed are in `broken`, each with its problem."""
    problems: list[Problem] = []
    entries: list[RawEntry] = []
    logs: list[RawLog] = []
    broken: list[Source] = list(content.unread)
    the_studio = None
    for source in content.sources:
        if source.folder == "logs":
            table, found = log(source)
            logs += [table] if table else []
            whole = table is not None
        elif source.folder:
            raw, found = entry(source)
            entries += [raw] if raw else []
            whole = raw is not None
        else:
            the_studio, found = studio(source)
            whole = the_studio is not None
        problems += found
        broken += [] if whole else [source]
    return RawEntries(studio=the_studio, entries=tuple(entries), logs=tuple(logs), broken=tuple(broken)), tuple(
        problems
    )
