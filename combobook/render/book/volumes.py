"""Which first glazes share a volume."""

from __future__ import annotations

from collections.abc import Sequence

from combobook.render.book.pages import Part

MOST = 250
"""Entries in a volume; a document takes up to 0.75 MB of memory an entry while it is made."""


def volumes(parts: Sequence[Part]) -> tuple[tuple[Part, ...], ...]:
    """The parts in their order, as even as first glazes allow: a part is never divided."""
    total = sum(len(part.entries) for part in parts)
    count = max(1, -(-total // MOST))
    share = total / count
    found: list[list[Part]] = [[]]
    held = 0
    for part in parts:
        if found[-1] and held + len(part.entries) / 2 > share * len(found) and len(found) < count:
            found.append([])
        found[-1].append(part)
        held += len(part.entries)
    return tuple(tuple(some) for some in found)
