"""What went wrong, drawn so that it can be seen at the size of a card: faults change colour, heights and gloss."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from tests.drawing.canvas import TILE_HEIGHT, TILE_WIDTH, Canvas, Field, smooth
from tests.drawing.recipes import linear


@dataclass(slots=True, kw_only=True)
class Skin:
    """The fired surface while faults are laid into it; `bare` is where clay shows through."""

    colour: Field
    clay: Field
    beneath: Field
    """The colour under the upper layer: the first glaze, or the clay of a glaze alone."""
    raised: Field
    gloss: Field
    glaze: Field
    """1 where there is glaze."""
    upper: Field
    """1 where the upper layer lies (the only one of a glaze alone)."""
    unmelted: Field
    """1 on the layer that would be dry."""
    lowest: float
    """Mm from the top edge to which the upper layer was brushed."""

    def stain(self, tint: str, amount: Field) -> None:
        share = amount[..., None]
        self.colour = self.colour * (1 - share) + linear(tint) * share


def pinholes(canvas: Canvas, skin: Skin) -> None:
    _pits(canvas, skin, count=70, low=0.24, high=0.50, rim=0.13)


def pits(canvas: Canvas, skin: Skin) -> None:
    _pits(canvas, skin, count=5, low=0.55, high=0.95, rim=0.05)


def craters(canvas: Canvas, skin: Skin) -> None:
    _pits(canvas, skin, count=11, low=0.8, high=1.6, rim=0.3)


def _pits(canvas: Canvas, skin: Skin, *, count: int, low: float, high: float, rim: float) -> None:
    hole, edge = np.zeros_like(canvas.x), np.zeros_like(canvas.x)
    xs = np.clip(canvas.random.normal(0, 10, count), -21, 21)
    ys = canvas.random.uniform(11, max(skin.lowest, 24), count)
    for cx, cy, r in zip(xs, ys, canvas.random.uniform(low, high, count), strict=True):
        part = canvas.around(float(cx), float(cy), r * 3.2)
        d = np.hypot(canvas.x[part] - cx, canvas.y[part] - cy)
        hole[part] = np.maximum(hole[part], smooth(r * 1.05, r * 0.75, d))
        edge[part] = np.maximum(edge[part], np.exp(-(((d - r * 1.35) / (r * 0.35)) ** 2)))
    hole, edge = hole * skin.glaze, edge * skin.glaze
    skin.stain("#1d1410", hole * 0.85)
    skin.raised = skin.raised - 0.5 * hole + rim * edge
    skin.gloss = skin.gloss * (1 - hole)


def blisters(canvas: Canvas, skin: Skin) -> None:
    count = 19
    xs = canvas.random.uniform(-18, 18, count)
    ys = canvas.random.uniform(14, skin.lowest + 2, count)
    for cx, cy, r in zip(xs, ys, canvas.random.uniform(0.8, 2.0, count), strict=True):
        part = canvas.around(float(cx), float(cy), r * 1.6)
        d = np.hypot(canvas.x[part] - cx, canvas.y[part] - cy) / r * (1 + 0.05 * np.sin(canvas.y[part] * 3))
        dome = np.sqrt(np.clip(1 - d**2, 0, 1)) * r * 0.6
        if canvas.random.random() < 0.45:
            burst = smooth(0.62, 0.5, d)
            dome = np.where(d < 0.62, dome * (1 - burst) - 0.25 * burst, dome)
            share = (0.78 * burst)[..., None]
            skin.colour[part] = skin.colour[part] * (1 - share) + linear("#2b1d17") * share
            skin.gloss[part] = skin.gloss[part] * (1 - burst)
        skin.raised[part] = skin.raised[part] + dome * skin.glaze[part]


def crazing(canvas: Canvas, skin: Skin) -> None:
    """Crackle: the edges of cells round scattered points, a few wide cracks and a finer net between."""
    x, y = canvas.x + 0.5 * canvas.noise(4), canvas.y + 0.5 * canvas.noise(4)
    for count, strength in ((70, 0.72), (240, 0.34)):
        near, second = np.full(x.shape, 1e9), np.full(x.shape, 1e9)
        xs = canvas.random.uniform(-TILE_WIDTH / 2 - 4, TILE_WIDTH / 2 + 4, count)
        ys = canvas.random.uniform(-4, TILE_HEIGHT + 4, count)
        for px, py in zip(xs, ys, strict=True):
            d = (x - px) ** 2 + (y - py) ** 2
            second = np.minimum(second, np.maximum(near, d))
            near = np.minimum(near, d)
        crack = smooth(0.20, 0.05, np.sqrt(second) - np.sqrt(near)) * skin.glaze * skin.upper * strength
        skin.stain("#33241b", crack)
        skin.raised = skin.raised - 0.025 * crack


def crawling(canvas: Canvas, skin: Skin) -> None:
    """Islands: the glaze drew back into itself, thick-edged, and shows what is beneath."""
    pulled = canvas.noise(6.5, 8.5) + 0.35 * canvas.noise(2.6)
    away = smooth(1.02, 1.22, pulled) * smooth(0.45, 0.75, skin.upper)
    lip = np.exp(-(((pulled - 0.85) / 0.16) ** 2)) * skin.upper
    share = away[..., None]
    skin.colour = skin.colour * (1 - share) + skin.beneath * 0.85 * share
    skin.raised = skin.raised + 0.34 * lip * (1 - away) - 0.16 * away
    skin.gloss = skin.gloss * (1 - away)
    skin.glaze = skin.glaze * (1 - away)


def bare_patches(canvas: Canvas, skin: Skin) -> None:
    missed = smooth(1.3, 1.55, canvas.noise(11) + 0.3 * canvas.noise(3)) * skin.glaze
    share = missed[..., None]
    skin.colour = skin.colour * (1 - share) + skin.clay * share
    skin.gloss = skin.gloss * (1 - missed)


def shivering(canvas: Canvas, skin: Skin) -> None:
    """Slivers off the edges, where a glaze in compression let go."""
    side = smooth(TILE_WIDTH / 2 - 2.2, TILE_WIDTH / 2 - 0.8, np.abs(canvas.x) + 0.7 * canvas.line(5))
    off = side * smooth(0.3, 0.5, canvas.noise(2.5, 9)) * skin.glaze
    share = off[..., None]
    skin.colour = skin.colour * (1 - share) + skin.clay * share
    skin.raised, skin.gloss = skin.raised - 0.3 * off, skin.gloss * (1 - off)


def dry(canvas: Canvas, skin: Skin) -> None:
    """Never melted: chalky, pale, without any shine."""
    chalk = 0.55 * skin.unmelted
    skin.stain("#d9d2c6", chalk * (0.75 + 0.2 * np.clip(canvas.cloud(3), -1, 1)))
    skin.raised = skin.raised + 0.030 * canvas.noise(0.7) * skin.unmelted
    skin.gloss = skin.gloss * (1 - 0.97 * skin.unmelted)


def rough(canvas: Canvas, skin: Skin) -> None:
    """Grit that did not melt in, standing up out of the glaze."""
    grit = np.clip(canvas.noise(0.75) - 1.1, 0, 1.4) * (0.35 + 0.65 * smooth(0.2, 1.0, canvas.noise(12))) * skin.upper
    skin.raised = skin.raised + 0.16 * grit
    skin.stain("#8d8071", np.clip(0.35 * grit, 0, 0.5))
    skin.gloss = skin.gloss * (1 - 0.55 * skin.upper)


def sharp(canvas: Canvas, skin: Skin) -> None:
    """Broken bubbles: short bright edges along the lower end of the upper layer."""
    burr = np.exp(-(((canvas.y - skin.lowest - 2 + 0.8 * canvas.line(4)) / 0.5) ** 2)) * smooth(
        0.5, 1.2, canvas.noise(2.2, 1)
    )
    skin.raised = skin.raised + 0.4 * burr * skin.glaze


FAULTS: Mapping[str, Callable[[Canvas, Skin], None]] = {
    "pinholes": pinholes,
    "pits": pits,
    "craters": craters,
    "blisters": blisters,
    "crawling": crawling,
    "bare patches": bare_patches,
    "shivering": shivering,
    "dry": dry,
    "rough": rough,
    "sharp": sharp,
    "crazing": crazing,
}
"""In the order in which they are laid into the surface."""
