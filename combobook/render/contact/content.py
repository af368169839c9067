"""What the contact sheets show: which tiles, under which firing or glaze, in which order, each with its words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from combobook.book import TestTile
from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, Firing, Glaze, KilnShelf, Unknown
from combobook.pictures import Picture
from combobook.problems import Place
from combobook.render.cards import PictureView, measured, off_aim, tile_coats, tile_fired, tile_picture
from combobook.render.chart.content import as_people_sort
from combobook.render.contact.placed import Placed, placed
from combobook.wording import Words, colour_words

_Key = tuple[str | tuple[int, ...] | tuple[tuple[int, str], ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ContactTile:
    """One fired tile at one coat count, with everything that must stand beside its picture."""

    mark: str
    coats: str
    clay: str
    fired: str
    """`firing f02, middle shelf`, and where the cones say so that it was hot or cool."""
    shown: str
    """That the picture is a drawing, and its colour in words with how it was measured; empty where neither is known."""
    picture: PictureView | None
    placed: Placed | None
    """How the picture lies behind its window; None without one."""
    alt: str
    """Of the picture: short, as the rest stands beside it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ContactPart:
    """Tiles that stand together: a kiln shelf, or a glaze alone, first, on top."""

    title: str
    tiles: tuple[ContactTile, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ContactGroup:
    """All fired tiles of one firing or of one glaze."""

    kind: str
    """`firing` or `glaze`."""
    id: str
    name: str
    """`f02`, `Ferry Rust`."""
    title: str
    tiles: str
    """How many, in words."""
    parts: tuple[ContactPart, ...]


def contact_groups(edition: Edition) -> tuple[ContactGroup, ...]:
    """Firings in order of their dates, then glazes by name; those without a fired tile have no sheet."""
    fired = [tile for tile in edition.book.tiles if tile.firing is not None]
    shown = {tile.place: _shown(edition, tile) for tile in fired}
    groups = [_firing(edition, firing, fired, shown) for firing in sorted(edition.book.firings.values(), key=_by_date)]
    groups += [_glaze(edition, glaze, fired, shown) for glaze in sorted(edition.book.glazes.values(), key=_by_name)]
    return tuple(group for group in groups if group.parts)


def _by_date(firing: Firing) -> tuple[int, str]:
    date = firing.date.value
    return (10**9 if isinstance(date, Unknown) else date.toordinal(), firing.id)


def _by_name(glaze: Glaze) -> tuple[str, str]:
    return (glaze.name.value.casefold(), glaze.id)


_Shown = Mapping[Place, ContactTile]


def _firing(edition: Edition, firing: Firing, fired: Iterable[TestTile], shown: _Shown) -> ContactGroup:
    words = edition.words
    tiles = [tile for tile in fired if tile.firing is not None and tile.firing.id == firing.id]
    shelves = (*KilnShelf, NOT_KNOWN)
    parts = (
        (
            words("contact.no_shelf") if shelf is NOT_KNOWN else words("contact.shelf", shelf=shelf),
            [tile for tile in tiles if tile.kiln_shelf.value is shelf],
        )
        for shelf in shelves
    )
    return _group(edition, "firing", firing.id, firing.id, parts, shown, _by_mark)


def _glaze(edition: Edition, glaze: Glaze, fired: Iterable[TestTile], shown: _Shown) -> ContactGroup:
    words, name = edition.words, glaze.name.value
    tiles = list(fired)
    parts = (
        (words("contact.alone", glaze=name), [t for t in tiles if t.top is None and t.base.id == glaze.id]),
        (words("contact.first", glaze=name), [t for t in tiles if t.top is not None and t.base.id == glaze.id]),
        (words("contact.on_top", glaze=name), [t for t in tiles if t.top is not None and t.top.id == glaze.id]),
    )
    return _group(edition, "glaze", glaze.id, name, parts, shown, _by_layers)


def _group(
    edition: Edition, kind: str, id: str, name: str,
    parts: Iterable[tuple[str, list[TestTile]]], shown: _Shown, order: Callable[[TestTile], _Key],
) -> ContactGroup:  # fmt: skip
    found = [(title, sorted(tiles, key=order)) for title, tiles in parts if tiles]
    marks = {tile.tile.value for _, tiles in found for tile in tiles}
    return ContactGroup(
        kind=kind,
        id=id,
        name=name,
        title=edition.words(f"contact.{kind}", name=name),
        tiles=edition.words.counted("tiles", len(marks)),
        parts=tuple(
            ContactPart(title=title, tiles=tuple(shown[tile.place] for tile in tiles)) for title, tiles in found
        ),
    )


def _by_mark(tile: TestTile) -> _Key:
    return (as_people_sort(tile.tile.value), tile.coats)


def _by_layers(tile: TestTile) -> _Key:
    """The same layers beside each other, then the same coats, then the same clay."""
    top = tile.top.name.value.casefold() if tile.top is not None else ""
    clay = tile.clay.name.value.casefold() if tile.clay is not None else ""
    return (tile.base.name.value.casefold(), top, tile.coats, clay, as_people_sort(tile.tile.value))


def _shown(edition: Edition, tile: TestTile) -> ContactTile:
    words, picture = edition.words, tile_picture(edition, tile)
    drawn = picture is not None and picture.picture.drawing
    return ContactTile(
        mark=tile.tile.value,
        coats=tile_coats(tile, words),
        clay=words("tile.clay", clay=tile.clay.name.value) if tile.clay else words("tile.no_clay"),
        fired=_fired(edition, tile),
        shown=_colour(picture.picture, words) if picture is not None else "",
        picture=picture,
        placed=placed(picture.picture) if picture is not None else None,
        alt=words("contact.alt_drawing" if drawn else "contact.alt_photo", tile=tile.tile.value),
    )


def _colour(picture: Picture, words: Words) -> str:
    if picture.colour is None:
        return words("picture.drawing") if picture.drawing else ""
    return words(f"contact.colour.{measured(picture)}", colour=colour_words(picture.colour, words))


def _fired(edition: Edition, tile: TestTile) -> str:
    off = off_aim(edition.judged.tile_fire.get(tile.place), edition.words)
    said = tile_fired(tile, edition.words)
    return f"{said}, {off}" if off else said


def scale_of(tiles: Iterable[ContactTile]) -> str:
    """At what scale these tiles' pictures are: `drawings` or `all` (one scale), `some`, `none`; empty without any."""
    shown = [(t.picture.picture.drawing, t.placed.to_scale) for t in tiles if t.picture is not None and t.placed]
    known = {to_scale for _, to_scale in shown}
    if known == {True}:
        return "drawings" if all(drawn for drawn, _ in shown) else "all"
    return "" if not known else "some" if True in known else "none"


def all_tiles(groups: Iterable[ContactGroup]) -> Iterator[ContactTile]:
    """Every tile of these groups, as often as it is shown."""
    return (tile for group in groups for part in group.parts for tile in part.tiles)
