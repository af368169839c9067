"""The verdict on food in its frame, with the reasons that decide it."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.render.cautions import cautions, stops
from combobook.render.views.desk import Desk
from combobook.render.views.pieces import Signed, Why, sign, whys
from combobook.verdicts import FoodVerdict, GlazeVerdict, LayeringVerdict
from combobook.wording import food_in_full, food_key, food_lines

Verdict = GlazeVerdict | LayeringVerdict
_FIRST = 3
"""Reasons shown at once; the rest unfold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodView:
    """The verdict on food in its frame."""

    sign: Signed
    judged: str
    """For which coats and cone, and what the house makes of it."""
    clays: str
    """Which clay decides, or empty."""
    cautions: tuple[str, ...]
    """What the verdict does not speak of, right under it."""
    piece: str
    whys: tuple[Why, ...]
    more: tuple[Why, ...]
    more_words: str


def food_sign(desk: Desk, food: FoodVerdict, one: bool, *, short: bool = False) -> Signed:
    """The food mark with its words in full, or (`short`) as on a card."""
    key = food_key(food, desk.never)
    if short:
        words = " ".join(food_lines(food, desk.never, desk.words, one))
    else:
        words = food_in_full(food, desk.never, desk.words, one)
    return Signed(key=key, mark=sign(desk.words(f"food.{key}.mark")), words=words)


def judged_words(desk: Desk, verdict: Verdict, coats: str) -> str:
    """For which coats (in words, or none) and cone it was judged, and what the house makes of it."""
    cone = desk.book.studio.cone.value
    judged = desk.text("food.judged" if coats else "food.judged_any", coats=coats, cone=cone)
    ware = "" if desk.never else desk.text("food.ware_yes" if verdict.food.food_ware else "food.ware_no")
    return f"{judged} {ware}".strip()


def stop_words(desk: Desk, verdict: Verdict) -> str:
    """That nobody should fire these together, or this here; empty where they may be. It stands before all else."""
    return " ".join(stops(verdict, desk.book, desk.edition.judged, desk.words))


def _beside(desk: Desk, verdict: Verdict) -> tuple[str, ...]:
    told = tuple(stops(verdict, desk.book, desk.edition.judged, desk.words))
    return cautions(verdict, desk.book, desk.edition.judged, desk.words)[len(told) :]


def food_view(desk: Desk, verdict: Verdict, coats: str) -> FoodView:
    """The headline verdict, for the coats in words and the studio's cone."""
    one = isinstance(verdict, GlazeVerdict)
    every = whys(verdict.food.reasons, desk)
    clays = () if isinstance(verdict, GlazeVerdict) else verdict.deciding_clays
    more = every[_FIRST:] if len(every) > _FIRST + 1 else ()
    return FoodView(
        sign=food_sign(desk, verdict.food, one),
        judged=judged_words(desk, verdict, coats),
        clays=desk.text("food.deciding", clays=desk.words.listed([c.name.value for c in clays])) if clays else "",
        cautions=_beside(desk, verdict),
        piece=desk.words("food.piece"),
        whys=every[: len(every) - len(more)],
        more=more,
        more_words=desk.text("food.more", n=len(more)) if more else "",
    )
