"""Layerings as they came out on one clay: that clay's tile, coats, food words and trust."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from combobook.book import TestTile
from combobook.entries import Clay
from combobook.render.cautions import KIND, in_short
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import SmallCard, small_card
from combobook.render.views.surfaces import coats_of, trust_sign
from combobook.render.views.tiles import tile_image
from combobook.render.views.verdict import food_sign
from combobook.verdicts import FoodVerdict, LayeringVerdict, SurfaceVerdict


def cards_on(desk: Desk, clay: Clay, tiles: Iterable[TestTile]) -> tuple[SmallCard, ...]:
    """A card for each layering and coat count that was fired on it, by name; of these tiles."""
    pairs = {(tile.base.id, tile.top.id) for tile in tiles if tile.top is not None and tile.fired}
    found = ((verdict, each) for verdict in _verdicts(desk, pairs) for each in _fired_on(verdict, clay))
    cards = ((_card(desk, verdict, each, clay), each.coats) for verdict, each in found)
    return tuple(card for card, _ in sorted(cards, key=lambda both: (both[0].name, both[1])))


def _verdicts(desk: Desk, pairs: Iterable[tuple[str, str]]) -> Iterator[LayeringVerdict]:
    return (desk.edition.judged.layerings[pair] for pair in pairs)


def _fired_on(verdict: LayeringVerdict, clay: Clay) -> Iterator[SurfaceVerdict]:
    for each in verdict.surfaces:
        if each.clay is not None and each.clay.id == clay.id and any(tile.fired for tile in each.tiles):
            yield each


def _card(desk: Desk, verdict: LayeringVerdict, surface: SurfaceVerdict, clay: Clay) -> SmallCard:
    """The layering's small card, with what this clay alone says of picture, coats, food and trust."""
    shown = [tile_image(desk, tile, "card") for tile in surface.tiles if tile.fired]
    food = _food(verdict, surface)
    return replace(
        small_card(desk, verdict, "over"),
        image=next((image for image in shown if image is not None), None),
        no_image=desk.text("tiles.no_picture"),
        looks=coats_of(desk, verdict, surface.coats),
        food=food_sign(desk, food, False, short=food.level <= KIND),
        trust=trust_sign(desk, surface.evidence),
        note=_note(desk, verdict, surface, clay),
    )


def _food(verdict: LayeringVerdict, surface: SurfaceVerdict) -> FoodVerdict:
    """The worse of this clay's and all clays' at these coats: a kinder clay counts for nothing."""
    every = [each.food for each in verdict.surfaces if each.clay is None and each.coats == surface.coats]
    return min((surface.food, *every), key=lambda food: food.level)


def _note(desk: Desk, verdict: LayeringVerdict, surface: SurfaceVerdict, clay: Clay) -> str:
    """That this clay alone came out kinder; of a kind verdict what it does not speak of."""
    food = _food(verdict, surface)
    if desk.never:
        return ""
    if surface.food.level > food.level:
        kinder = food_sign(desk, surface.food, False, short=True).words
        return desk.text("clays.kinder", clay=clay.name.value, food=kinder)
    if food.level < KIND:
        return ""
    beside = in_short(verdict, desk.edition.judged, desk.words, surface.coats)
    return " ".join(f"{each}." for each in beside)
