"""A pot's profile for a sheet: one drawing with its labels in it, sized in mm, every colour and face written out.

Style sheets do not reach into an inline drawing on a sheet, nor does CSS `color`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup, escape

from combobook.entries import NOT_KNOWN, Form
from combobook.render.letters import FAMILY, width
from combobook.render.plate_above import plate_above
from combobook.render.pot import Colours, Pot, Zone, drawn_pot
from combobook.render.profiles import (
    LEADING,
    first_words,
    inside_words,
    is_bold,
    is_plate,
    placed_labels,
    pot_of,
    size_of,
    swatch,
    zones_of,
)
from combobook.verdicts import Band
from combobook.wording import Words, no_band_sentence

UNIT_MM = 0.25
"""A unit of the drawing on paper: its lines are 0.3 to 0.9 mm wide at any scale."""
INK, ACCENT, PAPER = "#1f1d1a", "#2b4c63", "#ffffff"
_GAP = 8.0
COLOURS = Colours(ink=INK, accent=ACCENT, paper=PAPER)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintProfile:
    """A drawing for a sheet, and how much room it takes."""

    drawing: Markup
    """An inline `svg`; empty where nobody knows how tall the form is."""
    width_mm: float
    height_mm: float
    why_not: tuple[str, ...]
    """Why there is no useful place outside, in sentences, to be set beside or under the drawing; else empty."""


def print_scale(forms: Iterable[Form], *, tall_mm: float, wide_mm: float) -> float:
    """Mm on paper for a mm of a form, at most life size, at which each form's pot is at most so tall and so wide.

    The pot alone: its labels stand to the right of it. One scale for all forms of a sheet, so that they compare.
    """
    sizes = [size for size in map(size_of, forms) if size[0]]
    return min([1.0, *(min(tall_mm / tall, wide_mm / wide) for tall, wide in sizes)])


def profile_for_print(
    form: Form, band: Band, words: Words, *, scale: float, letters_mm: float, ident: str
) -> PrintProfile:
    """The form's profile with labels, first glaze and inside, for a sheet made by `render.sheet`.

    `scale` is mm on paper for a mm of the form (see `print_scale`), `letters_mm` the type size of the labels (see
    `letters.type_size`), `ident` something no other drawing of the document is called. The labels are read aloud as
    the drawing's title. Without a height there is no drawing, and `why_not` says so.
    """
    why_not = tuple(no_band_sentence(found, words) for found in band.none)
    if form.height.value is NOT_KNOWN:
        return PrintProfile(drawing=Markup(""), width_mm=0, height_mm=0, why_not=why_not)
    pot, zones = pot_of(form, scale / UNIT_MM), zones_of(band, form, words)
    letters = letters_mm / UNIT_MM
    parts = [drawn_pot(pot, band, zones, f"{ident}-pot", COLOURS)]
    texts, wide, tall = _labels(pot, zones, letters)
    parts.append(texts)
    if is_plate(form) and band.inside is not None:
        size, inner = plate_above(pot, band, f"{ident}-above", COLOURS)
        parts.append(f'<g transform="translate(0 {tall + _GAP:.1f})">{inner}</g>')
        told, x = inside_words(band, words, "above"), size + _GAP
        parts.append(_text(x, tall + _GAP + size / 2 + letters / 3, told, letters))
        wide = max(wide, x + width(told, letters))
        tall += size + _GAP
    key, key_wide, tall = _key(band, words, letters, tall)
    wide = max(wide, key_wide)
    said = [" ".join(zone.label) for zone in zones] + [line for _, line in _key_lines(band, words)]
    title = f"{form.name.value}: {'; '.join(said)}"
    drawing = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide * UNIT_MM:.2f}mm" height="{tall * UNIT_MM:.2f}mm" '
        f'viewBox="0 0 {wide:.1f} {tall:.1f}"><title>{escape(title)}</title>{"".join(parts)}{key}</svg>'
    )
    return PrintProfile(
        drawing=Markup(drawing), width_mm=wide * UNIT_MM, height_mm=tall * UNIT_MM, why_not=why_not
    )


def _labels(pot: Pot, zones: tuple[Zone, ...], letters: float) -> tuple[str, float, float]:
    placed, tall = placed_labels(pot, zones, letters)
    texts, wide, x = [], pot.width, pot.width + 2
    for zone, y in placed:
        for n, line in enumerate(zone.label):
            texts.append(_text(x, y + n * letters * LEADING, line, letters, is_bold(zone.kind)))
            wide = max(wide, x + width(line, letters, is_bold(zone.kind)))
    return "".join(texts), wide, tall


def _key_lines(band: Band, words: Words) -> list[tuple[str, str]]:
    """Below the pot: the first glaze's band and the inside, each with a sample of how it is drawn."""
    lines = [("first", first)] if (first := first_words(band, words)) else []
    if band.inside is not None and not is_plate(band.form):
        lines.append(("inside" if band.inside else "", inside_words(band, words)))
    return lines


def _key(band: Band, words: Words, letters: float, tall: float) -> tuple[str, float, float]:
    parts, wide = [], 0.0
    for kind, line in _key_lines(band, words):
        y = tall + letters * LEADING
        x = 0.0
        if kind:
            parts.append(f'<g transform="translate(0 {y - letters / 3 - 8:.1f})">{swatch(kind, COLOURS)}</g>')
            x = 34.0
        parts.append(_text(x, y, line, letters))
        wide, tall = max(wide, x + width(line, letters)), tall + letters * LEADING
    return "".join(parts), wide, tall + (letters * 0.35 if parts else 0)


def _text(x: float, y: float, line: str, letters: float, bold: bool = False) -> str:
    weight = ' font-weight="700"' if bold else ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-family="{FAMILY}" font-size="{letters:.1f}"{weight} fill="{INK}">'
        f"{escape(line)}</text>"
    )
