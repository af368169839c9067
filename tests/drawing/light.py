"""Light from the upper left: shade, the window in the gloss, the tile's shadow on a grey ground."""

from __future__ import annotations

import numpy as np

from tests.drawing.canvas import PICTURE_HEIGHT, PICTURE_WIDTH, Canvas, Field, smooth
from tests.drawing.recipes import linear


def lit(canvas: Canvas, colour: Field, surface: Field, hollow: Field, gloss: Field, glaze: Field) -> Field:
    """`surface` in mm, `hollow` a darkening factor for hollows, `gloss` from 0 (matte) to 1."""
    down, right = np.gradient(surface * canvas.scale)
    nz = 1 / np.sqrt(1 + right**2 + down**2)
    nx, ny = -right * nz, -down * nz
    sun = np.array([-0.45, -0.55, 0.70]) / np.linalg.norm([-0.45, -0.55, 0.70])
    lambert = np.clip(nx * sun[0] + ny * sun[1] + nz * sun[2], 0, 1)
    out = colour * ((0.34 + 0.92 * lambert) * hollow)[..., None]
    rx, ry, rz = 2 * nz * nx, 2 * nz * ny, 2 * nz * nz - 1
    window = _box(rx, ry, -0.31, -0.06, 0.055, 0.40, 0.012) * (rz > 0)
    glazing_bar = 1 - 0.75 * smooth(0.02, 0.008, np.abs(ry + 0.06))
    haze = _box(rx, ry, -0.30, -0.12, 0.16, 0.5, 0.16)
    far = _box(rx, ry, 0.42, -0.2, 0.05, 0.30, 0.05) * 0.35
    glancing = 0.045 + 0.35 * (1 - np.clip(nz, 0, 1)) ** 2
    sky = 0.10 * smooth(0.2, -0.9, ry) + 0.02
    mirrored = gloss**2.2 * (window * glazing_bar * 0.36 + far * 0.16)
    veiled = (gloss * (1 - gloss) * 1.7 + 0.03 * glaze) * haze * 0.16
    shine = mirrored + veiled + gloss * glancing * sky * 2.0
    return np.asarray(out + shine[..., None] * np.array([1.0, 0.99, 0.96]))


def _box(rx: Field, ry: Field, cx: float, cy: float, wide: float, high: float, soft: float) -> Field:
    return smooth(-soft, soft, wide - np.abs(rx - cx)) * smooth(-soft, soft, high - np.abs(ry - cy))


def on_ground(canvas: Canvas, tile: Field, inside: Field, mask: Field) -> Field:
    """The lit tile laid on the grey ground with its shadow."""
    fall = (canvas.y + 6) / PICTURE_HEIGHT
    aside = (canvas.x / PICTURE_WIDTH * 1.6) ** 2
    ground = linear("#cfccc6") * (1.10 - 0.22 * fall)[..., None] * (1 - 0.10 * aside)[..., None]
    shape = smooth(-0.4, 0.4, inside)
    far = canvas.blur(_shifted(canvas, shape, 2.4, 2.0), 2.1)
    near = canvas.blur(_shifted(canvas, shape, 0.0, 0.6), 0.55)
    shadow = np.clip(0.50 * far + 0.38 * near, 0, 0.80)
    ground = ground * (1 - shadow[..., None] * 0.86)
    return np.asarray(ground * (1 - mask[..., None]) + tile * mask[..., None])


def _shifted(canvas: Canvas, field: Field, right: float, down: float) -> Field:
    return np.roll(np.roll(field, round(down * canvas.scale), 0), round(right * canvas.scale), 1)
