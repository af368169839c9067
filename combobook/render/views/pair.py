"""Any pair: first one glaze, then another, on a form. The page has bare drawings; the script fills them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from combobook.entries import NOT_KNOWN, Form, Inside
from combobook.render.pair_data import every_pair
from combobook.render.plate_above import plate_above
from combobook.render.pot import Colours, Pot, drawn_pot
from combobook.render.profiles import is_plate, legend, pot_of, scale_of
from combobook.render.profiles import svg as drawing
from combobook.render.views.desk import Desk
from combobook.render.views.find import glaze_options
from combobook.render.views.page import Page
from combobook.render.views.places import is_wide
from combobook.verdicts import Band

SIDES = ("this", "other")


@dataclass(frozen=True, slots=True, kw_only=True)
class Above:
    """A plate's inside seen from above: what it shows (`no`, `yes`, or how far down in mm) and its words."""

    shows: str
    drawing: Markup
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BareForm:
    """A form's drawing with nothing on it, and its measures in the drawing's units."""

    id: str
    name: str
    href: str
    drawing: Markup
    """Empty where nobody knows how tall it is."""
    top: str
    scale: str
    left: str
    wide: str
    line: str
    """Where the line of measures stands."""
    broad: bool
    """Its drawing and labels need more than a column."""
    above: tuple[Above, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One of the two orders."""

    name: str
    forms: tuple[BareForm, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    forms = tuple(desk.book.forms.values())
    view: dict[str, object] = {
        "glazes": glaze_options(desk),
        "sides": tuple(Side(name=name, forms=tuple(_bare(desk, form, name) for form in forms)) for name in SIDES),
        "legend": legend(desk.words),
        "piece": desk.words("food.piece"),
    }
    yield Page(path="pair.html", template="pair.html", title=desk.text("pair.title"), view=view, nav="find")


def _bare(desk: Desk, form: Form, side: str) -> BareForm:
    href = f"forms.html#{form.id}"
    if form.height.value is NOT_KNOWN:
        blank = Markup("")
        return BareForm(
            id=form.id, name=form.name.value, href=href, drawing=blank, top="", scale="", left="", wide="", line="",
            broad=False, above=(),
        )  # fmt: skip
    pot, ident = pot_of(form, scale_of(desk.book.forms.values())), f"pot-{side}-{form.id}"
    inner = drawn_pot(pot, _whole(form, inside=form.inside.value is not Inside.NONE), (), ident, Colours())
    left = pot.axis - (pot.widest * pot.scale if pot.solid else 0)
    return BareForm(
        id=form.id,
        name=form.name.value,
        href=href,
        drawing=drawing("pot", pot.width, pot.tall, inner),
        top=f"{pot.top:g}",
        scale=f"{pot.scale:.4f}",
        left=f"{left:.1f}",
        wide=f"{pot.right - left:.1f}",
        line=f"{pot.width - 10:.1f}",
        broad=is_wide(desk, form),
        above=_above(desk, form, pot, ident) if is_plate(form) else (),
    )


def _whole(form: Form, *, inside: bool, inside_to: int | None = None) -> Band:
    """A band that keeps nothing clear: what the bare drawing is made from."""
    return Band(
        form=form, inside=inside, inside_to_mm=inside_to, from_mm=None, to_mm=None, none=(), margin_mm=0, lip_mm=0,
        reach_mm=None, third_mm=None, base_to_mm=None, base_from_mm=0,
    )  # fmt: skip


def _above(desk: Desk, form: Form, pot: Pot, ident: str) -> tuple[Above, ...]:
    """One drawing for each answer that some pair gets for this plate's inside."""
    bands = (band for verdict in every_pair(desk).values() for band in verdict.bands if band.form.id == form.id)
    answers = sorted({(bool(band.inside), band.inside_to_mm or 0) for band in bands})
    return tuple(_seen(desk, form, pot, f"{ident}-{number}", *answer) for number, answer in enumerate(answers))


def _seen(desk: Desk, form: Form, pot: Pot, ident: str, inside: bool, down: int) -> Above:
    size, inner = plate_above(pot, _whole(form, inside=inside, inside_to=down or None), ident, Colours())
    key = "to" if inside and down else "yes" if inside else "no"
    return Above(
        shows=str(down) if inside and down else key,
        drawing=drawing("pot-above", size, size, inner),
        words=desk.words(f"profile.above_{key}", to_down_mm=down),
    )
