"""A pot's profile with what may go where, on a page and in print; all forms of a studio at one scale.

Drawn from a `Band`, which has every figure; nothing is judged here. On a page labels stand at their natural size
beside the drawing, and again as a list for narrow screens and for those who listen; in print they are part of it.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from markupsafe import Markup, escape

from combobook.entries import NOT_KNOWN, Form, Inside, Unknown
from combobook.render.plate_above import plate_above
from combobook.render.pot import Colours, Pot, Zone, drawn_pot
from combobook.render.shapes import kind_of, outline
from combobook.verdicts import Band
from combobook.wording import Words, inch_fraction

SCALE = 1.6
"""Pixels a millimetre on a page, unless the studio's largest form would not fit."""
_LARGEST = (520.0, 640.0)
"""How tall and wide the largest form may be on a page, in pixels at the usual letter size."""
_SMALL_SCALE, _SMALL_LARGEST = 0.66, (119.0, 178.0)
LETTERS = 16.0
"""How high a drawing's letters are, in its own units."""
_LETTER_WIDTH = {False: 7.7, True: 8.2}
"""How wide a letter comes out at most, on average, plain and bold."""
LEADING = 1.31


def scale_of(forms: Iterable[Form]) -> float:
    """Pixels a millimetre at which every form of the studio fits on a page."""
    return min((SCALE, *(_fitting(form, *_LARGEST) for form in forms)))


@lru_cache(maxsize=256)
def size_of(form: Form) -> tuple[float, float]:
    """Height and width of its drawing in mm, without handle; (0, 0) where nobody knows how tall it is."""
    height = form.height.value
    if isinstance(height, Unknown):
        return 0.0, 0.0
    return float(height), 2 * max(r for r, _ in outline(kind_of(form), float(height)))


def _fitting(form: Form, tall: float, wide: float) -> float:
    height, width = size_of(form)
    return min(tall / height, wide / width) if height else SCALE


def pot_of(form: Form, scale: float, *, small: bool = False) -> Pot:
    """The form to be drawn at that scale. It must have a height."""
    assert form.height.value is not NOT_KNOWN
    height, kind = float(form.height.value), kind_of(form)
    solid = form.inside.value is Inside.NONE
    return Pot(kind=kind, outside=outline(kind, height), height=height, scale=scale, solid=solid, small=small)


def profile(form: Form, band: Band, words: Words, *, scale: float = SCALE, small: bool = False) -> Markup:
    """The drawing of one form for a page; empty where the form has no height.

    `small` leaves labels out and fits the form into a row of miniatures, whatever `scale` is.
    """
    if form.height.value is NOT_KNOWN:
        return Markup("")
    drawn_at = min(_SMALL_SCALE, _fitting(form, *_SMALL_LARGEST)) if small else scale
    pot, zones = pot_of(form, drawn_at, small=small), zones_of(band, form, words)
    ident = f"profile-{form.id}{'-small' if small else ''}"
    inner = drawn_pot(pot, band, zones, ident, Colours())
    drawing = svg(f"pot{' pot-small' if small else ''}", pot.width, pot.tall, inner)
    if small:
        return drawing
    above = _above(pot, band, words, ident) if is_plate(form) and band.inside is not None else ""
    labels, listed = _labels(pot, zones), _list(zones, band, words)
    return Markup(f'<div class="profile"><div class="profile-view">{drawing}{labels}</div>{above}{listed}</div>')


def is_plate(form: Form) -> bool:
    """Open ware, which is answered for its inside only."""
    return form.inside.value is Inside.OPEN


def zones_of(band: Band, form: Form, words: Words) -> tuple[Zone, ...]:
    """The labelled stretches from the rim down. Where there is no useful place there is no `here`."""
    assert form.height.value is not NOT_KNOWN
    height, zones = float(form.height.value), []
    foot = max(height - band.margin_mm, 0)
    if band.lip_mm:
        of_a_verdict = bool(band.none) or band.to_mm is not None
        label = words("profile.lip" if of_a_verdict else "profile.lip_of_any", lip_up_mm=band.lip_mm)
        zones.append(Zone(kind="lip", start=0, end=min(band.lip_mm, height), label=(label,)))
    if band.from_mm is not None and band.to_mm is not None:
        here = here_words(band.from_mm, band.to_mm, words)
        zones.append(Zone(kind="here", start=band.from_mm, end=band.to_mm, label=here))
    elif band.none and not is_plate(form):
        zones.append(_none(min(band.lip_mm, height), foot, words))
        ends = (("reach", band.reach_mm, "reach_down_mm"), ("third", band.third_mm, "third_down_mm"))
        for kind, end, fact in ends:
            if end is not None and end < height:
                label = words(f"profile.{kind}", **{fact: end})
                zones.append(Zone(kind=kind, start=end, end=end, label=(label,)))
    if band.margin_mm:
        label = words("profile.foot", margin_up_mm=band.margin_mm)
        zones.append(Zone(kind="foot", start=foot, end=height, label=(label,)))
    return tuple(sorted(zones, key=lambda zone: zone.start + zone.end))


def _none(lip: float, foot: float, words: Words) -> Zone:
    """The words where the band would be."""
    middle = (lip + foot) / 2
    return Zone(kind="none", start=middle, end=middle, label=(words("profile.none"),))


def here_words(start: int, end: int, words: Words, key: str = "here") -> tuple[str, ...]:
    """`here: 20 to 69 mm`, and the inches in a line of their own; from the rim down in one line."""
    if start == 0:
        return (words(f"profile.{key}_from_rim", to_down_mm=end),)
    metric = words("profile.span", start=start, end=f"{end} mm")
    inches = words("profile.span", start=inch_fraction(start, "up"), end=f"{inch_fraction(end, 'down')} in")
    first, second = (metric, inches) if words.units.value == "mm" else (inches, metric)
    return words(f"profile.{key}", span=first), f"({second})"


def first_words(band: Band, words: Words) -> str:
    """The first glaze's own band; empty where it has none."""
    if band.base_to_mm is None or band.base_to_mm <= band.base_from_mm:
        return ""
    return " ".join(here_words(band.base_from_mm, band.base_to_mm, words, "first"))


def legend(words: Words) -> Markup:
    """What the drawing's fillings mean."""
    items = "".join(
        f'<li><svg class="swatch" width="28" height="16" viewBox="0 0 28 16" aria-hidden="true">{swatch(kind)}</svg> '
        f"{escape(words(f'profile.legend.{kind}'))}</li>"
        for kind in ("here", "inside", "first", "lip", "foot")
    )
    return Markup(f'<ul class="profile-legend">{items}</ul>')


def swatch(kind: str, colours: Colours | None = None) -> str:
    """A sample of a filling, 28 by 16: `here`, `inside`, `first`, `lip` or `foot`."""
    colours = colours or Colours()
    line = f'stroke="{colours.ink}"'
    if kind == "here":
        return f'<path class="here"{colours.fill()} d="M1 1h26v14H1z"/>'
    if kind == "inside":
        return f'<path class="inside-line"{colours.stroke()} d="M2 8h24" fill="none" stroke-width="3.5"/>'
    if kind == "first":
        return f'<path class="first-bar" d="M2 5.5h24v5H2z" fill="none" {line} stroke-width="1.2"/>'
    box = f'<path d="M1 1h26v14H1z" fill="none" {line} stroke-width="1"/>'
    if kind == "lip":
        return f'{box}<path d="M1 13l12-12M7 15l14-14M15 15l12-12M1 7l6-6M22 15l5-5" {line}/>'
    dots = "".join(f'<circle cx="{x}" cy="{y}" r="1"/>' for y in (5, 11) for x in range(5 if y == 5 else 8, 26, 6))
    return f'{box}<g fill="{colours.ink}">{dots}</g>'


def spread(centres: list[float], heights: list[float], low: float, high: float) -> list[float]:
    """Where labels of these heights go so that none covers another, within the ends where they fit, as near as can be."""
    out: list[float] = []
    for i, (centre, tall) in enumerate(zip(centres, heights, strict=True)):
        least = low + tall / 2 if i == 0 else out[-1] + (heights[i - 1] + tall) / 2
        out.append(max(centre, least))
    limit = max(high, low + sum(heights))
    for i in range(len(out) - 1, -1, -1):
        out[i] = min(out[i], limit - heights[i] / 2)
        limit = out[i] - heights[i] / 2
    return out


def placed_labels(pot: Pot, zones: tuple[Zone, ...], letters: float) -> tuple[list[tuple[Zone, float]], float]:
    """Each zone with the baseline of its first line, and how tall all of them are; letters `letters` high."""
    leading = letters * LEADING
    heights = [len(zone.label) * leading for zone in zones]
    wanted = [pot.down((zone.start + zone.end) / 2) for zone in zones]
    middles = spread(wanted, heights, 0, pot.tall)
    placed = [
        (zone, middle - tall / 2 + letters) for zone, middle, tall in zip(zones, middles, heights, strict=True)
    ]
    return placed, max([pot.tall, *(m + tall / 2 for m, tall in zip(middles, heights, strict=True))])


def _labels(pot: Pot, zones: tuple[Zone, ...]) -> Markup:
    placed, tall = placed_labels(pot, zones, LETTERS)
    lines = [
        (zone.kind, line, y + n * LETTERS * LEADING) for zone, y in placed for n, line in enumerate(zone.label)
    ]
    wide = max([len(line) * _LETTER_WIDTH[is_bold(kind)] for kind, line, _ in lines], default=0) + 6
    texts = "".join(
        f'<text x="2" y="{y:.1f}" fill="currentColor" font-size="{LETTERS:.0f}" class="label-{kind}">{escape(line)}</text>'
        for kind, line, y in lines
    )
    return svg("pot-labels", wide, tall, texts)


def is_bold(kind: str) -> bool:
    """A zone's label is bold where it answers the question: here, or nowhere."""
    return kind in ("here", "none")


def svg(name: str, wide: float, tall: float, inner: str) -> Markup:
    """A drawing for a page, of class `name`: `wide` by `tall` in its own units, sized in letters, so that a drawing grows with the page's type."""
    return Markup(
        f'<svg class="{name}" width="{wide / LETTERS:.3f}rem" height="{tall / LETTERS:.3f}rem" '
        f'viewBox="0 0 {wide:.0f} {tall:.0f}" aria-hidden="true">{inner}</svg>'
    )


def _list(zones: tuple[Zone, ...], band: Band, words: Words) -> Markup:
    items = [" ".join(zone.label) for zone in zones]
    items += [first for first in (first_words(band, words),) if first]
    return Markup(f'<ul class="profile-list">{"".join(f"<li>{escape(item)}</li>" for item in items)}</ul>')


def inside_words(band: Band, words: Words, seen: str = "inside") -> str:
    """What is said of the inside; `seen` is `above` beside a plate's drawing from above."""
    if band.inside and band.inside_to_mm is not None:
        return words(f"profile.{seen}_to", to_down_mm=band.inside_to_mm)
    return words(f"profile.{seen}_{'yes' if band.inside else 'no'}")


def _above(pot: Pot, band: Band, words: Words, ident: str) -> Markup:
    size, inner = plate_above(pot, band, f"{ident}-above", Colours())
    drawing = svg("pot-above", size, size, inner)
    return Markup(f'<div class="profile-above">{drawing}<p>{escape(inside_words(band, words, "above"))}</p></div>')
