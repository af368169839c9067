"""How a picture lies behind its window on a contact sheet: drawings and tagged photographs by their own scale."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.pictures import Edges, Picture, PictureFile

CANVAS_MM, TILE_MM = (72, 96), (52, 86)
"""A drawing's canvas, and the window: the part of it that its tile takes with 1 mm about it; width, height."""
_WHOLE: Edges = (0.0, 0.0, 1.0, 1.0)
_SHAPE = 0.01
"""A drawing on another canvas is no drawing of a tile, and its scale is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A whole picture behind a window of TILE_MM, in mm of the tile: its size, and where its upper left corner lies."""

    width: float
    height: float
    left: float
    top: float
    to_scale: bool
    """A millimetre of the tile is a millimetre here; else the tile is fitted into the window."""


def placed(picture: Picture) -> Placed:
    """The picture's tile in the middle of the window, as large as it is where that is known and the window holds it.

    Without a tag the tile that was found fills the window; where none was found, the picture covers it.
    """
    page = picture.page
    if picture.drawing and abs(page.width / page.height - CANVAS_MM[0] / CANVAS_MM[1]) < _SHAPE:
        return _centred(page, _WHOLE, CANVAS_MM[0] / page.width, to_scale=True)
    left, top, right, low = picture.tile or _WHOLE
    across, up = TILE_MM[0] / ((right - left) * page.width), TILE_MM[1] / ((low - top) * page.height)
    if picture.tile is None:
        return _centred(page, _WHOLE, max(across, up), to_scale=False)
    if picture.tag is not None and 1 / picture.tag.pixels_per_mm <= min(across, up):
        return _centred(page, picture.tile, 1 / picture.tag.pixels_per_mm, to_scale=True)
    return _centred(page, picture.tile, min(across, up), to_scale=False)


def _centred(page: PictureFile, tile: Edges, mm: float, *, to_scale: bool) -> Placed:
    """The middle of the tile in the middle of the window, at so many mm a pixel."""
    width, height = page.width * mm, page.height * mm
    left, top, right, low = tile
    return Placed(
        width=round(width, 2),
        height=round(height, 2),
        left=round(TILE_MM[0] / 2 - (left + right) / 2 * width, 2),
        top=round(TILE_MM[1] / 2 - (top + low) / 2 * height, 2),
        to_scale=to_scale,
    )
