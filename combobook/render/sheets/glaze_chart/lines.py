"""A line of the glaze chart: what is said of one glaze by itself."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.edition import Edition
from combobook.render.cards import food_classes, is_house_never, short_reason
from combobook.render.chart.content import other_unit
from combobook.render.our_kiln import refused, to_do, to_do_key, unread
from combobook.verdicts import FoodLevel, GlazeVerdict
from combobook.wording import food_key, food_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class GlazeLine:
    """One glaze in words and marks."""

    mark: str
    name: str
    food: str
    """The class of the frame and its mark."""
    food_words: str
    reason: str
    """Why it is kept off food, in a few words; else empty."""
    movement: str
    to_do: str
    other_unit: str
    kiln: str
    """The class of the mark in the last column: catch plate, or empty."""
    kiln_words: tuple[str, ...]
    """Under that mark, in small print; also that one must ask first, where nobody knows its cone."""


def glaze_line(edition: Edition, verdict: GlazeVerdict) -> GlazeLine:
    """Of a glaze whose label does not take the studio's cone: that, instead of what to do about running."""
    words, never, out = edition.words, is_house_never(edition), refused(verdict, edition.book)
    key, plate = food_key(verdict.food, never), verdict.movement.catch_plate and not out
    return GlazeLine(
        mark=verdict.glaze.mark.value,
        name=verdict.glaze.name.value,
        food=food_classes(key, words),
        food_words=" ".join(food_lines(verdict.food, never, words, one_glaze=True)),
        reason=_reason(edition, verdict) if key == "keep_off" else "",
        movement=f"m-{to_do_key(verdict, edition.book)[1]}",
        to_do=to_do(verdict, edition.book, words, short=True),
        other_unit="" if out else other_unit(verdict.movement, words),
        kiln="m-catch-plate" if plate else "",
        kiln_words=_kiln_words(edition, plate=plate, ask=unread(verdict.glaze)),
    )


def _kiln_words(edition: Edition, *, plate: bool, ask: bool) -> tuple[str, ...]:
    if not (plate or ask):
        return ()
    return edition.words.lines(f"glaze_chart.{'plate_ask' if plate and ask else 'plate' if plate else 'ask'}")


def _reason(edition: Edition, verdict: GlazeVerdict) -> str:
    """The first reason that is as grave as the verdict."""
    grave = (each for each in verdict.food.reasons if each.severity == FoodLevel.KEEP_OFF)
    return next((said for said in (short_reason(each, edition.words) for each in grave) if said), "")
