"""What a plan takes from the jars: how much to pour for whom, what is left, what to order, what nobody uses."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil

from combobook.book import Book
from combobook.entries import NOT_KNOWN, Glaze, Status
from combobook.plans import Asked, PlannedTile, Pour

TILE_AREA = Fraction(42, 10_000)
"""m²: the face of a test tile of 50 × 84 mm, glazed all over (a careful figure: the foot stays bare)."""
LOST = Fraction(3, 10)
"""Of what goes on the clay, so much more stays in brush and cup (house)."""
USUAL_COVER = Fraction(5)
"""m² that a litre of brush-on glaze covers with one coat, where a glaze does not say (from memory, no source)."""
CUP = Fraction(30, 1000)
"""Litres: less than this in a cup does not load a brush (house)."""
_ON_SHELF = (Status.IN_USE, Status.RUNNING_LOW)
_SHARE = 2
"""A jar may be asked for by so many times its even share of the tiles."""


def jar_limit(book: Book, asked: Asked) -> int:
    """Most tiles that may ask for one jar, so that no jar is swamped: twice an even share, at least one student's."""
    shelf = sum(glaze.status.value in _ON_SHELF for glaze in book.glazes.values())
    even = Fraction(2 * asked.in_all, max(1, shelf))
    return max(asked.tiles, ceil(_SHARE * even))


def pours(tiles: Iterable[PlannedTile]) -> tuple[Pour, ...]:
    """One for each glaze that the plan uses, by id."""
    used: dict[str, list[tuple[Glaze, int, int]]] = {}
    for tile in tiles:
        made = tile.candidate
        for glaze, coats in ((made.base, made.coats.base), (made.top, made.coats.top)):
            used.setdefault(glaze.id, []).append((glaze, coats, tile.table))
    return tuple(_pour(used[id_]) for id_ in sorted(used))


def unused(book: Book) -> tuple[Glaze, ...]:
    """Glazes on the shelf that no tile in any log carries, by id."""
    seen = {id_ for layers in book.tiles_of for id_ in layers}
    here = (each for _, each in sorted(book.glazes.items()) if each.status.value in _ON_SHELF)
    return tuple(each for each in here if each.id not in seen)


def _pour(uses: list[tuple[Glaze, int, int]]) -> Pour:
    glaze = uses[0][0]
    coats = sum(number for _, number, _ in uses)
    tables = tuple(sorted({table for _, _, table in uses}))
    written = glaze.covers.value
    covers = USUAL_COVER if written is NOT_KNOWN else Fraction(written)
    needed = TILE_AREA * coats / covers * (1 + LOST)
    left, jar = glaze.left.value, glaze.jar.value
    left_after = None if left is NOT_KNOWN else Fraction(left) - needed
    to_buy = None if left_after is None or jar is NOT_KNOWN else max(0, ceil(-left_after / Fraction(jar)))
    return Pour(
        glaze=glaze,
        tiles=len(uses),
        coats=coats,
        tables=tables,
        covers=covers,
        covers_assumed=written is NOT_KNOWN,
        needed=needed,
        poured=max(needed, CUP * len(tables)),
        left_after=left_after,
        jars_to_buy=to_buy,
    )
