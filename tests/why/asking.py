"""Accounts of small studios, run through the real stages in memory."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from combobook.judge import judge, judge_pair
from combobook.pipeline import Checked, check
from combobook.progress import Silent
from combobook.render.why import Asked, Part, Point, Why, why
from combobook.theme import load_theme
from combobook.wording import Words
from tests.studios import make_with

CONTENT = Path(__file__).parents[2] / "content"


def account(
    changed: Mapping[str, str] | None = None,
    without: tuple[str, ...] = (),
    base: str = "ferry-rust",
    top: str = "pond-lantern",
) -> Why:
    """Why, of the good studio with these changes; `base` under itself is that glaze alone."""
    book, found = make_with(changed, without)
    assert not [problem for problem in found if problem.is_error]
    judged, _ = judge(book)
    studio = book.studio
    theme, _ = load_theme(studio.theme.value, studio.language.value, studio.theme.place, studio.language.place)
    assert theme is not None
    words = Words(theme.table, studio.units.value)
    verdict = judged.glazes[base] if base == top else judge_pair(book, base, top)
    reverse = None if base == top else judge_pair(book, top, base)
    return why(Asked(book=book, judged=judged, verdict=verdict, reverse=reverse, words=words))


@cache
def demo() -> Checked:
    """The demo studio, checked. Raises AssertionError where it has an error."""
    checked = check(CONTENT, Silent())
    assert checked.book is not None and checked.judged is not None and checked.theme is not None
    return checked


def part(told: Why, key: str) -> Part:
    """The one part of that key; raises where there is none."""
    found = [each for each in told.parts if each.key == key]
    assert len(found) == 1, key
    return found[0]


def chain(points: tuple[Point, ...]) -> list[tuple[str, str, str, str]]:
    """Each reason as (rule, sentence, what it rests on, place)."""
    return [(each.rule, each.says, each.rests_on, each.at) for each in points]
