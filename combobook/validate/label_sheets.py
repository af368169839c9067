"""Sheets of sticky labels, as a ruler measures them: two lengths, across and down."""

from __future__ import annotations

import re

from combobook.measures import Sides
from combobook.tags import HEIGHT_MM, WIDTH_MM
from combobook.validate.quantities import LENGTHS, NUMBER, length
from combobook.validate.refusal import Refusal

_TWO = re.compile(rf"({NUMBER})\s*(\S*?)\s*(?:x|×|by)\s*({NUMBER})\s*(.*)", re.IGNORECASE)


def sides(text: str) -> Sides | Refusal:
    """Two lengths, across then down, in mm; 0 included; a unit after the second stands for both."""
    match = _TWO.fullmatch(text)
    if match is None:
        return Refusal(
            code="bad-sides",
            message=f"expected two lengths, across and down, such as `70 x 36 mm`, got `{text}`",
            help="measure across first, then down, and write both with their unit: `4.8 x 12.7 mm`",
        )
    unit = match[4].strip()
    across, down = length(f"{match[1]} {match[2] or unit}"), length(f"{match[3]} {unit}")
    for found in (down, across):
        if isinstance(found, Refusal):
            if found.code == "no-unit":
                fix = f"write the unit you measured in: `{text} {next(iter(LENGTHS))}`?"
                return Refusal(
                    code=found.code, message=f"`{text}` has no unit: expected lengths such as `70 x 36 mm`", help=fix
                )
            return Refusal(code=found.code, message=found.message, help=found.help)
    assert not isinstance(across, Refusal) and not isinstance(down, Refusal)
    return Sides(across, down)


def tag_size(text: str) -> Sides | Refusal:
    """A label's size, in mm; one that has no room for a tile's tag is refused."""
    found = sides(text)
    if isinstance(found, Sides) and (found.across < WIDTH_MM or found.down < HEIGHT_MM):
        least = f"{float(WIDTH_MM):g} x {float(HEIGHT_MM):g} mm"
        return Refusal(
            code="label-too-small",
            message=f"a tile's tag, {least}, has no room on a label of `{text}`",
            help=f"use labels of at least {least}, or leave the field out: tags are then cut from plain paper",
        )
    return found
