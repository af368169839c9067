"""What is drawn on a tile tag: its code, its scale, on plain paper the corners to cut by."""

from __future__ import annotations

from markupsafe import Markup, escape

from combobook import tags
from combobook.render.letters import width
from combobook.render.outlines import outlined
from combobook.wording import Words

MARK_SIZE, _NUMBERS = 9.4, 2.2
"""mm: letters of the mark, and of the scale."""
_WIDE, _HIGH, _CORNER = float(tags.WIDTH_MM), float(tags.HEIGHT_MM), 3
"""mm: a tag, and the lines at its corners on plain paper."""


def tag_drawing(mark: str, plain: bool, words: Words) -> Markup:
    """Code and scale, on plain paper corners to cut by; figures belong to the drawing, and are told by its title."""
    note, right = words("tile_tags.scale_note"), float(tags.WORDS.x + tags.WORDS.width)
    letters = outlined(note, _NUMBERS, right - width(note, _NUMBERS), float(tags.SCALE.y) - 0.9)
    return Markup(
        f'<svg class="tag-drawing" viewBox="0 0 {_WIDE:g} {_HIGH:g}">'
        f"<title>{escape(words('tile_tags.drawing', mark=mark))}</title>{_corners() if plain else ''}"
        f'<path d="{tags.code_path(mark)}" fill="#000000"/><path d="{letters}" fill="#000000"/>{_scale()}</svg>'
    )


def _corners() -> Markup:
    ends = f"M0 {_CORNER}V0h{_CORNER}M{_WIDE - _CORNER} 0h{_CORNER}v{_CORNER}"
    lower = f"M0 {_HIGH - _CORNER}v{_CORNER}h{_CORNER}M{_WIDE - _CORNER} {_HIGH}h{_CORNER}v-{_CORNER}"
    return Markup(f'<path d="{ends}{lower}" stroke="#57524a" stroke-width="0.3" fill="none"/>')


def _scale() -> Markup:
    numbers = "".join(
        outlined(text, _NUMBERS, float(x), float(tags.SCALE_NUMBERS_Y), middle=True) for x, text in tags.SCALE_NUMBERS
    )
    return Markup(
        f'<path d="{tags.scale_path()}" stroke="#000000" stroke-width="0.2" fill="none"/>'
        f'<path d="{numbers}" fill="#000000"/>'
    )


def tag_beside_tile(mark: str, words: Words) -> Markup:
    """How a tag lies beside its tile, at life size: its scale can be held against a ruler before more is printed."""
    name = outlined(mark, MARK_SIZE, float(tags.WORDS.x), 9.4)
    tile = outlined(words("tile_tags.tile"), 5, 25, 47, middle=True)
    line = 'stroke="#57524a" stroke-width="0.4"'
    return Markup(
        f'<svg class="beside-tile" viewBox="0 0 132 86"><title>{escape(words("tile_tags.beside"))}</title>'
        f'<rect x="0.5" y="0.5" width="50" height="84" rx="2" fill="#e4e0d8" {line}/>'
        f'<circle cx="25" cy="8" r="2.5" fill="#ffffff" {line}/>'
        f'<path d="{tile}" fill="#1f1d1a"/><g transform="translate(58 58)">'
        f'<rect width="{_WIDE:g}" height="{_HIGH:g}" fill="#ffffff" {line}/>'
        f'<path d="{tags.code_path(mark)}{name}" fill="#000000"/>{_scale()}</g></svg>'
    )
