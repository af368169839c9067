"""How each glaze and clay of the demo studio looks once fired. Invented, like the glazes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from tests.drawing.canvas import Field


def linear(text: str) -> Field:
    """The colour `#rrggbb` in linear light."""
    c = np.array([int(text[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.asarray(np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4))


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """Colours where the glaze is thin (`edge`), as meant (`main`) and thick (`pool`), and how it behaves.

    `hide` is how fast a coat covers what is beneath; `breaks` how thin it gets on high points; `streak` and `floats`
    how much it parts while it slides; `fleck` a colour and its amount; `melt` the colour of the seam on another glaze.
    """

    edge: str
    main: str
    pool: str
    gloss: float
    hide: float = 2.2
    mottle: float = 0.6
    grain: float = 4.0
    breaks: float = 1.0
    streak: float = 0.0
    floats: float = 0.0
    flow: float = 1.0
    specks: float = 1.0
    fleck: tuple[str, float] | None = None
    melt: str | None = None
    full: float = 1.35
    """Coats at which the main colour is reached."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClayLook:
    main: str
    flash: str
    """Where the glaze's vapour coloured the clay beside it."""
    uneven: float
    specks: int


CLAYS: Mapping[str, ClayLook] = {
    "weir-buff": ClayLook(main="#d8c3a0", flash="#c08d5a", uneven=0.05, specks=40),
    "hod-speckle": ClayLook(main="#b5814f", flash="#8a4f2b", uneven=0.10, specks=170),
    "coalhouse": ClayLook(main="#5b3d30", flash="#3c241c", uneven=0.10, specks=30),
    "garden-pot-red": ClayLook(main="#b4613e", flash="#9b4a2c", uneven=0.06, specks=12),
}

GLAZES: Mapping[str, Recipe] = {
    "harbour-fog": Recipe(
        edge="#7a5138",
        main="#9fb0ba",
        pool="#6f8ea6",
        gloss=0.68,
        hide=1.7,
        mottle=0.9,
        streak=0.25,
        fleck=("#dfe6e6", 0.45),
        floats=1,
        flow=1.5,
        melt="#8b6a4a",
    ),
    "bramble-ink": Recipe(
        edge="#7c3f2a", main="#3a2233", pool="#1c1220", gloss=0.88, hide=3.0, mottle=0.5, breaks=0.9, full=1.1
    ),
    "kettle-rust": Recipe(
        edge="#b4632c",
        main="#6b2d17",
        pool="#2c140e",
        gloss=0.55,
        hide=3.0,
        mottle=1.1,
        grain=3,
        full=1.15,
        fleck=("#c98a3c", 0.35),
    ),
    "snow-pantry": Recipe(
        edge="#b98b5c", main="#e9e3d6", pool="#f2efe6", gloss=0.45, hide=1.9, breaks=1.1, full=1.1, specks=2.2
    ),
    "millpond": Recipe(
        edge="#8a7a52",
        main="#2f6f6a",
        pool="#123f4d",
        gloss=0.95,
        hide=1.2,
        mottle=0.4,
        breaks=1.2,
        flow=2,
        streak=0.2,
        melt="#3e6f58",
    ),
    "copper-ferry": Recipe(
        edge="#4a3324",
        main="#4c7560",
        pool="#6fa79a",
        gloss=0.70,
        mottle=1.2,
        fleck=("#a9c9b6", 0.35),
        streak=0.3,
        floats=1,
        melt="#2b2620",
    ),
    "dusk-heron": Recipe(
        edge="#6d4a3a",
        main="#39506f",
        pool="#1f2f55",
        gloss=0.80,
        hide=2.3,
        mottle=0.9,
        streak=0.45,
        fleck=("#a8b8cf", 0.45),
        floats=1.4,
        flow=2,
        melt="#8d7f86",
    ),
    "barley-attic": Recipe(
        edge="#8c5426", main="#c99a4b", pool="#a3742c", gloss=0.78, hide=1.1, mottle=0.7, breaks=1.1, streak=0.2
    ),
    "plum-gutter": Recipe(
        edge="#a8755f",
        main="#6d2b40",
        pool="#43182d",
        gloss=0.85,
        hide=2.0,
        mottle=0.8,
        breaks=1.1,
        streak=0.3,
        fleck=("#b98c94", 0.22),
        melt="#b58b86",
    ),
    "lichen-wall": Recipe(
        edge="#6b5136",
        main="#8f9470",
        pool="#b6b78d",
        gloss=0.10,
        hide=2.6,
        mottle=1.3,
        grain=2.5,
        full=1.15,
        fleck=("#c9c79f", 0.4),
    ),
    "rook-lane": Recipe(
        edge="#5a3a2a", main="#1d1c1e", pool="#0f0f12", gloss=0.92, hide=4.0, mottle=0.3, breaks=0.8, full=0.95
    ),
    "quarry-moth": Recipe(
        edge="#8a7460", main="#b0a79c", pool="#cfc9c0", gloss=0.08, hide=2.8, mottle=0.9, grain=3, full=1.1
    ),
    "ember-loft": Recipe(
        edge="#d9b07e",
        main="#b5482a",
        pool="#7a2216",
        gloss=0.55,
        hide=2.9,
        mottle=0.7,
        breaks=1.2,
        full=0.95,
        melt="#8c3a22",
    ),
    "clear-gallery": Recipe(
        edge="#efe9da", main="#e6e2d2", pool="#c6d2c2", gloss=1.0, hide=0.09, mottle=0.2, breaks=0.6
    ),
    "tin-orchard": Recipe(
        edge="#b08a55", main="#a3b48f", pool="#7f9d80", gloss=0.90, hide=1.0, mottle=0.5, breaks=1.3, streak=0.1
    ),
    "candle-weir": Recipe(
        edge="#8a5a26",
        main="#c4872b",
        pool="#7d4212",
        gloss=0.97,
        hide=1.3,
        mottle=0.5,
        breaks=1.1,
        streak=0.4,
        flow=2.2,
        melt="#8a5c2a",
    ),
    "salt-gull": Recipe(
        edge="#7f7c78",
        main="#cfd6d6",
        pool="#8fa9c2",
        gloss=0.75,
        hide=1.5,
        mottle=1.0,
        streak=0.5,
        fleck=("#5c7fae", 0.40),
        floats=1.6,
        melt="#7688a0",
    ),
    "moss-cellar": Recipe(edge="#5a4a2c", main="#3f4a2a", pool="#1f2616", gloss=0.12, hide=2.8, mottle=1.1, grain=3),
    "thistle-barge": Recipe(
        edge="#a592b4",
        main="#50488c",
        pool="#2a2358",
        gloss=0.84,
        hide=2.1,
        mottle=0.7,
        streak=0.3,
        fleck=("#9c8fc4", 0.22),
        floats=0.6,
        flow=1.4,
        melt="#6f5f80",
    ),
    "cinder-lark": Recipe(
        edge="#5c4630",
        main="#3a3633",
        pool="#262423",
        gloss=0.30,
        hide=3.4,
        mottle=1.3,
        grain=2,
        fleck=("#a47a3f", 0.65),
    ),
    "fennel-stair": Recipe(edge="#c3a262", main="#c6c48a", pool="#a9ad70", gloss=0.48, hide=1.7, mottle=0.5),
    "brick-swallow": Recipe(
        edge="#c79a55",
        main="#8f3524",
        pool="#571a14",
        gloss=0.85,
        hide=2.0,
        mottle=0.9,
        streak=0.6,
        floats=1.2,
        flow=2.2,
        melt="#c08a4a",
    ),
    "cherry-sluice": Recipe(edge="#d2694a", main="#b01f2a", pool="#7a0f1d", gloss=0.98, hide=2.4, mottle=0.25),
    "otter-slate": Recipe(
        edge="#7f6a52", main="#64748a", pool="#4a6a66", gloss=0.82, hide=2.0, mottle=0.8, streak=0.2, melt="#5a5f58"
    ),
}
