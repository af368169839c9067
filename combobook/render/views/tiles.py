"""Test tiles: what one shows in words, and the table of every log row."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, OFF_THE_TILE
from combobook.render.cards import tile_picture
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Image, image, known, link
from combobook.verdicts import TileFire


@dataclass(frozen=True, slots=True, kw_only=True)
class TileRow:
    """One tile at one coat count: its picture, its mark and line, then a cell for each of the table's heads."""

    image: Image | None
    tile: str
    at: str
    cells: tuple[str | Markup, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TileTable:
    """Every row, with its label for those who listen."""

    label: str
    heads: tuple[str, ...]
    """Of every column but the picture's; the first is the tile's."""
    rows: tuple[TileRow, ...]
    pictures: bool
    empty: str


_COLUMNS = ("layers", "coats", "clay", "firing", "shelf", "fired", "stood", "ran", "faults", "looks")


def tile_table(desk: Desk, tiles: Iterable[TestTile], root: str, label: str, leave_out: str = "layers") -> TileTable:
    """The table of these tiles in their order; `leave_out` is the column that the page itself answers."""
    columns = tuple(name for name in _COLUMNS if name != leave_out)
    rows = tuple(_row(desk, tile, root, columns) for tile in tiles)
    return TileTable(
        label=label,
        heads=tuple(desk.text(f"tiles.head.{name}") for name in ("tile", *columns)),
        rows=rows,
        pictures=any(row.image for row in rows),
        empty=desk.text("tiles.none"),
    )


def _row(desk: Desk, tile: TestTile, root: str, columns: tuple[str, ...]) -> TileRow:
    clay, firing = tile.clay, tile.firing
    said: dict[str, str | Markup] = {
        "layers": _layers(desk, tile, root),
        "coats": coats_said(desk, tile),
        "clay": link(f"{root}clays/{clay.id}.html", clay.name.value) if clay else desk.words("not_known"),
        "firing": link(f"{root}firings/{firing.id}.html", firing.id) if firing else desk.words("tile.not_fired"),
        "shelf": known(tile.kiln_shelf, desk),
        "fired": fired_words(desk, desk.edition.judged.tile_fire.get(tile.place)),
        "stood": known(tile.stood, desk),
        "ran": ran_words(desk, tile),
        "faults": faults_words(desk, tile),
        "looks": known(tile.looks, desk) if tile.looks.value is not NOT_KNOWN else "",
    }
    return TileRow(
        image=image(tile_picture(desk.edition, tile), desk, "thumb"),
        tile=tile.tile.value,
        at=tile.place.at,
        cells=tuple(said[name] for name in columns),
    )


def _layers(desk: Desk, tile: TestTile, root: str) -> Markup:
    base, top = tile.base, tile.top
    if top is None:
        return link(f"{root}glazes/{base.id}.html", base.name.value)
    over = desk.words("coats.over", base=base.name.value, top=top.name.value)
    return link(f"{root}combinations/{top.id}-over-{base.id}.html", over)


def fired_words(desk: Desk, fire: TileFire | None) -> str:
    """The cone a tile reached, how we know, and whether that was hot or cool; not fired has none."""
    if fire is None:
        return desk.words("tile.not_fired")
    known_by = {"witness": "reached", "furthest": "furthest", "controller": "controller"}[fire.known_by]
    said = desk.text(f"tiles.{known_by}", cone=fire.cone)
    return said if fire.fired == "as meant" else f"{said}, {desk.text(f'tiles.fired_{fire.fired}')}"


def coats_said(desk: Desk, tile: TestTile) -> str:
    """`2 coats Ferry Rust, then 1 Pond Lantern`: base first, whatever the name says."""
    first = desk.words.counted("coats", tile.base_coats.value)
    if tile.top is None or tile.top_coats is None:
        return desk.words("coats.alone", first=first, glaze=tile.base.name.value)
    return desk.words(
        "coats.layering", first=first, base=tile.base.name.value, n=tile.top_coats.value, top=tile.top.name.value
    )


def ran_words(desk: Desk, tile: TestTile) -> str:
    """How far a tile ran: a length, no run, off the tile, not measured."""
    ran = tile.ran.value
    if isinstance(ran, Fraction):
        return desk.words.length(ran) if ran else desk.text("tiles.no_run")
    return desk.text("tiles.off" if ran is OFF_THE_TILE else "tiles.not_measured")


def faults_words(desk: Desk, tile: TestTile) -> str:
    """The faults a tile shows, none seen, or that nobody looked."""
    faults = tile.faults.value
    if not isinstance(faults, tuple):
        return desk.text("tiles.nobody_looked")
    return desk.words.fact("", faults) if faults else desk.text("tiles.none_seen")
