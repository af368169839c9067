"""What tells tiles apart that came out differently; why a tile is old; a firing's load, worst first."""

from __future__ import annotations

import datetime as dt
from typing import Any

from combobook.entries import NOT_KNOWN, OFF_THE_TILE, KilnShelf, Stood
from combobook.judge import judge, judge_pair
from combobook.verdicts import Evidence, Judged
from tests.judge.building import FIRINGS, PINHOLES, RED, Tile, book, entry, firing, glaze, mm, tile

A, B = glaze("amber"), glaze("birch")
F1, F2, F3, _ = FIRINGS.values()
HOT = firing("f09", witness={"upper": "7"})


def trust(*tiles: Tile) -> Evidence:
    return judge_pair(book([entry(A, B)], tiles), "amber", "birch").evidence


def t(number: int, fired: Any = F1, **more: Any) -> Tile:
    return tile(f"T{number}", (A, B), more.pop("coats", (1, 1)), firing=fired, **more)


def judged(*tiles: Tile) -> Judged:
    found, problems = judge(book([], tiles))
    assert problems == ()
    return found


def test_a_disagreement_names_the_fields_in_which_its_tiles_differ_and_no_other() -> None:
    (found,) = trust(t(1), t(2, HOT, shelf=KilnShelf.UPPER, ran=9, lots=("L1", NOT_KNOWN))).disagreements
    assert found.differ == ("firing", "shelf", "fired", "base_lot")


def test_tiles_that_nothing_written_tells_apart_differ_in_nothing() -> None:
    (found,) = trust(t(1), t(2, ran=9)).disagreements
    assert found.differ == ()


def test_other_coats_and_another_clay_that_came_out_differently_are_a_contrast_and_no_disagreement() -> None:
    found = trust(t(1), t(2, coats=(3, 1), clay=RED, ran=9))
    assert found.disagreements == ()
    assert [(c.about, [x.tile.value for x in c.tiles], c.differ) for c in found.contrasts] == [
        ("running", ["T1", "T2"], ("coats", "clay"))
    ]


def test_faults_on_one_clay_and_none_on_the_other_are_a_contrast() -> None:
    (found,) = trust(t(1, faults=PINHOLES), t(2, clay=RED), t(3, clay=RED, faults=NOT_KNOWN)).contrasts
    assert (found.about, [x.tile.value for x in found.tiles], found.differ) == ("faults", ["T1", "T2"], ("clay",))


def test_a_blank_clay_is_never_the_same_clay() -> None:
    (found,) = trust(t(1, clay=None), t(2, clay=None, ran=9)).contrasts
    assert found.differ == ("clay",)


def test_there_is_no_contrast_where_tiles_agree_or_a_disagreement_speaks_of_it_or_a_tile_lay_flat() -> None:
    assert trust(t(1), t(2, coats=(2, 1), clay=RED)).contrasts == ()
    assert trust(t(1), t(2, ran=9), t(3, clay=RED)).contrasts == ()
    assert trust(t(1), t(2, coats=(2, 1), ran=9, stood=Stood.FLAT)).contrasts == ()
    assert trust(t(1), t(2, None, coats=(2, 1), ran=9)).contrasts == ()


def why_old(*lots: Any, base: Any, top: Any = B, fired: Any = F1) -> list[tuple[str, str | None, bool]]:
    one = tile("T1", (base, top), firing=fired, lots=lots)
    return [(why.glaze.id, why.lot, why.before) for why in judged(one).old.get(one.place, ())]


def test_a_tile_of_another_lot_is_old_because_of_that_glaze() -> None:
    new = glaze("amber", lot="L2")
    assert why_old("L1", NOT_KNOWN, base=new) == [("amber", "L1", False)]
    assert why_old("L2", NOT_KNOWN, base=new) == []
    assert why_old(NOT_KNOWN, NOT_KNOWN, base=new) == []
    assert why_old("L1", NOT_KNOWN, base=A) == [], "a lot where the glaze has none is neither old nor current"


def test_a_firing_before_retest_since_or_without_a_date_makes_a_tile_old_and_both_glazes_may() -> None:
    since = glaze("amber", lot="L2", retest_since=dt.date(2026, 9, 2))
    top = glaze("birch", lot="B2")
    assert why_old(NOT_KNOWN, "B1", base=since, top=top) == [("amber", None, True), ("birch", "B1", False)]
    assert why_old("L1", NOT_KNOWN, base=since, fired=firing("f09", date=NOT_KNOWN)) == [("amber", "L1", True)]
    assert why_old(NOT_KNOWN, NOT_KNOWN, base=since, fired=firing("f09", date=dt.date(2026, 9, 2))) == []


def test_a_tile_that_is_not_fired_is_not_old_evidence() -> None:
    assert why_old("L1", NOT_KNOWN, base=glaze("amber", lot="L2"), fired=None) == []


def test_a_load_stands_worst_first() -> None:
    load = (
        t(1, ran=NOT_KNOWN, faults=NOT_KNOWN),
        t(2),
        t(3, ran=3),
        t(4, faults=PINHOLES),
        t(5, ran=6, faults=NOT_KNOWN),
        t(6, ran=12, stood=Stood.FLAT),
        t(7, ran=OFF_THE_TILE),
    )
    assert [x.tile.value for x in judged(*load).firings["f01"].tiles] == ["T7", "T6", "T5", "T4", "T3", "T2", "T1"]


def test_the_peak_is_measured_against_the_nearest_cone_and_says_whose_shelf_it_was() -> None:
    """Orton 2016, self-supporting, 60 °C/h: cone 5 bends at 1186 °C, cone 6 at 1222 °C."""
    fired = firing("f09", rate=mm(60), peak=mm(1200), witness={"upper": "6", "lower": "5"})
    found = judge(book(firings=[fired]))[0].firings["f09"]
    assert [(each.shelf.value, each.table_c) for each in found.shelves] == [("upper", 1222), ("lower", 1186)]
    assert found.peak_by is not None
    assert (found.peak_by.shelf, found.peak_off_c, found.peak_fits) == (KilnShelf.LOWER, 14, True)


def test_a_peak_too_far_from_every_cone_does_not_fit() -> None:
    fired = firing("f09", rate=mm(60), peak=mm(1243), witness={"upper": "6"})
    judged_, problems = judge(book(firings=[fired]))
    assert not judged_.firings["f09"].peak_fits
    assert [problem.code for problem in problems] == ["peak-against-cone"]
