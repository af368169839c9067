"""In which fields tiles differ that came out differently: said side by side, never averaged (rules.md, section 4)."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence

from combobook.judge.rows import Row
from combobook.verdicts import Contrast, Disagreement, MoveClass

FIELDS: Mapping[str, Callable[[Row], object]] = {
    "coats": lambda row: row.coats,
    "clay": lambda row: row.clay if row.clay is not None else row.tile.place,  # A blank clay is never the same clay.
    "firing": lambda row: row.firing,
    "shelf": lambda row: row.tile.kiln_shelf.value,
    "fired": lambda row: row.fire,
    "stood": lambda row: row.tile.stood.value,
    "base_lot": lambda row: row.tile.base_lot.value,
    "top_lot": lambda row: row.tile.top_lot.value,
}
"""What is compared, in the order in which it is said."""


def differing(rows: Sequence[Row]) -> tuple[str, ...]:
    """The fields in which not all of these rows are the same."""
    return tuple(name for name, value in FIELDS.items() if len({value(row) for row in rows}) > 1)


def contrasts(fired: Sequence[Row], found: Collection[Disagreement]) -> tuple[Contrast, ...]:
    """Fired rows of different coats or clays, some stable and some runny, or some with faults and some without.

    House. What a disagreement already speaks of is left to it.
    """
    said = {each.about for each in found}
    ran = [row for row in fired if row.run is not None]
    looked = [row for row in fired if row.looked]
    sides = {
        "running": (ran, {MoveClass.STABLE, MoveClass.RUNNY} <= {row.run for row in ran}),
        "faults": (looked, len({row.faulty for row in looked}) > 1),
    }
    return tuple(
        Contrast(about=about, tiles=tuple(row.tile for row in rows), differ=differ)
        for about, (rows, apart) in sides.items()
        if apart and about not in said and not {"coats", "clay"}.isdisjoint(differ := differing(rows))
    )
