"""Where it may go: running pushes a glaze up, food pushes it down; they collide at the rim (rules.md, section 3)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from combobook.entries import DoubtfulRule, Form, Inside
from combobook.judge.movement import no_wall, rim_reach, shares_no_cone
from combobook.judge.surface import Layering
from combobook.measures import mm_down, mm_up
from combobook.verdicts import Band, MovementVerdict, NoBand

LEAST_BAND_MM = 10
"""House: a narrower band is of no use."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sides:
    """The figures that bound a band on one form, in whole mm from the rim down."""

    start: int
    margin_end: int
    reach: int | None
    third: int | None

    @property
    def end(self) -> int:
        return min(end for end in (self.margin_end, self.reach, self.third) if end is not None)

    @property
    def left(self) -> int:
        return self.end - self.start


def bands(
    layering: Layering,
    food_ware: bool,
    movement: MovementVerdict,
    forms: Iterable[Form],
    base_bands: Mapping[str, Band],
) -> tuple[Band, ...]:
    """One a form, by file name. `base_bands` are the base's own, judged as one glaze; empty for one glaze alone."""
    return tuple(
        _band(layering, food_ware, movement, form, base_bands.get(form.id))
        for form in sorted(forms, key=lambda form: form.id)
    )


def _band(layering: Layering, food_ware: bool, movement: MovementVerdict, form: Form, base: Band | None) -> Band:
    doubtful = form.holds_food.value is not False and not food_ware
    lip = mm_up(layering.studio.lip.value) if doubtful else 0
    sides = _sides(form, movement, lip)
    none = _none(layering, movement, form, doubtful, sides)
    inside = _inside(form, not doubtful and not no_wall(layering))
    useful = sides is not None and not none
    start, end = (sides.start, sides.end) if sides and useful else (None, None)
    return Band(
        form=form,
        inside=inside,
        inside_to_mm=movement.reach_mm if inside else None,
        from_mm=start,
        to_mm=end,
        none=none,
        margin_mm=movement.margin_mm,
        lip_mm=lip,
        reach_mm=movement.reach_mm,
        third_mm=sides.third if sides else None,
        base_to_mm=base.to_mm if base else end,
        base_from_mm=(base.from_mm if base else start) or 0,
    )


def useful_somewhere(movement: MovementVerdict, forms: Iterable[Form]) -> bool:
    """Some walled form with a height has a useful band when food is left out; true where there is no such form."""
    walled = [form for form in forms if form.inside.value is not Inside.OPEN]
    sides = [each for form in walled if (each := _sides(form, movement, 0)) is not None]
    return not sides or any(each.left >= LEAST_BAND_MM for each in sides)


def _sides(form: Form, movement: MovementVerdict, lip: int) -> _Sides | None:
    """None without a height. The margin is rounded before it is subtracted; every end is rounded down."""
    height = form.height.value
    if not isinstance(height, Fraction):
        return None
    return _Sides(
        start=lip,
        margin_end=mm_down(height - movement.margin_mm),
        reach=movement.reach_mm,
        third=mm_down(height / 3) if movement.untested_upright else None,
    )


def _inside(form: Form, allowed: bool) -> bool | None:
    """None where the form has no inside to glaze; what nobody knows is read as hollow."""
    return None if form.inside.value is Inside.NONE else allowed


def _none(
    layering: Layering, movement: MovementVerdict, form: Form, doubtful: bool, sides: _Sides | None
) -> tuple[NoBand, ...]:
    """Every reason why the outside has no useful band; empty where it has one."""
    found = list(_whole_layering(layering, movement))
    if form.inside.value is Inside.OPEN:
        return (*found, NoBand(rule="P8", wording="open", facts=()))
    if doubtful and layering.studio.doubtful.value is DoubtfulRule.NEVER:
        found.insert(0, NoBand(rule="P5", wording="doubtful_never", facts=()))
    if sides is None:
        found.append(NoBand(rule="height", wording="no_height", facts=()))
    elif sides.left < LEAST_BAND_MM:
        found = [*_narrow(layering, sides, movement), *found]
    return tuple(found)


def _whole_layering(layering: Layering, movement: MovementVerdict) -> Iterable[NoBand]:
    """P6 and P7: what holds on every form."""
    if movement.off_the_tile:
        yield NoBand(rule="P6", wording="ran_off", facts=())
    if layering.alone:
        return
    if layering.layers[0].rim_only:
        yield NoBand(rule="P7", wording="base_rim_only", facts=(("glaze", layering.layers[0].name.value),))
    if shares_no_cone(layering.layers):
        first, second = (glaze.name.value for glaze in layering.layers)
        yield NoBand(rule="P7", wording="no_shared_cone", facts=(("base", first), ("top", second)))


def _narrow(layering: Layering, sides: _Sides, movement: MovementVerdict) -> Iterable[NoBand]:
    """P1 to P4: whichever bind, the last one with the sum. A reach is a rim-only top's own, or that of what runs."""
    if sides.start > 0:
        yield NoBand(rule="P1", wording="lip", facts=(("from_mm", sides.start),))
    top = layering.layers[-1]
    reach = "rim_only" if sides.reach is not None and sides.reach == rim_reach(top, layering.studio) else "reach"
    ends = (("P2", "margin", sides.margin_end), ("P3", reach, sides.reach), ("P4", "third", sides.third))
    binding = [(rule, wording) for rule, wording, end in ends if end == sides.end]
    for rule, wording in binding:
        if rule == "P2" and sides.end <= 0:
            yield NoBand(rule=rule, wording="margin_all", facts=(("margin_up_mm", movement.margin_mm),))
        else:
            whose = (("glaze", top.name.value),) if wording == "rim_only" else ()
            sums = (("to_down_mm", sides.end), ("left_mm", max(sides.left, 0)), ("least_mm", LEAST_BAND_MM), *whose)
            yield NoBand(rule=rule, wording=wording if sides.left > 0 else f"{wording}_nothing", facts=sums)
