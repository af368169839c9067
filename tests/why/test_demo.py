"""Every ordered pair of the demo's shelf, explained: nothing breaks, every place exists, no claim is made."""

from __future__ import annotations

import re
from functools import cache
from itertools import permutations

import pytest

from combobook.judge import judge_pairs
from combobook.render.why import Asked, Why, as_text, why
from combobook.wording import Words
from tests.house.test_words import claims
from tests.why.asking import CONTENT, demo

RULES = {*(f"F{n}" for n in range(1, 10)), "M1", "M2", "M3", *(f"P{n}" for n in range(1, 9)), "label", "house"}


@cache
def words() -> Words:
    checked = demo()
    assert checked.theme is not None and checked.book is not None
    return Words(checked.theme.table, checked.book.studio.units.value)


@cache
def every() -> dict[tuple[str, str], Why]:
    """The account of each ordered pair of different glazes, and of each glaze over itself."""
    book, judged = demo().book, demo().judged
    assert book is not None and judged is not None
    pairs = judge_pairs(book, tuple(permutations(book.glazes, 2)))
    told = {
        pair: why(Asked(book=book, judged=judged, verdict=verdict, reverse=pairs[pair[::-1]], words=words()))
        for pair, verdict in pairs.items()
    }
    alone = {
        (id_, id_): why(Asked(book=book, judged=judged, verdict=verdict, reverse=None, words=words()))
        for id_, verdict in judged.glazes.items()
    }
    return told | alone


@cache
def lines_in(path: str) -> int:
    return len((CONTENT / path).read_text(encoding="utf-8").splitlines())


def test_every_pair_of_the_shelf_has_an_account() -> None:
    book = demo().book
    assert book is not None
    assert len(every()) == len(book.glazes) ** 2 >= 18**2


def test_every_reason_names_a_line_that_is_there_and_a_rule_that_exists() -> None:
    for pair, told in every().items():
        points = [point for part in told.parts for point in part.points]
        assert {rule for point in points for rule in point.rule.split()} <= RULES, pair
        for point in points:
            path, _, line = point.at.rpartition(":")
            assert 1 <= int(line) <= lines_in(path), (pair, point)


def test_every_reason_for_food_and_running_says_what_it_rests_on() -> None:
    for pair, told in every().items():
        resting = [p for part in told.parts if part.key in ("food", "running") for p in part.points]
        assert [point for point in resting if not point.rests_on] == [], pair


def test_no_account_claims_anything_or_holds_a_gap() -> None:
    for pair, told in every().items():
        text = as_text(told, words(), folder="content/", width=96, other_command="combobook why x y")
        assert claims(text) == [], pair
        assert not re.search(r"[{}]|None|NOT_KNOWN|FoodLevel|\bNone\b", text), pair


def test_a_pair_says_that_nobody_tried_it_exactly_where_it_has_no_fired_tile() -> None:
    book = demo().book
    assert book is not None
    for pair, told in every().items():
        fired = pair[0] == pair[1] or any(tile.fired for tile in book.tiles_of.get(pair, ()))
        assert bool(told.untested) == (not fired), pair


TEN = [
    ("brick-swallow", "rook-lane", "Keep off food", "The label of Brick Swallow says no food."),
    ("harbour-fog", "bramble-ink", "Keep off food", "shows pinholes"),
    ("bramble-ink", "snow-pantry", "Lab report: within the FDA limits for cup or mug", "A lab report on exactly this surface"),
    ("snow-pantry", "ember-loft", "Keep off food", "found more cadmium than the FDA limit"),
    ("kettle-rust", "millpond", "Each label allows food", "Disagrees: 2 tiles"),
    ("kettle-rust", "harbour-fog", "Each label allows food", "The jar of Harbour Fog in use now is lot"),
    ("dusk-heron", "millpond", "Not known: keep off food until it is", "ran off the foot of upright tile"),
    ("otter-slate", "quarry-moth", "Not known: keep off food until it is", "Nobody has tried this pair on a tile."),
    ("harbour-fog", "candle-weir", "Each label allows food", "Candle Weir is for rims only"),
    ("cherry-sluice", "clear-gallery", "Keep off food", "have no cone in common"),
]


@pytest.mark.parametrize(("base", "top", "verdict", "says"), TEN, ids=[f"{base} {top}" for base, top, *_ in TEN])
def test_ten_pairs_of_different_kinds_say_what_they_are_known_for(base: str, top: str, verdict: str, says: str) -> None:
    told = every()[base, top]
    assert told.parts[0].verdict.startswith(verdict)
    assert says in " ".join(as_text(told, words(), folder="", width=96, other_command="").split())
