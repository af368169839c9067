"""Any kind of pixels ends as plain sRGB on the book's backdrop."""

from __future__ import annotations

from pathlib import Path

import coloraide
import numpy as np
import pytest
from PIL import Image

from combobook.picture.colour import BACKDROP
from tests.picture.photographs import close, coded, colour_at, one, plain, rgb_profile, shown

# Adobe RGB (1998) Color Image Encoding, version 2005-05, section 4.3.4 and annex: D50 primaries, gamma 2 51/256.
ADOBE_RGB = rgb_profile(
    ((0.60974, 0.31111, 0.01947), (0.20528, 0.62567, 0.06087), (0.14919, 0.06322, 0.74457)), 2 + 51 / 256
)


@pytest.mark.parametrize("colour", [(128, 153, 102), (90, 60, 50), (200, 190, 120), (60, 80, 110)])
@pytest.mark.parametrize(("kind", "name"), [("JPEG", "a.jpg"), ("PNG", "a.png"), ("WEBP", "a.webp"), ("HEIF", "a.heic")])
def test_a_wide_profile_becomes_the_srgb_that_coloraide_gives(
    tmp_path: Path, colour: tuple[int, int, int], kind: str, name: str
) -> None:
    expected = coloraide.Color("a98-rgb", [value / 255 for value in colour]).convert("srgb")
    assert expected.in_gamut()
    made = one(tmp_path, name, coded(plain(colour), kind, icc_profile=ADOBE_RGB))
    seen = colour_at(shown(made), 0.5, 0.5)
    assert close(seen, tuple(round(255 * expected[c]) for c in "rgb"), within=3)
    assert not close(seen, colour, within=2)


def test_the_profile_applies_under_transparency_too(tmp_path: Path) -> None:
    half = plain((*(128, 153, 102), 128), "RGBA")
    expected = coloraide.Color("a98-rgb", [128 / 255, 153 / 255, 102 / 255]).convert("srgb")
    mixed = tuple(
        round(255 * expected[c] * 128 / 255 + back * 127 / 255) for c, back in zip("rgb", BACKDROP, strict=True)
    )
    assert close(colour_at(shown(one(tmp_path, "a.png", coded(half, "PNG", icc_profile=ADOBE_RGB))), 0.5, 0.5), mixed, 3)


@pytest.mark.parametrize("profile", [b"no profile", ADOBE_RGB[:200], b"\0" * 128])
def test_a_broken_profile_is_passed_over(tmp_path: Path, profile: bytes) -> None:
    made = one(tmp_path, "a.png", coded(plain((90, 60, 50)), "PNG", icc_profile=profile))
    assert close(colour_at(shown(made), 0.5, 0.5), (90, 60, 50), 3)


def test_a_profile_for_other_pixels_is_passed_over(tmp_path: Path) -> None:
    made = one(tmp_path, "a.png", coded(plain(120, "L"), "PNG", icc_profile=ADOBE_RGB))
    assert close(colour_at(shown(made), 0.5, 0.5), (120, 120, 120), 3)


@pytest.mark.parametrize(
    ("kind", "name", "image"),
    [
        ("PNG", "a.png", plain((0, 0, 0, 0), "RGBA")),
        ("WEBP", "a.webp", plain((0, 0, 0, 0), "RGBA")),
        ("HEIF", "a.heic", plain((0, 0, 0, 0), "RGBA")),
        ("PNG", "b.png", plain((0, 0), "LA")),
    ],
)
def test_what_is_see_through_shows_the_backdrop(tmp_path: Path, kind: str, name: str, image: Image.Image) -> None:
    assert close(colour_at(shown(one(tmp_path, name, coded(image, kind))), 0.5, 0.5), BACKDROP, 3)


def test_a_palette_with_a_clear_colour_shows_the_backdrop_there_and_its_colours_elsewhere(tmp_path: Path) -> None:
    image = Image.new("P", (200, 200), 0)
    image.putpalette([0, 0, 0, 200, 30, 30])
    image.paste(1, (100, 0, 200, 200))
    seen = shown(one(tmp_path, "a.png", coded(image, "PNG", transparency=0)))
    assert close(colour_at(seen, 0.25, 0.5), BACKDROP, 3)
    assert close(colour_at(seen, 0.75, 0.5), (200, 30, 30))


def test_an_rgb_picture_with_one_clear_colour_shows_the_backdrop_there(tmp_path: Path) -> None:
    seen = shown(one(tmp_path, "a.png", coded(plain((1, 2, 3)), "PNG", transparency=(1, 2, 3))))
    assert close(colour_at(seen, 0.5, 0.5), BACKDROP, 3)


def test_sixteen_bit_greys_are_scaled_and_not_cut_off(tmp_path: Path) -> None:
    deep = Image.fromarray(np.full((200, 200), 0x8000, dtype=np.uint16))
    assert close(colour_at(shown(one(tmp_path, "a.png", coded(deep, "PNG"))), 0.5, 0.5), (128, 128, 128), 2)


@pytest.mark.parametrize(("mode", "colour", "expected"), [("1", 1, (255,) * 3), ("L", 77, (77,) * 3)])
def test_bits_and_greys_become_colour(tmp_path: Path, mode: str, colour: int, expected: tuple[int, ...]) -> None:
    assert close(colour_at(shown(one(tmp_path, "a.png", coded(plain(colour, mode), "PNG"))), 0.5, 0.5), expected, 2)


def test_a_print_shops_cmyk_keeps_its_colour(tmp_path: Path) -> None:
    made = one(tmp_path, "a.jpg", coded(plain((0, 255, 255, 0), "CMYK"), "JPEG", quality=95))
    red, green, blue = colour_at(shown(made), 0.5, 0.5)
    assert red > 200 and green < 60 and blue < 60
