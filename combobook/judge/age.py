"""Whether a tile still speaks of what is in the jars: lots and `retest since` (rules.md, section 4)."""

from __future__ import annotations

from datetime import date

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Firing, Glaze, Unknown


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


def _layer(glaze: Glaze, lot: str | Unknown, firing: Firing | None) -> tuple[bool, bool]:
    in_jar, since = glaze.lot.value, glaze.retest_since.value
    same = isinstance(lot, str) and isinstance(in_jar, str) and lot.strip() == in_jar.strip()
    other = lot is not NOT_KNOWN and in_jar is not NOT_KNOWN and not same
    old = other or (isinstance(since, date) and firing is not None and _before(firing, since))
    return old, not old and (lot is NOT_KNOWN or same)


def _before(firing: Firing, since: date) -> bool:
    fired_on = firing.date.value
    return not isinstance(fired_on, date) or fired_on < since
