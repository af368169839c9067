"""Find by colour: layerings in colour families, and those nearest to a colour that one may choose."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from combobook.colours import FAMILIES, Lab, Shade, difference_words, family, lab, shade
from combobook.render.views.colour_of import (
    Coloured,
    coloured,
    differs_words,
    measured_how,
    near,
    near_card,
    nearest,
    swatch,
)
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, short_food, sign, upper_first
from combobook.wording import shade_words

NAMED_MOST = 12
"""Layerings without a colour that are named; more are counted."""
FAR = ("clearly", "another")
"""Differences in words, of which even the smallest is not close."""
MOST = 24
"""Layerings on the page of a chosen colour."""
CHOICES: tuple[tuple[int, int, int], ...] = (
    (246, 245, 242), (240, 228, 202), (188, 188, 186), (128, 128, 127), (126, 135, 148), (26, 26, 26),
    (200, 166, 124), (112, 72, 40), (66, 42, 24), (122, 50, 36), (208, 58, 42), (226, 160, 168), (104, 32, 68),
    (222, 118, 44), (196, 132, 36), (228, 198, 60), (104, 104, 40), (160, 184, 72), (62, 126, 68), (28, 72, 42),
    (44, 128, 122), (14, 70, 72), (56, 104, 170), (26, 40, 98), (176, 202, 226), (134, 116, 196), (150, 88, 170),
)  # fmt: skip
"""Colours to choose from, in sRGB from 0 to 255: house choices, some of each family; they are named by `shade`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A colour to choose."""

    href: str
    swatch: Markup
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourLine:
    """One layering in its family."""

    href: str
    name: str
    swatch: Markup
    said: str
    food: Signed


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyView:
    """A colour family with its layerings, light ones first."""

    id: str
    title: str
    count: str
    lines: tuple[ColourLine, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The families, then a page for each colour that can be chosen."""
    title, choices = desk.text("colours.title"), tuple((colour, shade(colour)) for colour in map(_lab, CHOICES))
    view: dict[str, object] = {
        "lead": desk.text("colours.lead"),
        "how": measured_how(desk),
        "choices": tuple(_choice(desk, colour, named) for colour, named in choices) if coloured(desk) else (),
        "families": tuple(_families(desk)),
        "summed": _summed(desk),
    }
    yield Page(path="colours.html", template="colours.html", title=title, view=view, nav="find")
    for colour, named in choices if coloured(desk) else ():
        title = desk.text("colours.chosen", colour=shade_words(named, desk.words))
        yield Page(path=_path(named), template="colour.html", title=title, view=_view(desk, colour), nav="find")


def _lab(rgb: tuple[int, int, int]) -> Lab:
    return lab(*rgb)


def _path(named: Shade) -> str:
    name = named.name.replace("_", "-")
    return f"colours/{name}.html" if named.depth == "plain" else f"colours/{named.depth}-{name}.html"


def _choice(desk: Desk, colour: Lab, named: Shade) -> Choice:
    return Choice(href=_path(named), swatch=swatch(colour), name=upper_first(shade_words(named, desk.words)))


def _families(desk: Desk) -> Iterator[FamilyView]:
    for key in FAMILIES:
        members = [each for each in coloured(desk) if family(each.colour.main) == key]
        if members:
            members.sort(key=lambda each: (-each.colour.main.l, each.verdict.id))
            yield FamilyView(
                id=f"family-{key.replace('_', '-')}",
                title=desk.words(f"colours.families.{key}"),
                count=desk.words.counted("layerings", len(members)),
                lines=tuple(_line(desk, each) for each in members),
            )


def _summed(desk: Desk) -> str:
    """How many layerings stand under a family, and which have no colour, as they have no picture."""
    shown = {each.verdict.id for each in coloured(desk)}
    every = [verdict for verdict in desk.edition.judged.layerings.values() if has_page(verdict)]
    cards = [layering_card(desk, verdict) for verdict in every if verdict.id not in shown]
    if not cards:
        return desk.text("colours.summed_all", all=desk.words.counted("layerings", len(every)))
    without = "; ".join(sorted(card.order for card in cards)) if len(cards) <= NAMED_MOST else str(len(cards))
    counted = desk.words.counted("layerings", len(every))
    return desk.text("colours.summed", shown=len(shown), all=counted, without=without)


def _line(desk: Desk, each: Coloured) -> ColourLine:
    whole = layering_card(desk, each.verdict)
    return ColourLine(
        href=whole.page,
        name=whole.over,
        swatch=swatch(each.colour),
        said=upper_first(each.said),
        food=Signed(key=whole.food_key, mark=sign(whole.food_mark), words=short_food(desk, whole)),
    )


def _view(desk: Desk, colour: Lab) -> dict[str, object]:
    found = near(desk, colour, MOST)
    counted = desk.words.counted("layerings", len(found))
    return {
        "close": _close(desk, colour),
        "lead": desk.text("colours.chosen_lead", layerings=counted) if found else "",
        "how": measured_how(desk),
        "swatch": swatch(colour),
        "cards": tuple(near_card(desk, each, de) for each, de in found),
    }


def _close(desk: Desk, colour: Lab) -> str:
    """That nothing comes close, with the nearest that there is; empty where something does."""
    for each, de in nearest(desk, colour, 1):
        if difference_words(de) in FAR:
            name = layering_card(desk, each.verdict).over
            return desk.text("colours.nothing_close", name=name, differs=differs_words(desk, de))
    return ""
