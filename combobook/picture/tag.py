"""A tile tag in a photograph: found by its QR code, its paper sampled beside it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import dist
from statistics import median

from PIL import Image

from combobook.tags import CODE, CODE_MM, HEIGHT_MM, MODULES, QUIET, WIDTH_MM, mark_in

Point = tuple[float, float]
Corners = tuple[Point, Point, Point, Point]
_PER_MODULE = 4
"""Pixels that a module of the tag is looked at with."""
_RING = (0.75, 3.25)
"""Where the quiet zone is sampled, in modules out from the code: off its edge, and off the paper's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundTag:
    """A tag as it lies in a picture; points in that picture's pixels."""

    mark: str
    corners: Corners
    """The code's: upper left, upper right, lower right, lower left, as the tag is read."""
    paper: tuple[int, int, int]
    """sRGB of its white paper as photographed."""

    @property
    def pixels_per_mm(self) -> float:
        """The picture's scale at the tag: mean length of the code's sides against what is printed."""
        around = (*self.corners, self.corners[0])
        return sum(dist(one, two) for one, two in pairwise(around)) / 4 / float(CODE_MM)

    def outline(self) -> tuple[Point, ...]:
        """The whole tag's corners, and a little more, so that no white edge is taken for part of a tile."""
        spare = 1.5
        left, top = float(CODE.x) + spare, float(CODE.y) + spare
        right, low = float(WIDTH_MM) - float(CODE.x) + spare, float(HEIGHT_MM) - float(CODE.y) + spare
        sides = ((-left, -top), (right, -top), (right, low), (-left, low))
        return tuple(_at(self.corners, x / float(CODE_MM), y / float(CODE_MM)) for x, y in sides)


def found_tag(grey: Image.Image, image: Image.Image) -> FoundTag | None:
    """The tag in an upright RGB picture; where several lie in it, the largest. None where none can be read.

    `grey` is the same picture in greys, perhaps larger; the tag's points are in pixels of `image`.
    """
    import zxingcpp

    kinds = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
    tags = []
    scale = image.width / grey.width, image.height / grey.height
    for code in zxingcpp.read_barcodes(grey, kinds, try_invert=False, try_downscale=False):
        mark = mark_in(code.text)
        if mark is not None:
            at = code.position
            ends = (at.top_left, at.top_right, at.bottom_right, at.bottom_left)
            upper_left, upper_right, lower_right, lower_left = ((end.x * scale[0], end.y * scale[1]) for end in ends)
            corners = upper_left, upper_right, lower_right, lower_left
            tags.append(FoundTag(mark=mark, corners=corners, paper=_paper(image, corners)))
    return max(tags, key=lambda tag: (tag.pixels_per_mm, tag.mark), default=None)


def _paper(image: Image.Image, corners: Corners) -> tuple[int, int, int]:
    """The middle colour of the quiet zone around the code."""
    out, side = QUIET / MODULES, (MODULES + 2 * QUIET) * _PER_MODULE
    quad = [_at(corners, x, y) for x, y in ((-out, -out), (-out, 1 + out), (1 + out, 1 + out), (1 + out, -out))]
    flat = image.transform(
        (side, side), Image.Transform.QUAD, [n for point in quad for n in point], Image.Resampling.BILINEAR
    )
    near, far = ((QUIET - modules) * _PER_MODULE for modules in _RING)
    ring = Image.new("L", (side, side), 0)
    ring.paste(255, (int(far), int(far), side - int(far), side - int(far)))
    ring.paste(0, (int(near), int(near), side - int(near), side - int(near)))
    red, green, blue = (round(_middle(band, ring)) for band in flat.split())
    return red, green, blue


def _middle(band: Image.Image, ring: Image.Image) -> float:
    counted = band.histogram(ring)
    return median([value for value, count in enumerate(counted) for _ in range(count)])


def _at(corners: Corners, across: float, down: float) -> Point:
    """The point so far across and down the code (0 to 1 on it), carried on outside in the same plane.

    A code that a slanted camera narrows stays within a fraction of a module of this, which is all that is asked.
    """
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = corners
    top = (x0 + (x1 - x0) * across, y0 + (y1 - y0) * across)
    low = (x3 + (x2 - x3) * across, y3 + (y2 - y3) * across)
    return top[0] + (low[0] - top[0]) * down, top[1] + (low[1] - top[1]) * down
