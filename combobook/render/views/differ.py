"""Tiles that came out differently, side by side: what each shows, and what else tells them apart. Never an average."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Glaze, Unknown
from combobook.render import said
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Image
from combobook.render.views.tiles import coats_said, faults_words, fired_words, ran_words, tile_id, tile_image
from combobook.verdicts import Contrast, Disagreement


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """One tile: what it shows, then each field in which these tiles differ."""

    tile: str
    href: str
    """Relative to the page that shows it."""
    image: Image | None
    no_image: str
    said: str
    how: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferView:
    """What they differ about, what else tells them apart, and each of them."""

    about: str
    apart: str
    sides: tuple[SideView, ...]


def differ_view(desk: Desk, found: Disagreement | Contrast, page: str = "") -> DifferView:
    """These tiles side by side; `page` leads to the page that has their rows, and is empty on that page."""
    return DifferView(
        about=_about(desk, found),
        apart=_apart(desk, found),
        sides=tuple(_side(desk, tile, found, page) for tile in found.tiles),
    )


def _about(desk: Desk, found: Disagreement | Contrast) -> str:
    if isinstance(found, Contrast):
        return desk.text(f"differ.contrast_{found.about}")
    coats = coats_said(desk, found.tiles[0])
    return desk.text(f"trust.differ_{found.about}", clay=found.clay.name.value, coats=coats)


def _apart(desk: Desk, found: Disagreement | Contrast) -> str:
    """The names of the fields in which they differ, or that nothing written down tells them apart."""
    return said.apart(found, desk.words)


def _side(desk: Desk, tile: TestTile, found: Disagreement | Contrast, page: str) -> SideView:
    return SideView(
        tile=desk.text("differ.tile", tile=tile.tile.value),
        href=f"{page}#{tile_id(tile)}",
        image=tile_image(desk, tile, "thumb"),
        no_image=desk.words("picture.none"),
        said=_SAID[found.about](desk, tile),
        how=tuple(_HOW[name](desk, tile) for name in found.differ),
    )


def _ran(desk: Desk, tile: TestTile) -> str:
    said = ran_words(desk, tile)
    return desk.text("differ.ran", length=said) if said[:1].isdigit() else said


def _faults(desk: Desk, tile: TestTile) -> str:
    return faults_words(desk, tile) if tile.faults.value else desk.text("differ.no_faults")


def _clay(desk: Desk, tile: TestTile) -> str:
    return desk.words("tile.clay", clay=tile.clay.name.value) if tile.clay else desk.words("tile.no_clay")


def _firing(desk: Desk, tile: TestTile) -> str:
    return desk.words("tile.firing", firing=tile.firing.id) if tile.firing else desk.words("tile.not_fired")


def _shelf(desk: Desk, tile: TestTile) -> str:
    shelf = tile.kiln_shelf.value
    return desk.text("differ.no_shelf") if isinstance(shelf, Unknown) else desk.text("firings.shelf", shelf=shelf)


def _stood(desk: Desk, tile: TestTile) -> str:
    stood = tile.stood.value
    return desk.text("differ.stood_not_known" if isinstance(stood, Unknown) else f"differ.stood.{stood.value}")


def _lot(desk: Desk, glaze: Glaze | None, lot: str | Unknown) -> str:
    name = glaze.name.value if glaze is not None else ""
    return desk.text("differ.no_lot", glaze=name) if lot is NOT_KNOWN else desk.text("differ.lot", glaze=name, lot=lot)


_SAID: Mapping[str, Callable[[Desk, TestTile], str]] = {"running": _ran, "faults": _faults}
_HOW: Mapping[str, Callable[[Desk, TestTile], str]] = {
    "coats": coats_said,
    "clay": _clay,
    "firing": _firing,
    "shelf": _shelf,
    "fired": lambda desk, tile: fired_words(desk, desk.edition.judged.tile_fire.get(tile.place)),
    "stood": _stood,
    "base_lot": lambda desk, tile: _lot(desk, tile.base, tile.base_lot.value),
    "top_lot": lambda desk, tile: _lot(desk, tile.top, tile.top_lot.value),
}
"""A tile's own value of each field that the judge compares (words at `site.differ.fields`)."""
