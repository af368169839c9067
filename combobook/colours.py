"""Colours measured from pictures: CIELAB (D65), their difference, their family, and keys for saying them. Leaf module.

What is said of a colour is decided here as keys; the words for them stand under `colours:` in the words file, and
`wording.colour_words` puts them together.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

WHITE, CREAM, GREY, BLACK = "white", "cream", "grey", "black"
FAMILY_OF = {
    "white": "white",
    "cream": "white",
    "grey": "grey",
    "brown_grey": "brown_grey",
    "green_grey": "green_grey",
    "blue_grey": "blue_grey",
    "purple_grey": "purple_grey",
    "black": "black",
    "tan": "brown",
    "brown": "brown",
    "red_brown": "brown",
    "red": "red",
    "pink": "pink",
    "orange": "orange",
    "amber": "orange",
    "yellow": "yellow",
    "olive": "green",
    "yellow_green": "green",
    "green": "green",
    "blue_green": "blue_green",
    "blue": "blue",
    "violet": "purple",
    "purple": "purple",
    "plum": "purple",
}
"""Each colour name's family; both are keys, of `colours.names` and `colours.families` in the words."""
FAMILIES = (
    "white", "grey", "black", "brown", "brown_grey", "red", "pink", "orange", "yellow", "green", "green_grey",
    "blue_green", "blue", "blue_grey", "purple", "purple_grey",
)  # fmt: skip
"""In the order in which pages list them: a grey with a tint stands beside that colour, where one looks for it."""
DEPTHS = ("deep", "dark", "plain", "light", "pale", "bright")
"""How dark, light or strong; keys of `colours.depths`."""
DIFFERENCES = ("hardly", "little", "clearly", "another")
"""How far apart two colours are; keys of `colours.differences`."""

# House values: two photographs of one tile, both by hand, come out a few units apart; one just sees 1 side by side.
_HARDLY, _LITTLE, _CLEARLY = 3.0, 8.0, 20.0


@dataclass(frozen=True, slots=True)
class Lab:
    """A colour in CIELAB under D65: `l` 0 (black) to 100; `a` green to red; `b` blue to yellow."""

    l: float  # noqa: E741 - CIELAB's own letter
    a: float
    b: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TileColour:
    """What a picture of a tile shows: its main colour, and the one it breaks to where there is a second."""

    main: Lab
    breaking: Lab | None
    balanced: bool
    """The picture showed a tile tag and was balanced by its paper; else the colours are as photographed (or drawn)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shade:
    """One colour in keys: `depth` of DEPTHS, `name` of FAMILY_OF."""

    depth: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourWords:
    """A tile's colours in keys; `breaking` is None where nothing breaks or where it would be said by the same words."""

    main: Shade
    breaking: Shade | None


@lru_cache(maxsize=1 << 16)
def difference(one: Lab, other: Lab) -> float:
    """CIEDE2000 (ISO/CIE 11664-6, kL = kC = kH = 1): 0 for equal colours, about 1 is just seen side by side."""
    from coloraide import Color

    return float(Color("lab-d65", _triple(one)).delta_e(Color("lab-d65", _triple(other)), method="2000"))


def difference_words(de: float) -> str:
    """The key of DIFFERENCES for a CIEDE2000 difference; house limits, 3, 8 and 20."""
    if de < _HARDLY:
        return "hardly"
    if de < _LITTLE:
        return "little"
    return "clearly" if de < _CLEARLY else "another"


def lab(red: float, green: float, blue: float) -> Lab:
    """The colour of sRGB values from 0 to 255 (IEC 61966-2-1)."""
    from coloraide import Color

    values = Color("srgb", [red / 255, green / 255, blue / 255]).convert("lab-d65").coords()
    return Lab(*(float(value) for value in values))


def srgb(colour: Lab) -> tuple[int, int, int]:
    """The nearest sRGB values from 0 to 255, for a swatch; what a screen cannot show is brought in by chroma."""
    from coloraide import Color

    values = Color("lab-d65", _triple(colour)).convert("srgb").fit().coords()
    red, green, blue = (min(255, max(0, round(float(value) * 255))) for value in values)
    return red, green, blue


def in_words(colour: TileColour) -> ColourWords:
    """A tile's colours as keys: `deep blue_green`, breaking to `amber`."""
    main = shade(colour.main)
    breaking = shade(colour.breaking) if colour.breaking is not None else None
    return ColourWords(main=main, breaking=breaking if breaking != main else None)


def family(colour: Lab) -> str:
    """The key of FAMILIES that the colour belongs to."""
    return FAMILY_OF[shade(colour).name]


@lru_cache(maxsize=4096)
def shade(colour: Lab) -> Shade:
    """A colour in keys, from lightness, chroma and hue.

    Lightness is CIELAB's. Hue and chroma are read in OKLCh, because CIELAB's own hue turns deep blues into purples.
    Where one name ends and the next begins is a house choice, held against the named colours of CSS by the tests.
    """
    from coloraide import Color

    lightness, chroma, hue = (float(v) for v in Color("lab-d65", _triple(colour)).convert("oklch").coords(nans=False))
    strength = chroma / max(lightness, 0.05)
    name = _name(colour.l, chroma, hue % 360, strength)
    return Shade(depth=_depth(name, colour.l, chroma, strength), name=name)


def _triple(colour: Lab) -> list[float]:
    return [colour.l, colour.a, colour.b]


def _name(light: float, chroma: float, hue: float, strength: float) -> str:
    if light < 12 or (light < 22 and chroma < 0.03):
        return BLACK if chroma < 0.06 else _strong(light, chroma, hue, strength)
    if chroma < 0.012:
        return WHITE if light >= 90 else GREY
    if 40 <= hue < 125 and (light >= 84 or (light >= 76 and chroma < 0.04)) and chroma < 0.075:
        return WHITE if light >= 96 and chroma < 0.022 else CREAM
    if light >= 95 and chroma < 0.025:
        return WHITE
    # What is nearly white, or nearly black, needs little to be pink or blue.
    if chroma < (0.022 if light >= 86 else 0.026 if light < 32 else 0.036):
        return _greyish(hue)
    return _strong(light, chroma, hue, strength)


def _greyish(hue: float) -> str:
    for start, end, name in ((15, 118, "brown_grey"), (118, 195, "green_grey"), (195, 285, "blue_grey")):
        if start <= hue < end:
            return name
    return "purple_grey"


def _strong(light: float, chroma: float, hue: float, strength: float) -> str:
    if hue >= 340 or hue < 10:
        return "pink" if light >= 52 else "plum"
    if hue < 40:
        return _red(light, hue, strength)
    if hue < 88:
        return _brown_to_amber(light, hue, strength)
    if hue < 118:
        return "yellow" if light >= 68 and strength >= 0.1 else "olive" if light < 85 else CREAM
    if hue < 138:
        return "olive" if light < 50 else "yellow_green" if strength >= 0.12 else "green"
    for end, name in ((167, "green"), (208, "blue_green"), (280, "blue"), (312, "violet")):
        if hue < end:
            return name
    return "purple"


def _red(light: float, hue: float, strength: float) -> str:
    if strength >= 0.29 or (light >= 43 and strength >= 0.22 and hue < 39):
        return "orange" if hue >= 33 and light >= 55 else "red"
    if light >= 60:
        if strength >= 0.25:
            return "red" if hue < 36 else "orange"
        return "pink" if hue < 33 else "orange" if strength >= 0.2 else "tan" if strength < 0.13 else "pink"
    return "red_brown"


def _brown_to_amber(light: float, hue: float, strength: float) -> str:
    if strength < 0.135:
        return "tan" if light >= 55 else "brown"
    if light < 57 and (hue < 70 or light < 48):
        return "brown"
    return "orange" if hue < 66 or (hue < 73 and strength >= 0.205) else "amber"


def _depth(name: str, light: float, chroma: float, strength: float) -> str:
    if name in (WHITE, BLACK, CREAM):
        return "plain"
    if chroma >= 0.19 and light >= 45:
        return "bright"
    # A full yellow is as light as a pale blue: what is light by nature is called light only when it is lighter still.
    shift = 14 if name in ("yellow", "yellow_green", "orange", "amber") and strength >= 0.13 else 0
    if light < 28 + shift:
        return "deep"
    if light < 43 + shift:
        return "dark"
    if light < 66 + shift:
        return "plain"
    return "light" if light < 80 + shift else "pale"
