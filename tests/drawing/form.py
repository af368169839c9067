"""The bare tile: its outline with the hanging hole, its heights and the colour of its clay."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.drawing.canvas import TILE_HEIGHT, TILE_WIDTH, Canvas, Field, smooth
from tests.drawing.recipes import ClayLook, linear
from tests.drawing.texture import TEXTURES


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """`inside` is mm from the nearest edge (negative outside), `high` how far a spot stands above what is round it."""

    inside: Field
    mask: Field
    curve: Field
    detail: Field
    grain: Field
    high: Field


def body(canvas: Canvas, texture: str) -> Body:
    inside = _inside(canvas)
    rim = np.clip(inside, 0, 2.6) / 2.6
    edge = -1.9 * (1 - np.sqrt(np.clip(1 - (1 - rim) ** 2, 0, 1)))
    detail = edge + TEXTURES[texture](canvas)
    return Body(
        inside=inside,
        mask=smooth(-0.06, 0.06, inside),
        curve=-2.9 * (canvas.x / (TILE_WIDTH / 2)) ** 2,
        detail=detail,
        grain=0.035 * canvas.noise(0.5) + 0.05 * canvas.noise(1.6),
        high=canvas.blur(detail - canvas.blur(detail, 2.2), 0.28),
    )


def _inside(canvas: Canvas) -> Field:
    x, y = canvas.x, canvas.y
    radius = np.where(y < TILE_HEIGHT / 2, 7.0, 1.6)
    half = TILE_WIDTH / 2 + 0.9 * (y / TILE_HEIGHT) - 0.45
    qx, qy = np.abs(x) - half + radius, np.abs(y - TILE_HEIGHT / 2) - TILE_HEIGHT / 2 + radius
    out = np.hypot(np.maximum(qx, 0), np.maximum(qy, 0)) + np.minimum(np.maximum(qx, qy), 0) - radius
    out = out + 0.09 * canvas.noise(26) + 0.012 * canvas.noise(1.2)
    hole = 2.3 - np.hypot(x - 0.2, y - 7.5)
    return -np.maximum(out, hole)


def clay_colour(canvas: Canvas, look: ClayLook, below_glaze: Field) -> Field:
    """`below_glaze` is mm below the glaze's edge; just there the clay is flashed."""
    grain = 1 + look.uneven * canvas.cloud(6, 5, 0.7) * 0.6 - 0.25 * (canvas.noise(0.45) > 2.2)
    flash = 0.55 * np.exp(-np.clip(below_glaze, 0, 9) / 2.2) * (below_glaze > -0.3)
    return np.asarray(
        linear(look.main) * grain[..., None] * (1 - flash[..., None]) + linear(look.flash) * flash[..., None]
    )
