"""Words drawn as outlines: for drawings whose figures belong to the drawing and are told by its title."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any

from combobook.render.letters import font_file, width


@lru_cache(maxsize=256)
def outlined(text: str, size: float, x: float, y: float, *, middle: bool = False) -> str:
    """The text as an SVG path, in the unit of `size`: base line at `y`, beginning (or `middle`) at `x`."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    glyphs, em, names = _glyphs()
    left, scale, path = x - width(text, size) / 2 if middle else x, size / em, []
    for letter in text:
        pen = SVGPathPen(glyphs, ntos=_short)
        glyphs[names[ord(letter)]].draw(TransformPen(pen, (scale, 0, 0, -scale, left, y)))
        path.append(pen.getCommands())
        left += glyphs[names[ord(letter)]].width * scale
    return "".join(path)


@cache
def _glyphs() -> tuple[Any, int, Any]:
    # Imported here: fontTools takes a tenth of a second, and only sheets draw letters.
    from io import BytesIO

    from fontTools.ttLib import TTFont

    font = TTFont(BytesIO(font_file("regular")))
    return font.getGlyphSet(), font["head"].unitsPerEm, font.getBestCmap()


def _short(value: float) -> str:
    """Thousandths are finer than any printer."""
    return f"{value:.3f}".rstrip("0").rstrip(".")
