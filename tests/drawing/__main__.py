"""Draws the demo studio's tiles: `python3 -m tests.drawing [TILE…]` writes content/photos/drawing-<tile>.jpg.

What is drawn is what the log says: order, coats, clay, run in mm, faults, and how hot the tile's kiln shelf was. The
mark seeds the drawing, so the same log gives the same bytes. Tiles no log row photographs are not drawn.
"""

from __future__ import annotations

import sys
import zlib
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from combobook.book import Book, TestTile
from combobook.entries import NOT_KNOWN, OFF_THE_TILE
from combobook.judge import judge
from combobook.link import link
from combobook.parse import parse
from combobook.read import read
from combobook.validate import validate
from combobook.verdicts import Judged
from tests.drawing.texture import TEXTURES
from tests.drawing.tile import Drawn, picture

CONTENT = Path(__file__).parents[2] / "content"


def main(marks: Iterable[str]) -> None:
    """Draws the named tiles, or all of them, on every core."""
    wanted = {mark.upper() for mark in marks}
    book, judged = _studio()
    tiles = {
        str(t.photo.value): drawn(t, judged)
        for t in book.tiles
        if isinstance(t.photo.value, str) and t.photo.value.startswith("drawing-")
        and (not wanted or t.tile.value.upper() in wanted)
    }  # fmt: skip
    (CONTENT / "photos").mkdir(exist_ok=True)
    with ProcessPoolExecutor() as pool:
        for name, data in zip(tiles, pool.map(picture, tiles.values(), chunksize=4), strict=True):
            (CONTENT / "photos" / name).write_bytes(data)
    print(f"{len(tiles)} drawings in {CONTENT / 'photos'}")


def drawn(tile: TestTile, judged: Judged) -> Drawn:
    """What a log row says of its tile, as a drawing needs it."""
    seed = zlib.crc32(f"{tile.tile.value} {tile.coats}".encode())
    fire = judged.tile_fire.get(tile.place)
    halves = fire.cone.halves - tile.firing.cone.value.halves if fire and tile.firing else 0
    ran = tile.ran.value
    return Drawn(
        seed=seed,
        base=tile.base.id,
        top=tile.top.id if tile.top else None,
        coats=tile.coats,
        clay=tile.clay.id if tile.clay else "weir-buff",
        texture=tuple(TEXTURES)[seed % len(TEXTURES)],
        run=0.0 if ran is NOT_KNOWN or ran is OFF_THE_TILE else float(ran),
        off=ran is OFF_THE_TILE,
        heat=halves / 2,
        faults=tuple(fault.value for fault in tile.faults.value) if tile.faults.value is not NOT_KNOWN else (),
    )


def _studio() -> tuple[Book, Judged]:
    """The demo, whether or not its pictures are there yet."""
    content, _ = read(CONTENT)
    book, problems = link(validate(parse(content)[0])[0], content.photos)
    wrong = [p for p in problems if p.is_error and p.code != "unknown-photo"]
    if book is None or wrong:
        raise SystemExit(f"mend the demo first: {wrong}")
    return book, judge(book)[0]


if __name__ == "__main__":
    main(sys.argv[1:])
