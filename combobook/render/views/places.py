"""Where a glaze or layering may go on each form, in miniature and in full."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from combobook.entries import Form, Unknown
from combobook.kept import Kept
from combobook.render import said
from combobook.render.profiles import profile, scale_of, size_of
from combobook.render.views.desk import Desk
from combobook.verdicts import Band, GlazeVerdict, LayeringVerdict, MovementVerdict, NoBand
from combobook.wording import no_band_sentence

WIDE_PX = 300
_NO_PLACE = (NoBand(rule="none", wording="none", facts=()),)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceView:
    """One form: its drawing, and outside and inside told apart."""

    id: str
    name: str
    href: str
    """Relative to site/."""
    tall: str
    """How tall; empty where nobody knows, which `why_not` says."""
    small: Markup
    large: Markup
    wide: bool
    """Its drawing and labels need more than a column."""
    short: tuple[str, ...]
    """Outside, where the form is answered for it, and inside, where it has one: a line each under the small drawing."""
    outside: str
    inside: str
    why_not: tuple[str, ...]
    useful: bool
    first: str
    """The first glaze's own band; empty for one glaze alone."""


_KEPT: Kept[tuple[PlaceView, ...]] = Kept()


def place_views(desk: Desk, verdict: GlazeVerdict | LayeringVerdict) -> tuple[PlaceView, ...]:
    """Every form, by file name. As they were made before where bands, movement, first glaze, forms and words are."""
    bands, moves = verdict.bands, verdict.movement
    layering = isinstance(verdict, LayeringVerdict)
    base = verdict.base.name.value if isinstance(verdict, LayeringVerdict) else ""
    key = verdict.id if isinstance(verdict, LayeringVerdict) else verdict.glaze.id
    given = (bands, moves, base, tuple(desk.book.forms.values()), desk.words)
    return _KEPT((layering, key), given, lambda: tuple(_place(desk, band, moves, base) for band in bands))


def _place(desk: Desk, band: Band, moves: MovementVerdict, base: str) -> PlaceView:
    height = band.form.height.value
    words, useful = desk.words, band.to_mm is not None and band.from_mm is not None
    return PlaceView(
        id=band.form.id,
        name=band.form.name.value,
        href=f"forms.html#{band.form.id}",
        tall="" if isinstance(height, Unknown) else desk.text("places.tall", height_mm=height),
        small=drawn(desk, band, small=True),
        large=drawn(desk, band),
        wide=is_wide(desk, band.form),
        short=tuple(said for said in (_short_outside(desk, band), _short_inside(desk, band, moves)) if said),
        outside=said.outside(band, words),
        inside=" ".join(said.inside_of(band, moves, words)),
        why_not=tuple(no_band_sentence(found, words) for found in band.none),
        useful=useful,
        first=first_says(desk, band, base) if base else "",
    )


def drawn(desk: Desk, band: Band, *, small: bool = False) -> Markup:
    """The form with the band's figures, drawn once however many pages show the same."""
    # Why there is no place is said beside the drawing, which only shows that there is none.
    figures = replace(band, none=_NO_PLACE if band.none else ())
    key = f"{'small' if small else 'large'} drawing"
    if (key, figures) not in desk.kept:
        scale = scale_of(desk.book.forms.values())
        desk.kept[key, figures] = profile(band.form, figures, desk.words, scale=scale, small=small)
    made: Markup = desk.kept[key, figures]
    return made


def is_wide(desk: Desk, form: Form) -> bool:
    """Its drawing and labels need more than a column of the page: a plate, or a very large pot."""
    return size_of(form)[1] * scale_of(desk.book.forms.values()) > WIDE_PX


def _short_outside(desk: Desk, band: Band) -> str:
    """`outside: 20 to 69 mm below the rim`, in the studio's own unit; empty of a plate, which is all inside."""
    if said.is_open(band):
        return ""
    if band.to_mm is None or band.from_mm is None:
        return desk.text("places.short_none")
    to, start = desk.words.short_length(band.to_mm, "down"), desk.words.short_length(band.from_mm, "up")
    if not band.from_mm:
        return desk.text("places.short_from_rim", to=to)
    return desk.text("places.short", start=start.rsplit(" ", 1)[0], to=to)


def _short_inside(desk: Desk, band: Band, moves: MovementVerdict) -> str:
    """`inside: only in the top 25 mm`, in the studio's own unit; empty where the form has no inside."""
    if band.inside is None:
        return ""
    if said.off_walls(band, moves):
        return desk.text("places.short_inside_off_walls")
    if band.inside and band.inside_to_mm is not None:
        return desk.text("places.short_inside_to", to=desk.words.short_length(band.inside_to_mm, "down"))
    return desk.words(f"profile.inside_{'yes' if band.inside else 'no'}")


def first_says(desk: Desk, band: Band, base: str) -> str:
    """Where the first glaze by itself may go; empty where nobody knows how tall the form is."""
    if isinstance(band.form.height.value, Unknown):
        return ""
    if band.base_to_mm is None or band.base_to_mm <= band.base_from_mm:
        return desk.text("places.first_none", base=base)
    key = "places.first_from_rim" if band.base_from_mm == 0 else "places.first"
    alone = desk.text(key, base=base, from_up_mm=band.base_from_mm, to_down_mm=band.base_to_mm)
    lower = band.base_to_mm > band.form.height.value - band.margin_mm
    return f"{alone} {desk.text('places.together', margin_up_mm=band.margin_mm)}" if lower else alone
