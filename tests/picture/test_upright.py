"""Every way a phone can be held ends upright, once."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from tests.picture.photographs import CORNERS, close, coded, colour_at, one, quarters, shown, turned_exif

# CIPA DC-008-2019 (Exif 2.32), tag 274 Orientation: which visual side the stored 0th row and 0th column are.
STORED = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def as_stored(upright: Image.Image, orientation: int) -> Image.Image:
    """The pixels as the camera wrote them, from the standard's table and not from any turning code of ours."""
    first_row, first_column = STORED[orientation]
    pixels = np.asarray(upright)
    if first_row in ("left", "right"):
        pixels = pixels.transpose(1, 0, 2)
    if first_row in ("bottom", "right"):
        pixels = pixels[::-1]
    if first_column in ("bottom", "right"):
        pixels = pixels[:, ::-1]
    return Image.fromarray(np.ascontiguousarray(pixels))


def assert_upright(image: Image.Image) -> None:
    assert image.width > image.height
    for corner, (across, down) in {
        "top left": (0.2, 0.2),
        "top right": (0.8, 0.2),
        "low left": (0.2, 0.8),
        "low right": (0.8, 0.8),
    }.items():
        assert close(colour_at(image, across, down), CORNERS[corner]), corner


@pytest.mark.parametrize("orientation", STORED)
@pytest.mark.parametrize(("kind", "suffix"), [("JPEG", ".jpg"), ("PNG", ".png"), ("WEBP", ".webp")])
def test_all_eight_ways_to_hold_a_phone_end_upright(tmp_path: Path, orientation: int, kind: str, suffix: str) -> None:
    data = coded(as_stored(quarters(), orientation), kind, exif=turned_exif(orientation))
    made = one(tmp_path, f"tile{suffix}", data)
    for size in made.sizes:
        assert_upright(shown(made, size))


@pytest.mark.parametrize("orientation", STORED)
def test_a_heic_is_turned_once_though_its_exif_and_its_boxes_both_say_so(tmp_path: Path, orientation: int) -> None:
    data = coded(as_stored(quarters(), orientation), "HEIF", exif=turned_exif(orientation), quality=95)
    assert_upright(shown(one(tmp_path, "tile.heic", data)))


def test_a_large_photo_shrunk_by_the_decoder_is_turned_too(tmp_path: Path) -> None:
    data = coded(as_stored(quarters(4000, 3000), 6), "JPEG", exif=turned_exif(6))
    made = one(tmp_path, "tile.jpg", data)
    assert_upright(shown(made))
    assert (made.page.width, made.page.height) == (1200, 900)


@pytest.mark.parametrize("exif", [b"Exif\0\0garbage", b"Exif\0\0MM\0*\xff\xff\xff\xff", b"Exif\0\0", turned_exif(9)])
def test_exif_that_makes_no_sense_leaves_the_photo_as_it_lies(tmp_path: Path, exif: bytes) -> None:
    assert_upright(shown(one(tmp_path, "tile.jpg", coded(quarters(), "JPEG", exif=exif))))


def test_only_the_first_frame_of_a_moving_picture_is_shown(tmp_path: Path) -> None:
    blue = Image.new("RGB", (320, 240), "blue")
    assert_upright(shown(one(tmp_path, "a.webp", coded(quarters(), "WEBP", save_all=True, append_images=[blue]))))
    assert_upright(shown(one(tmp_path, "a.jpg", coded(quarters(), "MPO", save_all=True, append_images=[blue]))))
    out = io.BytesIO(coded(quarters(), "PNG", save_all=True, append_images=[blue]))
    assert_upright(shown(one(tmp_path, "a.png", out.getvalue())))
