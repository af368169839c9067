"""One pot drawn: left half cut open, right half from outside, with what may go where on the right.

Lip hatched, the top's band solid, bare foot dotted, a line with teeth where the top must end. Left of the wall a thin
bar shows the first glaze's own band; along the inner wall a solid line shows where the top may go inside. What has no
inside (a wall tile) is shown whole from the front, its edge beside it. Nothing is judged here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from combobook.render.shapes import Point, inside_of, radius_at, thinned
from combobook.verdicts import Band

_PAD, _SMALL_PAD = 14.0, 6.0
_HANDLED = ("mug", "jug")
_EDGE_MM = 8.0
"""How thick a tile is drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A stretch of the outside, in mm down from the rim, with its label."""

    kind: str
    """`lip`, `here`, `none`, `foot`, `reach` or `third`."""
    start: float
    end: float
    label: tuple[str, ...]
    """In lines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Colours:
    """Of a page the style sheet gives them by class; in print, where it does not reach, they are written out."""

    ink: str = "currentColor"
    accent: str = ""
    paper: str = "#ffffff"

    def fill(self) -> str:
        return f' fill="{self.accent}"' if self.accent else ""

    def stroke(self) -> str:
        return f' stroke="{self.accent}"' if self.accent else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pot:
    """A form on its drawing: `scale` units a mm; `outside` foot to rim, in mm."""

    kind: str
    outside: tuple[Point, ...]
    height: float
    scale: float
    solid: bool
    small: bool
    off: float = 0.0
    """How far from the form's own line, in units, one with fewer points may run: in print, less than a dot."""

    @property
    def widest(self) -> float:
        return _widest(self.outside)

    @property
    def top(self) -> float:
        """Where the rim lies, below the drawing's upper end."""
        return 4.0 if self.small else 8.0

    @property
    def shelf(self) -> float:
        return self.top + self.height * self.scale

    @property
    def axis(self) -> float:
        """How far right the axis lies: past the first glaze's bar, and a tile's edge."""
        edge = (_EDGE_MM + 3) * self.scale if self.solid else 0
        return self.widest * self.scale + edge + (_SMALL_PAD if self.small else _PAD)

    @property
    def right(self) -> float:
        handle = self.height * 0.26 if self.handled else 0
        return self.axis + (self.widest + handle) * self.scale

    @property
    def width(self) -> float:
        return self.right + (_SMALL_PAD if self.small else 26)

    @property
    def tall(self) -> float:
        return self.shelf + (4 if self.small else 6)

    @property
    def handled(self) -> bool:
        return self.kind in _HANDLED

    @property
    def line(self) -> float:
        return 1.2 if self.small else 1.6

    def down(self, mm: float) -> float:
        """How far down the drawing a length from the rim lies."""
        return self.top + mm * self.scale

    def path(self, points: tuple[Point, ...], side: int) -> str:
        axis, shelf, scale = self.axis, self.shelf, self.scale
        if self.off:
            points = thinned(points, self.off / scale)
        return "L".join(f"{axis + side * r * scale:.1f} {shelf - h * scale:.1f}" for r, h in points)


@lru_cache(maxsize=256)
def _widest(outside: tuple[Point, ...]) -> float:
    """Kept, as every line of every drawing of a form asks how wide the form is."""
    return max(r for r, _ in outside)


def drawn_pot(pot: Pot, band: Band, zones: tuple[Zone, ...], ident: str, colours: Colours) -> str:
    """The elements of one drawing, to stand within an `svg`; `ident` must be the page's own."""
    inner = _inner(pot, 0) if not pot.solid else ()
    return "".join((
        f'<clipPath id="{ident}"><path d="{_outline(pot)}"/></clipPath>',
        f'<g clip-path="url(#{ident})">{"".join(_zone(pot, zone, colours) for zone in zones)}</g>',
        _tile_edge(pot, colours) if pot.solid else _cut_wall(pot, inner, colours),
        *_lines(pot, colours),
        _inside_line(pot, band, colours) if inner and band.inside else "",
        "" if pot.small else _first_bar(pot, band, colours),
        "" if pot.small else _dimension(pot, zones, colours),
    ))  # fmt: skip


def _outline(pot: Pot) -> str:
    """What is seen from outside: the right half, or the whole of what has no inside."""
    right = pot.path(pot.outside, 1)
    if pot.solid:
        return f"M{right}L{pot.path(tuple(reversed(pot.outside)), -1)}Z"
    return f"M{pot.axis:.1f} {pot.shelf:.1f}L{right}L{pot.axis:.1f} {pot.top:.1f}Z"


def _lines(pot: Pot, colours: Colours) -> Iterator[str]:
    stroke = f'fill="none" stroke="{colours.ink}"'
    if pot.solid:
        yield f'<path d="{_outline(pot)}" {stroke} stroke-width="{pot.line}"/>'
    else:
        rim = pot.outside[-1][0] * pot.scale
        yield f'<path d="M{pot.path(pot.outside, 1)}" {stroke} stroke-width="{pot.line}"/>'
        yield f'<path d="M{pot.axis - rim:.1f} {pot.top:.1f}h{2 * rim:.1f}" {stroke} stroke-width="1"/>'
        yield (
            f'<path d="M{pot.axis:.1f} {pot.top - 3:.1f}V{pot.shelf + 3:.1f}" {stroke} stroke-width=".8" '
            'stroke-dasharray="9 3 2 3"/>'
        )
    if pot.handled:
        yield _handle(pot, colours)
    end = pot.width - (2 if pot.small else 22)
    yield (
        f'<path d="M2 {pot.shelf + pot.line / 2:.1f}H{end:.1f}" {stroke} stroke-width="{pot.line}" '
        'stroke-linecap="round"/>'
    )


def _zone(pot: Pot, zone: Zone, colours: Colours) -> str:
    left = pot.axis - (pot.widest * pot.scale if pot.solid else 0)
    wide, y0, y1 = pot.right - left, pot.down(zone.start), pot.down(zone.end)
    stroke = f'fill="none" stroke="{colours.ink}"'
    step = 4.0 if pot.small else 6.0
    if zone.kind == "here":
        return f'<path class="here"{colours.fill()} d="M{left:.1f} {y0:.1f}h{wide:.1f}V{y1:.1f}h-{wide:.1f}z"/>'
    if zone.kind == "lip":
        lines = _hatched(left, y0, wide, y1 - y0, step)
        return f'<path d="{lines}M{left:.1f} {y1:.1f}h{wide:.1f}" {stroke} stroke-width=".9"/>'
    if zone.kind == "foot":
        dots = _dotted(left, y0, wide, y1 - y0, step)
        return f'<path d="{dots}" {stroke} stroke-width="{1.1 if pot.small else 1.5}" stroke-linecap="round"/>'
    if zone.kind in ("reach", "third"):
        teeth = "".join(f"M{left + x:.1f} {y0:.1f}v-5" for x in range(3, int(wide), 8))
        return f'<path d="M{left:.1f} {y0:.1f}h{wide:.1f}{teeth}" {stroke} stroke-width="{1.4 if pot.small else 2.2}"/>'
    return ""


def _hatched(left: float, y: float, wide: float, tall: float, step: float) -> str:
    """Lines at 45° over a box (and left of it: it is clipped)."""
    count = int((wide + tall) / step) + 1
    return "".join(f"M{left + i * step - tall:.1f} {y + tall:.1f}l{tall:.1f} -{tall:.1f}" for i in range(count + 1))


def _dotted(left: float, y: float, wide: float, tall: float, step: float) -> str:
    return "".join(
        f"M{left + x * step + (step / 2 if row % 2 else 0):.1f} {y + step / 2 + row * step * 0.7:.1f}h.01"
        for row in range(max(1, int(tall / (step * 0.7))))
        for x in range(int(wide / step) + 1)
    )


def _inner(pot: Pot, away: float) -> tuple[Point, ...]:
    """The inner surface, or a line `away` mm off it."""
    wall, floor = min(4.5, 1.5 + pot.height * 0.03), min(8.0, pot.height * 0.35)
    return inside_of(pot.outside, wall + away, floor + away)


def _tile_edge(pot: Pot, colours: Colours) -> str:
    """A tile seen from its side, left of its face."""
    edge = _EDGE_MM * pot.scale
    x = pot.axis - (pot.widest + 3) * pot.scale - edge
    return f'<path d="M{x:.1f} {pot.top:.1f}h{edge:.1f}V{pot.shelf:.1f}h-{edge:.1f}z" fill="{colours.ink}"/>'


def _cut_wall(pot: Pot, inner: tuple[Point, ...], colours: Colours) -> str:
    out = pot.path(pot.outside, -1)
    fill = f'fill="{colours.ink}"'
    if not inner:
        return f'<path d="M{pot.axis:.1f} {pot.shelf:.1f}L{out}L{pot.axis:.1f} {pot.top:.1f}Z" {fill}/>'
    foot, thick = pot.outside[0][0], inner[0][1]
    floor = pot.shelf - thick * pot.scale
    if thick <= 4.2 or foot <= 5:
        under = f"L{pot.axis:.1f} {floor:.1f}L{pot.axis:.1f} {pot.shelf:.1f}Z"
    else:
        hollow, ring = pot.shelf - 3.2 * pot.scale, pot.axis - (foot - 4) * pot.scale
        under = f"L{pot.axis:.1f} {floor:.1f}V{hollow:.1f}H{ring:.1f}V{pot.shelf:.1f}Z"
    return f'<path d="M{out}L{pot.path(tuple(reversed(inner)), -1)}{under}" {fill}/>'


def _handle(pot: Pot, colours: Colours) -> str:
    high, low, thick = pot.height * 0.8, pot.height * 0.24, 3.0 if pot.small else 5.0
    x0, x1 = (pot.axis + radius_at(pot.outside, at) * pot.scale for at in (high, low))
    y0, y1, out = pot.shelf - high * pot.scale, pot.shelf - low * pot.scale, pot.height * 0.3 * pot.scale
    d = f"M{x0:.1f} {y0:.1f}C{x0 + out:.1f} {y0 - 2:.1f} {x1 + out:.1f} {y1 - 6:.1f} {x1:.1f} {y1:.1f}"
    return (
        f'<path d="{d}" fill="none" stroke="{colours.ink}" stroke-width="{thick * 1.6 + pot.line:.1f}"/>'
        f'<path class="paper-line" d="{d}" fill="none" stroke="{colours.paper}" '
        f'stroke-width="{thick * 1.6 - pot.line:.1f}"/>'
    )


def _inside_line(pot: Pot, band: Band, colours: Colours) -> str:
    """Along the inner wall, from the floor up, or only as far down as the top may reach."""
    lining = _inner(pot, 2.2)
    if not lining:
        return ""
    whole = band.inside_to_mm is None
    floor = lining[0][1]
    lowest = floor if band.inside_to_mm is None else max(pot.height - band.inside_to_mm, floor)
    points = tuple((r, h) for r, h in lining if h >= lowest)
    if len(points) < 2:
        return ""
    if not whole and points[0][1] > lowest:
        points = ((radius_at(lining, lowest), lowest), *points)
    start = f"M{pot.axis:.1f} {pot.shelf - floor * pot.scale:.1f}L" if whole else "M"
    return (
        f'<path class="inside-line"{colours.stroke()} d="{start}{pot.path(points, -1)}" fill="none" '
        'stroke-width="3.5" stroke-linejoin="round"/>'
    )


def _first_bar(pot: Pot, band: Band, colours: Colours) -> str:
    if band.base_to_mm is None or band.base_to_mm <= band.base_from_mm:
        return ""
    y0, y1 = pot.down(band.base_from_mm), pot.down(band.base_to_mm)
    return (
        f'<path class="first-bar" d="M3 {y0:.1f}h5V{y1:.1f}h-5z" fill="none" stroke="{colours.ink}" '
        'stroke-width="1.2"/>'
    )


def _dimension(pot: Pot, zones: tuple[Zone, ...], colours: Colours) -> str:
    x = pot.width - 10
    ends = (end for zone in zones if zone.kind != "none" for end in (zone.start, zone.end))
    ticks = "".join(f"M{x - 5:.1f} {pot.down(at):.1f}h10" for at in sorted({0.0, pot.height, *ends}))
    return (
        f'<path d="M{x:.1f} {pot.top:.1f}V{pot.shelf:.1f}{ticks}" fill="none" stroke="{colours.ink}" '
        'stroke-width="1.1"/>'
    )
