"""Shapes of ware on one page: how tall each is, what it is for, and what holds on it whatever the glaze."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from combobook.entries import Form, Inside
from combobook.measures import mm_up
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Fact
from combobook.render.views.places import drawn, is_wide
from combobook.verdicts import Band

SQUARE_CM = Fraction(1, 10_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class FormView:
    """One form; `id` is its place on the page."""

    id: str
    name: str
    facts: tuple[Fact, ...]
    drawing: Markup
    wide: bool
    rules: tuple[str, ...]
    prose: Markup


def pages(desk: Desk) -> Iterator[Page]:
    """One page with every form, by file name."""
    view: dict[str, object] = {"forms": tuple(_form(desk, form) for form in desk.book.forms.values())}
    yield Page(path="forms.html", template="forms.html", title=desk.text("forms.title"), view=view, nav="forms")


def _form(desk: Desk, form: Form) -> FormView:
    return FormView(
        id=form.id,
        name=form.name.value,
        facts=_facts(desk, form),
        drawing=drawn(desk, _least_band(desk, form)),
        wide=is_wide(desk, form),
        rules=_rules(desk, form),
        prose=desk.prose(form.body, "", under=2),
    )


def _mouth(desk: Desk, form: Form) -> int:
    """How much of the outside counts as touching the mouth; what nobody knows is read as holding food."""
    return 0 if form.holds_food.value is False else mm_up(desk.book.studio.lip.value)


def _least_band(desk: Desk, form: Form) -> Band:
    """What holds on the form for any glaze at all: the lip where it holds food, and the least bare foot."""
    return Band(
        form=form,
        inside=None,
        inside_to_mm=None,
        from_mm=None,
        to_mm=None,
        none=(),
        margin_mm=mm_up(desk.book.studio.foot_margin.value.low),
        lip_mm=_mouth(desk, form),
        reach_mm=None,
        third_mm=None,
        base_to_mm=None,
        base_from_mm=0,
    )


def _facts(desk: Desk, form: Form) -> tuple[Fact, ...]:
    height, area, holds, inside = form.height.value, form.area.value, form.holds_food.value, form.inside.value
    not_known = desk.words("not_known")
    values = {
        "height": desk.words.length(height) if isinstance(height, Fraction) else not_known,
        "holds_food": desk.text("yes" if holds is True else "no" if holds is False else "forms.not_known_food"),
        "inside": desk.text(f"forms.inside_{inside.value}") if isinstance(inside, Inside) else not_known,
        "area": desk.text("forms.area", cm2=round(area / SQUARE_CM)) if isinstance(area, Fraction) else not_known,
    }
    return tuple(Fact(name=desk.text(f"forms.facts.{key}"), value=value) for key, value in values.items())


def _rules(desk: Desk, form: Form) -> tuple[str, ...]:
    least = mm_up(desk.book.studio.foot_margin.value.low)
    mouth = _mouth(desk, form)
    lip = desk.text("forms.lip", lip_up_mm=mouth) if mouth else desk.text("forms.no_lip")
    return (lip, desk.text("forms.foot", margin_up_mm=least))
