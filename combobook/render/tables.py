"""Tables of data for the pages' script: rows coded by tables of what repeats, so that thousands of rows stay small.

A data file is a script, as a page opened from a disk may not fetch: one call of `combobookData` with a name and JSON.
"""

from __future__ import annotations

import json
from collections.abc import Hashable, Iterable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

Kept = TypeVar("Kept", bound=Hashable)


@dataclass(frozen=True, slots=True, kw_only=True)
class Once(Generic[Kept]):
    """Each value once, in the order in which it first came; rows hold its number."""

    values: dict[Kept, int] = field(default_factory=dict)

    def __call__(self, value: Kept) -> int:
        return self.values.setdefault(value, len(self.values))

    @property
    def listed(self) -> list[Kept]:
        return list(self.values)


def table(columns: str, rows: Iterable[tuple[object, ...]]) -> dict[str, object]:
    """Rows with the names of their columns, which are words of `columns`."""
    return {"columns": columns.split(), "rows": [list(row) for row in rows]}


def script(name: str, value: object) -> str:
    """The data file: what the pages' script finds under `name`."""
    told = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return f"combobookData({json.dumps(name)},{told});\n"
