"""Forms, firings, lab reports and pages: raw entries to typed ones."""

from __future__ import annotations

import re
from typing import Any

from combobook.cones import Cone
from combobook.entries import (
    NOT_KNOWN,
    Firing,
    Form,
    Inside,
    KilnShelf,
    LabReportEntry,
    Limits,
    Page,
    Unknown,
    Ware,
    Written,
)
from combobook.measures import Coats
from combobook.problems import Place
from combobook.raw import RawEntry, RawMap, RawOther, RawText
from combobook.spelling import did_you_mean
from combobook.validate.entry import Fields, claims_in_fields
from combobook.validate.heat import cone, rate, temperature
from combobook.validate.quantities import area, coats, duration, layering_coats, length_over_zero
from combobook.validate.refusal import Refusal, is_not_known
from combobook.validate.shelf import file_name
from combobook.validate.words import choice, date, reading, text, yes_no

_INSIDE, _WARE, _LIMITS = choice(Inside), choice(Ware), choice(Limits)
_HEADING = re.compile(r"(?m)^ {0,3}#{1,6}[ \t]+(.+?)[ \t]*#*[ \t]*$|^(\S.*)\n(?:=+|-+)[ \t]*$")


def form(raw: RawEntry, fields: Fields) -> Form | None:
    """A shape of ware; None, with problems, without a name."""
    good_stem = file_name(raw, fields)
    name = fields.required("name", text, "Mug")
    claims_in_fields(fields, ("name",), ())
    height = fields.optional("height", length_over_zero)
    holds_food = fields.optional("holds food", yes_no)
    inside = fields.absent_as("inside", _INSIDE, Inside.HOLLOW)
    glazed = fields.optional("area", area)
    if name is None or not good_stem:
        return None
    return Form(id=raw.stem, name=name, height=height, holds_food=holds_food, inside=inside, area=glazed, body=raw.body)


def firing(raw: RawEntry, fields: Fields) -> Firing | None:
    """A glaze firing; None, with problems, without its target cone."""
    good_stem = file_name(raw, fields)
    target = fields.required("cone", cone, "6")
    claims_in_fields(fields, (), ("kiln", "cooling"))
    day = fields.optional("date", date)
    kiln = fields.optional("kiln", text)
    its_rate = fields.optional("rate", rate)
    peak = fields.optional("peak", temperature)
    hold = fields.optional("hold", duration)
    cooling = fields.optional("cooling", text)
    witness = _witness(fields)
    if target is None or not good_stem:
        return None
    return Firing(
        id=raw.stem,
        path=raw.path,
        cone=target,
        date=day,
        kiln=kiln,
        rate=its_rate,
        peak=peak,
        hold=hold,
        cooling=cooling,
        witness=witness,
        body=raw.body,
    )


def _witness(fields: Fields) -> tuple[tuple[KilnShelf, Written[Cone]], ...]:
    """The readings by kiln shelf, upper first; those not known are left out."""
    field = fields.fields.get("witness")
    if field is None or (isinstance(field.value, RawText) and is_not_known(field.value.text)):
        return ()
    if not isinstance(field.value, RawMap):
        fields.refused.add("witness")
        fields.find(
            fields.place_of(field.value),
            field.value.width if isinstance(field.value, RawText) else 1,
            code="wrong-shape",
            message="`witness` takes a cone for each kiln shelf",
            help="write it as\nwitness:\n  upper: 6\n  middle: 6 1/2\n  lower: 6",
        )
        return ()
    found: dict[KilnShelf, Written[Cone]] = {}
    seen: dict[KilnShelf, int] = {}
    for key, value in field.value.items:
        shelf = _kiln_shelf(fields, key, seen)
        cone_there = _witness_cone(fields, value, key) if shelf else None
        if shelf and cone_there:
            found[shelf] = cone_there
    return tuple((shelf, found[shelf]) for shelf in KilnShelf if shelf in found)


def _kiln_shelf(fields: Fields, key: RawText, seen: dict[KilnShelf, int]) -> KilnShelf | None:
    words = {shelf.value: shelf for shelf in KilnShelf}
    shelf = words.get(key.text.casefold())
    if shelf is None:
        fields.refused.add("witness")
        fields.find(
            fields.place_of(key),
            key.width,
            code="not-one-of",
            message=f"`{key.text}` is no kiln shelf",
            help=did_you_mean(key.text, words) or "expected one of: `upper` · `middle` · `lower`",
        )
    elif shelf in seen:
        fields.find(
            fields.place_of(key),
            key.width,
            code="repeated-reading",
            message=f"`{key.text}` has two readings; the first is in line {seen[shelf]}",
            help="keep one of the two lines",
        )
        return None
    else:
        seen[shelf] = key.line
    return shelf


def _witness_cone(fields: Fields, value: RawText | RawOther, key: RawText) -> Written[Cone] | None:
    if isinstance(value, RawText) and is_not_known(value.text):
        return None
    found = (
        cone(value.text)
        if isinstance(value, RawText)
        else Refusal(code="wrong-shape", message="a kiln shelf takes one cone", help=f"write `{key.text}: 6`")
    )
    if isinstance(found, Refusal):
        fields.refused.add("witness")
        fields.find(
            fields.place_of(value),
            value.width if isinstance(value, RawText) else 1,
            code=found.code,
            message=found.message,
            help=found.help,
        )
        return None
    return Written(value=found, place=fields.place_of(value), field_line=key.line)


def report(raw: RawEntry, fields: Fields) -> LabReportEntry | None:
    """A leach report; None, with problems, without its layers, ware and limits."""
    good_stem = file_name(raw, fields)
    layers = _layers(fields)
    claims_in_fields(fields, (), ("method", "lab"))
    ware = fields.required("ware", _WARE, "cup or mug")
    limits = fields.required("limits", _LIMITS, "FDA")
    alone = layers is not None and layers[0] is not None
    its_coats: Written[Coats | int | Unknown] = fields.optional("coats", coats if alone else layering_coats)
    rest: dict[str, Any] = {
        "clay": fields.optional("clay", text),
        "cone": fields.optional("cone", cone),
        "method": fields.optional("method", text),
        "lab": fields.optional("lab", text),
        "date": fields.optional("date", date),
        "lead": _readings(fields, "lead"),
        "cadmium": _readings(fields, "cadmium"),
    }
    if layers is None or ware is None or limits is None or not good_stem:
        return None
    glaze, base, top = layers
    return LabReportEntry(
        id=raw.stem,
        path=raw.path,
        glaze=glaze,
        base=base,
        top=top,
        ware=ware,
        limits=limits,
        coats=its_coats,
        body=raw.body,
        **rest,
    )


def _layers(fields: Fields) -> tuple[Written[str] | None, Written[str] | None, Written[str] | None] | None:
    """The report's glaze, or its base and top; None, with a problem, where it names neither or both."""
    named = [name for name in ("glaze", "base", "top") if name in fields.fields]
    if named == ["glaze"]:
        glaze = fields.required("glaze", text, "Ferry Rust")
        return (glaze, None, None) if glaze else None
    if "glaze" not in named and named:
        base = fields.required("base", text, "Ferry Rust")
        top = fields.required("top", text, "Pond Lantern")
        return (None, base, top) if base and top else None
    if fields.refused & {"glaze", "base", "top"}:
        return None
    key = fields.fields[named[0]].key if named else None
    place = fields.place_of(key) if key else fields.absent.place
    fields.find(
        place,
        key.width if key else 1,
        code="layers-due",
        message="a lab report names `glaze`, or `base` and `top`"
        + (", and not both" if named else ": this one names neither"),
        help="write `glaze: …` for one glaze alone, or `base: …` and `top: …` for a layering",
    )
    return None


def _readings(fields: Fields, name: str) -> Written[tuple[object, ...]]:
    """All readings of a metal: one a piece, empty where none is known."""
    found = fields.several(name, reading)
    field = fields.fields.get(name)
    if field is None:
        return Written(value=(), place=fields.absent.place, field_line=fields.absent.field_line, stated=False)
    # A report with one reading that cannot be read is not a report of fewer pieces.
    values = () if name in fields.refused else tuple(item.value for item in found)
    return Written(value=values, place=fields.place_of(field.value), field_line=field.key.line, stated=bool(found))


def page(raw: RawEntry, fields: Fields) -> Page | None:
    """A free page; its title is its first heading where none is written, else its file's name."""
    good_stem = file_name(raw, fields)
    claims_in_fields(fields, (), ("title",))
    title = fields.optional("title", text)
    if title.value is NOT_KNOWN:
        title = _first_heading(raw)
    if isinstance(title.value, Unknown) or not good_stem:
        return None
    named: Written[str] = title  # type: ignore[assignment]  # it is not Unknown
    return Page(id=raw.stem, path=raw.path, title=named, body=raw.body)


def _first_heading(raw: RawEntry) -> Written[str]:
    heading = _HEADING.search(raw.body.text)
    if heading is None:
        place = Place(path=raw.path, line=1)
        return Written(value=raw.stem.replace("-", " ").capitalize(), place=place, field_line=1, stated=False)
    line = raw.body.line + raw.body.text.count("\n", 0, heading.start())
    words = re.sub(r"[*_`]", "", heading[1] or heading[2])
    return Written(value=words, place=Place(path=raw.path, line=line), field_line=line, stated=False)
