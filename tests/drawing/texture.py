"""What is pressed, combed or cut into the clay before it is fired: heights in mm over the flat tile."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from tests.drawing.canvas import Canvas, Field, smooth

FROM, TO = 31.0, 66.0
"""The textured band, mm from the top edge: both glazes cross into it, so both break over it."""


def ridges(canvas: Canvas) -> Field:
    wander = canvas.noise(14) * 0.35
    z = np.zeros_like(canvas.x)
    for at in (33, 42, 51, 60):
        z = z + 1.25 * np.exp(-(((canvas.y - at + wander) / 1.5) ** 2))
    return z


def comb(canvas: Canvas) -> Field:
    y = canvas.y + 1.8 * np.sin(canvas.x / 5.2 + canvas.random.uniform(0, 6)) + canvas.noise(14) * 0.35
    return _band(canvas) * 0.55 * np.cos(y * 2 * np.pi / 3.1)


def flutes(canvas: Canvas) -> Field:
    """Shallow grooves cut downwards with a loop, sharp crests between them."""
    pitch = 5.6
    u = (canvas.x + 0.25 * canvas.noise(18) + canvas.random.uniform(0, pitch)) % pitch - pitch / 2
    return _band(canvas, 1.6) * (1.25 * (np.abs(u) / (pitch / 2)) ** 1.7 - 0.75)


def seeds(canvas: Canvas) -> Field:
    """Three rows of a seed-shaped stamp."""
    z = np.zeros_like(canvas.x)
    for cy, offset in ((35.0, 0.5), (48.0, 0.0), (61.0, 0.5)):
        for i in range(-3, 4):
            cx = (i + offset) * 10 + canvas.random.uniform(-0.5, 0.5)
            z = z + _seed(canvas, cx, cy + canvas.random.uniform(-0.4, 0.4), canvas.random.uniform(-0.15, 0.15))
    return z


def _seed(canvas: Canvas, cx: float, cy: float, turn: float) -> Field:
    x, y = canvas.x - cx, canvas.y - cy
    u, v = x * np.cos(turn) + y * np.sin(turn), y * np.cos(turn) - x * np.sin(turn)
    d = np.sqrt((u / 3.2) ** 2 + (v / 4.4) ** 2) + 0.10 * np.cos(2 * np.arctan2(v, u))
    pressed = -1.15 * smooth(1.0, 0.78, d)
    vein = 0.85 * np.exp(-((u / 0.5) ** 2)) * smooth(0.8, 0.5, d)
    return np.asarray(pressed + vein + 0.28 * np.exp(-(((d - 1.05) / 0.12) ** 2)))


def rings(canvas: Canvas) -> Field:
    """A cut pipe pressed in here and there: a groove with a raised middle, overlapping at random."""
    z = np.zeros_like(canvas.x)
    for i in range(17):
        cx, cy = (
            -22.5 + 7.4 * (i % 7) + canvas.random.normal(0, 1.5),
            36 + 12.5 * (i // 7) + canvas.random.normal(0, 1.8),
        )
        r = float(canvas.random.choice([2.6, 3.7, 4.6]))
        d = np.hypot(canvas.x - cx, canvas.y - cy)
        z = np.minimum(z, -1.0 * np.exp(-(((d - r) / 0.55) ** 2))) + 0.16 * np.exp(-(((d - r - 1.0) / 0.5) ** 2))
    return z


def lattice(canvas: Canvas) -> Field:
    """Cut with a knife, crossing aslant, at hand-kept distances."""
    wander = 0.5 * canvas.noise(20)
    z = np.zeros_like(canvas.x)
    for lean in (0.62, -0.55):
        u = canvas.x * np.cos(lean) + canvas.y * np.sin(lean) + wander
        z = np.minimum(z, -0.85 * np.exp(-((((u + 3.6) % 7.2 - 3.6) / 0.5) ** 2)))
    return _band(canvas) * z


def dots(canvas: Canvas) -> Field:
    """Slip trailed on in dots, each a little different."""
    z = np.zeros_like(canvas.x)
    for row in range(6):
        for i in range(-4, 5):
            cx = (i + 0.5 * (row % 2)) * 6.2 + canvas.random.normal(0, 0.25)
            cy = 34.5 + row * 5.6 + canvas.random.normal(0, 0.25)
            r = canvas.random.uniform(1.25, 1.75)
            rows, columns = canvas.around(cx, cy, 3.0)
            d = np.hypot(canvas.x[rows, columns] - cx, canvas.y[rows, columns] - cy) / r
            z[rows, columns] += 0.8 * np.sqrt(np.clip(1 - d**2, 0, 1)) + 0.12 * np.exp(-(d**2) / 1.4)
    return z


def chatter(canvas: Canvas) -> Field:
    """Rows of little bites left by a springing blade, running round as on a wheel."""
    row = np.floor((canvas.y - FROM + 0.3 * canvas.line(20)) / 4.4)
    u = (canvas.x + row * 1.9 + 0.3 * canvas.noise(16)) % 4.8 - 2.4
    v = (canvas.y - FROM) % 4.4 - 2.0
    d = np.sqrt((u / 1.75) ** 2 + ((v + 0.25 * u) / 1.3) ** 2)
    return _band(canvas) * -0.75 * smooth(1.0, 0.2, d)


def waves(canvas: Canvas) -> Field:
    """Broad thumb strokes, each dying out against the next."""
    y = canvas.y + 2.6 * np.sin(canvas.x / 9.5 + canvas.random.uniform(0, 6)) + 0.4 * canvas.noise(18)
    phase = (y / 6.8) % 1.0
    return _band(canvas, 2.0) * (1.35 * phase**1.6 * smooth(1.0, 0.9, phase) - 0.45)


def _band(canvas: Canvas, soft: float = 1.5) -> Field:
    return smooth(FROM - soft, FROM, canvas.y) * smooth(TO + soft, TO, canvas.y)


TEXTURES: Mapping[str, Callable[[Canvas], Field]] = {
    f.__name__: f for f in (ridges, comb, seeds, flutes, lattice, chatter, rings, dots, waves)
}
