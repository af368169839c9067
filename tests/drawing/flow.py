"""Where each layer of glaze ends, its runs included."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.drawing.canvas import TILE_HEIGHT, TILE_WIDTH, Canvas, Field, smooth

SEAM = 0.47 * TILE_HEIGHT
"""Where the top glaze was brushed to."""
FOOT = TILE_HEIGHT - 10.5
"""Where the first glaze was wiped back to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """`above` is mm above the layer's own lower edge, negative below it; `beads` marks the thick ends of runs."""

    above: Field
    beads: Field


def still(canvas: Canvas, at: float, unsteady: float = 0.6) -> Reach:
    edge = at + unsteady * canvas.line(16) + 0.2 * canvas.line(4)
    return Reach(above=edge - canvas.y, beads=np.zeros_like(canvas.x))


def running(canvas: Canvas, at: float, run: float) -> Reach:
    """An edge brushed to `at`, with runs of which the longest ends `run` mm below it."""
    start = still(canvas, at, 0.5)
    above = start.above + min(0.3 * run, 3.0) * (0.35 + 0.28 * canvas.line(8))
    count = int(canvas.random.integers(4, 7)) if run >= 4 else int(canvas.random.integers(2, 5))
    places = _apart(canvas, count)
    lengths = run * np.clip(canvas.random.beta(1.1, 1.8, count), 0.12, 1)
    lengths[int(canvas.random.integers(count))] = run
    melt = 1.5
    joined, beads = np.exp(above / melt), np.zeros_like(canvas.x)
    for cx, length in zip(places, lengths, strict=True):
        distance, bead = _run(canvas, float(cx), at, float(length))
        joined = joined + np.exp(np.clip(distance / melt * 1.25, -60, 30))
        beads = np.maximum(beads, bead)
    return Reach(above=melt * np.log(joined), beads=beads)


def _run(canvas: Canvas, cx: float, at: float, length: float) -> tuple[Field, Field]:
    """Mm inside one run (negative outside), and the bead at its end from 0 to 1."""
    width = canvas.random.uniform(1.2, 2.6) * (0.75 + 0.02 * min(length, 20))
    end = at + length - width
    x = canvas.x - cx - 0.35 * np.sin(canvas.y / 6 + cx) - 0.15 * np.sin(canvas.y / 2.3 + 3 * cx)
    d = np.hypot(x, canvas.y - np.clip(canvas.y, at - 6, max(end, at - 5.9)))
    neck = 1 + 1.0 * np.exp(-(((canvas.y - at) / (2.2 + 0.22 * length)) ** 2))
    swell = 1 + 0.22 * smooth(end - 5, end, canvas.y) - 0.10 * smooth(at + 1, end - 4, canvas.y) * (length > 8)
    bead = np.exp(-((x / (width * 0.9)) ** 2) - ((canvas.y - end) / (width * 1.3)) ** 2) * (length > 2.5)
    return width * neck * swell - d, bead


def _apart(canvas: Canvas, count: int) -> Field:
    """Places across the tile, at uneven distances but never on top of one another."""
    room = TILE_WIDTH - 9
    cuts = np.sort(canvas.random.uniform(0, room - 4.5 * (count - 1), count))
    return np.asarray(cuts + 4.5 * np.arange(count) - room / 2)


def over_the_foot(canvas: Canvas, at: float) -> Reach:
    """A layer that went over the tile's foot: broad sheets down to the shelf, and puddles there."""
    reach = running(canvas, at, TILE_HEIGHT - at - 14)
    above, beads = reach.above, reach.beads
    for cx in _apart(canvas, 3):
        sheet, _ = _run(canvas, float(cx), at, TILE_HEIGHT - at + 4)
        puddle = np.hypot((canvas.x - cx) / canvas.random.uniform(4.5, 7.0), (canvas.y - TILE_HEIGHT - 0.2) / 1.5)
        above = np.maximum(above, np.maximum(np.minimum(sheet + 0.5, TILE_HEIGHT + 0.4 - canvas.y), 1.5 * (1 - puddle)))
        beads = np.maximum(beads, np.exp(-(puddle**2)))
    return Reach(above=above, beads=beads)
