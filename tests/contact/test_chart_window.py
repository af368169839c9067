"""A photograph behind its window on the wall chart: covered always, its tile in view. Worked by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.pictures import Edges, Picture, PictureFile
from combobook.render.chart.views import _placed


@pytest.mark.parametrize(
    ("tile", "expected"),
    [
        # 100 × 100 pixels behind 60 × 100 mm: a millimetre a pixel covers it, and 40 mm are left over.
        (None, "width:100mm;height:100mm;left:-20mm;top:0mm"),
        # A tile that is the window's size already, left of the middle: its own middle, 40 mm, comes to lie at 30 mm.
        ((0.1, 0.0, 0.7, 1.0), "width:100mm;height:100mm;left:-10mm;top:0mm"),
        # A tile at the edge cannot come to the middle without a blank strip beside it.
        ((0.0, 0.0, 0.6, 1.0), "width:100mm;height:100mm;left:0mm;top:0mm"),
        # A small tile in the middle is enlarged until it fills the window: 30 × 50 pixels, twice as large.
        ((0.35, 0.25, 0.65, 0.75), "width:200mm;height:200mm;left:-70mm;top:-50mm"),
    ],
    ids=["no tile found", "left of the middle", "at the edge", "small"],
)
def test_a_photograph_covers_its_window_with_its_tile_in_view(tile: Edges | None, expected: str) -> None:
    file = PictureFile(path="pictures/x-480.jpg", width=100, height=100, stored=Path("nowhere"))
    photo = Picture(name="x.jpg", drawing=False, tile=tile, sizes={"page": file, "card": file, "thumb": file})
    assert _placed(file, photo, 60, 100) == expected
