"""The colours of layerings as their pictures show them, and which layerings are nearest to a colour."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from heapq import nsmallest
from itertools import product
from math import floor, hypot

from markupsafe import Markup

from combobook.colours import Lab, TileColour, difference, difference_words, srgb
from combobook.render.cards import measured, picture_colour
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.pieces import SmallCard, layering_card, small_card, upper_first
from combobook.verdicts import LayeringVerdict
from combobook.wording import colour_words

AS_FAR = 15.0
"""CIEDE2000: what is further from a colour is no answer to it (house)."""
_CELL = 8.0
"""Colours are looked for in cells of this many CIELAB units, so that a shelf of thousands takes no longer for each."""
_SPARE = 3
"""Times as many as asked for are measured by CIEDE2000, picked by a simpler distance that costs little."""

_Cell = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Coloured:
    """A layering that has a page, with the colours of the picture that stands for it."""

    verdict: LayeringVerdict
    colour: TileColour
    way: str
    """How they were measured (`cards.measured`)."""
    said: str
    """`deep blue-green, breaks amber`, with how it was measured where this edition's pictures differ in that."""


def colour_of(desk: Desk, verdict: LayeringVerdict) -> TileColour | None:
    """The colours of the picture that stands for a layering; None without a picture, or where none was measured."""
    shown = layering_card(desk, verdict).picture
    return shown.picture.colour if shown is not None else None


def coloured(desk: Desk) -> tuple[Coloured, ...]:
    """Every layering with a page and a measured picture, by its id."""
    key = ("coloured", "")
    if key not in desk.kept:
        desk.kept[key] = tuple(_coloured(desk))
    made: tuple[Coloured, ...] = desk.kept[key]
    return made


def _coloured(desk: Desk) -> Iterator[Coloured]:
    shown = [(v, layering_card(desk, v).picture) for v in desk.edition.judged.layerings.values() if has_page(v)]
    found = [(v, each.picture, c) for v, each in shown if each is not None and (c := each.picture.colour) is not None]
    alike = len({measured(picture) for _, picture, _ in found}) == 1
    for verdict, picture, colour in found:
        said = colour_words(colour, desk.words) if alike else picture_colour(picture, desk.words)
        yield Coloured(verdict=verdict, colour=colour, way=measured(picture), said=said)


def measured_how(desk: Desk) -> str:
    """What all the colours of this edition rest on, in a sentence; empty where none was measured."""
    ways = {each.way for each in coloured(desk)}
    if not ways:
        return ""
    return desk.text(f"colours.how.{ways.pop()}" if len(ways) == 1 else "colours.how.mixed")


def nearest(desk: Desk, colour: Lab, most: int, leave_out: str = "") -> tuple[tuple[Coloured, float], ...]:
    """At most so many layerings whose main colours are nearest to one, with CIEDE2000, nearest first."""
    some = (each for each in _about(_cells(desk), colour, _SPARE * most + 1) if each.verdict.id != leave_out)
    picked = nsmallest(_SPARE * most, some, key=lambda each: (_roughly(colour, each.colour.main), each.verdict.id))
    found = [(each, difference(colour, each.colour.main)) for each in picked]
    return tuple(sorted(found, key=lambda pair: (pair[1], pair[0].verdict.id))[:most])


def near(desk: Desk, colour: Lab, most: int, leave_out: str = "") -> tuple[tuple[Coloured, float], ...]:
    """Those of the nearest that a person who looks for this colour would care to see."""
    return tuple((each, de) for each, de in nearest(desk, colour, most, leave_out) if de <= AS_FAR)


def _roughly(one: Lab, other: Lab) -> float:
    """A difference that grows like CIEDE2000 and is soon worked out: chroma counts less the more there is of it."""
    chroma, others = hypot(one.a, one.b), hypot(other.a, other.b)
    hue = max(0.0, (one.a - other.a) ** 2 + (one.b - other.b) ** 2 - (chroma - others) ** 2)
    mean = (chroma + others) / 2
    light, strong = one.l - other.l, (chroma - others) / (1 + 0.045 * mean)
    return light**2 + strong**2 + hue / (1 + 0.015 * mean) ** 2


def _cells(desk: Desk) -> Mapping[_Cell, list[Coloured]]:
    key = ("colour cells", "")
    if key not in desk.kept:
        cells: dict[_Cell, list[Coloured]] = defaultdict(list)
        for each in coloured(desk):
            cells[_cell(each.colour.main)].append(each)
        desk.kept[key] = dict(cells)
    made: Mapping[_Cell, list[Coloured]] = desk.kept[key]
    return made


def _cell(colour: Lab) -> _Cell:
    return floor(colour.l / _CELL), floor(colour.a / _CELL), floor(colour.b / _CELL)


def _about(cells: Mapping[_Cell, list[Coloured]], colour: Lab, least: int) -> list[Coloured]:
    """What lies in the cells about a colour, in a block that grows until it holds enough, and two steps more."""
    count = sum(map(len, cells.values()))
    l, a, b = _cell(colour)  # noqa: E741 - CIELAB's own letter
    reach, enough = 0, -1
    while True:
        steps = range(-reach, reach + 1)
        if (2 * reach + 1) ** 3 > len(cells):
            inside = [c for c in cells if max(abs(c[0] - l), abs(c[1] - a), abs(c[2] - b)) <= reach]
        else:
            inside = [c for x, y, z in product(steps, steps, steps) if (c := (l + x, a + y, b + z)) in cells]
        found = [each for cell in inside for each in cells[cell]]
        if enough < 0 and len(found) >= min(least, count):
            enough = reach + 2
        if reach == enough or len(found) == count:
            return found
        reach += 1


def differs_words(desk: Desk, de: float) -> str:
    """`hardly differs (1.4)`: words with the figure behind them."""
    return desk.text("colours.differs", words=desk.words(f"colours.differences.{difference_words(de)}"), de=f"{de:.1f}")


def near_card(desk: Desk, each: Coloured, de: float) -> SmallCard:
    """A layering's small card with its colour in words, and how far it is from the colour that is looked for."""
    note = f"{upper_first(each.said)}. {upper_first(differs_words(desk, de))}."
    return replace(small_card(desk, each.verdict, "over"), note=note)


def swatch(colour: TileColour | Lab) -> Markup:
    """A decoration beside its words: the main colour, and in the lower half the one that it breaks to."""
    main = colour.main if isinstance(colour, TileColour) else colour
    under = colour.breaking if isinstance(colour, TileColour) else None
    lower = f'<path d="M0 14H24V24H0z" fill="{_hex(under)}"/>' if under is not None else ""
    return Markup(
        f'<svg class="swatch" viewBox="0 0 24 24" preserveAspectRatio="none" aria-hidden="true">'
        f'<path d="M0 0H24V24H0z" fill="{_hex(main)}"/>{lower}</svg>'
    )


def _hex(colour: Lab) -> str:
    return "#{:02x}{:02x}{:02x}".format(*srgb(colour))
