"""How far to trust it, rules.md section 4: each line of the table, and the bound that few firings leave open."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from scipy.stats import binomtest

from combobook.entries import NOT_KNOWN, OFF_THE_TILE, Stood
from combobook.judge import judge_pair
from combobook.judge.odds import failure_bound
from combobook.verdicts import Evidence
from tests.judge.building import FIRINGS, PINHOLES, RED, Tile, book, entry, firing, glaze, tile

A, B = glaze("amber"), glaze("birch")
F1, F2, F3, F4 = FIRINGS.values()


def trust(*tiles: Tile) -> Evidence:
    return judge_pair(book([entry(A, B)], tiles), "amber", "birch").evidence


def t(number: int, fired: Any = F1, **more: Any) -> Tile:
    return tile(f"T{number}", more.pop("layers", (A, B)), more.pop("coats", (1, 1)), firing=fired, **more)


def test_untested_without_a_fired_row() -> None:
    found = trust(t(1, None), t(2, None, faults=PINHOLES))
    assert (found.level.name, found.tiles, found.firings, found.looked_over, found.faulty) == ("UNTESTED", 0, 0, 0, 0)


def test_tiles_are_counted_by_their_marks_and_firings_by_name_looked_over_or_not() -> None:
    found = trust(t(1), t(1, coats=(2, 1)), t(2, faults=NOT_KNOWN), t(3, F2, clay=RED, faults=PINHOLES))
    assert (found.tiles, found.firings, found.looked_over, found.faulty) == (3, 2, 2, 1)


def test_seen_once_for_one_tile_or_for_tiles_of_different_coats_clays_or_blank_clays() -> None:
    assert trust(t(1)).level.name == "SEEN_ONCE"
    assert trust(t(1), t(2, coats=(2, 1)), t(3, clay=RED), t(4, clay=None), t(5, clay=None)).level.name == "SEEN_ONCE"
    assert trust(t(1), t(2, faults=NOT_KNOWN)).level.name == "SEEN_ONCE"


def test_repeated_for_two_looked_over_tiles_of_the_same_coats_and_clay_in_one_firing() -> None:
    assert trust(t(1), t(2), t(3)).level.name == "REPEATED"


def test_steady_for_three_looked_over_tiles_from_three_firings_whatever_is_beside_them() -> None:
    three = [t(1, F1), t(2, F2), t(3, F3)]
    assert trust(*three).level.name == "STEADY"
    assert trust(*three, t(4, F4, faults=NOT_KNOWN), t(5, clay=RED)).level.name == "STEADY"
    assert trust(*three[:2], t(3, F2)).level.name == "REPEATED"
    assert trust(*three[:2], t(3, F3, faults=NOT_KNOWN)).level.name == "REPEATED"


def lots(*written: Any, glaze_lot: Any = "L2", since: Any = NOT_KNOWN, dates: Any = dt.date(2026, 9, 1)) -> Evidence:
    """Three tiles of three firings with these base lots."""
    base = glaze("amber", lot=glaze_lot, retest_since=since)
    days = dates if isinstance(dates, list) else [dates] * 3
    tiles = [
        tile(f"T{n}", (base, B), firing=firing(f"f0{n}", date=day), lots=(lot, NOT_KNOWN))
        for n, (lot, day) in enumerate(zip(written, days, strict=True), start=1)
    ]
    return judge_pair(book([entry(base, B)], tiles), "amber", "birch").evidence


def test_old_when_every_fired_row_is_of_another_lot() -> None:
    assert lots("L1", "L1", "L1").level.name == "OLD"
    assert lots("L1", "L1", NOT_KNOWN).level.name == "REPEATED"
    assert lots("L2", "L2", NOT_KNOWN).level.name == "STEADY"


def test_a_written_lot_where_the_glaze_has_none_is_neither_old_nor_current() -> None:
    assert lots("L1", "L1", "L1", glaze_lot=NOT_KNOWN).level.name == "REPEATED"


def test_a_firing_before_retest_since_or_without_a_date_is_old() -> None:
    day = dt.date(2026, 9, 1)
    none = (NOT_KNOWN,) * 3
    assert lots(*none, since=day).level.name == "STEADY"
    assert lots(*none, since=dt.date(2026, 9, 2)).level.name == "OLD"
    assert lots(*none, since=day, dates=NOT_KNOWN).level.name == "OLD"
    assert lots(*none, since=day, dates=[day, day, NOT_KNOWN]).level.name == "REPEATED"
    assert lots(*none, dates=NOT_KNOWN).level.name == "STEADY"


def test_one_stable_and_one_runny_row_of_the_same_coats_and_clay_disagree() -> None:
    found = trust(t(1), t(2, ran=OFF_THE_TILE))
    assert found.level.name == "DISAGREES"
    assert [(each.about, each.coats, each.clay.id, len(each.tiles)) for each in found.disagreements] == [
        ("running", (1, 1), "bank-white", 2)
    ]
    assert trust(t(1), t(2, ran=4)).level.name == "REPEATED"
    assert trust(t(1), t(2, ran=9, clay=RED)).level.name == "SEEN_ONCE"
    assert trust(t(1), t(2, ran=9, stood=Stood.FLAT)).level.name == "REPEATED"
    assert trust(t(1), t(2, None, ran=9)).level.name == "SEEN_ONCE"
    cool = firing("f09", witness={"middle": "01"})
    assert trust(t(1, cool), t(2, ran=9)).level.name == "DISAGREES"


def test_rows_disagree_only_where_at_least_two_of_them_were_looked_over() -> None:
    assert trust(t(1), t(2, ran=9, faults=NOT_KNOWN)).level.name == "SEEN_ONCE"
    assert trust(t(1), t(2), t(3, ran=9, faults=NOT_KNOWN)).level.name == "DISAGREES"


@pytest.mark.parametrize(
    ("faulty", "looked", "level"),
    [(1, 2, "DISAGREES"), (1, 3, "DISAGREES"), (2, 3, "DISAGREES"), (1, 4, "REPEATED"), (3, 4, "REPEATED"), (2, 2, "REPEATED")],
)  # fmt: skip
def test_from_a_third_to_two_thirds_with_faults_disagree(faulty: int, looked: int, level: str) -> None:
    tiles = [t(n, faults=PINHOLES if n <= faulty else ()) for n in range(1, looked + 1)]
    assert trust(*tiles).level.name == level


def test_old_comes_before_disagrees_and_disagrees_before_steady() -> None:
    base = glaze("amber", lot="L2")
    old = [tile(f"T{n}", (base, B), ran=ran, lots=("L1", NOT_KNOWN)) for n, ran in ((1, 0), (2, 9))]
    assert judge_pair(book([entry(base, B)], old), "amber", "birch").evidence.level.name == "OLD"
    assert trust(t(1, F1), t(2, F2), t(3, F3), t(4, F4, ran=9)).level.name == "DISAGREES"


# Oracle: scipy.stats.binomtest, exact one-sided interval; figures for 1, 3 and 10 firings: rules.md, section 4.
def test_the_bound_is_clopper_and_pearsons() -> None:
    for trials in (1, 2, 3, 7, 10, 40):
        for failures in range(trials + 1):
            oracle = binomtest(failures, trials, alternative="less").proportion_ci(0.95, method="exact").high
            assert failure_bound(failures, trials) == pytest.approx(oracle, abs=1e-9)
    assert [round(100 * (failure_bound(0, n) or 0)) for n in (1, 3, 10)] == [95, 63, 26]
    assert failure_bound(0, 0) is None
    with pytest.raises(ValueError, match="2 failures in 1 trials"):
        failure_bound(2, 1)


def test_a_firing_is_one_trial_and_fails_when_one_of_its_tiles_did() -> None:
    found = trust(t(1, F1), t(2, F1, faults=PINHOLES), t(3, F2), t(4, F3, faults=NOT_KNOWN))
    assert (found.firings, found.firings_looked_over, found.firings_faulty) == (3, 2, 1)
    assert found.faulty_at_most == failure_bound(1, 2)
