"""Which first glazes share a volume."""

from __future__ import annotations

from collections.abc import Sequence

from combobook.render.book.pages import Part


def volumes(parts: Sequence[Part], most: int) -> tuple[tuple[Part, ...], ...]:
    """The parts in their order in as few volumes as hold about `most` entries each, as even as first glazes allow."""
    total = sum(len(part.entries) for part in parts)
    count = max(1, -(-total // most))
    share = total / count
    found: list[list[Part]] = [[]]
    held = 0
    for part in parts:
        if found[-1] and held + len(part.entries) / 2 > share * len(found) and len(found) < count:
            found.append([])
        found[-1].append(part)
        held += len(part.entries)
    return tuple(tuple(some) for some in found)
