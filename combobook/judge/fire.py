"""The fire: which cone a tile reached, which shelves ran hot or cool, whether the peak fits (rules.md, section 5)."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from combobook.book import TestTile
from combobook.cones import Cone, temperature
from combobook.entries import NOT_KNOWN, Firing, KilnShelf, Unknown, Written
from combobook.problems import Problem, Severity
from combobook.verdicts import FiringVerdict, ShelfFire, TileFire

HALF_A_CONE = 1
"""In half cones, as `Cone.halves` counts."""
PEAK_APART_C = 20
"""Peak and cone may differ so far before a warning (house: rules.md, section 5)."""


def tile_fire(firing: Firing, shelf: KilnShelf | Unknown) -> TileFire:
    """The cone a tile on that shelf of that firing reached.

    Its shelf's witness; where no shelf is named or that shelf has no reading, the reading furthest from the target (of
    two, the cooler); where the firing has none, its target. Source: rules.md, section 1.
    """
    target = firing.cone.value
    readings = {place: written.value for place, written in firing.witness}
    if isinstance(shelf, KilnShelf) and shelf in readings:
        return _fire(readings[shelf], "witness", target)
    if readings:
        furthest = min(readings.values(), key=lambda cone: (-abs(cone.halves - target.halves), cone.halves))
        return _fire(furthest, "furthest", target)
    return _fire(target, "controller", target)


def _fire(cone: Cone, known_by: str, target: Cone) -> TileFire:
    return TileFire(cone=cone, known_by=known_by, fired=_fired(cone, target))


def _fired(cone: Cone, target: Cone) -> str:
    """Hot or cool where more than half a cone from the target; exactly half is not."""
    off = cone.halves - target.halves
    return "hot" if off > HALF_A_CONE else "cool" if off < -HALF_A_CONE else "as meant"


def firing_verdict(firing: Firing, tiles: Iterable[TestTile]) -> FiringVerdict:
    """Each shelf against the target, and the peak against the table; the tiles as given (`load.worst_first`)."""
    target = firing.cone.value
    rate = firing.rate.value
    shelves = tuple(
        ShelfFire(
            shelf=shelf,
            witness=written.value,
            off_by_halves=written.value.halves - target.halves,
            fired=_fired(written.value, target),
            table_c=temperature(written.value, rate) if isinstance(rate, Fraction) else None,
        )
        for shelf, written in firing.witness
    )
    nearest = _nearest(firing, shelves)
    off, by = nearest if nearest is not None else (None, None)
    return FiringVerdict(
        firing=firing,
        shelves=shelves,
        table_c=temperature(target, rate) if isinstance(rate, Fraction) else None,
        peak_off_c=off,
        peak_by=by,
        peak_fits=off is None or abs(off) <= PEAK_APART_C,
        tiles=tuple(tiles),
    )


def _nearest(firing: Firing, shelves: Iterable[ShelfFire]) -> tuple[Fraction, ShelfFire] | None:
    """Peak minus the nearest witness cone's value in °C, and its shelf; of two as near, the one that says too cool.

    None without a peak, a rate or a witness that the table has at that rate, and where a hold is written: heat-work
    goes on at the peak, so the table does not speak of it.
    """
    peak = firing.peak.value
    if not isinstance(peak, Fraction) or firing.hold.value is not NOT_KNOWN:
        return None
    apart = [(peak - shelf.table_c, shelf) for shelf in shelves if shelf.table_c is not None]
    return min(apart, key=lambda each: (abs(each[0]), each[0])) if apart else None


def peak_problem(verdict: FiringVerdict) -> tuple[Problem, ...]:
    """A warning where peak and witness are more than 20 °C apart: one of them, or the rate, is likely miswritten."""
    off = verdict.peak_off_c
    if off is None or verdict.peak_fits:
        return ()
    peak: Written[Fraction | Unknown] = verdict.firing.peak
    apart, side = round(abs(off)), "hotter" if off > 0 else "cooler"
    return (
        Problem(
            place=peak.place,
            severity=Severity.WARNING,
            code="peak-against-cone",
            message=f"the peak is {apart} °C {side} than its witness cones say at this rate",
            help="look at `peak`, `rate` and `witness` again; if the kiln was held at its peak, write `hold`",
        ),
    )
