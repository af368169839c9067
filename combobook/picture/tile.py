"""Where the tile lies in a picture, and the part of it whose colour is measured."""

from __future__ import annotations

from statistics import median

from PIL import Image, ImageChops, ImageDraw

from combobook.picture.tag import Point
from combobook.pictures import Edges

LOOKED_AT = 120
"""Longer side, in pixels, of the picture in which the tile is looked for."""
_LEAST, _FILLED = 0.02, 0.55
"""Least part of the picture that a tile takes, and least part of its own rectangle that it fills."""
_GAP = 0.06
"""Stripes narrower than this part of the picture do not end a tile: a highlight, or a glaze as grey as the table."""
_PART = (0.14, 0.06, 0.86, 0.42)
"""The part of a tile that is measured: off its edges, and in its upper part, where the second glaze was brushed over
the first and the foot's bare clay is far (common practice, no source)."""
_MIDDLE = (0.12, 0.12, 0.88, 0.88)


def edges(image: Image.Image, tag: tuple[Point, ...]) -> Edges | None:
    """Where the tile lies in an upright RGB picture; None where none stands out in it.

    `tag` is the outline of the tile's paper tag in parts of width and height, or empty: it is never part of the tile.
    """
    small = image.resize(_fitted(image.size), Image.Resampling.BOX)
    outline = [(x * small.width, y * small.height) for x, y in tag]
    return _tile(_standing_out(small, outline))


def glazed(found: Edges | None) -> Edges:
    """The part to measure, of a tile with these edges; the middle of the picture where no tile was found."""
    if found is None:
        return _MIDDLE
    left, top, right, low = found
    x0, y0, x1, y1 = _PART
    width, height = right - left, low - top
    return left + x0 * width, top + y0 * height, left + x1 * width, top + y1 * height


def _fitted(size: tuple[int, int]) -> tuple[int, int]:
    longest = max(size)
    shrink = min(1.0, LOOKED_AT / longest)
    return max(1, round(size[0] * shrink)), max(1, round(size[1] * shrink))


def _standing_out(small: Image.Image, outline: list[Point]) -> Image.Image:
    """White where the picture differs from its background, black elsewhere and on the tag."""
    if outline:
        ImageDraw.Draw(small).polygon(outline, fill=_middle_of_border(small))
    table = _table(small)
    red, green, blue = ImageChops.difference(small, table).split()
    apart = ImageChops.lighter(ImageChops.lighter(red, green), blue)
    edge = sorted(_border(apart))
    limit = max(10, round(1.3 * edge[int(len(edge) * 0.9)]))
    mask = apart.point([255 if value > limit else 0 for value in range(256)])
    if outline:
        ImageDraw.Draw(mask).polygon(outline, fill=0)
    return mask


def _table(small: Image.Image) -> Image.Image:
    """What lies under the tile, as the four corners show it: light falls off over a table."""
    width, height = small.size
    x, y = max(1, width // 12), max(1, height // 12)
    corners = Image.new("RGB", (2, 2))
    for column, left in enumerate((0, width - x)):
        for row, top in enumerate((0, height - y)):
            patch = small.crop((left, top, left + x, top + y)).resize((1, 1), Image.Resampling.BOX)
            corners.paste(patch, (column, row))
    # From the middle of each corner's pixel, so that the corners keep their own colour.
    return corners.resize((width, height), Image.Resampling.BILINEAR, box=(0.5, 0.5, 1.5, 1.5))


def _border(band: Image.Image) -> list[int]:
    """The values along the picture's edge."""
    width, height = band.size
    strips = ((0, 0, width, 1), (0, height - 1, width, height), (0, 0, 1, height), (width - 1, 0, width, height))
    return [value for strip in strips for value in band.crop(strip).tobytes()]


def _middle_of_border(small: Image.Image) -> tuple[int, int, int]:
    red, green, blue = (round(median(_border(band))) for band in small.split())
    return red, green, blue


def _tile(mask: Image.Image) -> Edges | None:
    """The rectangle that what stands out fills, or None where it fills none."""
    width, height = mask.size
    top, low = 0, height
    left, right = 0, width
    for _ in range(2):  # the second time without what stood out elsewhere
        left, right = _run(mask.crop((0, top, width, low)).resize((width, 1), Image.Resampling.BOX))
        top, low = _run(mask.crop((left, 0, right, height)).resize((1, height), Image.Resampling.BOX))
        if left == right or top == low:
            return None
    filled = sum(mask.crop((left, top, right, low)).histogram()[128:]) / ((right - left) * (low - top))
    if filled < _FILLED or (right - left) * (low - top) < _LEAST * width * height:
        return None
    return left / width, top / height, right / width, low / height


def _run(shares: Image.Image) -> tuple[int, int]:
    """The longest stretch whose columns (or rows) stand out well, narrow gaps included; (0, 0) where there is none."""
    values = shares.tobytes()
    least = max(30, max(values) * 0.4)
    gap = max(1, round(len(values) * _GAP))
    best, start, end = (0, 0), None, 0
    for at, value in enumerate(values):
        if value < least:
            continue
        if start is None or at - end > gap:
            start = at
        end = at + 1
        best = max(best, (start, end), key=lambda run: run[1] - run[0])
    return best
