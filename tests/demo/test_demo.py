"""The demo studio shows everything the book can say: at least two of every verdict, and few, deliberate warnings."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from combobook.book import Combination
from combobook.entries import NOT_KNOWN, Flow, FoodLabel, GoesOn, Status, Stood
from combobook.pictures import DRAWING_PREFIX
from combobook.pipeline import Checked, check
from combobook.progress import Silent
from combobook.verdicts import EvidenceLevel, FoodLevel, LayeringVerdict, MoveClass, ToDo

CONTENT = Path(__file__).resolve().parents[2] / "content"


@pytest.fixture(scope="module")
def demo() -> Checked:
    return check(CONTENT, Silent())


@pytest.fixture(scope="module")
def entries(demo: Checked) -> tuple[tuple[Combination, LayeringVerdict], ...]:
    """Each combination on file with its verdict."""
    assert demo.book and demo.judged
    return tuple((e, demo.judged.layerings[e.base.id, e.top.id]) for e in demo.book.combinations.values())


Entries = tuple[tuple[Combination, LayeringVerdict], ...]

WARNINGS = {
    # an earthenware clay and a low-fire jar in a cone 6 studio: the two that must never go into the kiln
    ("clays/garden-pot-red.md", "clay-cone"),
    ("glazes/cherry-sluice.md", "cone-outside-label"),
    # a jar that is out and keeps its place on the chart
    ("combinations/cinder-lark-over-snow-pantry.md", "off-shelf-on-chart"),
    # the label scrubbed off, the data sheets nobody has dated
    ("glazes/quarry-moth.md", "label-not-read"),
    ("glazes/quarry-moth.md", "data-sheet-not-read"),
    ("glazes/cinder-lark.md", "data-sheet-not-read"),
    # the drifted thermocouple
    ("firings/f05.md", "peak-against-cone"),
    # a tile code that a spreadsheet takes for a day, in both logs
    ("logs/2026-09-15-brushing-f04.csv", "tile-reads-as-date"),
    ("logs/2026-09-29-unloading-f04.csv", "tile-reads-as-date"),
    # two pairs tried out by somebody and not written up
    ("logs/2026-10-27-brushing-f07.csv", "pair-without-entry"),
    ("logs/2026-11-03-brushing-f08.csv", "pair-without-entry"),
    # a result without its kiln
    ("logs/2026-11-17-brushing.csv", "firing-forgotten"),
}


def test_the_demo_has_no_errors_and_only_the_warnings_it_means_to_show(demo: Checked) -> None:
    assert [p for p in demo.problems if p.is_error] == []
    found = Counter((p.place.path, p.code) for p in demo.problems)
    assert found == Counter(WARNINGS)


def test_the_demo_is_as_large_as_a_busy_studio(demo: Checked, entries: Entries) -> None:
    book = demo.book
    assert book
    assert len(book.glazes) >= 18
    assert len(book.clays) == 4
    assert len(book.forms) >= 5
    assert len(book.firings) >= 6
    assert len(entries) >= 90
    assert sum(entry.on_chart for entry, _ in entries) >= 60
    assert len(book.reports) >= 3
    assert len(book.pages) >= 3


def test_the_shelf_is_mixed(demo: Checked) -> None:
    assert demo.book
    glazes = demo.book.glazes.values()
    labels = Counter(g.food_label.value for g in glazes)
    assert set(labels) == {*FoodLabel, NOT_KNOWN}
    status = Counter(g.status.value for g in glazes)
    assert status[Status.OUT] == 2
    assert status[Status.RETIRED] == 2
    assert sum(g.goes_on.value is GoesOn.RIM_ONLY for g in glazes) == 2
    assert {g.flow.value for g in glazes} == {*Flow, NOT_KNOWN}
    assert sum(g.retest_since.stated for g in glazes) >= 2
    assert sum(g.cone.value is NOT_KNOWN for g in glazes) == 1


def test_every_food_level_is_there_twice_for_each_way_of_coming_by_it(entries: Entries) -> None:
    by_rule: Counter[tuple[FoodLevel, str]] = Counter()
    for _, verdict in entries:
        for rule in {r.rule for r in verdict.food.reasons}:
            by_rule[verdict.food.level, rule] += 1
    wanted = [(FoodLevel.KEEP_OFF, rule) for rule in ("F1", "F2", "F4")]
    wanted += [(FoodLevel.NOT_KNOWN, rule) for rule in ("F2", "F5", "F6", "F7", "F8")]
    wanted += [(FoodLevel.LABELS_ALLOW, "label"), (FoodLevel.LAB_REPORT, "F9")]
    assert {key: by_rule[key] for key in wanted if by_rule[key] < 2} == {}
    assert by_rule[FoodLevel.KEEP_OFF, "F3"] == 1


def test_every_class_and_every_evidence_level_is_there_twice(entries: Entries) -> None:
    classes = Counter(v.movement.cls for _, v in entries)
    levels = Counter(v.evidence.level for _, v in entries)
    assert all(classes[c] >= 2 for c in MoveClass)
    assert all(levels[level] >= 2 for level in EvidenceLevel)


def test_the_chart_shows_every_instruction_about_running(entries: Entries) -> None:
    assert {v.movement.to_do for e, v in entries if e.on_chart} == set(ToDo)


def test_tiles_disagree_about_running_and_about_faults(entries: Entries) -> None:
    about = Counter(d.about for _, v in entries for d in v.evidence.disagreements)
    assert about["running"] >= 2
    assert about["faults"] >= 2


def test_some_tiles_ran_off_and_some_were_fired_flat(demo: Checked, entries: Entries) -> None:
    assert demo.book
    assert sum(v.movement.off_the_tile for _, v in entries) >= 2
    assert any(t.stood.value is Stood.FLAT for t in demo.book.tiles)


def test_running_and_the_lip_leave_no_useful_place(entries: Entries) -> None:
    """Candle Weir ran 33 mm: twice that off a bowl of 70 mm leaves 4 mm of wall, though the labels allow food."""
    verdict = next(v for e, v in entries if e.id == "candle-weir-over-snow-pantry")
    bowl = next(b for b in verdict.bands if b.form.id == "bowl")
    assert [n.rule for n in bowl.none] == ["P2"]
    assert verdict.food.food_ware
    collided = [v.id for e, v in entries if e.on_chart for b in v.bands if {"P1", "P3"} <= {n.rule for n in b.none}]
    assert len(set(collided)) >= 2


def test_the_two_orders_of_a_pair_say_different_things(entries: Entries) -> None:
    verdicts = {e.id: v for e, v in entries}
    fog, ink = verdicts["harbour-fog-over-bramble-ink"], verdicts["bramble-ink-over-harbour-fog"]
    assert (fog.food.level, ink.food.level) == (FoodLevel.LABELS_ALLOW, FoodLevel.KEEP_OFF)
    assert fog.evidence.level is EvidenceLevel.STEADY
    assert ink.movement.cls is MoveClass.RUNNY
    assert fog.coats == ink.coats
    milk, ice = verdicts["millpond-over-snow-pantry"], verdicts["snow-pantry-over-millpond"]
    assert (milk.food.level, ice.food.level) == (FoodLevel.LABELS_ALLOW, FoodLevel.KEEP_OFF)


def _rows() -> Iterator[tuple[Path, dict[str, str]]]:
    for path in sorted((CONTENT / "logs").glob("*.csv")):
        text = path.read_text(encoding="utf-8-sig")
        delimiter = max(",;\t", key=text.partition("\n")[0].count)
        for row in csv.DictReader(text.splitlines(), delimiter=delimiter):
            yield path, row


def test_the_logs_are_those_of_a_class_brushing_then_unloading() -> None:
    rows = tuple(_rows())
    assert len(rows) >= 300
    brushed = {row["tile"] for path, row in rows if "brushing" in path.name}
    unloaded = {row["tile"] for path, row in rows if "unloading" in path.name}
    assert unloaded <= brushed
    assert brushed - unloaded, "some tiles wait for a kiln"
    assert any(";" in p.read_text(encoding="utf-8-sig").partition("\n")[0] for p, _ in rows)
    assert any("," in (row.get("ran") or "") for _, row in rows), "a comma as the decimal sign"
    assert any("ran in" in row for _, row in rows)
    assert any("ran mm" in row for _, row in rows)
    blank = [row for path, row in rows if "unloading" in path.name and not row["faults"]]
    assert blank, "tiles that nobody looked over"


def test_every_layering_on_the_chart_has_a_picture_and_every_picture_is_used(demo: Checked, entries: Entries) -> None:
    assert demo.book
    shown = {t.photo.value for t in demo.book.tiles if isinstance(t.photo.value, str)}
    assert shown == set(demo.book.photos)
    assert all(name.startswith(DRAWING_PREFIX) for name in shown)
    bare = [e.id for e, v in entries if e.on_chart and not any(isinstance(t.photo.value, str) for t in v.tiles)]
    assert bare == []
    assert demo.judged
    assert all(any(isinstance(t.photo.value, str) for t in v.tiles) for v in demo.judged.glazes.values())


def test_the_pictures_are_together_under_20_mb() -> None:
    assert sum(p.stat().st_size for p in (CONTENT / "photos").iterdir()) < 20_000_000


def test_the_low_fire_clay_was_never_loaded_at_cone_6(demo: Checked) -> None:
    assert demo.book
    on_it = [t for t in demo.book.tiles if t.clay and t.clay.id == "garden-pot-red"]
    assert on_it
    assert {t.firing.id for t in on_it if t.firing} == {"low-1"}
    assert all(t.fired for t in on_it)


def test_no_word_of_the_demo_is_a_persons(demo: Checked) -> None:
    """Only codes mark tiles; nobody is named in `maker`."""
    assert demo.book
    makers = {g.maker.value for g in demo.book.glazes.values()} - {NOT_KNOWN}
    assert makers == {"mixed for the shared shelf"}
    assert all(len(t.tile.value) <= 6 for t in demo.book.tiles)
