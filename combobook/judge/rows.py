"""A tile with what the rules ask of it worked out once: its cone, its run's class, its faults."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from combobook.book import TestTile
from combobook.cones import Cone
from combobook.entries import NOT_KNOWN, OFF_THE_TILE, KilnShelf, Unknown
from combobook.judge.age import age
from combobook.judge.fire import tile_fire
from combobook.verdicts import MoveClass, TileFire

STABLE_UP_TO_MM = 1
RUNNY_FROM_MM = 5
"""House: no published length divides the classes (rules.md, section 2)."""

Fires = dict[tuple[str, KilnShelf | Unknown], TileFire]
"""Tile fires already worked out, by firing and shelf."""


@dataclass(frozen=True, slots=True)
class Row:
    """One tile at one coat count, and what it says. Positional, because thousands are made."""

    tile: TestTile
    coats: tuple[int, ...]
    clay: str | None
    firing: str | None
    fire: TileFire | None
    """None: not fired."""
    looked: bool
    """Looked over: `faults` is not blank."""
    faulty: bool
    run: MoveClass | None
    """The class of an upright row's run; None where it stood flat or otherwise, or nothing is written."""
    old: bool
    current: bool

    @property
    def fired(self) -> bool:
        return self.fire is not None

    @property
    def cone(self) -> Cone | None:
        return self.fire.cone if self.fire else None

    @property
    def mark(self) -> str:
        return self.tile.tile.value


def rows(tiles: Iterable[TestTile], fires: Fires) -> tuple[Row, ...]:
    """The rows of these tiles, in their order. `fires` is filled as it goes."""
    return tuple(_row(tile, fires) for tile in tiles)


def _row(tile: TestTile, fires: Fires) -> Row:
    fire = None
    if tile.firing is not None:
        key = (tile.firing.id, tile.kiln_shelf.value)
        fire = fires.get(key)
        if fire is None:
            fire = fires[key] = tile_fire(tile.firing, tile.kiln_shelf.value)
    faults = tile.faults.value
    return Row(
        tile,
        tile.coats,
        tile.clay.id if tile.clay else None,
        tile.firing.id if tile.firing else None,
        fire,
        faults is not NOT_KNOWN,
        faults is not NOT_KNOWN and bool(faults),
        run_class(tile) if tile.upright else None,
        *age(tile),
    )


def run_class(tile: TestTile) -> MoveClass | None:
    """The class of `ran`: 1 mm or less stable, under 5 mm moves, from 5 mm or off the tile runny; else None."""
    ran = tile.ran.value
    if ran is OFF_THE_TILE:
        return MoveClass.RUNNY
    if not isinstance(ran, Fraction):
        return None
    if ran <= STABLE_UP_TO_MM:
        return MoveClass.STABLE
    return MoveClass.MOVES if ran < RUNNY_FROM_MM else MoveClass.RUNNY
