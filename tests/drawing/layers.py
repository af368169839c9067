"""Glaze on clay: how thick each layer lies, in coats, and the colour that gives.

Light later sees the levelled thickness, colour the uneven one: brush marks in the heights looked like cloth.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.drawing.canvas import TILE_HEIGHT, Canvas, Field, smooth
from tests.drawing.flow import Reach
from tests.drawing.form import Body
from tests.drawing.recipes import Recipe, linear


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    recipe: Recipe
    thick: Field
    level: Field
    on: Field
    reach: Reach


def layer(canvas: Canvas, body: Body, recipe: Recipe, coats: float, reach: Reach, brush: Field, roll: float) -> Layer:
    """`roll` is how much thicker the glaze lies along its lower edge; it is thin on edges and high points."""
    above = reach.above
    on = smooth(-0.05, 1.1, above)
    at_edge = smooth(0.0, 1.5, body.inside) * 0.75 + 0.25
    thick = coats * brush * on * (1 + roll * np.exp(-(((above - 1.0) / 1.1) ** 2)))
    thick *= 1 + 0.15 * recipe.flow * np.clip(canvas.y / TILE_HEIGHT, 0, 1)
    thick *= np.clip(1 - recipe.breaks * np.clip(body.high, -0.5, 1.3) * 1.15, 0.03, 2.2) * at_edge
    thick *= 1 + 0.55 * reach.beads
    level = coats * on * (1 + roll * np.exp(-(((above - 1.3) / 1.0) ** 2)) + 0.7 * reach.beads) * at_edge
    if recipe.streak:
        slid = canvas.noise(1.8, 22) * 0.4 + canvas.noise(4.5, 40) * 0.6
        thick *= np.clip(1 + recipe.streak * slid * smooth(0, 18, canvas.y), 0.15, 2.2)
    return Layer(recipe=recipe, thick=thick, level=level, on=on, reach=reach)


def over(canvas: Canvas, top: Layer, base: Layer) -> Layer:
    """The top layer where it slid down from above: thinner at the head of the tile, and only on glaze."""
    held = smooth(-0.3, 0.5, base.reach.above)
    slid = 0.82 + 0.36 * np.clip(canvas.y / (TILE_HEIGHT * 0.47), 0, 1)
    return Layer(
        recipe=top.recipe, thick=top.thick * held * slid, level=top.level * held, on=top.on * held, reach=top.reach
    )


def glazed(canvas: Canvas, clay: Field, base: Layer, top: Layer | None) -> Field:
    """The colour of the whole tile before light falls on it."""
    first = _colour(canvas, base.recipe, base.thick)
    hides = (1 - np.exp(-base.recipe.hide * base.thick))[..., None]
    seen = first * hides + clay * first * 1.9 * (1 - hides)
    colour = clay * (1 - base.on[..., None]) + base.on[..., None] * seen
    if top is None:
        return _flecked(canvas, colour, base, base.on, base.thick)
    both = base.thick + top.thick
    colour = _flecked(canvas, colour, base, base.on * (1 - top.on), both)
    second = _colour(canvas, top.recipe, top.thick)
    hides = 1 - np.exp(-top.recipe.hide * top.thick)
    parted = 1 + 0.18 * top.recipe.floats * canvas.cloud(2.4, 4, 0.6, 1, 3.2)
    hides = np.clip(hides * parted, 0, 1)[..., None]
    covered = second * hides + (first * 0.65 + second * first * 1.2) * (1 - hides)
    where = smooth(0.0, 0.35, top.thick)[..., None]
    colour = colour * (1 - where) + covered * where
    if top.recipe.melt:
        seam = 0.75 * np.exp(-(((top.reach.above + 0.1) / 1.0) ** 2))[..., None] * base.on[..., None]
        colour = colour * (1 - seam) + linear(top.recipe.melt) * seam
    return _flecked(canvas, colour, top, top.on, both)


def _colour(canvas: Canvas, recipe: Recipe, thick: Field) -> Field:
    uneven = thick + 0.20 * recipe.mottle * canvas.cloud(recipe.grain, 5, 0.62) * np.clip(thick, 0, 1)
    to_main = smooth(0.25, recipe.full, uneven)[..., None]
    to_pool = smooth(2.2, 4.2, uneven)[..., None]
    colour = linear(recipe.edge) * (1 - to_main) + linear(recipe.main) * to_main
    return np.asarray(colour * (1 - to_pool) + linear(recipe.pool) * to_pool)


def _flecked(canvas: Canvas, colour: Field, layer: Layer, where: Field, thick: Field) -> Field:
    if layer.recipe.fleck is None:
        return colour
    tint, amount = layer.recipe.fleck
    drift = canvas.cloud(1.5, 4, 0.7, 1, 1.7) + 0.3 * canvas.noise(12) + 0.1 * (thick - 2)
    fleck = (smooth(0.35, 2.6, drift) * amount * where * smooth(0.6, 1.4, thick))[..., None]
    return np.asarray(colour * (1 - fleck) + linear(tint) * fleck)


def specked(canvas: Canvas, colour: Field, body: Body, count: int) -> Field:
    """Iron from the clay, bled through as dark specks with a soft edge."""
    speck = np.zeros_like(canvas.x)
    xs, ys = canvas.random.uniform(-25, 25, count), canvas.random.uniform(0, TILE_HEIGHT, count)
    for cx, cy, r in zip(xs, ys, np.clip(canvas.random.lognormal(-1.6, 0.55, count), 0.08, 0.6), strict=True):
        part = canvas.around(float(cx), float(cy), 2.0)
        d = np.hypot(canvas.x[part] - cx, (canvas.y[part] - cy) * 0.85)
        speck[part] = np.maximum(speck[part], 0.95 * np.exp(-((d / r) ** 2)) + 0.25 * np.exp(-((d / (r * 2.4)) ** 2)))
    share = (np.clip(speck, 0, 1) * body.mask * 0.54)[..., None]
    return np.asarray(colour * (1 - share) + linear("#2a1710") * share)
