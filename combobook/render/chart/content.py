"""What the wall chart says of each layering: which ones, in which order, in finished words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import groupby

from combobook.colours import in_words
from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, Glaze, Units
from combobook.render.cards import LayeringCard, PictureView, card, tile_coats, tile_fired
from combobook.render.our_kiln import refused
from combobook.verdicts import LayeringVerdict, MovementVerdict, ToDo
from combobook.wording import Words, shade_words

_MOST_REASON = 60
"""Letters: an entry's own reason may be a paragraph, and its page has it in full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartCard:
    """One layering on the chart; `card` has what all sheets say, the rest is the chart's own short form."""

    card: LayeringCard
    coats: str
    """Coats, and a word or two of looks."""
    shelf: str
    """That a glaze is out or retired, and which tile a photograph shows; may be empty."""
    other_unit: str
    """The instruction's length in the studio's other unit; empty where it has none."""
    trust: str
    """Catch plate and evidence."""
    trust_with_unit: str
    """The same with the other unit before it, where that does not fit beside the instruction."""
    reason: str
    """In the food frame, where the food words leave a line for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartGroup:
    """All layerings on one first glaze."""

    base: str
    mark: str
    continued: str
    """The word for a group that goes on in another column."""
    cards: tuple[ChartCard, ...]


def chart_groups(edition: Edition) -> tuple[ChartGroup, ...]:
    """The layerings on the chart, by the first glaze's mark, then the top's."""
    shown = sorted(
        (v for v in edition.judged.layerings.values() if on_chart(v)),
        key=lambda v: (mark_order(v.base), mark_order(v.top)),
    )
    return tuple(
        ChartGroup(
            base=verdicts[0].base.name.value,
            mark=verdicts[0].base.mark.value,
            continued=edition.words("chart.continued"),
            cards=tuple(chart_card(edition, verdict) for verdict in verdicts),
        )
        for verdicts in _by_base(shown)
    )


def _by_base(verdicts: list[LayeringVerdict]) -> list[list[LayeringVerdict]]:
    return [list(group) for _, group in groupby(verdicts, key=lambda v: v.base.id)]


def on_chart(verdict: LayeringVerdict) -> bool:
    """The entry asks for it, and it can be done at all: linking refuses the others, and so does the wall."""
    base, top = verdict.base, verdict.top
    if verdict.entry is None or not verdict.entry.on_chart or base.rim_only:
        return False
    first, then = base.cone.value, top.cone.value
    return first is NOT_KNOWN or then is NOT_KNOWN or first.shares_a_cone_with(then)


def mark_order(glaze: Glaze) -> tuple[tuple[tuple[int, str], ...], str]:
    """Glazes in the order of their marks."""
    return as_people_sort(glaze.mark.value), glaze.id


def as_people_sort(mark: str) -> tuple[tuple[int, str], ...]:
    """Marks as people sort them: `2` before `10`, `a` beside `A`."""
    parts = re.findall(r"\d+|\D+", mark.casefold())
    return tuple((int(p), "") if p.isdigit() else (-1, p) for p in parts)


def chart_card(edition: Edition, verdict: LayeringVerdict) -> ChartCard:
    """A layering in the words of posted sheets."""
    words, shown = edition.words, card(edition, verdict)
    if verdict.coats is None:
        coats = words("chart.coats_not_said")
    else:
        first = words.counted("coats", verdict.coats.base)
        coats = words("chart.coats", first=first, base=shown.base, n=verdict.coats.top)
    other = "" if refused(verdict, edition.book) else other_unit(verdict.movement, words)
    return ChartCard(
        card=shown,
        coats=_together(coats, _looks(shown, words)),
        shelf=_together(shown.on_shelf, _pictured(edition, verdict, shown.picture)),
        other_unit=other,
        trust=_together(shown.catch_plate, shown.evidence),
        trust_with_unit=_together(other, shown.catch_plate, shown.evidence),
        reason=_reason(shown, words),
    )


def _pictured(edition: Edition, verdict: LayeringVerdict, shown: PictureView | None) -> str:
    """Which tile a photograph shows, and its coats where the card has others; among photographs, what is drawn."""
    words = edition.words
    if shown is None:
        return ""
    if shown.picture.drawing:
        return words("picture.drawing") if any(not p.drawing for p in edition.pictures.values()) else ""
    tile = shown.tile
    if tile is None:
        return shown.caption
    clay = words("tile.clay", clay=tile.clay.name.value) if tile.clay else words("tile.no_clay")
    judged = verdict.coats is not None and tile.coats == (verdict.coats.base, verdict.coats.top)
    coats = "" if judged else tile_coats(tile, words)
    parts = (tile.tile.value, coats, clay, tile_fired(tile, words), shown.fired)
    return words("chart.tile", told=", ".join(part for part in parts if part))


def _looks(shown: LayeringCard, words: Words) -> str:
    """The looks in two or three words, never ending on one that asks for more (`honey under`); else the main colour."""
    if not shown.looks_short and shown.picture is not None and (colour := shown.picture.picture.colour) is not None:
        return shade_words(in_words(colour).main, words)
    said = shown.looks_short.split()
    never_last = words.lines("chart.looks_never_last")
    while said and said[-1].casefold() in never_last:
        said.pop()
    return " ".join(said)


def _reason(shown: LayeringCard, words: Words) -> str:
    """Limits and ware, or why to keep it off food; two lines of food words speak for themselves."""
    if len(shown.food_lines) > 1:
        return ""
    return shown.food_small if len(shown.food_small) <= _MOST_REASON else words("short.entry_says")


def _together(*parts: str) -> str:
    return " · ".join(part for part in parts if part)


def other_unit(movement: MovementVerdict, words: Words) -> str:
    """The instruction's length in the studio's other unit; empty where it has none."""
    if movement.to_do_mm is None or movement.to_do not in (ToDo.LEAVE, ToDo.TOP_BAND):
        return ""
    other = Words(words.table, Units.INCHES if words.units is Units.MM else Units.MM)
    return other.short_length(movement.to_do_mm, "up" if movement.to_do is ToDo.LEAVE else "down")
