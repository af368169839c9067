"""A firing's page: the thermometer against the cones, and a load whose tiles lead to their glazes."""

from __future__ import annotations

import html5lib
import pytest

from tests.published_demo import demo_files
from tests.site.editions import pages_of, text_of
from tests.studios import entry, log

FIRING = "firings/f01.md"
_AT = "Ferry Rust,2,Pond Lantern,1,Quarry White,f01"


def page(*lines: str) -> str:
    return text_of(pages_of({FIRING: entry("cone: 6", "date: 2026-10-14", *lines)})["firings/f01.html"])


# Orton 2016, self-supporting cones: cone 5 bends at 1186 °C and cone 6 at 1222 °C where the last 100 °C take 60 °C an hour.
@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (("rate: 60 C/h", "peak: 1222 C", "witness:", "  upper: 6"), "peak fits cone 6 on the upper shelf to the degree."),
        (("rate: 60 C/h", "peak: 1218 C", "witness:", "  upper: 6"), "peak was 4 °C below what cone 6 on the upper shelf says"),
        (("rate: 60 C/h", "peak: 1200 C", "witness:", "  upper: 6", "  lower: 5"), "14 °C above what cone 5 on the lower shelf says"),
        (("rate: 60 C/h", "peak: 1250 C", "hold: 10 min", "witness:", "  upper: 6"), "its peak cannot be compared with the table"),
    ],
)  # fmt: skip
def test_the_thermometer_is_set_against_the_nearest_cone(lines: tuple[str, ...], expected: str) -> None:
    text = page(*lines)
    assert expected in text
    assert "More than 20 °C apart" not in text


def test_a_peak_more_than_twenty_degrees_off_says_whom_to_believe() -> None:
    text = page("rate: 60 C/h", "peak: 1243 C", "witness:", "  upper: 6")
    assert "21 °C above what cone 6 on the upper shelf says" in text
    assert "More than 20 °C apart" in text
    assert "Believe the cones." in text


@pytest.mark.parametrize(
    "lines",
    [
        ("peak: 1222 C", "witness:", "  upper: 6"),
        ("rate: 60 C/h", "peak: 1222 C"),
        ("rate: 60 C/h", "witness:", "  upper: 6"),
    ],
)
def test_without_a_rate_a_cone_or_a_peak_nothing_is_compared(lines: tuple[str, ...]) -> None:
    assert "thermometer" not in page(*lines)


def test_each_shelfs_cone_has_its_temperature_at_the_firings_rate_and_a_half_cone_has_none() -> None:
    text = page("rate: 60 C/h", "witness:", "  upper: 5", "  lower: 6 1/2")
    assert "1186 °C at 60 °C an hour" in text
    assert "not in the table" in text


def test_each_tile_leads_to_its_row_on_the_page_of_its_glazes() -> None:
    rows = log(f"B1,{_AT},middle,upright,no,none", "B2,Ferry Rust,2,,,Quarry White,f01,middle,upright,no,none")
    pages = pages_of({"logs/autumn.csv": rows})
    root = html5lib.parse(pages["firings/f01.html"], namespaceHTMLElements=False)
    heads = [str(a.get("href")) for a in root.findall(".//tbody/tr/th/a")]
    assert heads == [
        "../combinations/pond-lantern-over-ferry-rust.html#tile-B1-2-1",
        "../glazes/ferry-rust.html#tile-B2-2",
    ]
    assert 'id="tile-B1-2-1"' in pages["combinations/pond-lantern-over-ferry-rust.html"]
    assert 'id="tile-B2-2"' in pages["glazes/ferry-rust.html"]


def test_a_tile_of_a_hot_shelf_says_so_in_its_row_wherever_it_stands() -> None:
    rows = log(f"B1,{_AT},upper,upright,no,none", f"B2,{_AT},lower,upright,no,none")
    fired = entry("cone: 6", "date: 2026-10-14", "witness:", "  upper: 7", "  lower: 6")
    pages = pages_of({"logs/autumn.csv": rows, FIRING: fired})
    for path in ("firings/f01.html", "combinations/pond-lantern-over-ferry-rust.html", "clays/quarry-white.html"):
        assert text_of(pages[path]).count("cone 7, fired hot") == 1, path


def test_the_picture_of_a_tile_from_a_hot_or_cool_shelf_says_so_and_another_does_not() -> None:
    """The demo's C104 stood on the hot upper shelf of f03, E101 in the cool f05, D138 where the cone was as meant."""
    hot = text_of(demo_files()["site/combinations/harbour-fog-over-rook-lane.html"].decode())
    assert "firing f03, upper shelf, fired hot. Drawing." in hot
    cool = text_of(demo_files()["site/combinations/copper-ferry-over-barley-attic.html"].decode())
    assert "firing f05, upper shelf, fired cool. Drawing." in cool
    meant = text_of(demo_files()["site/combinations/harbour-fog-over-bramble-ink.html"].decode())
    assert "firing f04, upper shelf. Drawing." in meant


WRONG = entry("cone: 6", "date: 2026-10-14", "kiln: Reed", "rate: 60 C/h", "peak: 1243 C", "witness:", "  upper: 6")
NEXT = "firings/f02.html"


def after(*lines: str) -> str:
    return text_of(pages_of({FIRING: WRONG, "firings/f02.md": entry("cone: 6", *lines)})[NEXT])


def test_a_firing_without_cones_says_that_the_kilns_last_one_read_wrong() -> None:
    said = after("date: 2026-10-21", "kiln: reed")
    assert "The last firing in Reed with a cone before this one, f01, read 21 °C hotter than its cones said." in said


@pytest.mark.parametrize(
    "lines",
    [
        ("date: 2026-10-21", "kiln: Other"),
        ("date: 2026-10-21",),
        ("kiln: Reed",),
        ("date: 2026-10-07", "kiln: Reed"),
        ("date: 2026-10-21", "kiln: Reed", "witness:", "  upper: 6"),
    ],
    ids=["another kiln", "kiln not known", "no date", "before it", "with a cone of its own"],
)
def test_nothing_is_said_of_the_kiln_where_it_does_not_follow(lines: tuple[str, ...]) -> None:
    assert "with a cone before this one" not in after(*lines)
