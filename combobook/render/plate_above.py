"""A plate from above: its inside is one answer, drawn smaller than its profile."""

from __future__ import annotations

from combobook.render.pot import Colours, Pot
from combobook.render.shapes import inside_of, radius_at
from combobook.verdicts import Band

_SMALLER = 0.62
_STEP = 8.0


def plate_above(pot: Pot, band: Band, ident: str, colours: Colours) -> tuple[float, str]:
    """How wide it is, in the pot's units, and its elements: solid where the top may go, hatched where it must not."""
    scale = pot.scale * _SMALLER
    rim = pot.outside[-1][0] * scale
    centre, size = rim + 3, 2 * rim + 6
    middle = _middle(pot, band) * scale
    filled = _disc(centre, rim) + (_disc(centre, middle) if middle else "")
    stroke = f'fill="none" stroke="{colours.ink}"'
    if band.inside:
        answer = f'<path class="here"{colours.fill()} fill-rule="evenodd" d="{filled}"/>'
    else:
        lines = "".join(
            f"M{i * _STEP - size:.1f} {size:.1f}l{size:.1f} -{size:.1f}" for i in range(int(2 * size / _STEP) + 1)
        )
        answer = (
            f'<clipPath id="{ident}"><path d="{filled}"/></clipPath>'
            f'<path clip-path="url(#{ident})" d="{lines}" {stroke} stroke-width=".9"/>'
        )
    rings = "".join(
        f'<circle cx="{centre:.1f}" cy="{centre:.1f}" r="{r:.1f}" {stroke} stroke-width="1.4"/>'
        for r in (rim, pot.outside[0][0] * scale * 1.6)
    )
    return size, answer + rings


def _middle(pot: Pot, band: Band) -> float:
    """The radius in mm of the middle that stays bare, where the top goes inside only down to a depth; else 0."""
    if not band.inside or band.inside_to_mm is None:
        return 0.0
    inner = inside_of(pot.outside, 4.0, min(8.0, pot.height * 0.35))
    lowest = pot.height - band.inside_to_mm
    return radius_at(inner, lowest) if inner and lowest > inner[0][1] else 0.0


def _disc(centre: float, radius: float) -> str:
    return (
        f"M{centre - radius:.1f} {centre:.1f}a{radius:.1f} {radius:.1f} 0 1 0 {2 * radius:.1f} 0"
        f"a{radius:.1f} {radius:.1f} 0 1 0 -{2 * radius:.1f} 0z"
    )
