"""Contact sheets on screen: the tiles of one firing, or of one glaze, beside each other at one scale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from combobook.entries import Unknown
from combobook.render.contact.content import ContactGroup, ContactTile, all_tiles, contact_groups, scale_of
from combobook.render.contact.layout import lines_of
from combobook.render.contact.placed import TILE_MM, Placed
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Image, Way, image, known

ROOT = "../"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One tile of a sheet; `box` says how its picture is cut to one scale."""

    mark: str
    image: Image | None
    placed: Placed | None
    """How the picture lies behind its window, in mm."""
    no_image: str
    lines: tuple[str, ...]
    """Coats, clay, firing, colour, and that it is a drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Tiles under one heading."""

    id: str
    title: str
    shots: tuple[Shot, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """A sheet in the list of them all."""

    href: str
    name: str
    when: str
    """Of a firing: its day and its kiln; else empty."""
    tiles: str


def page_of(group: ContactGroup) -> str:
    """Where a group's sheet stands under site/."""
    return f"contact/{group.kind}-{group.id}.html"


def pages(desk: Desk) -> Iterator[Page]:
    """The list of sheets, then one page a sheet."""
    groups = contact_groups(desk.edition)
    title = desk.text("contact.index_title")
    every: dict[str, object] = {"firings": _lines(desk, groups, "firing"), "glazes": _lines(desk, groups, "glaze")}
    yield Page(path="contact.html", template="contact.html", title=title, view=every, nav="find")
    for group in groups:
        nav = {"firing": "firings", "glaze": "glazes"}[group.kind]
        view = _view(desk, group)
        yield Page(path=page_of(group), template="contact-sheet.html", title=group.title, view=view, nav=nav)


def _lines(desk: Desk, groups: tuple[ContactGroup, ...], kind: str) -> tuple[SheetLine, ...]:
    return tuple(
        SheetLine(href=page_of(g), name=g.name, when=_when(desk, g), tiles=g.tiles) for g in groups if g.kind == kind
    )


def _when(desk: Desk, group: ContactGroup) -> str:
    if group.kind != "firing":
        return ""
    firing = desk.book.firings[group.id]
    facts = [known(fact, desk) for fact in (firing.date, firing.kiln) if not isinstance(fact.value, Unknown)]
    return ", ".join(facts)


def _view(desk: Desk, group: ContactGroup) -> dict[str, object]:
    more = {
        "firing": Way(href=f"firings/{group.id}.html", words=desk.text("contact.to_firing", name=group.name)),
        "glaze": Way(href=f"glazes/{group.id}.html", words=desk.text("contact.to_glaze", name=group.name)),
    }
    key = scale_of(all_tiles((group,)))
    scale = desk.text(f"contact.scale.{key}") if key else ""
    return {
        "lead": " ".join(part for part in (f"{group.tiles}.", scale, desk.text("contact.lead")) if part),
        "more": more[group.kind],
        "window": f"0 0 {TILE_MM[0]} {TILE_MM[1]}",
        "parts": tuple(
            Part(id=f"part-{n}", title=part.title, shots=tuple(_shot(desk, tile) for tile in part.tiles))
            for n, part in enumerate(group.parts, start=1)
        ),
    }


def _shot(desk: Desk, tile: ContactTile) -> Shot:
    shown = image(tile.picture, desk, "card")
    return Shot(
        mark=tile.mark,
        image=replace(shown, alt=tile.alt) if shown is not None else None,
        placed=tile.placed,
        no_image=desk.text("tiles.no_picture"),
        lines=lines_of(tile),
    )
