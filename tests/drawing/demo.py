"""What the demo studio's log says of its tiles, as drawings to make."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Mapping

from combobook.book import Book, TestTile
from combobook.cones import ConeRange
from combobook.entries import NOT_KNOWN, OFF_THE_TILE
from combobook.pictures import DRAWING_PREFIX
from combobook.verdicts import Judged
from tests.drawing.recipes import CLAYS, GLAZES
from tests.drawing.texture import TEXTURES
from tests.drawing.tile import Drawn


def drawings(book: Book, judged: Judged, marks: Iterable[str] = ()) -> Mapping[str, Drawn]:
    """By file name: each tile whose `photo` is a drawing, as its row says; with `marks` only those tiles."""
    wanted = {mark.upper() for mark in marks}
    return {
        tile.photo.value: _drawn(tile.photo.value, tile, judged)
        for tile in book.tiles
        if isinstance(tile.photo.value, str)
        and tile.photo.value.startswith(DRAWING_PREFIX)
        and (not wanted or tile.tile.value.upper() in wanted)
    }


def _drawn(photo: str, tile: TestTile, judged: Judged) -> Drawn:
    if tile.clay is None or tile.clay.id not in CLAYS or any(g not in GLAZES for g in tile.layers):
        raise SystemExit(f"{photo}: recipes.py does not say how its glazes or its clay look")
    ran = tile.ran.value
    return Drawn(
        seed=seed(photo),
        base=tile.base.id,
        top=tile.top.id if tile.top else None,
        coats=tile.coats,
        clay=tile.clay.id,
        texture=texture(tile.tile.value),
        run=0.0 if ran is NOT_KNOWN or ran is OFF_THE_TILE else float(ran),
        off=ran is OFF_THE_TILE,
        heat=_heat(tile, judged),
        base_unmelted=_unmelted(tile, judged),
        faults=() if tile.faults.value is NOT_KNOWN else tuple(f.value for f in tile.faults.value),
    )


def seed(photo: str) -> int:
    return zlib.crc32(photo.encode())


def texture(mark: str) -> str:
    """Every student has a way with clay: the tile's mark picks it, so strips of one tile share theirs."""
    return tuple(TEXTURES)[zlib.crc32(mark.encode()) % len(TEXTURES)]


def _heat(tile: TestTile, judged: Judged) -> float:
    """Cones above (or below) what the firing aimed at; 0 where the tile is not fired."""
    fire = judged.tile_fire.get(tile.place)
    if fire is None or tile.firing is None:
        return 0.0
    return (fire.cone.halves - tile.firing.cone.value.halves) / 2


def _unmelted(tile: TestTile, judged: Judged) -> bool:
    """The tile was fired more than two cones below the base's label, and its top was not."""
    fire, base, top = judged.tile_fire.get(tile.place), tile.base.cone.value, tile.top and tile.top.cone.value
    if fire is None or not isinstance(base, ConeRange) or not isinstance(top, ConeRange):
        return False
    return fire.cone.halves < base.low.halves - 4 and fire.cone.halves >= top.low.halves
