"""Everything that ran: each upright tile whose run counts, worst first, with where in which kiln it happened.

Which runs count, and as what, was judged: a tile stands here when a reason of its glaze's or layering's movement names
it. A run of 1 mm or less is none; glaze that moved on a tile lying flat says nothing of a wall.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, OFF_THE_TILE
from combobook.render.views.asking import name_key, question_page
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Image, Signed, Way, known, sign, upper_first
from combobook.render.views.tiles import coats_said, fired_words, ran_words, tile_href, tile_image
from combobook.verdicts import GlazeVerdict, LayeringVerdict, MoveClass
from combobook.wording import MOVE_KEYS

PATH = "ran.html"
AT_ONCE = 6
"""Runs of a class that are seen before one asks for more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One tile that ran, in words."""

    ran: str
    href: str
    name: str
    image: Image | None
    told: str
    """Tile, coats, clay."""
    kiln: str
    """Firing, kiln shelf, cone reached."""
    firing: str
    """The firing's page, or empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """Those of one class, worst first."""

    id: str
    sign: Signed
    means: str
    count: str
    runs: tuple[Run, ...]
    """Those that one sees at once."""
    rest: tuple[Run, ...]
    more: str
    """How many are folded away; empty where none is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OfGlaze:
    """A glaze with every run of it, alone or in a layering, worst first."""

    name: str
    count: str
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """A kiln shelf of one firing: what it reached, how many tiles ran there, and the worst of them."""

    href: str
    firing: str
    shelf: str
    reached: str
    tiles: str
    worst: str


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    found = runs(desk)
    groups = tuple(
        _runs(desk, cls, tuple(tile for tile, of in found if of is cls)) for cls in (MoveClass.RUNNY, MoveClass.MOVES)
    )
    view: dict[str, object] = {
        "lead": answer(desk),
        "groups": tuple(group for group in groups if group.runs),
        "limits": desk.words("movement.house_limits"),
        "glazes": _by_glaze(desk, tuple(tile for tile, _ in found)),
        "where": _where(desk, tuple(tile for tile, _ in found)),
        "flat": _flat(desk),
    }
    yield question_page(desk, PATH, view)


def answer(desk: Desk) -> str:
    """How many tiles ran, and how many of them off their foot."""
    tiles = {tile.tile.value for tile, _ in runs(desk)}
    off = {tile.tile.value for tile, _ in runs(desk) if tile.ran.value is OFF_THE_TILE}
    if not tiles:
        return desk.text("asking.ran.none")
    return desk.text("asking.ran.answer", tiles=desk.words.counted("tiles", len(tiles)), off=len(off))


def runs(desk: Desk) -> tuple[tuple[TestTile, MoveClass], ...]:
    """Each row that ran with the class of its run, worst first: off the tile, then the longest, then by tile."""
    if ("runs", PATH) not in desk.kept:
        judged = desk.edition.judged
        found = [each for verdict in judged.glazes.values() for each in _of(verdict, "M1")]
        found += [each for verdict in judged.layerings.values() for each in _of(verdict, "M3")]
        desk.kept[("runs", PATH)] = tuple(sorted(found, key=lambda each: _worst_first(each[0])))
    made: tuple[tuple[TestTile, MoveClass], ...] = desk.kept[("runs", PATH)]
    return made


def _of(verdict: GlazeVerdict | LayeringVerdict, rule: str) -> Iterator[tuple[TestTile, MoveClass]]:
    """The rows that reasons of this rule name, each with the class that the judge gave its run."""
    named = {reason.place: reason for reason in verdict.movement.reasons if reason.rule == rule}
    for tile in verdict.tiles:
        reason = named.get(tile.ran.at)
        if reason is not None and tile.upright:
            yield tile, MoveClass(MoveClass.RUNNY - reason.severity)


def _worst_first(tile: TestTile) -> tuple[int, Fraction, str, tuple[int, ...]]:
    ran = tile.ran.value
    length = ran if isinstance(ran, Fraction) else Fraction(0)
    return (0 if ran is OFF_THE_TILE else 1, -length, tile.tile.value, tile.coats)


def _runs(desk: Desk, cls: MoveClass, tiles: tuple[TestTile, ...]) -> Runs:
    key = MOVE_KEYS[cls]
    return Runs(
        id=key,
        sign=Signed(key=key, mark=sign(key), words=desk.text(f"asking.ran.{key}")),
        means=desk.text(f"asking.ran.{key}_means"),
        count=desk.words.counted("tiles", len({tile.tile.value for tile in tiles})),
        runs=tuple(_run(desk, tile) for tile in tiles[:AT_ONCE]),
        rest=tuple(_run(desk, tile) for tile in tiles[AT_ONCE:]),
        more=desk.text("asking.ran.rest", n=len(tiles) - AT_ONCE) if len(tiles) > AT_ONCE else "",
    )


def _run(desk: Desk, tile: TestTile) -> Run:
    base, top = tile.base, tile.top
    return Run(
        ran=upper_first(ran_words(desk, tile)),
        href=f"glazes/{base.id}.html" if top is None else f"combinations/{top.id}-over-{base.id}.html",
        name=desk.text("asking.alone", glaze=base.name.value)
        if top is None
        else desk.words("coats.over", base=base.name.value, top=top.name.value),
        image=tile_image(desk, tile, "thumb"),
        told=desk.text(
            "asking.ran.told",
            tile=tile.tile.value,
            coats=coats_said(desk, tile),
            clay=desk.words("tile.clay", clay=tile.clay.name.value) if tile.clay else desk.words("tile.no_clay"),
        ),
        kiln=_kiln(desk, tile),
        firing=f"firings/{tile.firing.id}.html" if tile.firing else "",
    )


def _by_glaze(desk: Desk, tiles: Iterable[TestTile]) -> tuple[OfGlaze, ...]:
    """By name; a tile of two glazes stands under both."""
    of: dict[str, list[TestTile]] = {}
    for tile in tiles:
        for id_ in tile.layers:
            of.setdefault(id_, []).append(tile)
    return tuple(
        OfGlaze(
            name=glaze.name.value,
            count=desk.words.counted("tiles", len({tile.tile.value for tile in of[glaze.id]})),
            ways=tuple(_way(desk, tile) for tile in of[glaze.id]),
        )
        for glaze in sorted((desk.book.glazes[id_] for id_ in of), key=name_key)
    )


def _way(desk: Desk, tile: TestTile) -> Way:
    run = _run(desk, tile)
    said = desk.text("asking.ran.one_of", ran=run.ran, name=run.name, tile=tile.tile.value)
    return Way(href=tile_href(tile), words=said)


def _kiln(desk: Desk, tile: TestTile) -> str:
    if tile.firing is None:
        return desk.text("asking.ran.no_firing")
    fire = desk.edition.judged.tile_fire.get(tile.place)
    return desk.text("asking.ran.kiln", firing=tile.firing.id, shelf=_shelf(desk, tile), fired=fired_words(desk, fire))


def _shelf(desk: Desk, tile: TestTile) -> str:
    if tile.kiln_shelf.value is NOT_KNOWN:
        return desk.text("asking.ran.no_shelf")
    return desk.text("firings.shelf", shelf=known(tile.kiln_shelf, desk))


def _where(desk: Desk, tiles: Iterable[TestTile]) -> tuple[Where, ...]:
    """By firing, then kiln shelf: tiles come worst first, so the first of each is its worst."""
    places: dict[tuple[str, str], list[TestTile]] = {}
    for tile in tiles:
        if tile.firing is not None:
            places.setdefault((tile.firing.id, _shelf(desk, tile)), []).append(tile)
    return tuple(
        Where(
            href=f"firings/{firing}.html",
            firing=firing,
            shelf=upper_first(shelf),
            reached=upper_first(fired_words(desk, desk.edition.judged.tile_fire.get(some[0].place))),
            tiles=desk.words.counted("tiles", len({tile.tile.value for tile in some})),
            worst=upper_first(ran_words(desk, some[0])),
        )
        for (firing, shelf), some in sorted(places.items())
    )


def _flat(desk: Desk) -> str:
    """That glaze also moved on tiles which did not stand upright; empty where it did on none."""
    moved = {
        tile.tile.value
        for tile in desk.book.tiles
        if not tile.upright
        and (tile.ran.value is OFF_THE_TILE or (isinstance(tile.ran.value, Fraction) and tile.ran.value))
    }
    return desk.text("asking.ran.flat", tiles=desk.words.listed(sorted(moved))) if moved else ""
