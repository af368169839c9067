"""The two records a studio keeps beside its own writing: closed editions, and tiles that were withdrawn."""

from __future__ import annotations

import csv
import datetime as dt
import io
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from combobook import records
from combobook.book import Book
from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, LogRow
from combobook.judge import judge
from combobook.link.withdrawn import photos_of
from combobook.past import Withdrawn, slug, withdrawn_marks
from combobook.problems import Place
from combobook.render.snapshot import snapshot, written
from combobook.spelling import did_you_mean
from combobook.verdicts import Judged, LayeringVerdict

EDITIONS, WITHDRAWN = "editions", "editions/withdrawn.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why nothing was written, and what to do about it."""

    message: str
    help: str
    place: Place | None = None
    """What it is about, where that is written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """A file that now holds an edition, and what it holds."""

    path: str
    layerings: int
    glazes: int


def bind(edition: Edition, folder: Path) -> Closed | Refused:
    """Close the edition: editions/<slug>.json, written whole or not at all. Refuses one that is closed already."""
    name = edition.book.studio.edition.value
    path = f"{EDITIONS}/{slug(name)}.json"
    closed = Refused(
        message=f"the edition {name} is closed already: {path}",
        help="write the next edition's name and date into studio.yaml; a closed edition is never written again",
        place=edition.book.studio.edition.place,
    )
    past = snapshot(edition)
    if any(each.slug == past.slug for each in edition.book.editions):
        return closed
    if edition.book.studio.date.value is NOT_KNOWN or not edition.book.studio.date.stated:
        return Refused(
            message="the edition has no date of its own",
            help="write `date:` in studio.yaml with the day on which this edition was made, then bind it",
            place=edition.book.studio.date.place,
        )
    try:
        records.write_new(folder / path, written(past))
    except FileExistsError:
        return closed
    return Closed(path=path, layerings=len(past.layerings), glazes=len(past.glazes))


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A tile that is now withdrawn: what its author has still to delete, and what became kinder without it."""

    tile: str
    rows: tuple[Place, ...]
    photos: tuple[str, ...]
    naming: tuple[Place, ...]
    """Lines of entries that show one of those photographs."""
    linking: tuple[str, ...]
    """Files with a text that leads to one of them."""
    kinder: tuple[str, ...]
    """Names of layerings and glazes whose verdict is kinder without the tile."""
    already: bool


def withdraw(
    book: Book, judged: Judged, rows: Sequence[LogRow], tile: str, folder: Path, today: dt.date
) -> Taken | Refused:
    """Add a tile to editions/withdrawn.csv, which every stage and every closed edition obeys.

    `rows` are those of all logs, withdrawn ones too. Raises OSError where the record cannot be written.
    """
    mine = [row for row in rows if row.tile.value.upper() == tile.upper()]
    gone = withdrawn_marks(book.withdrawn)
    already = tile.upper() in gone
    if not mine and not already:
        return Refused(
            message=f"no log has a tile `{tile}`",
            help=did_you_mean(tile, sorted({row.tile.value for row in rows}))
            or "write the mark as it stands on the tile and in its log row",
        )
    mark = mine[0].tile.value if mine else tile
    kinder = () if already else _kinder(book, judged, mark)
    photos = photos_of(mine)
    texts = {path for (path, _), to in book.links.items() if to.kind == "photos" and to.id in photos}
    if not already:
        records.replace(folder / WITHDRAWN, _table(book.withdrawn, mark, today, folder / WITHDRAWN))
    return Taken(
        tile=mark,
        rows=tuple(row.tile.place for row in mine),
        photos=tuple(sorted(photos)),
        naming=tuple(c.photo.place for c in book.combinations.values() if c.photo.value in photos),
        linking=tuple(sorted(texts)),
        kinder=kinder,
        already=already,
    )


def _table(withdrawn: Sequence[Withdrawn], mark: str, today: dt.date, path: Path) -> bytes:
    """The list with one more tile; its earlier rows stay as they are written."""
    old = path.read_bytes() if withdrawn else b"tile,date\r\n"
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerow((mark, today.isoformat()))
    return (old if old.endswith(b"\n") else old + b"\r\n") + out.getvalue().encode()


def _kinder(book: Book, judged: Judged, mark: str) -> tuple[str, ...]:
    """What the tile holds down: bad news that is withdrawn is no longer said."""
    tiles = tuple(t for t in book.tiles if t.tile.value.upper() != mark.upper())
    layers = {t.layers for t in book.tiles if t.tile.value.upper() == mark.upper()}
    tiles_of = {of: tuple(t for t in some if t in tiles) for of, some in book.tiles_of.items()}
    then, _ = judge(replace(book, tiles=tiles, tiles_of={of: some for of, some in tiles_of.items() if some}))
    names = []
    for key, before in judged.layerings.items():
        after = then.layerings.get(key)
        if (key in layers or any((id_,) in layers for id_ in key)) and after is not None and _is_kinder(before, after):
            names.append(f"{before.top.name.value} over {before.base.name.value}")
    return tuple(names)


def _is_kinder(before: LayeringVerdict, after: LayeringVerdict) -> bool:
    food = after.food.level > before.food.level or (after.food.food_ware and not before.food.food_ware)
    run = after.movement.cls < before.movement.cls or after.movement.margin_mm < before.movement.margin_mm
    return food or run or (before.movement.off_the_tile and not after.movement.off_the_tile)
