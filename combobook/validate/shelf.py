"""Glazes, combinations, clays: raw entries to typed ones."""

from __future__ import annotations

import re
from typing import Any

from combobook.entries import Clay, ClayShows, CombinationEntry, Flow, Glaze, GoesOn, Status, Surface, Tone, Written
from combobook.problems import Place
from combobook.raw import RawEntry
from combobook.validate.entry import Fields, claims_in_fields
from combobook.validate.heat import cone_range
from combobook.validate.quantities import area, coat_range, layering_coats, span, volume
from combobook.validate.words import STEM, choice, date, file_stem, food_label, mark, photo_name, reason, text, yes_no

_SURFACE, _CLAY_SHOWS, _FLOW = choice(Surface), choice(ClayShows), choice(Flow)
_GOES_ON, _STATUS, _TONE = choice(GoesOn), choice(Status), choice(Tone)


def glaze(raw: RawEntry, fields: Fields) -> Glaze | None:
    """A glaze; None, with problems, without a name, a mark and a usable file name."""
    good_stem = file_name(raw, fields)
    name = fields.required("name", text, "Ferry Rust")
    its_mark = fields.required("mark", mark, "FR")
    handling = fields.several("handling", text)
    claims_in_fields(fields, ("name", "looks"), ("maker", "lot"))
    found: dict[str, Any] = {
        "cone": fields.optional("cone", cone_range),
        "food_label": fields.optional("food label", food_label),
        "label_says": fields.optional("label says", text),
        "label_read": fields.optional("label read", date),
        "data_sheet": fields.optional("data sheet", date),
        "flow": fields.optional("flow", _FLOW),
        "goes_on": fields.absent_as("goes on", _GOES_ON, GoesOn.ANYWHERE),
        "rim_band": fields.optional("rim band", span),
        "coats": fields.optional("coats", coat_range),
        "surface": fields.optional("surface", _SURFACE),
        "clay_shows": fields.optional("clay shows", _CLAY_SHOWS),
        "looks": fields.optional("looks", text),
        "status": fields.absent_as("status", _STATUS, Status.IN_USE),
        "lot": fields.optional("lot", text),
        "retest_since": fields.optional("retest since", date),
        "left": fields.optional("left", volume),
        "jar": fields.optional("jar", volume),
        "covers": fields.optional("covers", area),
        "maker": fields.optional("maker", text),
        "was": fields.optional("was", file_stem),
    }
    if name is None or its_mark is None or not good_stem:
        return None
    return Glaze(id=raw.stem, name=name, mark=its_mark, handling=handling, body=raw.body, **found)


def combination(raw: RawEntry, fields: Fields) -> CombinationEntry | None:
    """A layering's entry; None, with problems, without a base and a top."""
    good_stem = file_name(raw, fields)
    base = fields.required("base", text, "Ferry Rust")
    top = fields.required("top", text, "Pond Lantern")
    claims_in_fields(fields, ("name", "looks"), ("keep off food",))
    coats = fields.optional("coats", layering_coats)
    name = fields.known_if_written("name", text, "River at Dusk")
    looks = fields.optional("looks", text)
    photo = fields.optional("photo", photo_name)
    on_chart = fields.absent_as("on chart", yes_no, True)
    keep_off = _keep_off(fields)
    if base is None or top is None or not good_stem:
        return None
    return CombinationEntry(
        path=raw.path,
        base=base,
        top=top,
        coats=coats,
        name=name,
        looks=looks,
        photo=photo,
        on_chart=on_chart,
        keep_off_food=keep_off,
        body=raw.body,
    )


def _keep_off(fields: Fields) -> Written[str | None]:
    """The reason, "" where it is blank or not known (it counts), None where the field is absent."""
    found = fields.optional("keep off food", reason)
    value = found.value if isinstance(found.value, str) else "" if "keep off food" in fields.fields else None
    return Written(value=value, place=found.place, field_line=found.field_line, stated=value is not None)


def clay(raw: RawEntry, fields: Fields) -> Clay | None:
    """A clay body; None, with problems, without a name."""
    good_stem = file_name(raw, fields)
    name = fields.required("name", text, "Quarry White")
    claims_in_fields(fields, ("name", "looks"), ())
    its_mark = fields.known_if_written("mark", mark, "QW")
    cone = fields.optional("cone", cone_range)
    tone = fields.optional("tone", _TONE)
    looks = fields.optional("looks", text)
    if name is None or not good_stem:
        return None
    return Clay(id=raw.stem, name=name, mark=its_mark, cone=cone, tone=tone, looks=looks, body=raw.body)


def file_name(raw: RawEntry, fields: Fields) -> bool:
    """False, with a problem, where the file's stem cannot be an entry's name."""
    stem = raw.stem
    if not STEM.fullmatch(stem):
        plain = re.sub(r"[^a-z0-9]+", "-", stem.lower()).strip("-") or "new-name"
        message = f"`{stem}` cannot name an entry: expected lower case letters, digits and hyphens"
        fix = f"rename the file to {plain}.md"
    elif raw.folder == "glazes" and "-over-" in stem:
        message = f"`{stem}` cannot name a glaze: `-over-` is kept for layerings"
        fix = f"rename the file to {stem.replace('-over-', '-on-')}.md"
    else:
        return True
    fields.find(Place(path=raw.path, line=1), 1, code="bad-file-name", message=message, help=fix)
    return False
