"""A pot's profile with what may go where: left half cut open, right half from outside, all forms at one scale.

Drawn from a `Band`, which has every figure; nothing is judged here. On the right half: lip hatched, the top's band
solid, bare foot dotted. Left of the cut wall a thin bar shows the first glaze's own band; along the inner wall a
solid line shows where the top may go inside. Labels stand at their natural size beside the drawing, and again as a
list for narrow screens and for those who listen.
"""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup, escape

from combobook.entries import NOT_KNOWN, Form, Inside
from combobook.render.shapes import Point, inside_of, kind_of, outline, radius_at
from combobook.verdicts import Band
from combobook.wording import Words

SCALE = 1.6
"""Pixels a millimetre on a page."""
SMALL_SCALE = 0.66
_PAD = 9.0
_LABEL_STEP = 21.0
_LABEL_WIDTH = 232.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A stretch of the outside, in mm down from the rim, with its label."""

    kind: str
    """`lip`, `here`, `foot`, `reach` or `third`."""
    start: float
    end: float
    label: str


def profile(form: Form, band: Band, words: Words, *, small: bool = False, key: str = "", accent: str = "") -> Markup:
    """The drawing of one form; empty where the form has no height.

    `small` leaves labels out; `key` keeps element ids apart where a page draws a form twice; `accent` is a colour
    for sheets, where style sheets do not reach into a drawing.
    """
    if form.height.value is NOT_KNOWN:
        return Markup("")
    height = float(form.height.value)
    kind, scale = kind_of(form), SMALL_SCALE if small else SCALE
    outside = outline(kind, height)
    zones = zones_of(band, height, words)
    ident = "-".join(part for part in ("profile", key, form.id, "small" if small else "") if part)
    drawing = _drawing(form, kind, outside, band, zones, height, scale, ident, accent, small)
    if small:
        return drawing
    labels, listed = _labels(zones, height, scale), _list(zones, band, words)
    asked = form.inside.value is Inside.OPEN and band.inside is not None
    above = _from_above(form, band, outside, scale, ident, accent, words) if asked else ""
    return Markup(f'<div class="profile"><div class="profile-view">{drawing}{labels}</div>{above}{listed}</div>')


def zones_of(band: Band, height: float, words: Words) -> tuple[Zone, ...]:
    """The labelled stretches from the rim down. Where there is no useful place there is no `here`."""
    zones = []
    if band.lip_mm:
        label = words("profile.lip", lip_up_mm=band.lip_mm)
        zones.append(Zone(kind="lip", start=0, end=min(band.lip_mm, height), label=label))
    if band.from_mm is not None and band.to_mm is not None:
        label = words("profile.here", start=band.from_mm, to_down_mm=band.to_mm)
        zones.append(Zone(kind="here", start=band.from_mm, end=band.to_mm, label=label))
    elif band.reach_mm is not None and band.reach_mm < height:
        label = words("profile.reach", reach_down_mm=band.reach_mm)
        zones.append(Zone(kind="reach", start=band.reach_mm, end=band.reach_mm, label=label))
    if band.to_mm is None and band.third_mm is not None and band.third_mm < height:
        label = words("profile.third", third_down_mm=band.third_mm)
        zones.append(Zone(kind="third", start=band.third_mm, end=band.third_mm, label=label))
    if band.margin_mm:
        label = words("profile.foot", margin_up_mm=band.margin_mm)
        zones.append(Zone(kind="foot", start=max(height - band.margin_mm, 0), end=height, label=label))
    return tuple(zones)


def legend(words: Words) -> Markup:
    """What the drawing's fillings mean."""
    items = "".join(
        f'<li><svg class="swatch" width="28" height="16" viewBox="0 0 28 16" aria-hidden="true">{_swatch(kind)}</svg> '
        f"{escape(words(f'profile.legend.{kind}'))}</li>"
        for kind in ("here", "inside", "first", "lip", "foot")
    )
    return Markup(f'<ul class="profile-legend">{items}</ul>')


def _swatch(kind: str) -> str:
    if kind == "here":
        return '<path class="here" d="M1 1h26v14H1z"/>'
    if kind == "inside":
        return '<path class="inside-line" d="M2 8h24" fill="none" stroke-width="3.5"/>'
    if kind == "first":
        return '<path class="first-bar" d="M2 5.5h24v5H2z" fill="none" stroke="currentColor" stroke-width="1.2"/>'
    box = '<path d="M1 1h26v14H1z" fill="none" stroke="currentColor" stroke-width="1"/>'
    if kind == "lip":
        return f'{box}<path d="M1 13l12-12M7 15l14-14M15 15l12-12M1 7l6-6M22 15l5-5" stroke="currentColor"/>'
    dots = "".join(f'<circle cx="{x}" cy="{y}" r="1"/>' for y in (5, 11) for x in range(5 if y == 5 else 8, 26, 6))
    return f'{box}<g fill="currentColor">{dots}</g>'


def _path(points: list[Point], ox: float, oy: float, scale: float, side: int) -> str:
    return "L".join(f"{ox + side * r * scale:.1f} {oy - h * scale:.1f}" for r, h in points)


def _drawing(
    form: Form, kind: str, outside: tuple[Point, ...], band: Band, zones: tuple[Zone, ...],
    height: float, scale: float, ident: str, accent: str, small: bool,
) -> Markup:  # fmt: skip
    widest = max(r for r, _ in outside)
    handle = kind in ("mug", "jug")
    reach_right = widest + (height * 0.26 if handle else 0)
    ox = (widest + _PAD) * scale if not small else widest * scale + 6
    width = ox + reach_right * scale + (26 if not small else 6)
    top, oy = (8.0, 8.0 + height * scale) if not small else (4.0, 4.0 + height * scale)
    total = oy + (6 if not small else 4)
    solid = form.inside.value is Inside.NONE
    wall, floor = min(4.5, 1.5 + height * 0.03), min(8.0, height * 0.35)
    inner = () if solid else inside_of(outside, wall, floor)
    line = 1.6 if not small else 1.2
    stroke = f'fill="none" stroke="currentColor" stroke-width="{line}"'
    right = _path(list(outside), ox, oy, scale, 1)
    clip = f"M{ox:.1f} {oy:.1f}L{right}L{ox:.1f} {top:.1f}Z"
    parts = [f'<clipPath id="{ident}-clip"><path d="{clip}"/></clipPath>']
    zone_marks = "".join(_zone(z, ox, top, widest, scale, accent, small) for z in zones)
    parts.append(f'<g clip-path="url(#{ident}-clip)">{zone_marks}</g>')
    parts.append(_cut_wall(outside, inner, ox, oy, scale, solid))
    parts.append(f'<path d="M{right}" {stroke}/>')
    parts.append(
        f'<path d="M{ox - outside[-1][0] * scale:.1f} {top:.1f}H{ox + outside[-1][0] * scale:.1f}" {stroke.replace(str(line), "1")}/>'
    )
    if handle:
        parts.append(_handle(outside, height, ox, oy, scale, 3.0 if small else 5.0, line))
    parts.append(_axis(ox, top, oy))
    parts.append(
        f'<path d="M2 {oy + line / 2:.1f}H{width - (22 if not small else 2):.1f}" {stroke} stroke-linecap="round"/>'
    )
    if inner and band.inside:
        lining = inside_of(outside, wall + 2.2, floor + 2.2)
        parts.append(_inside_line(lining, band, height, ox, oy, scale, accent))
    if not small:
        parts.append(_first_bar(outside, band, height, ox, oy, top, scale))
        parts.append(_dimension(zones, height, width - 10, top, scale))
    return Markup(
        f'<svg class="pot{" pot-small" if small else ""}" width="{width:.0f}" height="{total:.0f}" '
        f'viewBox="0 0 {width:.0f} {total:.0f}" aria-hidden="true">{"".join(parts)}</svg>'
    )


def _zone(zone: Zone, ox: float, top: float, widest: float, scale: float, accent: str, small: bool) -> str:
    y0, y1, width = top + zone.start * scale, top + zone.end * scale, widest * scale
    if zone.kind == "here":
        fill = f' fill="{accent}"' if accent else ""
        return f'<path class="here"{fill} d="M{ox:.1f} {y0:.1f}h{width:.1f}V{y1:.1f}h-{width:.1f}z"/>'
    if zone.kind == "lip":
        step, tall = (6.0 if not small else 4.0), y1 - y0
        count = int((width + tall) / step) + 1
        lines = "".join(f"M{ox + i * step - tall:.1f} {y1:.1f}l{tall:.1f} -{tall:.1f}" for i in range(count + 1))
        return f'<path d="{lines}M{ox:.1f} {y1:.1f}h{width:.1f}" fill="none" stroke="currentColor" stroke-width=".9"/>'
    if zone.kind == "foot":
        step = 6.0 if not small else 4.0
        dots = "".join(
            f"M{ox + x * step + (step / 2 if row % 2 else 0):.1f} {y0 + step / 2 + row * step * 0.7:.1f}h.01"
            for row in range(max(1, int((y1 - y0) / (step * 0.7))))
            for x in range(int(width / step) + 1)
        )
        return f'<path d="{dots}" fill="none" stroke="currentColor" stroke-width="{1.5 if not small else 1.1}" stroke-linecap="round"/>'
    teeth = "".join(f"M{ox + x:.1f} {y0:.1f}v-5" for x in range(3, int(width), 8))
    return f'<path d="M{ox:.1f} {y0:.1f}h{width:.1f}{teeth}" fill="none" stroke="currentColor" stroke-width="{2.2 if not small else 1.4}"/>'


def _cut_wall(
    outside: tuple[Point, ...], inner: tuple[Point, ...], ox: float, oy: float, scale: float, solid: bool
) -> str:
    out = _path(list(outside), ox, oy, scale, -1)
    if solid or not inner:
        return f'<path d="M{ox:.1f} {oy:.1f}L{out}L{ox:.1f} {oy - outside[-1][1] * scale:.1f}Z" fill="currentColor"/>'
    back = _path(list(reversed(inner)), ox, oy, scale, -1)
    floor = oy - inner[0][1] * scale
    under = f"L{ox:.1f} {floor:.1f}L{ox:.1f} {oy - 3.2 * scale:.1f}L{ox - (outside[0][0] - 4) * scale:.1f} {oy - 3.2 * scale:.1f}L{ox - (outside[0][0] - 4) * scale:.1f} {oy:.1f}Z"
    if inner[0][1] <= 4.2 or outside[0][0] <= 5:
        under = f"L{ox:.1f} {floor:.1f}L{ox:.1f} {oy:.1f}Z"
    return f'<path d="M{out}L{back}{under}" fill="currentColor"/>'


def _handle(
    outside: tuple[Point, ...], height: float, ox: float, oy: float, scale: float, thick: float, line: float
) -> str:
    high, low = height * 0.8, height * 0.24
    x0, x1 = ox + radius_at(outside, high) * scale, ox + radius_at(outside, low) * scale
    out = height * 0.3 * scale
    y0, y1 = oy - high * scale, oy - low * scale
    d = f"M{x0:.1f} {y0:.1f}C{x0 + out:.1f} {y0 - 2:.1f} {x1 + out:.1f} {y1 - 6:.1f} {x1:.1f} {y1:.1f}"
    return (
        f'<path d="{d}" fill="none" stroke="currentColor" stroke-width="{thick * 1.6 + line:.1f}"/>'
        f'<path class="paper-line" d="{d}" fill="none" stroke="#ffffff" stroke-width="{thick * 1.6 - line:.1f}"/>'
    )


def _axis(ox: float, top: float, oy: float) -> str:
    return (
        f'<path d="M{ox:.1f} {top - 3:.1f}V{oy + 3:.1f}" fill="none" stroke="currentColor" stroke-width=".8" '
        'stroke-dasharray="9 3 2 3"/>'
    )


def _inside_line(
    inner: tuple[Point, ...], band: Band, height: float, ox: float, oy: float, scale: float, accent: str
) -> str:
    if not inner:
        return ""
    lowest = inner[0][1] if band.inside_to_mm is None else max(height - band.inside_to_mm, inner[0][1])
    points = [(r, h) for r, h in inner if h >= lowest]
    stroke = f' stroke="{accent}"' if accent else ""
    floor = f"M{ox:.1f} {oy - inner[0][1] * scale:.1f}L" if band.inside_to_mm is None else "M"
    if len(points) < 2:
        return ""
    return f'<path class="inside-line"{stroke} d="{floor}{_path(points, ox, oy, scale, -1)}" fill="none" stroke-width="3.5" stroke-linejoin="round"/>'


def _first_bar(
    outside: tuple[Point, ...], band: Band, height: float, ox: float, oy: float, top: float, scale: float
) -> str:
    if band.base_to_mm is None or band.base_to_mm - band.base_from_mm < 1:
        return ""
    x = ox - (max(r for r, _ in outside) + 6) * scale
    y0, y1 = top + band.base_from_mm * scale, top + band.base_to_mm * scale
    return f'<path class="first-bar" d="M{x:.1f} {y0:.1f}h5V{y1:.1f}h-5z" fill="none" stroke="currentColor" stroke-width="1.2"/>'


def _dimension(zones: tuple[Zone, ...], height: float, x: float, top: float, scale: float) -> str:
    heights = sorted({0.0, height, *(z.start for z in zones), *(z.end for z in zones)})
    ticks = "".join(f"M{x - 5:.1f} {top + h * scale:.1f}h10" for h in heights)
    return f'<path d="M{x:.1f} {top:.1f}V{top + height * scale:.1f}{ticks}" fill="none" stroke="currentColor" stroke-width="1.1"/>'


def spread(wanted: list[float], step: float, low: float, high: float) -> list[float]:
    """Label positions at least `step` apart and within the ends where they fit, as near as can be to those wanted."""
    out: list[float] = []
    for y in wanted:
        out.append(max(y, low if not out else out[-1] + step))
    limit = max(high, low + step * (len(out) - 1))
    for i in range(len(out) - 1, -1, -1):
        out[i] = min(out[i], limit)
        limit = out[i] - step
    return out


def _labels(zones: tuple[Zone, ...], height: float, scale: float) -> Markup:
    total = height * scale + 14
    ys = spread([8 + (z.start + z.end) / 2 * scale + 5 for z in zones], _LABEL_STEP, 14, total - 1)
    needed = max(total, ys[-1] + 6) if ys else total
    texts = "".join(
        f'<text x="2" y="{y:.1f}" fill="currentColor" class="label-{z.kind}">{escape(z.label)}</text>'
        for z, y in zip(zones, ys, strict=True)
    )
    return Markup(
        f'<svg class="pot-labels" width="{_LABEL_WIDTH:.0f}" height="{needed:.0f}" '
        f'viewBox="0 0 {_LABEL_WIDTH:.0f} {needed:.0f}" aria-hidden="true">{texts}</svg>'
    )


def _list(zones: tuple[Zone, ...], band: Band, words: Words) -> Markup:
    items = [z.label for z in zones]
    if band.base_to_mm is not None and band.base_to_mm > band.base_from_mm:
        items.append(words("profile.first", start=band.base_from_mm, to_down_mm=band.base_to_mm))
    return Markup(f'<ul class="profile-list">{"".join(f"<li>{escape(item)}</li>" for item in items)}</ul>')


def _from_above(
    form: Form, band: Band, outside: tuple[Point, ...], scale: float, ident: str, accent: str, words: Words
) -> Markup:
    """A plate from above: the whole inside is one answer."""
    radius = outside[-1][0] * scale * 0.62
    centre, size = radius + 3, 2 * radius + 6
    fill = f' fill="{accent}"' if accent else ""
    step = 8.0
    lines = "".join(
        f"M{i * step - size:.1f} {size:.1f}l{size:.1f} -{size:.1f}" for i in range(int(2 * size / step) + 1)
    )
    answer = (
        f'<circle class="here"{fill} cx="{centre:.1f}" cy="{centre:.1f}" r="{radius:.1f}"/>'
        if band.inside
        else f'<clipPath id="{ident}-above"><circle cx="{centre:.1f}" cy="{centre:.1f}" r="{radius:.1f}"/></clipPath>'
        f'<path clip-path="url(#{ident}-above)" d="{lines}" fill="none" stroke="currentColor" stroke-width=".9"/>'
    )
    rings = "".join(
        f'<circle cx="{centre:.1f}" cy="{centre:.1f}" r="{r:.1f}" fill="none" stroke="currentColor" stroke-width="1.4"/>'
        for r in (radius, radius * 0.62)
    )
    told = words("profile.above_yes" if band.inside else "profile.above_no")
    return Markup(
        f'<div class="profile-above"><svg width="{size:.0f}" height="{size:.0f}" viewBox="0 0 {size:.0f} {size:.0f}" '
        f'aria-hidden="true">{answer}{rings}</svg><p>{escape(told)}</p></div>'
    )
