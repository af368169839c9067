"""What changed since the last edition: each verdict under the way it went, with its own reasons, and a way to each part."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import html5lib
import pytest

from combobook.past import Changed, PastEdition, PastReason, PastVerdict, Way, compare
from combobook.render.views.changed import ChangedView
from combobook.render.views.changes import ChangesView, changes_view
from tests.published_demo import demo_edition, demo_files
from tests.site.editions import text_of

BEFORE = PastVerdict(
    id="pond-lantern-over-ferry-rust", base="ferry-rust", top="pond-lantern", name="Pond Lantern over Ferry Rust",
    order="", marks=("FR", "PL"), status="", food_level="not known", food_ware=False, food="Not known",
    food_reasons=(PastReason(says="No tile has been looked over.", tiles=()),), movement_class="runny",
    to_do="Top 25 mm", catch_plate=True, margin_mm=13, reach_mm=25, off_walls=False,
    movement_reasons=(PastReason(says="Nobody knows.", tiles=()),), evidence_level="seen once", tiles=1, firings=1,
    evidence="seen once", places=(),
)  # fmt: skip
KINDER_FOOD = {"food_level": "labels allow", "food_reasons": (PastReason(says="Each label allows food.", tiles=()),)}
MORE_MARGIN = {"margin_mm": 18, "movement_reasons": (PastReason(says="Tile B7 ran 9 mm.", tiles=("B7",)),)}


def changed(**now: object) -> Changed:
    """The one thing that changed where today's edition says this instead."""
    since, today = (
        PastEdition(slug=name, studio="R", edition=name, date=None, cone="6", glazes=(), layerings=(verdict,))
        for name, verdict in (("then", BEFORE), ("now", replace(BEFORE, **now)))  # type: ignore[arg-type]
    )
    (found,) = compare(since, today, (), frozenset()).verdicts
    return found


def test_kinder_food_beside_more_margin_goes_two_ways_each_with_its_own_reasons() -> None:
    found = changed(**KINDER_FOOD, **MORE_MARGIN)
    assert found.food is not None and found.movement is not None
    assert (found.food.way, found.food.came) == (Way.KINDER, ("Each label allows food.",))
    assert (found.movement.way, found.movement.came) == (Way.STRICTER, ("Tile B7 ran 9 mm.",))
    assert (found.food.went, found.movement.went) == (("No tile has been looked over.",), ("Nobody knows.",))
    assert found.stricter


@pytest.mark.parametrize(
    ("now", "way"),
    [
        ({"margin_mm": 12}, Way.KINDER),
        ({"margin_mm": 12, "catch_plate": False}, Way.KINDER),
        ({"margin_mm": 12, "reach_mm": 20}, Way.STRICTER),
        ({"reach_mm": None, "margin_mm": 14}, Way.STRICTER),
        ({"to_do": "Top 1 in"}, Way.OTHERWISE),
    ],
)
def test_running_of_which_anything_is_worse_is_stricter(now: dict[str, object], way: Way) -> None:
    found = changed(**now)
    assert found.food is None and found.movement is not None
    assert found.movement.way is way and found.stricter is (way is Way.STRICTER)


def view() -> ChangesView:
    found = changes_view(demo_edition())
    assert found is not None
    return found


def of_way(id_: str) -> dict[str, ChangedView]:
    (way,) = (way for way in view().ways if way.id == id_)
    return {item.name: item for item in way.items}


def test_the_demo_has_a_layering_in_both_parts_with_one_line_in_each() -> None:
    name = "Millpond over Clear Gallery"
    (stricter,), (kinder,) = of_way("stricter")[name].lines, of_way("kinder")[name].lines
    assert stricter.says.startswith("Running: ") and kinder.says.startswith("Food: was “Not known")
    assert not set(stricter.came) & set(kinder.came)
    assert any("label" in says for says in kinder.came) and not any("label" in says for says in stricter.came)


@cache
def page() -> str:
    return demo_files()["site/changes.html"].decode()


def test_every_part_of_the_page_is_reached_from_its_head_with_the_number_of_things_in_it() -> None:
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page())
    ids = {each.get("id") for each in tree.iter() if each.get("id")}
    jumps = tree.find(".//ul[@class='jump change-jump']")
    assert jumps is not None
    ways = {link.get("href"): "".join(link.itertext()) for link in jumps.iter("a")}
    sections = [each.get("aria-labelledby") for each in tree.iter("section")]
    assert [href[1:] for href in ways] == sections and set(sections) <= ids
    assert re.fullmatch(rf"Stricter now, and why \({len(of_way('stricter'))}\)", ways["#stricter"])


def test_a_reason_that_decides_no_more_is_not_said_to_be_untrue() -> None:
    said = text_of(page())
    assert "What decided before; it may still be so, but decides no more: The label of" in said
    assert "No longer decides" not in said
