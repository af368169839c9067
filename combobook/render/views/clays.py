"""Clay bodies: what each can take, and what was fired on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.book import TestTile
from combobook.edition import Edition
from combobook.entries import Clay, Unknown
from combobook.render import said
from combobook.render.views.desk import Desk
from combobook.render.views.on_clay import cards_on
from combobook.render.views.page import Page
from combobook.render.views.pieces import Fact, known
from combobook.render.views.surfaces import melts
from combobook.render.views.tiles import TileTable, tile_table

ROOT = "../"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClayLine:
    """A clay in the list of them all."""

    href: str
    name: str
    mark: str
    cone: str
    tone: str
    looks: str
    warning: str
    tiles: str


def pages(desk: Desk) -> Iterator[Page]:
    """The list by name, then one page a clay."""
    tiles = _tiles_by_clay(desk.edition)
    clays = sorted(desk.book.clays.values(), key=lambda clay: (clay.name.value.casefold(), clay.id))
    lines = tuple(_line(desk, clay, tiles.get(clay.id, ())) for clay in clays)
    yield Page(
        path="clays.html", template="clays.html", title=desk.text("clays.title"), view={"clays": lines}, nav="clays"
    )
    for clay in clays:
        view = _view(desk, clay, tiles.get(clay.id, ()))
        yield Page(path=f"clays/{clay.id}.html", template="clay.html", title=clay.name.value, view=view, nav="clays")


def _tiles_by_clay(edition: Edition) -> dict[str, tuple[TestTile, ...]]:
    found: dict[str, list[TestTile]] = {}
    for tile in edition.book.tiles:
        if tile.clay is not None:
            found.setdefault(tile.clay.id, []).append(tile)
    return {clay: tuple(some) for clay, some in found.items()}


def _cone(desk: Desk, clay: Clay) -> str:
    return said.cones(clay.cone.value, desk.words)


def _warning(desk: Desk, clay: Clay) -> str:
    return desk.text("clays.warning", cone=desk.book.studio.cone.value) if melts(desk, clay) else ""


def _line(desk: Desk, clay: Clay, tiles: tuple[TestTile, ...]) -> ClayLine:
    return ClayLine(
        href=f"clays/{clay.id}.html",
        name=clay.name.value,
        mark="" if isinstance(clay.mark.value, Unknown) else clay.mark.value,
        cone=_cone(desk, clay),
        tone=known(clay.tone, desk),
        looks=known(clay.looks, desk),
        warning=_warning(desk, clay),
        tiles=_counted(desk, tiles),
    )


def _counted(desk: Desk, tiles: tuple[TestTile, ...]) -> str:
    """`34 tiles + 2 waiting for the kiln`: fired ones, as the first page counts them, and those that are not yet."""
    fired = {tile.tile.value for tile in tiles if tile.fired}
    waiting = {tile.tile.value for tile in tiles} - fired
    said = desk.words.counted("tiles", len(fired))
    return f"{said} {desk.text('clays.waiting', n=len(waiting))}" if waiting else said


def _view(desk: Desk, clay: Clay, tiles: tuple[TestTile, ...]) -> dict[str, object]:
    facts = {
        "mark": known(clay.mark, desk),
        "cone": _cone(desk, clay),
        "tone": known(clay.tone, desk),
        "looks": known(clay.looks, desk),
    }
    return {
        "facts": tuple(Fact(name=desk.text(f"clays.facts.{key}"), value=value) for key, value in facts.items()),
        "warning": _warning(desk, clay),
        "prose": desk.prose(clay.body, ROOT, under=2),
        "lead": desk.text("clays.layerings_lead", clay=clay.name.value),
        "cards": cards_on(desk, clay, tiles),
        "waiting": _waiting(desk, clay, tiles),
        "table": tile_table(
            desk, [tile for tile in tiles if tile.fired], ROOT, desk.text("clays.table", clay=clay.name.value), "clay"
        ),
    }


def _waiting(desk: Desk, clay: Clay, tiles: tuple[TestTile, ...]) -> TileTable:
    """Tiles that are brushed and not fired: they speak for nothing yet, so they stand apart."""
    told = "clay firing shelf fired stood ran faults looks"
    some = [tile for tile in tiles if not tile.fired]
    return tile_table(desk, some, ROOT, desk.text("clays.waiting_table", clay=clay.name.value), told)
