"""The linked book: names have become objects, rows of one tile have become tiles. Leaf module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from combobook.cones import Cone
from combobook.entries import (
    NOT_KNOWN,
    Body,
    Clay,
    Fault,
    Firing,
    Form,
    Glaze,
    KilnShelf,
    Limits,
    Page,
    Ran,
    Stood,
    Studio,
    Unknown,
    Ware,
    Written,
)
from combobook.measures import Coats, Reading
from combobook.past import PastEdition, Withdrawn
from combobook.problems import Place

Layers = tuple[str, ...]
"""Ids of the ordered layers: `(glaze,)` for one glaze alone, `(base, top)` for a layering."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """An entry about base under top. `id` is `<top>-over-<base>`, whatever the file is called."""

    id: str
    path: str
    base: Glaze
    top: Glaze
    base_place: Place
    """The entry's `base` line: where a reason points when `coats` is absent."""
    coats: Written[Coats | Unknown]
    name: Written[str | Unknown]
    looks: Written[str | Unknown]
    photo: Written[str | Unknown]
    """File name in photos/."""
    on_chart: bool
    keep_off_food: Written[str | None]
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class TestTile:
    """What is known of one tile at one coat count: all rows of the same tile and coats, joined.

    Each cell keeps the place of the row in which it was filled. `place` is the first row's.
    """

    place: Place
    tile: Written[str]
    base: Glaze
    top: Glaze | None
    base_coats: Written[int]
    top_coats: Written[int] | None
    clay: Clay | None
    """None: the row names no clay; a blank clay is never the same as another."""
    firing: Firing | None
    """None: not fired yet."""
    kiln_shelf: Written[KilnShelf | Unknown]
    stood: Written[Stood | Unknown]
    ran: Written[Ran]
    faults: Written[tuple[Fault, ...] | Unknown]
    looks: Written[str | Unknown]
    photo: Written[str | Unknown]
    base_lot: Written[str | Unknown]
    top_lot: Written[str | Unknown]

    @property
    def layers(self) -> Layers:
        return (self.base.id,) if self.top is None else (self.base.id, self.top.id)

    @property
    def coats(self) -> tuple[int, ...]:
        """Coats of each layer, base first."""
        return (self.base_coats.value,) if self.top_coats is None else (self.base_coats.value, self.top_coats.value)

    @property
    def fired(self) -> bool:
        return self.firing is not None

    @property
    def looked_over(self) -> bool:
        return self.faults.value is not NOT_KNOWN

    @property
    def upright(self) -> bool:
        return self.stood.value is Stood.UPRIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class LabReport:
    id: str
    path: str
    layers: tuple[Glaze, ...]
    """One glaze, or base then top."""
    layers_place: Place
    """The report's `glaze` or `base` line."""
    ware: Written[Ware]
    limits: Written[Limits]
    coats: tuple[int, ...] | Unknown
    """Of each layer, base first."""
    clay: Clay | None
    cone: Cone | Unknown
    lead: Written[tuple[Reading, ...]]
    cadmium: Written[tuple[Reading, ...]]
    method: Written[str | Unknown]
    lab: Written[str | Unknown]
    body: Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A Markdown link or picture whose target is an entry or a photo: what kind, and which."""

    kind: str
    """`glazes`, `combinations`, `clays`, `forms`, `firings`, `pages` or `photos`."""
    id: str
    fragment: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """Everything the folder says. Mappings are ordered by id; tiles by tile mark, then coats, then place."""

    studio: Studio
    glazes: Mapping[str, Glaze]
    combinations: Mapping[str, Combination]
    clays: Mapping[str, Clay]
    forms: Mapping[str, Form]
    firings: Mapping[str, Firing]
    reports: tuple[LabReport, ...]
    pages: Mapping[str, Page]
    tiles: tuple[TestTile, ...]
    tiles_of: Mapping[Layers, tuple[TestTile, ...]]
    """The same tiles, by their ordered layers."""
    links: Mapping[tuple[str, str], Link] = field(default_factory=dict)
    """(path of the entry, target as written in its Markdown) to what it names."""
    photos: tuple[str, ...] = ()
    """File names in photos/ that exist, sorted, without those of withdrawn tiles."""
    editions: tuple[PastEdition, ...] = ()
    """Closed ones, by date."""
    withdrawn: tuple[Withdrawn, ...] = ()
