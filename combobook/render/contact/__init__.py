"""Contact sheets: all fired tiles of a firing, and of a glaze, at one scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.pictures import Picture, PictureFile
from combobook.problems import Problem
from combobook.render.chart.lengths import mm
from combobook.render.contact.content import ContactTile, all_tiles, contact_groups, scale_of
from combobook.render.contact.layout import (
    BESIDE,
    GAP,
    SCALE,
    TILE_HIGH,
    TILE_WIDE,
    Block,
    Measures,
    laid_out,
    lines_of,
    measures,
)
from combobook.render.contact.placed import Placed
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed

PATH = "print/contact-sheets.pdf"
_FINE = 8.0
"""Pixels a printed mm that a picture should have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotView:
    """One tile; `src` is empty where it has no picture."""

    mark: str
    src: str
    alt: str
    style: str
    """Where the picture lies behind its window."""
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchView:
    title: str
    rows: tuple[tuple[ShotView, ...], ...]
    heights: tuple[str, ...]
    """A CSS length for each row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockView:
    """A firing or a glaze, or what of it stands on this page."""

    title: str
    beside: str
    """How many tiles, and at what scale."""
    stretches: tuple[StretchView, ...]


def contact_sheets(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """The sheets as a PDF at `print/contact-sheets.pdf` on the studio's `paper`; none without a fired tile.

    Paper too small for one tile at half size beside its words gives a warning and no sheets.
    """
    groups = contact_groups(edition)
    shown = [tile.picture.picture for tile in all_tiles(groups) if tile.picture is not None]
    drawings = "" if not any(p.drawing for p in shown) else "edition.drawings"
    if drawings and not all(p.drawing for p in shown):
        drawings = "edition.some_drawings"
    title = edition.words("contact.title")
    furnished = frame(edition, title, edition.book.studio.paper.value, key=(), drawings=drawings)
    by = measures(furnished.width, furnished.height, furnished.sizes)
    if not groups:
        return {}, ()
    if by is None:
        return {}, (too_small(edition, "contact-sheets.pdf"),)
    files: dict[str, bytes] = {}
    pages = tuple(tuple(_block(edition, block, files) for block in page) for page in laid_out(groups, by))
    return printed(
        edition, "print/contact-sheets.html", path=PATH, furnished=furnished, styles=("print-contact.css",),
        files=files, pages=pages, lengths=_lengths(by), no_picture=edition.words("picture.none"),
    )  # fmt: skip


def _lengths(by: Measures) -> dict[str, str]:
    """The lengths that the style sheet goes by, as CSS."""
    lengths = {
        "tile-wide": TILE_WIDE, "tile-high": TILE_HIGH, "text": TILE_WIDE + BESIDE, "words": by.words, "gap": GAP,
        "mark": by.mark, "group-head": by.head, "part-head": by.part, "part": by.name,
    }  # fmt: skip
    return {name: mm(length) for name, length in lengths.items()}


def _block(edition: Edition, block: Block, files: dict[str, bytes]) -> BlockView:
    group = block.group
    return BlockView(
        title=_going_on(edition, group.title, block.goes_on),
        beside=f"{group.tiles}. {_scale(edition, block)}".strip(),
        stretches=tuple(
            StretchView(
                title=_going_on(edition, stretch.title, stretch.goes_on),
                rows=tuple(tuple(_shot(edition, laid.tile, files) for laid in row.tiles) for row in stretch.rows),
                heights=tuple(mm(row.height) for row in stretch.rows),
            )
            for stretch in block.stretches
        ),
    )


def _going_on(edition: Edition, title: str, goes_on: bool) -> str:
    return edition.words("contact.continued", title=title) if goes_on else title


def _scale(edition: Edition, block: Block) -> str:
    key = scale_of(laid.tile for stretch in block.stretches for row in stretch.rows for laid in row.tiles)
    return edition.words(f"contact.scale.{key}") if key else ""


def _shot(edition: Edition, tile: ContactTile, files: dict[str, bytes]) -> ShotView:
    if tile.picture is None or tile.placed is None:
        return ShotView(mark=tile.mark, src="", alt="", style="", lines=lines_of(tile))
    file, lies = _fine_enough(tile.picture.picture, tile.placed), tile.placed
    files[file.path] = file.data
    style = ";".join(
        f"{name}:{mm(length * SCALE)}"
        for name, length in (
            ("width", lies.width), ("height", lies.height), ("margin-left", lies.left), ("margin-top", lies.top)
        )
    )  # fmt: skip
    return ShotView(mark=tile.mark, src=file.path, alt=tile.alt, style=style, lines=lines_of(tile))


def _fine_enough(picture: Picture, lies: Placed) -> PictureFile:
    """The card's size, or the page's where only a small part of the picture stands in the window."""
    return picture.card if picture.card.height >= _FINE * lies.height * SCALE else picture.page
