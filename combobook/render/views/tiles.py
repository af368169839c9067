"""Test tiles: what one shows in words, and the table of every log row."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN
from combobook.kept import Kept
from combobook.render import said
from combobook.render.cards import tile_coats, tile_picture
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Image, image, known, link
from combobook.verdicts import OldBecause, TileFire


@dataclass(frozen=True, slots=True, kw_only=True)
class TileRow:
    """One tile at one coat count, with where it is written, and a cell for each head."""

    id: str
    """Of the row, so that other pages can lead to it."""
    image: Image | None
    tile: str
    href: str
    """The tile's row on the page of its glazes, relative to site/; empty where this is that page."""
    at: str
    old: tuple[str, ...]
    """Why the tile no longer speaks of what is in the jars; empty where it does."""
    cells: tuple[str | Markup, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TileTable:
    """Every row, and the label of the whole for those who listen. The first head is the tile's own."""

    label: str
    heads: tuple[str, ...]
    rows: tuple[TileRow, ...]
    pictures: str
    """The head over the pictures; empty where no row has one."""
    empty: str


_KEPT: Kept[Mapping[str, str | Markup]] = Kept()


def tile_table(desk: Desk, tiles: Iterable[TestTile], root: str, label: str, leave_out: str = "layers") -> TileTable:
    """The table of these tiles in their order; `leave_out` names columns that the page itself answers."""
    columns = tuple(column for column in COLUMNS if column not in leave_out.split())
    rows = tuple(_row(desk, tile, root, columns) for tile in tiles)
    return TileTable(
        label=label,
        heads=tuple(desk.text(f"tiles.columns.{column}") for column in ("tile", *columns)),
        rows=rows,
        pictures=desk.text("tiles.columns.picture") if any(row.image for row in rows) else "",
        empty=desk.text("tiles.none"),
    )


def _row(desk: Desk, tile: TestTile, root: str, columns: tuple[str, ...]) -> TileRow:
    cells = _cells(desk, tile, root)
    return TileRow(
        id=tile_id(tile),
        image=tile_image(desk, tile, "thumb"),
        tile=tile.tile.value,
        href=tile_href(tile) if "layers" in columns else "",
        at=tile.place.at,
        old=tuple(_old(desk, why) for why in desk.edition.judged.old.get(tile.place, ())),
        cells=tuple(cells[column] for column in columns),
    )


def _cells(desk: Desk, tile: TestTile, root: str) -> Mapping[str, str | Markup]:
    """Every column of a tile, worked out once for the three pages or so that show it."""
    given = (tile, desk.edition.judged.tile_fire.get(tile.place), desk.words)
    return _KEPT((root, tile.place), given, lambda: {head: cell(desk, tile, root) for head, cell in COLUMNS.items()})


def _old(desk: Desk, why: OldBecause) -> str:
    key = "old_lot" if why.lot is not None else "old_before"
    return desk.text(f"tiles.{key}", glaze=why.glaze.name.value, lot=why.lot or "")


def tile_id(tile: TestTile) -> str:
    """The id of a tile's row: once on any page, as rows of the same tile and coats are one row."""
    return "-".join(("tile", tile.tile.value, *map(str, tile.coats)))


def tile_href(tile: TestTile) -> str:
    """Its row on the page of its glazes, relative to site/."""
    page = f"glazes/{tile.base.id}" if tile.top is None else f"combinations/{tile.top.id}-over-{tile.base.id}"
    return f"{page}.html#{tile_id(tile)}"


def tile_image(desk: Desk, tile: TestTile, size: str) -> Image | None:
    """A tile's picture with its words, worked out once."""
    key = (f"image {size}", tile.place)
    if key not in desk.kept:
        desk.kept[key] = image(tile_picture(desk.edition, tile), desk, size)
    made: Image | None = desk.kept[key]
    return made


def _clay(desk: Desk, tile: TestTile, root: str) -> str | Markup:
    clay = tile.clay
    return link(f"{root}clays/{clay.id}.html", clay.name.value) if clay else desk.words("not_known")


def _firing(desk: Desk, tile: TestTile, root: str) -> str | Markup:
    firing = tile.firing
    return link(f"{root}firings/{firing.id}.html", firing.id) if firing else desk.words("tile.not_fired")


def _layers(desk: Desk, tile: TestTile, root: str) -> Markup:
    base, top = tile.base, tile.top
    if top is None:
        return link(f"{root}glazes/{base.id}.html", base.name.value)
    over = desk.words("coats.over", base=base.name.value, top=top.name.value)
    return link(f"{root}combinations/{top.id}-over-{base.id}.html", over)


def fired_words(desk: Desk, fire: TileFire | None) -> str:
    """The cone a tile reached, how we know, and whether that was hot or cool; not fired has none."""
    return said.fired(fire, desk.words)


def coats_said(desk: Desk, tile: TestTile) -> str:
    """`2 coats Ferry Rust, then 1 Pond Lantern`: base first, whatever the name says."""
    return tile_coats(tile, desk.words)


def ran_words(desk: Desk, tile: TestTile) -> str:
    """How far a tile ran: a length, no run, off the tile, not measured."""
    return said.ran(tile, desk.words)


def faults_words(desk: Desk, tile: TestTile) -> str:
    """The faults a tile shows, none seen, or that nobody looked."""
    return said.faults(tile, desk.words)


COLUMNS: Mapping[str, Callable[[Desk, TestTile, str], str | Markup]] = {
    "layers": _layers,
    "coats": lambda desk, tile, _: coats_said(desk, tile),
    "clay": _clay,
    "firing": _firing,
    "shelf": lambda desk, tile, _: known(tile.kiln_shelf, desk),
    "fired": lambda desk, tile, _: fired_words(desk, desk.edition.judged.tile_fire.get(tile.place)),
    "stood": lambda desk, tile, _: known(tile.stood, desk),
    "ran": lambda desk, tile, _: ran_words(desk, tile),
    "faults": lambda desk, tile, _: faults_words(desk, tile),
    "looks": lambda desk, tile, _: known(tile.looks, desk) if tile.looks.value is not NOT_KNOWN else "",
}
"""Every column but the tile's own, left to right (words at `site.tiles.columns`)."""
