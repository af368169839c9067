"""Tile tags: a small tag for each tile, which lies beside it whenever it is photographed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from markupsafe import Markup

from combobook import tags
from combobook.book import TestTile
from combobook.edition import Edition
from combobook.entries import Glaze
from combobook.problems import Problem
from combobook.render.chart.lengths import mm
from combobook.render.sheets.cut import fitted, too_small
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.tag_drawing import MARK_SIZE, tag_beside_tile, tag_drawing
from combobook.render.sheets.tag_layout import TagSheet, tag_sheet
from combobook.tile_marks import after
from combobook.wording import Words

PATH = "print/tile-tags.pdf"
_STRIP = 5
"""mm: above labels that leave less there is no strip of words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tagged:
    """A tile that gets a tag; the words are empty for one of which nobody has decided yet."""

    mark: str
    order: str = ""
    coats: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TagView:
    """One tag, finished."""

    mark: str
    mark_style: str
    order: str
    coats: str
    blanks: tuple[str, ...]
    """Before each blank to fill in, where the order is not known."""
    drawing: Markup
    style: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TagsView:
    """One sheet of tags."""

    strip: bool
    """Whether studio, edition and number of the sheet have room in its margins."""
    number: str
    tags: tuple[TagView, ...]


def tile_tags(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """A sheet that tells how to use them, then tags: of tiles not fired yet, of the plan, and of the next marks.

    On plain paper, or on labels of `tag size`. Without a plan there are as many next marks as the class makes tiles;
    the last sheet is filled up. The code holds the mark and nothing else.
    """
    words, paper = edition.words, edition.book.studio.paper.value
    laid = tag_sheet(edition.book.studio)
    if laid is None:
        return {}, (too_small(edition, "tile-tags.pdf"),)
    tagged = _tagged(edition, laid.holds)
    sheets = _sheets(tagged, laid, words)
    furnished = frame(edition, words("tile_tags.title"), paper, key=())
    return printed(
        edition,
        "print/tile-tags.html",
        path=PATH,
        furnished=replace(furnished, style=furnished.style + _page(laid)),
        styles=("print-tile-tags.css",),
        notes=words.lines("tile_tags.notes"),
        paper_notes=words.lines("tile_tags.plain" if laid.plain else "tile_tags.labels"),
        beside=tag_beside_tile(tagged[0].mark, words),
        sheets=sheets,
        replaces=words("edition.replaces"),
    )


def _tagged(edition: Edition, holds: int) -> tuple[Tagged, ...]:
    book, plan, words = edition.book, edition.plan, edition.words
    waiting = tuple(_waiting(book.tiles, words))
    planned = tuple(
        Tagged(
            mark=tile.mark,
            order=_order(tile.candidate.base, tile.candidate.top, words),
            coats=_coats(tile.candidate.coats.base, tile.candidate.coats.top, words),
        )
        for tile in (plan.tiles if plan else ())
    )
    fresh = 0 if planned else book.studio.students.value * book.studio.tiles_each.value
    fresh += -(len(waiting) + len(planned) + fresh) % holds
    used = (*(tile.tile.value for tile in book.tiles), *(gone.tile for gone in book.withdrawn))
    marks = after((*used, *(tile.mark for tile in planned)))  # Beyond the plan's, which no log has yet.
    return (*waiting, *planned, *(Tagged(mark=mark) for mark in islice(marks, fresh)))


def _waiting(tiles: Sequence[TestTile], words: Words) -> Iterator[Tagged]:
    """Each tile of the logs that is not fired yet, once, by its mark; without coats where it has several counts."""
    found: dict[str, list[TestTile]] = {}
    for tile in tiles:
        found.setdefault(tile.tile.value, []).append(tile)
    for mark, rows in sorted(found.items()):
        first, *others = rows
        if any(row.fired for row in rows):
            continue
        top_coats = first.top_coats.value if first.top_coats is not None else None
        yield Tagged(
            mark=mark,
            order=_order(first.base, first.top, words),
            coats="" if others else _coats(first.base_coats.value, top_coats, words),
        )


def _order(base: Glaze, top: Glaze | None, words: Words) -> str:
    if top is None:
        return words("tile_tags.alone", base=base.mark.value)
    return words("tile_tags.order", base=base.mark.value, top=top.mark.value)


def _coats(base: int, top: int | None, words: Words) -> str:
    first = words.counted("coats", base)
    return first if top is None else words("tile_tags.coats", first=first, n=top)


def _sheets(tagged: Sequence[Tagged], laid: TagSheet, words: Words) -> tuple[TagsView, ...]:
    count = -(-len(tagged) // laid.holds)
    strip = min(laid.top, laid.below) >= _STRIP
    return tuple(
        TagsView(
            strip=strip,
            number=words("edition.sheet", n=n + 2, m=count + 1),
            tags=tuple(
                _tag(each, laid, place, words)
                for place, each in enumerate(tagged[n * laid.holds : (n + 1) * laid.holds])
            ),
        )
        for n in range(count)
    )


def _tag(tagged: Tagged, laid: TagSheet, place: int, words: Words) -> TagView:
    (mark,), size = fitted(tagged.mark, float(tags.WORDS.width) * (0.55 if tagged.order else 0.9), MARK_SIZE, 3.0)
    left, top = laid.corner(place)
    return TagView(
        mark=mark,
        mark_style=f"font-size:{mm(size)}",
        order=tagged.order,
        coats=tagged.coats,
        blanks=() if tagged.order else words.lines("tile_tags.blanks"),
        drawing=tag_drawing(tagged.mark, laid.plain, words),
        style=f"left:{mm(float(left))};top:{mm(float(top - laid.top))}",
    )


def _page(laid: TagSheet) -> Markup:
    above, below = mm(float(laid.top)), mm(float(laid.below))
    return Markup(f"@page tags{{margin:{above} 0 {below}}}html{{--tags-above:{above};--tags-below:{below}}}")
