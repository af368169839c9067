"""The marks: one drawing for each verdict, by name, on a 24 × 24 grid with stroke 2 and round joins.

Turned over = keep away, upright = may come; dashed = nobody knows, outline = on paper only, solid = measured or
stated. Marks are always beside their words; a mark without a `title` is hidden from screen readers for that reason.
"""

from __future__ import annotations

from markupsafe import Markup, escape

_BOWL = "M2.5 5H21.5C21.5 11.6 18.9 15.2 16.2 16.8V20H7.8V16.8C5.1 15.2 2.5 11.6 2.5 5Z"
_SOLID = 'fill="currentColor" stroke="currentColor"'
_LINE = 'fill="none" stroke="currentColor"'
_SHELF = '<path d="M1.5 22H22.5" fill="none" stroke="currentColor"/>'
_HOLE = "a1.3 1.3 0 1 0 2.6 0a1.3 1.3 0 1 0 -2.6 0"


def _tile(x: float, y: float, w: float, h: float) -> str:
    """A solid tile with its hanging hole."""
    return (
        f'<path fill-rule="evenodd" stroke="none" fill="currentColor" '
        f'd="M{x + 0.8} {y}h{w - 1.6}a.8 .8 0 0 1 .8 .8v{h - 1.6}a.8 .8 0 0 1 -.8 .8h-{w - 1.6}a.8 .8 0 0 1 -.8 -.8'
        f'v-{h - 1.6}a.8 .8 0 0 1 .8 -.8zM{x + w / 2 - 1.3} {y + 3.6}{_HOLE}z"/>'
    )


_DRAWINGS: dict[str, str] = {
    "keep-off": f'<path transform="rotate(180 12 12.5)" d="{_BOWL}" {_SOLID}/>',
    "not-known": f'<path transform="rotate(180 12 12.5)" d="{_BOWL}" stroke-dasharray="3.1 3" {_LINE}/>',
    "labels-allow": f'<path d="{_BOWL}" {_LINE}/><path d="M9 8.6h6v3h-6z" fill="currentColor" stroke="none"/>',
    "lab-report": (
        f'<path fill-rule="evenodd" d="{_BOWL}M14 7.6h4.4v1.7h-4.4zM14 10.8h4.4v1.7h-4.4zM14 14h2.6v1.7h-2.6z" '
        'fill="currentColor" stroke="none"/>'
        f'<path d="{_BOWL}" {_LINE} stroke-width="1.2"/>'
    ),
    "stable": f'<path d="M2.5 2.5h19v5h-19z" {_SOLID} stroke-width="1"/>{_SHELF}',
    "moves": (
        '<path d="M2.5 2.5h19v5.5a2.6 2.6 0 0 1 -5.2 0.6v3.9a2.9 2.9 0 0 1 -5.8 0v-3.4a2.5 2.5 0 0 1 -5 0.6'
        f'a2.4 2.4 0 0 1 -3 -1.7z" {_SOLID} stroke-width="1"/>{_SHELF}'
    ),
    "runny": (
        '<path d="M2.5 1.8h19v11.2a1.8 1.8 0 0 1 -3.6 0v-7.4h-2.6v12.6c0 1.2 1.6 1.6 3 3.2h-12.6c1.4-1.6 3-2 3-3.2'
        f'v-12.6h-2.6v9.6a1.8 1.8 0 0 1 -3.6 0z" {_SOLID} stroke-width=".6"/>{_SHELF}'
    ),
    "rim-only": f'<path d="M5 3h14v18a1 1 0 0 1 -1 1h-12a1 1 0 0 1 -1 -1z" {_LINE}/><path d="M4 2.2h16v6h-16z" fill="currentColor" stroke="none"/>',
    "catch-plate": (
        f'<path d="M7 2.2h10v12h-10z" {_LINE}/><path d="M11.4 3v13.2a1.9 1.9 0 0 0 3.8 0v-13.2z" fill="currentColor" stroke="none"/>'
        f'<path d="M2 15.5v5.6h20v-5.6" {_LINE}/>'
    ),
    "no-kiln": (
        f'<path d="M3.5 21.5v-12a8.5 7.5 0 0 1 17 0v12z" {_LINE}/><path d="M8.5 21.5v-9a3.5 3.5 0 0 1 7 0v9" {_LINE}/>'
        '<path d="M1.8 22.2L22.2 1.8" fill="none" stroke="currentColor" stroke-width="3"/>'
    ),
    "untested": f'<path d="M6.5 2.5h11v19h-11z" stroke-dasharray="3.1 3" {_LINE}/>',
    "seen-once": _tile(6.5, 1.5, 11, 21),
    "repeated": _tile(1.4, 1.5, 10, 21) + _tile(12.6, 1.5, 10, 21),
    "steady": _tile(0.6, 1, 7, 16.6) + _tile(8.5, 1, 7, 16.6) + _tile(16.4, 1, 7, 16.6) + _SHELF,
    "disagrees": (
        f'<g transform="rotate(-14 7 12)">{_tile(2.6, 3, 8.4, 17.6)}</g>'
        f'<path transform="rotate(14 17 12)" d="M13.8 4h6.6v15.6h-6.6z" {_LINE}/>'
    ),
    "old": f'<path d="M6.5 2.5h11v19h-11zM6.5 9.5l7-7M6.5 16.5l11-11M8.5 21.5l9-9M15.2 21.5l2.3-2.3" {_LINE}/>',
}
MARKS: tuple[str, ...] = tuple(_DRAWINGS)
"""Every mark's name."""


def mark(name: str, *, size: str | None = None, color: str = "", title: str = "", css: str = "mark") -> Markup:
    """The named mark as inline SVG. Raises KeyError for a name that is none.

    `size` is a CSS length for both sides (None leaves it to the style sheet); `color` sets the element's own color,
    which WeasyPrint needs where the ink is not black; `title` is read aloud where no words stand beside the mark.
    """
    style = "".join(f"{key}:{value};" for key, value in (("width", size), ("height", size), ("color", color)) if value)
    naming = f'role="img" aria-label="{escape(title)}"' if title else 'aria-hidden="true"'
    return Markup(
        f'<svg class="{css} {css}-{name}" viewBox="0 0 24 24" stroke-width="2" stroke-linejoin="round" '
        f'stroke-linecap="round" {naming}{f" style={chr(34)}{style}{chr(34)}" if style else ""}>{_DRAWINGS[name]}</svg>'
    )
