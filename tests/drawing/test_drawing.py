"""A drawing shows what its log row says, and is the same each time."""

from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from tests.drawing.__main__ import CONTENT, _studio
from tests.drawing.canvas import PICTURE_HEIGHT, PICTURE_WIDTH, TILE_HEIGHT, TILE_WIDTH, Field
from tests.drawing.demo import drawings
from tests.drawing.faults import FAULTS
from tests.drawing.flow import SEAM
from tests.drawing.recipes import CLAYS, GLAZES
from tests.drawing.tile import Drawn, picture

SCALE = 3.0
DARK_ON_WHITE = Drawn(
    seed=7, base="snow-pantry", top="rook-lane", coats=(2, 2), clay="weir-buff", texture="lattice", run=0.0
)


def light(data: bytes) -> Field:
    """Grey from 0 to 255."""
    return np.asarray(Image.open(io.BytesIO(data)).convert("L"), dtype=float)


def test_the_same_tile_gives_the_same_bytes() -> None:
    assert picture(DARK_ON_WHITE, SCALE) == picture(DARK_ON_WHITE, SCALE)


def test_another_seed_another_tile() -> None:
    assert picture(DARK_ON_WHITE, SCALE) != picture(replace(DARK_ON_WHITE, seed=8), SCALE)


def test_the_picture_has_the_size_of_its_canvas() -> None:
    image = Image.open(io.BytesIO(picture(DARK_ON_WHITE, SCALE)))
    assert image.size == (PICTURE_WIDTH * SCALE, PICTURE_HEIGHT * SCALE)
    assert image.format == "JPEG"
    assert not image.getexif()


def lowest_black(tile: Drawn) -> float:
    """Mm below the seam at which the last of a black top on a white base is seen, away from the tile's edges."""
    grey = light(picture(tile, SCALE))
    side = round((PICTURE_WIDTH - TILE_WIDTH + 6) / 2 * SCALE)
    inner = grey[:, side:-side] < 75
    above = (PICTURE_HEIGHT - TILE_HEIGHT) / 2 - 1.0
    rows = np.flatnonzero(inner.sum(axis=1) >= 3)
    glazed = rows[rows < (above + TILE_HEIGHT - 11) * SCALE]
    return float(glazed.max() / SCALE - above - SEAM)


@pytest.mark.parametrize("run", [8.0, 15.0, 24.0])
def test_a_run_is_as_long_on_the_tile_as_in_the_log(run: float) -> None:
    assert lowest_black(replace(DARK_ON_WHITE, run=run)) == pytest.approx(run, abs=1.5)


def test_no_run_keeps_the_seam_where_it_was_brushed() -> None:
    assert lowest_black(DARK_ON_WHITE) == pytest.approx(0.0, abs=2.5)


def test_a_glaze_that_ran_off_is_seen_on_the_foot_and_beyond() -> None:
    def below(tile: Drawn) -> float:
        foot = light(picture(tile, SCALE))[round((PICTURE_HEIGHT + TILE_HEIGHT) / 2 * SCALE - 8 * SCALE) :]
        return float((foot < 60).mean())

    assert below(DARK_ON_WHITE) < 0.01
    assert below(replace(DARK_ON_WHITE, off=True)) > 0.04


@pytest.mark.parametrize("fault", list(FAULTS))
def test_each_fault_can_be_seen(fault: str) -> None:
    white = replace(DARK_ON_WHITE, base="rook-lane", top="snow-pantry")
    whole, spoilt = (light(picture(replace(white, faults=f), SCALE)) for f in ((), (fault,)))
    changed = np.abs(whole - spoilt) > 20
    assert changed.mean() > 0.001, "about 7 mm2 of the picture"


def test_the_order_of_two_glazes_is_seen() -> None:
    turned = replace(DARK_ON_WHITE, base="rook-lane", top="snow-pantry")
    head, belly = slice(round(14 * SCALE), round(26 * SCALE)), slice(round(62 * SCALE), round(72 * SCALE))
    middle = slice(round(24 * SCALE), round(48 * SCALE))
    black_over, white_over = light(picture(DARK_ON_WHITE, SCALE)), light(picture(turned, SCALE))
    assert black_over[head, middle].mean() + 60 < white_over[head, middle].mean()
    assert black_over[belly, middle].mean() > white_over[belly, middle].mean() + 60


def test_every_glaze_and_clay_of_the_demo_has_a_recipe_and_no_other_has() -> None:
    book, _ = _studio()
    assert set(GLAZES) == set(book.glazes)
    assert set(CLAYS) == set(book.clays)


@pytest.mark.parametrize("mark", ["D114", "G173"])
def test_the_committed_pictures_are_what_the_log_says(mark: str) -> None:
    """Compared as pictures, because another processor may round the last bit otherwise."""
    for name, tile in drawings(*_studio(), [mark]).items():
        committed = light((CONTENT / "photos" / name).read_bytes())
        assert np.abs(light(picture(tile)) - committed).mean() < 2.0
