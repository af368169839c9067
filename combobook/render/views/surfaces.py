"""Pictures by clay (down) and coats (across), each cell with its own verdict and evidence."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from markupsafe import Markup

from combobook.book import TestTile
from combobook.cones import ConeRange
from combobook.entries import NOT_KNOWN, Clay
from combobook.render.cards import short_reason
from combobook.render.cautions import too_few
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Image, Signed, link, sign, upper_first
from combobook.render.views.tiles import tile_image
from combobook.render.views.verdict import Verdict, food_sign
from combobook.verdicts import Evidence, FoodLevel, GlazeVerdict, SurfaceVerdict
from combobook.wording import EVIDENCE_KEYS, evidence_words

NO_TILE = frozenset({"no_tile_within_labels", "nothing_looked_over"})
"""Reasons that say no more than that there is no tile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One coat count on one clay; `images` is empty where there is nothing to show, and `instead` says why."""

    images: tuple[Image, ...]
    instead: str
    made: bool
    food: Signed | None
    trust: Signed | None
    note: str
    coats: str = ""
    """Said in each cell where the row stands by itself, on a phone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceRow:
    """A clay with its cells, one for each coat count."""

    clay: str | Markup
    tone: str
    warning: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceGrid:
    label: str
    coats: tuple[str, ...]
    rows: tuple[SurfaceRow, ...]


def surface_grid(desk: Desk, verdict: Verdict, root: str) -> SurfaceGrid:
    """Each clay that has a tile, then tiles without a clay, then (where there are several rows) all clays together."""
    counts = sorted({each.coats for each in verdict.surfaces})
    on = {(each.coats, each.clay.id if each.clay else ""): each for each in verdict.surfaces}
    clays = {each.clay.id: each.clay for each in verdict.surfaces if each.clay}
    rows = [
        _clay_row(desk, clays[clay], tuple(_with_tiles(desk, on[c, clay], verdict) for c in counts), root)
        for clay in sorted(clays)
    ]
    loose = [tuple(t for t in verdict.tiles if t.clay is None and t.coats == c) for c in counts]
    if any(loose):
        cells = tuple(_loose_cell(desk, tiles) for tiles in loose)
        rows.append(SurfaceRow(clay=desk.text("surfaces.no_clay"), tone="", warning="", cells=cells))
    if len(rows) != 1:
        whole = tuple(_whole_cell(desk, on[c, ""], verdict, bool(rows)) for c in counts)
        head = desk.text("surfaces.all_clays" if rows else "surfaces.any_clay")
        rows.append(SurfaceRow(clay=head, tone="", warning="", cells=whole))
    heads = tuple(coats_of(desk, verdict, c) for c in counts)
    headed = tuple(_headed(row, heads) for row in rows) if counts else ()
    return SurfaceGrid(label=desk.text("surfaces.label"), coats=heads, rows=headed)


def _headed(row: SurfaceRow, heads: tuple[str, ...]) -> SurfaceRow:
    return replace(row, cells=tuple(replace(cell, coats=head) for cell, head in zip(row.cells, heads, strict=True)))


def coats_of(desk: Desk, verdict: Verdict, coats: tuple[int, ...]) -> str:
    """`2 coats Ferry Rust, then 1 Pond Lantern`; of one glaze the count."""
    first = desk.words.counted("coats", coats[0])
    if isinstance(verdict, GlazeVerdict):
        return first
    return desk.words(
        "coats.layering", first=first, base=verdict.base.name.value, n=coats[1], top=verdict.top.name.value
    )


def _clay_row(desk: Desk, clay: Clay, cells: tuple[Cell, ...], root: str) -> SurfaceRow:
    tone = desk.text("surfaces.tone", tone=clay.tone.value) if clay.tone.value is not NOT_KNOWN else ""
    warning = desk.text("surfaces.not_our_cone", cone=desk.book.studio.cone.value) if melts(desk, clay) else ""
    name = link(f"{root}clays/{clay.id}.html", clay.name.value)
    return SurfaceRow(clay=name, tone=tone, warning=warning, cells=cells)


def melts(desk: Desk, clay: Clay) -> bool:
    """The clay's own range does not reach the studio's cone, as the link stage warns."""
    span = clay.cone.value
    return isinstance(span, ConeRange) and desk.book.studio.cone.value not in span


def _whole_cell(desk: Desk, surface: SurfaceVerdict, verdict: Verdict, summing: bool) -> Cell:
    """All clays together: words only, as the pictures stand in the rows above; where there are none, that."""
    if not summing:
        return _with_tiles(desk, surface, verdict)
    return Cell(
        images=(), instead="", made=True, note=_cell_note(desk, surface, verdict),
        food=food_sign(desk, surface.food, isinstance(verdict, GlazeVerdict)), trust=trust_sign(desk, surface.evidence),
    )  # fmt: skip


def _with_tiles(desk: Desk, surface: SurfaceVerdict, verdict: Verdict) -> Cell:
    tiles = surface.tiles
    images = _images(desk, tiles)
    fired = any(t.fired for t in tiles)
    instead = "tiles.no_picture" if fired else "tiles.not_fired_yet" if tiles else "tiles.not_made"
    return Cell(
        images=images,
        instead="" if images else desk.text(instead),
        made=fired,
        food=food_sign(desk, surface.food, isinstance(verdict, GlazeVerdict)),
        trust=trust_sign(desk, surface.evidence),
        note=_cell_note(desk, surface, verdict),
    )


def _cell_note(desk: Desk, surface: SurfaceVerdict, verdict: Verdict) -> str:
    """Why it is kept off food, in a few words; of a kind verdict which layer has fewer coats than its label names.

    Where nothing was fired that is why, and the cell says so already.
    """
    if desk.never:
        return ""
    if surface.food.level < FoodLevel.LABELS_ALLOW:
        known = NO_TILE if not any(tile.fired for tile in surface.tiles) else frozenset()
        short = (short_reason(each, desk.words) for each in surface.food.reasons if each.wording not in known)
        return upper_first(next((said for said in short if said), ""))
    return " ".join(too_few(surface.coats, verdict, desk.words)) if not isinstance(verdict, GlazeVerdict) else ""


def _loose_cell(desk: Desk, tiles: tuple[TestTile, ...]) -> Cell:
    images = _images(desk, tiles)
    named = desk.words.listed([t.tile.value for t in tiles])
    return Cell(
        images=images,
        instead="" if images else desk.text("tiles.no_picture" if tiles else "tiles.not_made"),
        made=bool(tiles),
        food=None,
        trust=None,
        note=desk.text("surfaces.loose", tiles=named) if tiles else "",
    )


def _images(desk: Desk, tiles: Iterable[TestTile]) -> tuple[Image, ...]:
    shown = (tile_image(desk, tile, "card") for tile in tiles)
    return tuple({each.src: each for each in shown if each is not None}.values())


def trust_sign(desk: Desk, evidence: Evidence) -> Signed:
    """The evidence mark with its counts."""
    key = EVIDENCE_KEYS[evidence.level]
    words = upper_first(evidence_words(evidence, desk.words))
    return Signed(key=key, mark=sign(key.replace("_", "-")), words=words)
