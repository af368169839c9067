"""Witness cones over the term: the drawing read back as shapes at heights, and the same in words."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from itertools import pairwise
from xml.etree import ElementTree

import html5lib
import pytest

from combobook.render.views.plot_dates import spread
from tests.published_demo import demo_files
from tests.site.editions import pages_of, text_of
from tests.studios import entry

FIRING = "firings/f01.md"


def fired(date: str, *witness: str, cone: str = "6") -> str:
    """A firing's entry; `witness` as `upper: 7`."""
    cones = ["witness:", *(f"  {line}" for line in witness)] if witness else []
    return entry(f"cone: {cone}", *([f"date: {date}"] if date else []), *cones)


def drawings(page: str) -> list[ElementTree.Element]:
    """The page's drawings of readings, in order: each aim's wide one, then its narrow one."""
    return [ElementTree.fromstring(found) for found in re.findall(r'<svg class="plot".*?</svg>', page, re.DOTALL)]


def shapes(drawing: ElementTree.Element) -> list[tuple[str, float, float]]:
    """Shape, x and y of each reading: `up`, `down` or `round`."""
    found = []
    for each in drawing:
        if each.get("class") != "plot-mark":
            continue
        if each.tag == "circle":
            found.append(("round", float(each.get("cx", "")), float(each.get("cy", ""))))
            continue
        left, first, *_, tip = map(float, re.findall(r"-?[\d.]+", each.get("d", "")))
        found.append(("up" if tip < first else "down", left + 7.5, (first + tip) / 2))
    return found


def texts(drawing: ElementTree.Element) -> dict[str, tuple[float, float]]:
    return {each.text or "": (float(each.get("x", "")), float(each.get("y", ""))) for each in drawing.iter("text")}


def words_of(page: str) -> list[list[str]]:
    """The rows of the tables of readings."""
    root = html5lib.parse(page, namespaceHTMLElements=False)
    tables = [t for t in root.iter("table") if "readings" in (t.get("class") or "")]
    rows = [row for table in tables for row in table.findall("tbody/tr")]
    return [["".join(cell.itertext()) for cell in row] for row in rows]


def two_firings() -> Mapping[str, str]:
    return {
        FIRING: fired("2026-09-04", "upper: 7", "middle: 6", "lower: 5"),
        "firings/f02.md": fired("2026-11-04", "middle: 6 1/2"),
    }


def test_each_kiln_shelf_has_a_shape_of_its_own_and_a_hotter_cone_stands_higher() -> None:
    wide = drawings(pages_of(two_firings())["firings.html"])[0]
    (up, middle, down, second) = shapes(wide)
    assert [up[0], middle[0], down[0], second[0]] == ["up", "round", "down", "round"]
    assert up[2] < second[2] < middle[2] < down[2]
    assert max(up[1], middle[1], down[1]) < second[1], "the later firing stands further right"


def test_the_aim_is_a_line_through_a_band_of_half_a_cone_to_either_side() -> None:
    wide = drawings(pages_of(two_firings())["firings.html"])[0]
    band = next(each for each in wide if each.get("class") == "plot-band")
    aim = next(each for each in wide if each.get("class") == "plot-aim")
    top, height = float(band.get("y", "")), float(band.get("height", ""))
    assert float(re.findall(r"[\d.]+", aim.get("d", ""))[1]) == pytest.approx(top + height / 2)
    cones = texts(wide)
    assert height == pytest.approx(cones["cone 6"][1] - cones["cone 7"][1]), "half a cone twice is a cone"


def test_what_is_off_the_band_says_hot_or_cool_in_words_and_what_is_on_its_edge_does_not() -> None:
    wide, narrow = drawings(pages_of(two_firings())["firings.html"])
    assert {"hot", "cool"} <= texts(wide).keys() & texts(narrow).keys()
    edge = {FIRING: fired("2026-09-04", "upper: 6 1/2", "lower: 5 1/2")}
    assert {"hot", "cool"}.isdisjoint(texts(drawings(pages_of(edge)["firings.html"])[0]))


def test_a_firing_without_a_cone_is_drawn_as_unknown_and_says_so() -> None:
    page = pages_of({FIRING: fired("2026-09-04")})["firings.html"]
    wide = drawings(page)[0]
    assert shapes(wide) == []
    (unknown,) = [each.get("d", "") for each in wide if each.get("class") == "plot-none"]
    _, top, bottom = map(float, re.findall(r"[\d.]+", unknown))
    band = next(each for each in wide if each.get("class") == "plot-band")
    assert top < float(band.get("y", "")) and bottom > float(band.get("y", "")) + float(band.get("height", ""))
    assert texts(wide)["no cone"][1] < top, "the broken line does not run through its words"
    assert words_of(page) == [["f01", "4 September 2026", "no cone", "no cone", "no cone"]]


def test_each_firing_names_its_kiln_under_its_day() -> None:
    named = {FIRING: entry("cone: 6", "date: 2026-09-04", "kiln: Little Alder")}
    for drawing in drawings(pages_of(named)["firings.html"]):
        said = texts(drawing)
        assert said["4 Sep"][1] < said["Little Alder" if "Little Alder" in said else "Little"][1]


def test_the_table_says_every_reading_in_words_earliest_first() -> None:
    assert words_of(pages_of(two_firings())["firings.html"]) == [
        ["f01", "4 September 2026", "cone 7, fired hot", "cone 6", "cone 5, fired cool"],
        ["f02", "4 November 2026", "no cone", "cone 6 1/2", "no cone"],
    ]


def test_a_firing_without_a_date_stands_beside_the_drawing_and_last_in_the_table() -> None:
    page = pages_of({FIRING: fired("", "middle: 7"), "firings/f02.md": fired("2026-11-04", "middle: 6")})[
        "firings.html"
    ]
    assert "Without a date, so not in the drawing: f01." in text_of(page)
    assert [kind for kind, *_ in shapes(drawings(page)[0])] == ["round"]
    assert [row[0] for row in words_of(page)] == ["f02", "f01"]


def test_where_no_firing_has_a_date_there_is_a_table_and_no_drawing() -> None:
    page = pages_of({FIRING: fired("", "middle: 7")})["firings.html"]
    assert drawings(page) == []
    assert words_of(page) == [["f01", "not known", "no cone", "cone 7, fired hot", "no cone"]]


def test_firings_that_aimed_at_another_cone_have_a_drawing_of_their_own_after_the_studios() -> None:
    low = {FIRING: fired("2026-09-04", "middle: 04", cone="04"), "firings/f02.md": fired("2026-11-04", "middle: 6")}
    page = pages_of(low)["firings.html"]
    text = text_of(page)
    assert text.index("Aimed at cone 6") < text.index("Aimed at cone 04")
    assert len(drawings(page)) == 4


def test_cones_beyond_the_ends_of_the_row_are_never_drawn() -> None:
    for cone in ("022", "14"):
        wide = drawings(pages_of({FIRING: fired("2026-09-04", f"middle: {cone}", cone=cone)})["firings.html"])[0]
        height = float(wide.get("height", ""))
        assert all(0 < y < height for _, _, y in shapes(wide))


def test_many_firings_keep_their_distance_and_their_order_and_widen_the_drawing() -> None:
    many = {f"firings/g{day:02}.md": fired(f"2026-10-{day:02}", "middle: 6") for day in range(1, 31)}
    wide = drawings(pages_of(many)["firings.html"])[0]
    across = [x for _, x, _ in shapes(wide)]
    assert len(across) == 30
    assert all(other - one >= 57.9 for one, other in pairwise(across))
    assert across[-1] < float(wide.get("width", "")) > 1700


def test_days_that_are_far_apart_stand_where_they_are() -> None:
    days = [dt.date(2026, 1, 1), dt.date(2026, 1, 6), dt.date(2026, 1, 11)]
    assert spread(days, 0, 100, 20) == ([0, 50, 100], [0, 50, 100])


def test_days_that_crowd_are_pushed_apart_within_the_ends() -> None:
    days = [dt.date(2026, 1, 1), dt.date(2026, 1, 9), dt.date(2026, 1, 10), dt.date(2026, 1, 11)]
    true, moved = spread(days, 0, 100, 20)
    assert true == [0, 80, 90, 100]
    assert moved == [0, 60, 80, 100]


def test_the_demos_cool_firing_and_hot_shelf_are_in_the_drawing() -> None:
    page = demo_files()["site/firings.html"].decode()
    wide = drawings(page)[0]
    assert {"f01", "f03", "f05", "f08", "hot", "cool", "no cone"} <= texts(wide).keys()
    assert "undated" not in page
