"""Where a glaze or layering may go on each form, in miniature and in full."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from combobook.entries import NOT_KNOWN, Form, Unknown
from combobook.render import said
from combobook.render.profiles import profile
from combobook.render.shapes import kind_of, outline
from combobook.render.views.desk import Desk
from combobook.verdicts import Band
from combobook.wording import no_band_sentence

WIDE_MM = 190


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceView:
    """One form: its drawing, and outside and inside told apart."""

    id: str
    name: str
    href: str
    """Relative to site/."""
    small: Markup
    large: Markup
    wide: bool
    """Its drawing and labels need more than a column."""
    short: str
    short_inside: str
    outside: str
    inside: str
    why_not: tuple[str, ...]
    useful: bool
    first: str
    """The first glaze's own band; empty for one glaze alone."""


def place_views(desk: Desk, bands: tuple[Band, ...], base: str = "") -> tuple[PlaceView, ...]:
    """Every form, by file name; `base` is the first glaze of a layering."""
    return tuple(_place(desk, band, base) for band in bands)


def _place(desk: Desk, band: Band, base: str) -> PlaceView:
    words, useful = desk.words, band.to_mm is not None and band.from_mm is not None
    open_plate = any(found.wording == "open" for found in band.none)
    short_key = "short_open" if open_plate else "short_none"
    return PlaceView(
        id=band.form.id,
        name=band.form.name.value,
        href=f"forms.html#{band.form.id}",
        small=drawn(desk, band, small=True),
        large=drawn(desk, band),
        wide=is_wide(band.form),
        short=_short_span(desk, band) if useful else desk.text(f"places.{short_key}"),
        short_inside=desk.text(f"places.short_inside_{'yes' if band.inside else 'no'}") if open_plate else "",
        outside=said.outside(band, words),
        inside=said.inside(band, words),
        why_not=tuple(no_band_sentence(found, words) for found in band.none),
        useful=useful,
        first=_first(desk, band, base) if base and band.form.height.value is not NOT_KNOWN else "",
    )


def drawn(desk: Desk, band: Band, *, small: bool = False) -> Markup:
    """The form with the band's figures, drawn once however many pages show the same."""
    figures = replace(band, none=())
    key = f"{'small' if small else 'large'} drawing"
    if (key, figures) not in desk.kept:
        desk.kept[key, figures] = profile(band.form, band, desk.words, small=small)
    made: Markup = desk.kept[key, figures]
    return made


def is_wide(form: Form) -> bool:
    """More than about 12 cm wide: a plate."""
    height = form.height.value
    if isinstance(height, Unknown):
        return False
    return 2 * max(radius for radius, _ in outline(kind_of(form), float(height))) > WIDE_MM


def _short_span(desk: Desk, band: Band) -> str:
    """`20 to 69 mm` from the rim, in the studio's own unit."""
    to, start = desk.words.short_length(band.to_mm or 0, "down"), desk.words.short_length(band.from_mm or 0, "up")
    return desk.text("places.short", start=start.rsplit(" ", 1)[0], to=to)


def _first(desk: Desk, band: Band, base: str) -> str:
    if band.base_to_mm is None or band.base_to_mm <= band.base_from_mm:
        return desk.text("places.first_none", base=base)
    if band.base_from_mm == 0:
        return desk.text("places.first_from_rim", base=base, to_down_mm=band.base_to_mm)
    return desk.text("places.first", base=base, from_up_mm=band.base_from_mm, to_down_mm=band.base_to_mm)
