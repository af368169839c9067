"""Colour difference against its published pairs; colour words against the named colours of CSS."""

from __future__ import annotations

import csv
from functools import cache
from math import cos, radians, sin
from pathlib import Path

import pytest
from PIL import ImageColor

from combobook.colours import (
    DEPTHS,
    DIFFERENCES,
    FAMILIES,
    FAMILY_OF,
    Lab,
    TileColour,
    difference,
    difference_words,
    family,
    in_words,
    lab,
    shade,
    srgb,
)
from combobook.entries import Units
from combobook.problems import Place
from combobook.theme import load_theme
from combobook.wording import Words, colour_words

PUBLISHED = Path(__file__).parents[1] / "published" / "ciede2000.csv"
with PUBLISHED.open(encoding="utf-8", newline="") as table:
    PAIRS = list(csv.DictReader(table))


def test_all_the_published_pairs_are_here() -> None:
    assert len(PAIRS) == 34


@pytest.mark.parametrize("row", PAIRS, ids=[row["pair"] for row in PAIRS])
def test_the_difference_is_the_published_one_both_ways(row: dict[str, str]) -> None:
    """Sharma, Wu, Dalal, Color Res. Appl. 30(1):21-30, 2005, table 1."""
    one, other = (Lab(*(float(row[f"{axis}{n}"]) for axis in "Lab")) for n in "12")
    assert difference(one, other) == pytest.approx(float(row["dE00"]), abs=1e-4)
    assert difference(other, one) == pytest.approx(float(row["dE00"]), abs=1e-4)


# CIELAB of sRGB's primaries under D65, after IEC 61966-2-1 and CIE 15; white is (100, 0, 0) by definition.
@pytest.mark.parametrize(
    ("rgb", "expected"),
    [
        ((255, 255, 255), (100, 0, 0)),
        ((0, 0, 0), (0, 0, 0)),
        ((255, 0, 0), (53.24, 80.09, 67.20)),
        ((0, 255, 0), (87.73, -86.18, 83.18)),
        ((0, 0, 255), (32.30, 79.19, -107.86)),
    ],
)
def test_colours_of_the_screen_are_read_under_d65(rgb: tuple[int, int, int], expected: tuple[float, ...]) -> None:
    found = lab(*rgb)
    assert (found.l, found.a, found.b) == pytest.approx(expected, abs=0.05)
    assert srgb(found) == rgb


def test_a_colour_that_no_screen_shows_gets_the_nearest_swatch() -> None:
    assert all(0 <= value <= 255 for value in srgb(Lab(50, -100, 0)))


# What CSS Color 4 calls each colour, by Pillow's table of it, and which families of ours it may fall into. Left out are
# names that end in a colour which they are not (aliceblue is a white, rosybrown a pink).
FAMILY_WORDS = {
    "blue": {"blue", "purple", "blue_green"},  # slateblue leans to violet, cadetblue and powderblue to green
    "green": {"green", "blue_green"},
    "red": {"red", "pink", "brown", "orange"},
    "pink": {"pink"},
    "purple": {"purple"},
    "violet": {"purple", "pink"},
    "orchid": {"purple"},
    "magenta": {"purple"},
    "yellow": {"yellow", "green", "white"},  # greenyellow and yellowgreen; lightyellow is a cream
    "orange": {"orange"},
    "brown": {"brown", "red", "orange"},
    "gold": {"yellow", "orange"},
    "goldenrod": {"orange", "yellow", "white"},
    "olive": {"green"},
    "cyan": {"blue_green"},
    "aqua": {"blue_green"},
    "turquoise": {"blue_green"},
    "teal": {"blue_green"},
    "gray": {"grey", "blue_grey", "blue_green"},  # slategray leans to blue, darkslategray further
    "grey": {"grey", "blue_grey", "blue_green"},
    "white": {"white", "purple", "brown"},
    "black": {"black"},
    "salmon": {"pink", "orange", "brown"},
    "coral": {"orange", "red", "pink"},
    "tan": {"brown"},
    "navy": {"blue"},
    "maroon": {"red", "brown"},
    "crimson": {"red", "pink"},
    "indigo": {"purple", "blue"},
    "chocolate": {"brown", "orange"},
    "sienna": {"brown"},
    "lavender": {"purple", "blue"},
    "silver": {"grey"},
    "ivory": {"white"},
    "beige": {"white"},
    "linen": {"white"},
    "wheat": {"white", "brown"},
    "cornsilk": {"white"},
    "khaki": {"yellow", "green", "brown"},
}
NOT_WHAT_THEY_END_IN = (
    "aliceblue", "antiquewhite", "darkslategray", "darkslategrey", "lavenderblush", "lightcyan", "lightgoldenrodyellow",
    "mediumvioletred", "navajowhite", "rosybrown",
)  # fmt: skip
NAMED = [
    (name, said)
    for name in sorted(set(ImageColor.colormap) - set(NOT_WHAT_THEY_END_IN))
    for said in FAMILY_WORDS
    if name.endswith(said)
]


@pytest.mark.parametrize(("name", "said"), NAMED, ids=[f"{name} as {said}" for name, said in NAMED])
def test_a_named_colour_of_css_falls_into_a_family_of_that_name(name: str, said: str) -> None:
    assert family(lab(*_rgb(name))) in FAMILY_WORDS[said]


def test_these_names_are_most_of_the_table() -> None:
    assert len({name for name, _ in NAMED}) > 100


@pytest.mark.parametrize(("darker", "lighter"), [("dark", ""), ("", "light"), ("dark", "light"), ("", "pale"), ("deep", "light")])
def test_what_css_calls_darker_is_never_called_lighter_here(darker: str, lighter: str) -> None:
    """For every base name that the table has in both; CSS's own darkgray and darkseagreen are lighter than their like."""
    order = {depth: n for n, depth in enumerate(("deep", "dark", "plain", "light", "pale"))}
    pairs = [
        (name, lighter + name.removeprefix(darker))
        for name in ImageColor.colormap
        if name.startswith(darker) and lighter + name.removeprefix(darker) in ImageColor.colormap
        and name != lighter + name.removeprefix(darker) and not name.endswith(("gray", "grey", "seagreen"))
    ]  # fmt: skip
    shades = [(shade(lab(*_rgb(dark))), shade(lab(*_rgb(light)))) for dark, light in pairs]
    told = [(one.depth, other.depth) for one, other in shades if "bright" not in (one.depth, other.depth) and one.name == other.name]
    assert all(order[one] <= order[other] for one, other in told)


SAID: dict[tuple[tuple[float, float, float], tuple[float, float, float] | None], str] = {
    ((24, -14, -9), (62, 18, 52)): "deep blue-green, breaks amber",
    ((34, 28, 24), None): "dark red-brown",
    ((72, -12, 10), None): "light green",
    ((96, 0, 1), None): "white",
    ((8, 0, 0), None): "black",
    ((50, 0, 0), (50.2, 0, 0)): "grey",
    ((30, 10, -34), None): "dark blue",
    ((88, 2, 14), (40, 15, 20)): "cream, breaks dark brown",
}


@pytest.mark.parametrize(("colours", "words"), SAID.items(), ids=SAID.values())
def test_a_tiles_colours_are_said_as_a_potter_says_them(
    colours: tuple[tuple[float, float, float], tuple[float, float, float] | None], words: str
) -> None:
    main, breaking = colours
    found = TileColour(main=Lab(*main), breaking=Lab(*breaking) if breaking else None, balanced=True)
    assert colour_words(found, table_of_words()) == words


def test_two_colours_that_would_be_said_alike_are_said_once() -> None:
    found = TileColour(main=Lab(38, -2, -30), breaking=Lab(39, -2, -33), balanced=False)
    assert in_words(found).breaking is None


@pytest.mark.parametrize("hue", range(0, 360, 9))
@pytest.mark.parametrize("chroma", [0, 3, 8, 20, 45, 90])
def test_every_colour_has_a_name_a_depth_and_a_family_that_the_words_know(hue: int, chroma: int) -> None:
    words = table_of_words()
    for light in range(0, 101, 10):
        colour = Lab(light, chroma * cos(radians(hue)), chroma * sin(radians(hue)))
        said = shade(colour)
        assert said.depth in DEPTHS and said.name in FAMILY_OF and family(colour) in FAMILIES
        assert words(f"colours.names.{said.name}") and words(f"colours.families.{family(colour)}")
        assert "x" in words(f"colours.depths.{said.depth}", name="x")


@pytest.mark.parametrize(
    ("de", "key"),
    [(0, "hardly"), (2.99, "hardly"), (3, "little"), (7.99, "little"), (8, "clearly"), (19.99, "clearly"), (20, "another"), (90, "another")],
)
def test_how_far_two_colours_are_apart_is_said_in_words(de: float, key: str) -> None:
    assert difference_words(de) == key
    assert key in DIFFERENCES and table_of_words()(f"colours.differences.{key}")


@cache
def table_of_words() -> Words:
    here = Place(path="studio.yaml", line=1)
    theme, problems = load_theme("daylight", "en", here, here)
    assert theme is not None and problems == ()
    return Words(theme.table, Units.MM)


def _rgb(name: str) -> tuple[int, int, int]:
    red, green, blue, *_ = ImageColor.getrgb(name)
    return red, green, blue
