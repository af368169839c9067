"""Fire, rules.md sections 1 and 5: the cone a tile reached, hot and cool shelves, the peak against the table."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from combobook.entries import NOT_KNOWN, KilnShelf
from combobook.judge import judge
from combobook.judge.fire import tile_fire
from combobook.problems import Severity
from tests.judge.building import book, firing, glaze, mm, tile

UPPER, MIDDLE, LOWER = KilnShelf


@pytest.mark.parametrize(
    ("witness", "shelf", "expected"),
    [
        ({"upper": "6", "lower": "7"}, LOWER, ("7", "witness", "hot")),
        ({"upper": "6", "lower": "7"}, MIDDLE, ("7", "furthest", "hot")),
        ({"upper": "6", "lower": "7"}, NOT_KNOWN, ("7", "furthest", "hot")),
        ({"upper": "5 1/2", "lower": "6 1/2"}, NOT_KNOWN, ("5 1/2", "furthest", "as meant")),
        ({"upper": "7", "lower": "5"}, MIDDLE, ("5", "furthest", "cool")),
        ({}, UPPER, ("6", "controller", "as meant")),
    ],
)
def test_the_cone_a_tile_reached(witness: dict[str, str], shelf: Any, expected: tuple[str, str, str]) -> None:
    found = tile_fire(firing("f09", witness=witness), shelf)
    assert (str(found.cone), found.known_by, found.fired) == expected


def test_half_a_cone_hot_is_as_meant() -> None:
    found = judge(book(firings=[firing("f09", witness={"upper": "6 1/2", "lower": "7"})]))[0].firings["f09"]
    assert [each.fired for each in found.shelves] == ["as meant", "hot"]


def test_more_than_half_a_cone_from_the_target_is_hot_or_cool_and_exactly_half_is_not() -> None:
    fired = firing("f09", "05", witness={"upper": "05 1/2", "middle": "04", "lower": "06"})
    judged, problems = judge(book(firings=[fired]))
    assert [(s.shelf.value, s.off_by_halves, s.fired) for s in judged.firings["f09"].shelves] == [
        ("upper", -1, "as meant"),
        ("middle", 2, "hot"),
        ("lower", -2, "cool"),
    ]
    assert problems == ()


# Orton, Temperature Equivalents, 2016, self-supporting: cone 6 at 15, 60, 150 °C/h is 1185, 1222, 1243 °C; cone 5 1186 at 60.
@pytest.mark.parametrize(
    ("rate", "value"), [(15, 1185), (60, 1222), (150, 1243), (105, Fraction(2465, 2)), (151, None)]
)
def test_the_targets_temperature_is_of_its_rate(rate: int, value: Any) -> None:
    assert judge(book(firings=[firing("f09", rate=mm(rate))]))[0].firings["f09"].table_c == value


@pytest.mark.parametrize(
    ("peak", "witness", "off", "warned"),
    [
        (1242, {"upper": "6"}, 20, False),
        (1243, {"upper": "6"}, 21, True),
        (1201, {"upper": "6"}, -21, True),
        (1200, {"upper": "6", "lower": "5"}, 14, False),
        (1260, {"upper": "6 1/2"}, None, False),
        (1260, {}, None, False),
    ],
)
def test_a_peak_more_than_twenty_degrees_from_the_nearest_witness_warns(
    peak: int, witness: dict[str, str], off: int | None, warned: bool
) -> None:
    fired = firing("f09", rate=mm(60), peak=mm(peak), witness=witness)
    judged, problems = judge(book(firings=[fired]))
    assert judged.firings["f09"].peak_off_c == off
    assert [(p.code, p.severity, p.place) for p in problems] == (
        [("peak-against-cone", Severity.WARNING, fired.peak.place)] if warned else []
    )


@pytest.mark.parametrize("without", [{"rate": NOT_KNOWN}, {"hold": mm(10)}, {"peak": NOT_KNOWN}])
def test_without_a_rate_or_with_a_hold_nothing_is_said_of_the_peak(without: dict[str, Any]) -> None:
    fired = firing("f09", **({"rate": mm(60), "peak": mm(1290)} | without))
    judged, problems = judge(book(firings=[fired]))
    assert (judged.firings["f09"].peak_off_c, problems) == (None, ())


def test_every_fired_tile_says_its_cone_and_an_unfired_one_does_not() -> None:
    a = glaze("amber")
    fired, waiting = tile("T1", (a,)), tile("T2", (a,), firing=None)
    judged, problems = judge(book(tiles=[fired, waiting]))
    assert list(judged.tile_fire) == [fired.place]
    assert judged.firings["f01"].tiles == (fired,)
    assert problems == ()
