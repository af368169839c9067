"""Photographs that show the tag of a tile which no row of theirs names: a picture beside the wrong words."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.book import Book, TestTile
from combobook.pictures import Picture
from combobook.problems import Problem, Severity, in_order


def another_tile(book: Book, pictures: Mapping[str, Picture]) -> tuple[Problem, ...]:
    """A warning at the first log row that names such a photograph; a photograph without a readable tag is passed over.

    One that several tiles share is right as soon as its tag is that of one of them.
    """
    rows: dict[str, list[TestTile]] = {}
    for tile in book.tiles:
        if isinstance(tile.photo.value, str):
            rows.setdefault(tile.photo.value, []).append(tile)
    return in_order(
        _told(pictures[name], min(tiles, key=lambda tile: tile.photo.place))
        for name, tiles in rows.items()
        if name in pictures and not _right(pictures[name], tiles)
    )


def _right(picture: Picture, tiles: list[TestTile]) -> bool:
    return picture.tag is None or picture.tag.mark in {tile.tile.value.upper() for tile in tiles}


def _told(picture: Picture, tile: TestTile) -> Problem:
    seen = picture.tag.mark if picture.tag is not None else ""
    return Problem(
        place=tile.photo.place,
        severity=Severity.WARNING,
        code="photo-of-another-tile",
        message=f"this is the row of tile `{tile.tile.value}`, but the tag in its photo says `{seen}`",
        help=f"write the photo of `{tile.tile.value}` here, and `{picture.name}` in the row of `{seen}`",
    )
