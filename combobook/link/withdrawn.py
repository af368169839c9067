"""Tiles that were withdrawn: their rows are no evidence any more, and their pictures are shown nowhere."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from combobook.entries import Entries, LogRow
from combobook.past import withdrawn_marks


def without_withdrawn(entries: Entries) -> tuple[Entries, tuple[LogRow, ...]]:
    """The entries without the rows of withdrawn tiles, and those rows."""
    marks = withdrawn_marks(entries.withdrawn)
    if not marks:
        return entries, ()
    gone = tuple(row for row in entries.rows if row.tile.value.upper() in marks)
    kept = tuple(row for row in entries.rows if row.tile.value.upper() not in marks)
    return replace(entries, rows=kept), gone


def photos_of(rows: Iterable[LogRow]) -> frozenset[str]:
    """The photographs that these rows name. Where another tile's row names one too, nobody can tell which it shows."""
    return frozenset(row.photo.value for row in rows if isinstance(row.photo.value, str))
