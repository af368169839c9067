"""The page of one layering: the verdict, what to do, every tile, where it may go, the other way round, neighbours."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from combobook.render.our_kiln import shown
from combobook.render.profiles import legend
from combobook.render.views import compare, projector
from combobook.render.views.account import account_view
from combobook.render.views.comparisons import colours_view
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.lab import further_views, lab_views
from combobook.render.views.page import Page
from combobook.render.views.pieces import SmallCard, Way, image, layering_card, small_card
from combobook.render.views.places import place_views
from combobook.render.views.running import running_view
from combobook.render.views.surfaces import surface_grid
from combobook.render.views.tiles import tile_table
from combobook.render.views.trust import trust_view
from combobook.render.views.verdict import food_view, stop_words
from combobook.verdicts import EvidenceLevel, LayeringVerdict

ROOT = "../"
MOST_NEIGHBOURS = 6
"""Of each kind; the glazes' pages have them all."""
FEW = 3
"""A phone shows no more of each kind; with more there is always the link to all of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbours:
    """Layerings that share a glaze, those with most tiles first."""

    id: str
    title: str
    cards: tuple[SmallCard, ...]
    href: str
    all_words: str
    """A link to all of them; empty where they are few."""


def pages(desk: Desk) -> Iterator[Page]:
    """One page for each layering that has an entry, a tile or a lab report."""
    for verdict in desk.edition.judged.layerings.values():
        if has_page(verdict):
            view = _view(desk, verdict)
            title = desk.words("coats.over", base=verdict.base.name.value, top=verdict.top.name.value)
            path = f"combinations/{verdict.id}.html"
            yield Page(path=path, template="layering.html", title=title, view=view, nav="find")


def _view(desk: Desk, verdict: LayeringVerdict) -> dict[str, object]:
    whole = layering_card(desk, verdict)
    entry = verdict.entry
    marks = desk.text("layering.marks", top=whole.top_mark, base=whole.base_mark, cone=desk.book.studio.cone.value)
    return {
        "top": whole.top,
        "top_href": f"{ROOT}glazes/{verdict.top.id}.html",
        "base": whole.base,
        "base_href": f"{ROOT}glazes/{verdict.base.id}.html",
        "over": desk.text("layering.over"),
        "top_page": f"glazes/{verdict.top.id}.html",
        "base_page": f"glazes/{verdict.base.id}.html",
        "marks": marks,
        "nickname": whole.nickname,
        "looks": whole.looks,
        "colour": desk.text("colours.shown", colour=whole.colour) if whole.colour else "",
        "coats": whole.coats,
        "stop": stop_words(desk, verdict),
        "order": _order(desk, verdict),
        "notice": whole.on_shelf,
        "unwritten": _unwritten(desk, verdict),
        "image": image(whole.picture, desk, "page"),
        "no_image": _no_image(desk, verdict),
        "ways": _ways(desk, verdict),
        "food": replace(food_view(desk, verdict, whole.coats if verdict.coats else ""), more=(), more_words=""),
        "running": replace(running_view(desk, verdict), whys=()),
        "account": account_view(desk, verdict),
        "trust": trust_view(desk, verdict.evidence),
        "places": place_views(desk, shown(verdict, desk.book)),
        "legend": legend(desk.words),
        "surfaces": surface_grid(desk, verdict, ROOT),
        "labs": lab_views(desk, verdict, ROOT),
        "further": further_views(desk),
        "colours": colours_view(desk, verdict),
        "prose": desk.prose(entry.body, ROOT, under=2) if entry is not None else "",
        "this_way": small_card(desk, verdict, "over"),
        "other_way": _other_way(desk, verdict),
        "other_says": _other_says(desk, verdict),
        "neighbours": _neighbours(desk, verdict),
        "table": tile_table(desk, verdict.tiles, ROOT, desk.text("layering.table", over=whole.over)),
    }


def _unwritten(desk: Desk, verdict: LayeringVerdict) -> str:
    """Where nobody wrote an entry: what the pair is known from. Empty where there is one."""
    if verdict.entry is not None:
        return ""
    return desk.text("layering.no_entry" if verdict.tiles else "layering.only_a_report")


def _order(desk: Desk, verdict: LayeringVerdict) -> tuple[str, ...]:
    """What to brush, first to last; nothing where nobody should fire the two together."""
    if stop_words(desk, verdict):
        return ()
    base, top = verdict.base.name.value, verdict.top.name.value
    if verdict.coats is None:
        return base, desk.text("layering.next_layer_any", glaze=top)
    first, second = (desk.words.counted("coats", count) for count in (verdict.coats.base, verdict.coats.top))
    return (
        desk.text("layering.one_layer", glaze=base, coats=first),
        desk.text("layering.next_layer", glaze=top, coats=second),
    )


def _ways(desk: Desk, verdict: LayeringVerdict) -> tuple[Way, ...]:
    """To the same, large, and to its tile beside others; the latter where its picture is of a tile that was fired."""
    shown = layering_card(desk, verdict).picture
    ways = [Way(href=projector.href_of(verdict), words=desk.text("projector.show"))]
    if shown is not None and shown.tile is not None and compare.beside(desk, shown.tile) is not None:
        ways.append(Way(href=compare.href_of(desk, shown.tile), words=desk.text("beside.put")))
    return tuple(ways)


def _no_image(desk: Desk, verdict: LayeringVerdict) -> str:
    if any(tile.fired for tile in verdict.tiles):
        return desk.words("picture.none")
    return desk.text("tiles.not_fired_yet" if verdict.tiles else "tiles.not_made")


def _reverse(desk: Desk, verdict: LayeringVerdict) -> LayeringVerdict | None:
    return desk.edition.judged.layerings.get((verdict.top.id, verdict.base.id))


def _other_way(desk: Desk, verdict: LayeringVerdict) -> SmallCard | None:
    reverse = _reverse(desk, verdict)
    return small_card(desk, reverse, "over") if reverse is not None else None


def _other_says(desk: Desk, verdict: LayeringVerdict) -> str:
    """That the other order is judged from labels alone, or not at all; empty where it has tiles."""
    reverse = _reverse(desk, verdict)
    if reverse is None:
        over = desk.words("coats.over", base=verdict.top.name.value, top=verdict.base.name.value)
        return desk.text("layering.other_unknown", over=over)
    untested = reverse.evidence.level is EvidenceLevel.UNTESTED and not reverse.tiles
    return desk.text("layering.other_untested") if untested else ""


def _neighbours(desk: Desk, verdict: LayeringVerdict) -> tuple[Neighbours, ...]:
    base, top = verdict.base, verdict.top
    kinds = (
        ("same-base", "layering.same_base", base.name.value, desk.on[base.id], "then", f"glazes/{base.id}.html#first"),
        ("same-top", "layering.same_top", top.name.value, desk.over[top.id], "first", f"glazes/{top.id}.html#on-top"),
    )
    found = (_some(desk, verdict, *kind) for kind in kinds)
    return tuple(each for each in found if each.cards)


def _some(
    desk: Desk, verdict: LayeringVerdict, id: str, key: str, glaze: str,
    every: tuple[LayeringVerdict, ...], side: str, href: str,
) -> Neighbours:  # fmt: skip
    others = tuple(each for each in every[: MOST_NEIGHBOURS + 1] if each.id != verdict.id)[:MOST_NEIGHBOURS]
    more = len(every) - 1 > FEW
    return Neighbours(
        id=id,
        title=desk.text(key, glaze=glaze),
        cards=tuple(small_card(desk, each, side) for each in others),
        href=href,
        all_words=desk.text("layering.all", n=len(every)) if more else "",
    )
