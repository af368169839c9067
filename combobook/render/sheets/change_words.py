"""What last term's chart says on a card, what today's says, and what changed that no chart says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.past import Changed, PastVerdict, Way
from combobook.render.cards import LayeringCard
from combobook.wording import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """Of one layering: lines to cross out and write on its card, and lines that are on no card."""

    on_chart: tuple[str, ...]
    beside: tuple[str, ...]


def said(edition: Edition, each: Changed, today: LayeringCard, way: Way) -> Said:
    """Those of its verdicts that went this way, in the words of the cards; `today` is its card on today's chart."""
    words, before, now = edition.words, each.before, each.now
    shown: list[str] = []
    beside: list[str] = []
    if each.food is not None and each.food.way is way:
        shown += _food(before, today, words)
        beside += () if shown else _ware(now, words)
    if each.movement is not None and each.movement.way is way:
        running = tuple(_running(before, now, today, words))
        margin = tuple(_margin(before, now, today, words))
        shown += running
        beside += margin or (() if running else (words("change_sheet.see_page"),))
    return Said(on_chart=tuple(shown), beside=tuple(beside))


def _food(before: PastVerdict, today: LayeringCard, words: Words) -> Iterator[str]:
    then, now = _food_then(before, words), " ".join(today.food_lines)
    if then != now:
        yield words("change_sheet.food", before=then, now=now)


def _food_then(before: PastVerdict, words: Words) -> str:
    """As a card says it: the two lines of the food words in one."""
    never = before.food == words("food.never.full")
    return " ".join(words.lines(f"food.{'never' if never else before.food_level.replace(' ', '_')}.card"))


def _ware(now: PastVerdict, words: Words) -> Iterator[str]:
    """The same food words, but the studio's own rule on where they let it go is another."""
    yield words(f"change_sheet.{'ware' if now.food_ware else 'no_ware'}")


def _running(before: PastVerdict, now: PastVerdict, today: LayeringCard, words: Words) -> Iterator[str]:
    if before.to_do != today.to_do:
        yield words("change_sheet.running", before=before.to_do, now=today.to_do)
    elif before.movement_class != now.movement_class:
        marks = (words(f"movement.{each.movement_class}.word") for each in (before, now))
        yield words("change_sheet.mark", before=next(marks), now=next(marks))
    if before.catch_plate != bool(today.catch_plate):
        key = "plate_now" if today.catch_plate else "plate_gone"
        yield words(f"change_sheet.{key}", plate=words("to_do.catch_plate"))


def _margin(before: PastVerdict, now: PastVerdict, today: LayeringCard, words: Words) -> Iterator[str]:
    """The bare clay above the kiln shelf, where the instruction on the card is another than to leave so much."""
    if before.margin_mm != now.margin_mm and before.to_do == today.to_do:
        yield words("change_sheet.margin", before_up_mm=before.margin_mm, now_up_mm=now.margin_mm)
