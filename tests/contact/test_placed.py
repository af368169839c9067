"""How a picture lies behind its window of 52 × 86 mm: worked by hand from its pixels."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.pictures import Edges, Picture, PictureFile, TagSeen
from combobook.render.contact.placed import Placed, placed


def picture(wide: int, high: int, *, drawing: bool = False, tile: Edges | None = None, per_mm: float = 0) -> Picture:
    file = PictureFile(path="pictures/x-1200.jpg", width=wide, height=high, stored=Path("nowhere"))
    tag = TagSeen(mark="B1", pixels_per_mm=per_mm) if per_mm else None
    return Picture(name="x.jpg", drawing=drawing, tile=tile, tag=tag, sizes={"page": file, "card": file, "thumb": file})


def test_a_drawings_canvas_of_72_by_96_mm_stands_about_its_tile() -> None:
    lies = Placed(width=72, height=96, left=-10, top=-5, to_scale=True)
    assert placed(picture(900, 1200, drawing=True)) == lies
    assert placed(picture(360, 480, drawing=True, tile=(0.1, 0.1, 0.9, 0.9))) == lies


def test_a_tagged_photograph_is_as_large_as_its_tag_says_with_its_tile_in_the_middle() -> None:
    """8 pixels a mm: 900 × 1200 pixels are 112.5 × 150 mm; the tile's middle, a quarter across, lies at 28.125 mm."""
    made = placed(picture(900, 1200, tile=(0.05, 0.2, 0.45, 0.76), per_mm=8))
    assert made == Placed(width=112.5, height=150, left=-2.12, top=-29, to_scale=True)


def test_a_tagged_tile_larger_than_the_window_is_fitted_and_not_called_to_scale() -> None:
    """At 8 pixels a mm the tile would be 90 mm high."""
    made = placed(picture(900, 1200, tile=(0.3, 0.2, 0.7, 0.8), per_mm=8))
    assert not made.to_scale
    assert made.height * 0.6 == pytest.approx(86, abs=0.02)


@pytest.mark.parametrize(
    ("tile", "fills"),
    [((0.3, 0.2, 0.6, 0.8), "height"), ((0.1, 0.3, 0.9, 0.7), "width")],
    ids=["a high tile", "a wide tile"],
)
def test_without_a_tag_the_tile_that_was_found_fills_the_window(tile: Edges, fills: str) -> None:
    made = placed(picture(900, 1200, tile=tile))
    left, top, right, low = tile
    assert not made.to_scale
    filled = made.height * (low - top) / 86 if fills == "height" else made.width * (right - left) / 52
    assert filled == pytest.approx(1, abs=0.001)
    assert made.left + (left + right) / 2 * made.width == pytest.approx(26, abs=0.02)
    assert made.top + (top + low) / 2 * made.height == pytest.approx(43, abs=0.02)


def test_where_no_tile_was_found_the_picture_covers_the_window() -> None:
    made = placed(picture(1200, 900))
    assert not made.to_scale
    assert made.height == 86
    assert made.width >= 52
    assert made.left == pytest.approx(26 - made.width / 2, abs=0.01)
