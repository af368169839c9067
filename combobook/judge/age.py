"""Whether a tile still speaks of what is in the jars: lots and `retest since` (rules.md, section 4)."""

from __future__ import annotations

from datetime import date

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Firing, Glaze, Unknown
from combobook.verdicts import OldBecause


def age(tile: TestTile) -> tuple[bool, bool]:
    """(old, current) of a tile; an unfired one is old by its lots only.

    Old: a lot it writes differs from that glaze's, or its firing has no date, or one before, a layer's `retest since`.
    Current: not old, and every lot it writes equals that glaze's. One written where the glaze has none is neither.
    """
    base = _layer(tile.base, tile.base_lot.value, tile.firing)
    if tile.top is None:
        return base
    top = _layer(tile.top, tile.top_lot.value, tile.firing)
    return base[0] or top[0], base[1] and top[1]


def why_old(tile: TestTile) -> tuple[OldBecause, ...]:
    """Each layer for which the tile is old, base first, and why; empty where `age` says that it is not old."""
    layers = [(tile.base, tile.base_lot.value)]
    if tile.top is not None:
        layers.append((tile.top, tile.top_lot.value))
    found = ((g, lot if _other_lot(g, lot) else None, _before(g, tile.firing)) for g, lot in layers)
    return tuple(
        OldBecause(glaze=glaze, lot=lot if isinstance(lot, str) else None, before=before)
        for glaze, lot, before in found
        if lot is not None or before
    )


def _layer(glaze: Glaze, lot: str | Unknown, firing: Firing | None) -> tuple[bool, bool]:
    old = _other_lot(glaze, lot) or _before(glaze, firing)
    return old, not old and (lot is NOT_KNOWN or _same_lot(glaze, lot))


def _same_lot(glaze: Glaze, lot: str | Unknown) -> bool:
    in_jar = glaze.lot.value
    return isinstance(lot, str) and isinstance(in_jar, str) and lot.strip() == in_jar.strip()


def _other_lot(glaze: Glaze, lot: str | Unknown) -> bool:
    return lot is not NOT_KNOWN and glaze.lot.value is not NOT_KNOWN and not _same_lot(glaze, lot)


def _before(glaze: Glaze, firing: Firing | None) -> bool:
    """The tile was fired before the glaze's re-test date, or nobody knows when; one not fired yet was not."""
    since = glaze.retest_since.value
    if not isinstance(since, date) or firing is None:
        return False
    fired_on = firing.date.value
    return not isinstance(fired_on, date) or fired_on < since
