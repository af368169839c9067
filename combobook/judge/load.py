"""What came out of a firing, worst first."""

from __future__ import annotations

from fractions import Fraction

from combobook.book import TestTile
from combobook.entries import OFF_THE_TILE
from combobook.judge.rows import run_class
from combobook.verdicts import MoveClass


def worst_first(tile: TestTile) -> tuple[object, ...]:
    """A sort key: what ran off, runny runs by length, then most faults, shorter runs, and last what nobody looked at.

    House. A run counts here however the tile stood: a flat one that ran has reached the shelf all the same.
    """
    ran, faults = tile.ran.value, tile.faults.value
    run = ran if isinstance(ran, Fraction) else Fraction(-1)
    runny = run_class(tile) is MoveClass.RUNNY
    found = len(faults) if isinstance(faults, tuple) else 0
    unseen = not isinstance(faults, tuple)
    return (ran is not OFF_THE_TILE, -run if runny else 0, -found, -run, unseen, tile.tile.value, tile.coats)
