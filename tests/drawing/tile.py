"""One fired test tile as a picture, from what its log row says."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image

from tests.drawing.canvas import TILE_HEIGHT, Canvas, Field, smooth
from tests.drawing.faults import FAULTS, Skin
from tests.drawing.flow import FOOT, SEAM, Reach, over_the_foot, running, still
from tests.drawing.form import Body, body, clay_colour
from tests.drawing.layers import Layer, glazed, layer, over, specked
from tests.drawing.light import lit, on_ground
from tests.drawing.recipes import CLAYS, GLAZES

SCALE = 8.0
"""Pixels a mm: 576 × 768 for a tile, of which the whole demo comes to some 15 MB."""
QUALITY = 86


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What is drawn: glazes and clay by id, coats of each layer (base first), the run in mm.

    `heat` is how far from the target it was fired, in cones: cooler is stiffer and drier, hotter glossier and thinner.
    `off` is a glaze that ran over the tile's foot.
    """

    seed: int
    base: str
    top: str | None
    coats: tuple[int, ...]
    clay: str
    texture: str
    run: float = 0.0
    off: bool = False
    heat: float = 0.0
    faults: tuple[str, ...] = ()
    base_unmelted: bool = False
    """Fired far too cool for the base's label: where it is dry, the base is."""


def picture(tile: Drawn, scale: float = SCALE) -> bytes:
    """The JPEG; the same tile and scale give the same bytes."""
    canvas = Canvas(tile.seed, scale)
    shape = body(canvas, tile.texture)
    base, top = _layers(canvas, shape, tile)
    upper = top or base
    if tile.off:
        spilt = np.where(canvas.y > TILE_HEIGHT - 3, upper.reach.above * 0.8, -9.0)
        shape = replace(
            shape, inside=np.maximum(shape.inside, spilt), mask=np.maximum(shape.mask, smooth(-0.06, 0.06, spilt))
        )
    look = CLAYS[tile.clay]
    clay = clay_colour(canvas, look, -base.reach.above)
    recipes = [base.recipe] if top is None else [base.recipe, top.recipe]
    colour = glazed(canvas, clay, base, top)
    colour = specked(canvas, colour, shape, round(look.specks * max(r.specks for r in recipes)))
    surface, gloss, glaze = _surface(canvas, shape, base, top, tile.heat)
    skin = Skin(
        colour=colour,
        clay=clay,
        beneath=clay if top is None else glazed(canvas, clay, base, None),
        raised=surface,
        gloss=gloss,
        glaze=glaze,
        upper=upper.on,
        unmelted=base.on * (1 - top.on) if top and tile.base_unmelted else upper.on,
        lowest=SEAM if top else 60.0,
    )
    for name, spoil in FAULTS.items():
        if name in tile.faults:
            spoil(canvas, skin)
    blurred = np.clip(canvas.blur(shape.detail, 0.6) - canvas.blur(shape.detail, 2.6), -0.9, 0.2)
    hollow = np.clip(1 + 0.32 * blurred, 0.55, 1.1)
    out = lit(canvas, skin.colour, skin.raised, hollow, skin.gloss, skin.glaze)
    return _jpeg(canvas, on_ground(canvas, out, shape.inside, shape.mask))


def _layers(canvas: Canvas, shape: Body, tile: Drawn) -> tuple[Layer, Layer | None]:
    brush = 1 + 0.06 * canvas.noise(30, 3.2) + 0.10 * canvas.noise(7)
    base_recipe = GLAZES[tile.base]
    if tile.top is None:
        reach = _edge(canvas, tile, min(FOOT, TILE_HEIGHT - 8 - tile.run))
        return layer(canvas, shape, base_recipe, tile.coats[0], reach, brush, _roll(tile.run)), None
    base = layer(canvas, shape, base_recipe, tile.coats[0], still(canvas, FOOT, 0.45), brush, 0.35)
    if tile.off:
        run_over = over_the_foot(canvas, SEAM)
        base = replace(base, reach=Reach(above=np.maximum(base.reach.above, run_over.above), beads=base.reach.beads))
        top = layer(canvas, shape, GLAZES[tile.top], tile.coats[1], run_over, brush, 0.7)
        return base, over(canvas, top, base)
    reach = _edge(canvas, tile, SEAM)
    top = layer(canvas, shape, GLAZES[tile.top], tile.coats[1], reach, brush, _roll(tile.run))
    return base, over(canvas, top, base)


def _edge(canvas: Canvas, tile: Drawn, at: float) -> Reach:
    return running(canvas, at, tile.run) if tile.run > 0.5 else still(canvas, at)


def _roll(run: float) -> float:
    return 0.3 if run <= 0.5 else min(0.55 + 0.05 * run, 1.0)


def _surface(canvas: Canvas, shape: Body, base: Layer, top: Layer | None, heat: float) -> tuple[Field, Field, Field]:
    """Heights in mm, gloss and where there is glaze. Glaze fills the hollows of a texture and levels itself."""
    thick = base.thick if top is None else base.thick + top.thick
    fill, glaze = np.clip(thick / 4, 0, 1), np.clip(thick, 0, 1)
    filled = shape.detail * (1 - fill * 0.75) + canvas.blur(shape.detail, 0.75) * fill * 0.75
    surface = shape.curve + filled + shape.grain * (1 - glaze) + 0.13 * canvas.blur(base.level, 0.22)
    gloss = base.recipe.gloss * np.ones_like(canvas.x)
    if top is not None:
        surface = surface + 0.15 * canvas.blur(top.level, 0.30)
        gloss = top.recipe.gloss * top.on + base.recipe.gloss * (1 - top.on)
    surface = surface + glaze * (0.0065 * canvas.noise(4.2) + 0.0010 * canvas.noise(1.1))
    fired = np.clip(gloss * (1 + (0.45 if heat < 0 else 0.12) * np.clip(heat, -1.5, 1.5)), 0, 1)
    return surface, fired * glaze, glaze


def _jpeg(canvas: Canvas, light: Field) -> bytes:
    light = np.clip(light, 0, 1)
    shown = np.where(light <= 0.0031308, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055)
    shown = shown + canvas.random.normal(0, 0.004, shown.shape)
    image = Image.fromarray((np.clip(shown, 0, 1) * 255 + 0.5).astype(np.uint8))
    out = io.BytesIO()
    image.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=False)
    return out.getvalue()
