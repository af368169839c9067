"""What changes a colour: the other order, more coats, another clay; two pictures and the difference between them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, product

from combobook.book import TestTile
from combobook.colours import TileColour, difference
from combobook.entries import Clay, Tone
from combobook.pictures import Picture
from combobook.render.cards import measured
from combobook.render.views.colour_of import coloured, differs_words, near, near_card
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Image, SmallCard
from combobook.render.views.tiles import tile_image
from combobook.render.views.verdict import Verdict
from combobook.verdicts import LayeringVerdict

NEAREST = 6
"""Layerings shown as nearest in colour."""
_TONES: dict[object, int] = {Tone.LIGHT: 0, Tone.MID: 1, Tone.DARK: 2}
_Pair = tuple[TestTile, TestTile]


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Two pictures beside each other, and how far apart their main colours are."""

    says: str
    """`This order against the other: clearly different (14.2)`."""
    rests_on: str
    """That both were balanced, or that they were not, or drawn."""
    images: tuple[Image, Image]
    tiles: tuple[TestTile, TestTile]


@dataclass(frozen=True, slots=True, kw_only=True)
class ColoursView:
    """A layering's or glaze's colours compared, and the layerings nearest in colour."""

    comparisons: tuple[Comparison, ...]
    nearest: tuple[SmallCard, ...]


def colours_view(desk: Desk, verdict: Verdict) -> ColoursView:
    """Every comparison that two measured pictures allow, and (of a layering) the nearest in colour."""
    found = (compare(desk, verdict) for compare in COMPARISONS)
    return ColoursView(
        comparisons=tuple(each for each in found if each is not None),
        nearest=_nearest(desk, verdict) if isinstance(verdict, LayeringVerdict) else (),
    )


def _nearest(desk: Desk, verdict: LayeringVerdict) -> tuple[SmallCard, ...]:
    own = next((each for each in coloured(desk) if each.verdict.id == verdict.id), None)
    if own is None:
        return ()
    found = near(desk, own.colour.main, NEAREST, leave_out=verdict.id)
    return tuple(near_card(desk, each, de) for each, de in found)


def _order(desk: Desk, verdict: Verdict) -> Comparison | None:
    """A over B against B over A, of tiles as alike in everything else as there are."""
    if not isinstance(verdict, LayeringVerdict):
        return None
    reverse = desk.edition.judged.layerings.get((verdict.top.id, verdict.base.id))
    others = reverse.tiles if reverse is not None else ()
    pair = _likest(desk, product(_shown(desk, verdict.tiles), _shown(desk, others)))
    return _comparison(desk, pair, lambda said: desk.text("compare.order", said=said)) if pair else None


def _coats(desk: Desk, verdict: Verdict) -> Comparison | None:
    """The fewest coats against the most on one clay, where these are furthest apart."""
    same_clay = [
        (few, many)
        for one, other in combinations(_shown(desk, verdict.tiles), 2)
        for few, many in (sorted((one, other), key=lambda tile: (sum(tile.coats), tile.place)),)
        if few.clay is not None and few.clay is many.clay and sum(few.coats) < sum(many.coats)
    ]
    most = max((sum(many.coats) - sum(few.coats) for few, many in same_clay), default=0)
    pair = _likest(desk, (p for p in same_clay if sum(p[1].coats) - sum(p[0].coats) == most))
    if pair is None:
        return None
    few, many = (desk.words.counted("coats", sum(tile.coats)) for tile in pair)
    clay = _clay(pair[0]).name.value
    key = "compare.coats" if isinstance(verdict, LayeringVerdict) else "compare.coats_alone"
    return _comparison(desk, pair, lambda said: desk.text(key, few=few, many=many, clay=clay, said=said))


def _clays(desk: Desk, verdict: Verdict) -> Comparison | None:
    """The same coats on the lightest clay against the darkest, where both tones are written."""
    same_coats = [
        (light, dark)
        for one, other in combinations(_toned(desk, verdict.tiles), 2)
        for light, dark in (sorted((one, other), key=_tone),)
        if one.coats == other.coats and _tone(light) < _tone(dark)
    ]
    most = max((_tone(dark) - _tone(light) for light, dark in same_coats), default=0)
    pair = _likest(desk, (p for p in same_coats if _tone(p[1]) - _tone(p[0]) == most))
    if pair is None:
        return None
    light, dark = (_clay(tile) for tile in pair)
    facts = {
        "light": light.name.value, "light_tone": light.tone.value, "dark": dark.name.value,
        "dark_tone": dark.tone.value,
    }  # fmt: skip
    return _comparison(desk, pair, lambda said: desk.text("compare.clays", **facts, said=said))


COMPARISONS: tuple[Callable[[Desk, Verdict], Comparison | None], ...] = (_order, _coats, _clays)
"""In the order in which a page shows them."""


def _comparison(desk: Desk, pair: _Pair, says: Callable[[str], str]) -> Comparison | None:
    images = tuple(tile_image(desk, tile, "card") for tile in pair)
    one, other = images
    if one is None or other is None:
        return None
    de = difference(_colour(desk, pair[0]).main, _colour(desk, pair[1]).main)
    ways = {measured(_picture(desk, tile)) for tile in pair}
    way = ways.pop() if len(ways) == 1 else "mixed"
    return Comparison(
        says=says(differs_words(desk, de)), rests_on=desk.text(f"compare.{way}"), images=(one, other), tiles=pair
    )


def _likest(desk: Desk, pairs: Iterable[_Pair]) -> _Pair | None:
    """The two tiles that differ least in anything but what is compared, and were fired as they were meant."""
    return min(pairs, key=lambda pair: _unlike(desk, pair), default=None)


def _unlike(desk: Desk, pair: _Pair) -> tuple[object, ...]:
    one, other = pair
    fires = [desk.edition.judged.tile_fire.get(tile.place) for tile in pair]
    off_aim = sum(fire is None or fire.fired != "as meant" for fire in fires)
    clay = one.clay is None or one.clay is not other.clay
    coats = abs(sum(one.coats) - sum(other.coats))
    return (clay, off_aim, coats, one.coats != other.coats, one.firing is not other.firing, one.place, other.place)


def _shown(desk: Desk, tiles: Iterable[TestTile]) -> Iterator[TestTile]:
    """Fired tiles whose pictures were measured."""
    for tile in tiles:
        picture = desk.edition.pictures.get(str(tile.photo.value))
        if tile.fired and picture is not None and picture.colour is not None:
            yield tile


def _toned(desk: Desk, tiles: Iterable[TestTile]) -> Iterator[TestTile]:
    return (t for t in _shown(desk, tiles) if t.clay is not None and t.clay.tone.value in _TONES)


def _tone(tile: TestTile) -> int:
    return _TONES[_clay(tile).tone.value]


def _clay(tile: TestTile) -> Clay:
    assert tile.clay is not None
    return tile.clay


def _picture(desk: Desk, tile: TestTile) -> Picture:
    return desk.edition.pictures[str(tile.photo.value)]


def _colour(desk: Desk, tile: TestTile) -> TileColour:
    colour = _picture(desk, tile).colour
    assert colour is not None
    return colour
