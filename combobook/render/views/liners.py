"""Liners: which single glaze may line a pot that holds food, one list a clay, by labels and by what our tiles show.

In a list stands a glaze in use whose label allows food, which the house lets go where food goes, that stays where it is
put, goes anywhere and shows no fault on any tile of it alone. All of it was judged; this page only gathers it. That a
liner should be one stable, fault-free glaze is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Clay, FoodRule, Status
from combobook.measures import CoatRange
from combobook.render.views.asking import Named, glaze_href, glazes_by_name, in_use, label_allows, question_page
from combobook.render.views.desk import Desk
from combobook.render.views.glaze import coats_words
from combobook.render.views.page import Page
from combobook.render.views.pieces import Image, Signed, sign, upper_first
from combobook.render.views.surfaces import melts
from combobook.render.views.tiles import tile_image
from combobook.verdicts import FoodLevel, GlazeVerdict, MoveClass
from combobook.wording import sentence

PATH = "liners.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Liner:
    """One glaze on one clay."""

    href: str
    mark: str
    name: str
    image: Image | None
    no_image: str
    food: Signed
    coats: str
    seen: str
    """How many tiles on this clay were looked over, or that there is none."""
    status: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClayList:
    """A clay with its liners: those with a tile on it, then those never tried on it."""

    id: str
    href: str
    name: str
    warning: str
    seen: tuple[Liner, ...]
    untried: tuple[Liner, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    clays = sorted(desk.book.clays.values(), key=lambda clay: (clay.name.value.casefold(), clay.id))
    fit = tuple(clay for clay in clays if not melts(desk, clay))
    view: dict[str, object] = {
        "lead": answer(desk),
        "never": _never(desk),
        "clays": tuple(_clay(desk, clay) for clay in fit),
        "kept_out": tuple(_kept_out(desk, clay) for clay in clays if melts(desk, clay)),
        "left_out": tuple(_left_out(desk, verdict) for verdict in glazes_by_name(desk) if _nearly(verdict)),
        "piece": desk.words("food.piece"),
    }
    yield question_page(desk, PATH, view)


def answer(desk: Desk) -> str:
    """How many there are, and what that rests on."""
    if desk.never:
        return desk.words("food.never.full") + "."
    found = liners(desk)
    if not found:
        return desk.text("asking.liners.none")
    return desk.text("asking.liners.answer", glazes=desk.words.counted("glazes", len(found)))


def liners(desk: Desk) -> tuple[GlazeVerdict, ...]:
    """The glazes that stand in a list, by name."""
    return tuple(verdict for verdict in glazes_by_name(desk) if not _misses(verdict))


def _never(desk: Desk) -> str:
    return desk.words("food.never.full") if desk.never else ""


def _misses(verdict: GlazeVerdict) -> str:
    """The first thing that keeps it out (`site.asking.liners.out.<this>`), or empty."""
    if not in_use(verdict.glaze):
        return "shelf"
    if verdict.food.level < FoodLevel.LABELS_ALLOW:
        return "food"
    if not verdict.food.food_ware:
        return "house"
    if verdict.movement.cls is not MoveClass.STABLE:
        return "moves"
    if verdict.glaze.rim_only:
        return "rim"
    return "faults" if _faulty(verdict) else ""


def _nearly(verdict: GlazeVerdict) -> bool:
    """Its label allows food and it could be asked about, but something else keeps it out."""
    missed = _misses(verdict)
    return label_allows(verdict.glaze) and missed not in ("", "shelf")


def _faulty(verdict: GlazeVerdict) -> tuple[TestTile, ...]:
    """Its own tiles that show a fault, at any coats and on any clay."""
    return tuple(tile for tile in verdict.tiles if tile.looked_over and tile.faults.value)


def _left_out(desk: Desk, verdict: GlazeVerdict) -> Named:
    missed, glaze = _misses(verdict), verdict.glaze
    if missed == "food":
        why = sentence(verdict.food.reasons[0], desk.words)
    elif missed == "moves":
        why = sentence(verdict.movement.reasons[0], desk.words)
    elif missed == "faults":
        why = " ".join(_fault(desk, tile) for tile in _faulty(verdict))
    else:
        why = desk.text(f"asking.liners.out.{missed}")
    return Named(href=glaze_href(glaze), mark=glaze.mark.value, name=glaze.name.value, note=why)


def _fault(desk: Desk, tile: TestTile) -> str:
    clay = desk.words("tile.clay", clay=tile.clay.name.value) if tile.clay else desk.words("tile.no_clay")
    return desk.text(
        "asking.liners.out.faults",
        tile=tile.tile.value, faults=tile.faults.value, clay=clay,
        coats=desk.words.counted("coats", tile.base_coats.value),
    )  # fmt: skip


def _clay(desk: Desk, clay: Clay) -> ClayList:
    found = tuple((verdict, _tiles_on(verdict, clay)) for verdict in liners(desk) if _lab_agrees(desk, verdict, clay))
    cards = tuple((_liner(desk, verdict, clay, tiles), tiles) for verdict, tiles in found)
    unknown = clay.cone.value is NOT_KNOWN
    return ClayList(
        id=clay.id,
        href=f"clays/{clay.id}.html",
        name=clay.name.value,
        warning=desk.text("asking.liners.clay_cone_not_known", cone=desk.book.studio.cone.value) if unknown else "",
        seen=tuple(card for card, tiles in cards if tiles),
        untried=tuple(card for card, tiles in cards if not tiles),
    )


def _kept_out(desk: Desk, clay: Clay) -> Named:
    warning = desk.text("clays.warning", cone=desk.book.studio.cone.value)
    return Named(href=f"clays/{clay.id}.html", mark="", name=clay.name.value, note=warning)


def _lab_agrees(desk: Desk, verdict: GlazeVerdict, clay: Clay) -> bool:
    """Where only lab reports count, the report must be about this very clay."""
    return desk.book.studio.food_rule.value is not FoodRule.LAB_REPORTS_ONLY or _has_report(verdict, clay)


def _has_report(verdict: GlazeVerdict, clay: Clay) -> bool:
    """Some count of coats on this clay rests on a lab report."""
    on_it = (each for each in verdict.surfaces if each.clay is not None and each.clay.id == clay.id)
    return any(each.food.level is FoodLevel.LAB_REPORT for each in on_it)


def _tiles_on(verdict: GlazeVerdict, clay: Clay) -> tuple[TestTile, ...]:
    """Its fired tiles on this clay at coats that its label asks for."""
    asked = verdict.glaze.coats.value
    return tuple(
        tile
        for tile in verdict.tiles
        if tile.fired and tile.clay is not None and tile.clay.id == clay.id
        and (not isinstance(asked, CoatRange) or asked.low <= tile.base_coats.value <= asked.high)
    )  # fmt: skip


def _liner(desk: Desk, verdict: GlazeVerdict, clay: Clay, tiles: tuple[TestTile, ...]) -> Liner:
    glaze = verdict.glaze
    images = [shown for shown in (tile_image(desk, tile, "card") for tile in tiles) if shown is not None]
    key = "lab_report" if _has_report(verdict, clay) else "labels_allow"
    said = (
        desk.text("asking.liners.lab")
        if key == "lab_report"
        else " ".join(desk.words.lines("food.labels_allow.card_one"))
    )
    return Liner(
        href=glaze_href(glaze),
        mark=glaze.mark.value,
        name=glaze.name.value,
        image=images[0] if images else None,
        no_image=desk.text("tiles.no_picture" if tiles else "asking.liners.never_tried"),
        food=Signed(key=key, mark=sign(desk.words(f"food.{key}.mark")), words=said),
        coats=desk.text("asking.liners.label_coats", coats=coats_words(desk, glaze)),
        seen=_seen(desk, tiles) if tiles else desk.text("asking.liners.never_tried_on", clay=clay.name.value),
        status=upper_first(desk.words.fact("", glaze.status.value)) if glaze.status.value is Status.RUNNING_LOW else "",
    )


def _seen(desk: Desk, tiles: tuple[TestTile, ...]) -> str:
    seen = [tile for tile in tiles if tile.looked_over]
    looked = {tile.tile.value for tile in seen}
    if not looked:
        return desk.text("trust.nobody_looked")
    firings = {tile.firing.id for tile in seen if tile.firing is not None}
    counts = sorted({tile.base_coats.value for tile in seen})
    coats = f" {desk.text('asking.liners.or_coats')} ".join(
        [*(str(n) for n in counts[:-1]), desk.words.counted("coats", counts[-1])]
    )
    times = desk.text(f"asking.liners.times.{'one' if len(looked) == 1 else 'many'}", n=len(looked))
    said = desk.text(
        "asking.liners.seen",
        times=times,
        tiles=desk.words.counted("tiles", len(looked)),
        firings=desk.words.counted("firings", len(firings)),
    )
    had = desk.text(f"asking.liners.with_coats{'_many' if len(looked) > 1 else ''}", coats=coats)
    return f"{desk.text('asking.liners.seen_once') if len(looked) == 1 else said} {had}"
