"""Photographs of tiles as a camera would take them, drawn in linear light: a table, a tile, perhaps its tag, a lamp.

What a surface is, is given in CIELAB; what the camera makes of it under a lamp is computed here and nowhere in the
program, so that the program can be asked for what was given.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import coloraide
import numpy as np
from PIL import Image, ImageFilter

from combobook import tags
from tests.picture.photographs import coded

Light = tuple[float, float, float]
LabTriple = tuple[float, float, float]

PX = 5
"""Pixels a millimetre, before the camera."""
WIDE_MM, HIGH_MM = 150, 170
TILE_MM = (20, 12, 60, 110)
"""The tile's left, top, width and height on the table."""
TAG_MM = (18, 132)
"""The tag's upper left corner on the table."""
PAPER: LabTriple = (94.0, 0.4, -1.0)
"""An office paper, not quite what the program takes paper for."""
INK: LabTriple = (16.0, 0.0, 0.0)
TABLE: LabTriple = (62.0, 1.0, 4.0)
CLAY: LabTriple = (70.0, 6.0, 18.0)
DAY: Light = (0.9, 0.9, 0.9)
CASTS: dict[str, Light] = {"a warm bulb": (0.95, 0.66, 0.36), "blue shade": (0.50, 0.66, 0.92), "a green tube": (0.62, 0.88, 0.56)}
"""What each lamp leaves of red, green and blue light, exposure included."""
# Where the table's four corners (upper left, upper right, lower right, lower left) come to lie, as parts of the picture.
STRAIGHT = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
SLANTED = ((0.13, 0.10), (0.93, 0.03), (0.99, 0.95), (0.02, 0.90))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What lies there and how it is seen. `spots` break the glaze; `base` is what the lower half of the tile shows."""

    glaze: LabTriple
    base: LabTriple | None = None
    spots: LabTriple | None = None
    shine: bool = False
    tag: str = "B117"
    """The tag's mark; empty: no tag."""
    light: Light = DAY
    view: tuple[tuple[float, float], ...] = STRAIGHT
    table: LabTriple = TABLE


@cache
def photograph(scene: Scene) -> bytes:
    """The scene as a JPEG."""
    return coded(camera(scene), "JPEG", quality=92)


def camera(scene: Scene) -> Image.Image:
    """The scene as an sRGB picture: slanted, a little soft and grainy, as a phone's."""
    # 4,096 steps of light are finer than a picture's 256, and a table of them quicker than a power for every pixel.
    steps = (np.clip(_laid_out(scene) * np.array(scene.light, dtype=np.float32), 0, 1) * 4095).astype(np.uint16)
    seen = Image.fromarray(_STEPS[steps])
    if scene.view != STRAIGHT:
        seen = seen.transform(seen.size, Image.Transform.PERSPECTIVE, _perspective(scene.view, seen.size),
                              Image.Resampling.BICUBIC, fillcolor=tuple(_srgb(_linear(scene.table) * np.array(scene.light))))  # fmt: skip
    soft = np.asarray(seen.filter(ImageFilter.BoxBlur(0.6)), dtype=np.int16)
    return Image.fromarray(np.clip(soft + _grain(), 0, 255).astype(np.uint8))


@cache
def _grain() -> np.ndarray:
    """The noise of a sensor: a standard deviation of 1.5 of 255."""
    shape = (HIGH_MM * PX, WIDE_MM * PX, 3)
    return np.random.default_rng(1).normal(0, 1.5, shape).round().astype(np.int16)


def _laid_out(scene: Scene) -> np.ndarray:
    """The table from above, in linear reflectance."""
    chance = np.random.default_rng(2)
    land = np.tile(_linear(scene.table), (HIGH_MM * PX, WIDE_MM * PX, 1))
    x, y, wide, high = (mm * PX for mm in TILE_MM)
    tile = np.tile(_linear(scene.glaze), (high, wide, 1))
    if scene.spots is not None:
        spots = np.asarray(Image.fromarray(chance.random((high // 5, wide // 5)) < 0.3).resize((wide, high), Image.Resampling.NEAREST))
        tile[spots] = _linear(scene.spots)
    if scene.base is not None:
        tile[high // 2 :] = _linear(scene.base)
    if scene.shine:
        tile[high // 12 : high // 3, wide // 6 : wide // 4] = 0.95
    tile[-high // 8 :] = _linear(CLAY)
    land[y : y + high, x : x + wide] = tile
    if scene.tag:
        _lay_tag(land, scene.tag)
    return land


def _lay_tag(land: np.ndarray, mark: str) -> None:
    """Paper, code and scale, placed as `tags` says."""
    left, top = TAG_MM

    def box(x: float, y: float, wide: float, high: float) -> tuple[slice, slice]:
        (x0, x1), (y0, y1) = ((round(a * PX), round(b * PX)) for a, b in ((left + x, left + x + wide), (top + y, top + y + high)))
        return slice(y0, y1), slice(x0, x1)

    land[box(0, 0, float(tags.WIDTH_MM), float(tags.HEIGHT_MM))] = _linear(PAPER)
    side = float(tags.MODULE_MM)
    for down, row in enumerate(tags.modules(mark)):
        for across, dark in enumerate(row):
            if dark:
                land[box(float(tags.CODE.x) + across * side, float(tags.CODE.y) + down * side, side, side)] = _linear(INK)
    for mm in range(tags.SCALE_MM + 1):
        land[box(float(tags.SCALE.x) + mm, float(tags.SCALE.y), 0.2, 3.2 if mm % 10 == 0 else 1.5)] = _linear(INK)


def _linear(lab: LabTriple) -> np.ndarray:
    return np.array(coloraide.Color("lab-d65", list(lab)).convert("srgb-linear").coords(), dtype=np.float32)


def _srgb(light: np.ndarray) -> np.ndarray:
    """IEC 61966-2-1."""
    held = np.clip(light, 0, 1)
    return (255 * np.where(held <= 0.0031308, held * 12.92, 1.055 * held ** (1 / 2.4) - 0.055)).round().astype(np.uint8)


_STEPS = _srgb(np.arange(4096) / 4095)


def _perspective(view: tuple[tuple[float, float], ...], size: tuple[int, int]) -> list[float]:
    """The eight numbers with which Pillow finds the point of the table for each point of the picture."""
    rows, values = [], []
    for (u, v), (x, y) in zip(STRAIGHT, view, strict=True):
        u, v, x, y = u * size[0], v * size[1], x * size[0], y * size[1]
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        values += [u, v]
    return [float(n) for n in np.linalg.solve(np.array(rows), np.array(values))]
