"""A small edition set together by hand, so that what the data says can be held against what was put in."""

from __future__ import annotations

import dataclasses
from fractions import Fraction
from pathlib import Path
from typing import Any, TypeVar

from combobook.book import Book, Combination
from combobook.cones import Cone, ConeRange, read_cone
from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, Body, Flow, FoodLabel, Form, Glaze, Status, Studio, Units, Written
from combobook.measures import Coats
from combobook.problems import Place, Problem
from combobook.theme import Theme
from combobook.verdicts import (
    Band,
    Evidence,
    EvidenceLevel,
    FoodLevel,
    FoodVerdict,
    Judged,
    LayeringVerdict,
    MoveClass,
    MovementVerdict,
    NoBand,
    Reason,
    ToDo,
)
from combobook.wording import Words

T = TypeVar("T")
HERE = Place(path="somewhere.md", line=1)
TABLE = {
    "and": "and",
    "reasons": {"no": "The label of {glaze} says no: “keep off”.", "run": "It ran {run_mm}."},
    "bands": {"lip": "The lip takes {lip_mm}.", "margin": "Running takes the rest."},
}


def written(value: T) -> Written[T]:
    return Written(value=value, place=HERE, field_line=1)


def of(kind: type[T], **known: Any) -> T:
    """One of `kind`: what is named here as given, written where the type says so; all else not known or empty."""
    values: dict[str, Any] = {}
    for field in dataclasses.fields(kind):  # type: ignore[arg-type]
        value = known.get(field.name, NOT_KNOWN)
        if str(field.type).startswith("Written"):
            values[field.name] = written(value)
        elif str(field.type).startswith("tuple"):
            values[field.name] = known.get(field.name, ())
        elif field.type == "Body":
            values[field.name] = Body(text="", path="x.md", line=0)
        else:
            values[field.name] = value
    return kind(**values)


def cone(text: str) -> Cone:
    found = read_cone(text)
    assert found is not None
    return found


def glaze(id_: str, **known: Any) -> Glaze:
    plain: dict[str, Any] = {"name": id_.title(), "mark": id_[:2].upper(), "status": Status.IN_USE}
    return of(Glaze, id=id_, **(plain | known))


def reason(rule: str, wording: str, path: str, line: int, **facts: object) -> Reason:
    return Reason(
        rule=rule, wording=wording, facts=tuple(facts.items()), place=Place(path=path, line=line, column=7), severity=0
    )


def band(form: str, **known: Any) -> Band:
    values: dict[str, Any] = {f.name: None for f in dataclasses.fields(Band)}
    values |= {"none": (), "margin_mm": 13, "lip_mm": 20, "base_from_mm": 0, "form": of(Form, id=form, name=form)}
    return Band(**(values | known))


def no_band(wording: str, **facts: object) -> NoBand:
    return NoBand(rule="P1", wording=wording, facts=tuple(facts.items()))


def layering(base: Glaze, top: Glaze, **known: Any) -> LayeringVerdict:
    """A verdict with the given parts: the rest as of a stable, untested pair."""
    food = FoodVerdict(level=FoodLevel.NOT_KNOWN, food_ware=False, reasons=(), lab=None)
    movement: dict[str, Any] = {f.name: None for f in dataclasses.fields(MovementVerdict)}
    movement |= {
        "cls": MoveClass.MOVES,
        "off_the_tile": False,
        "margin_mm": 13,
        "catch_plate": True,
        "untested_upright": True,
        "upright_tiles": 0,
        "upright_firings": 0,
        "to_do": ToDo.TOP_THIRD,
        "reasons": (),
    }
    evidence = Evidence(
        level=EvidenceLevel.UNTESTED, tiles=0, firings=0, looked_over=0, faulty=0, disagreements=()
    )
    values: dict[str, Any] = {f.name: () for f in dataclasses.fields(LayeringVerdict)}
    values |= {"id": f"{top.id}-over-{base.id}", "base": base, "top": top, "entry": None, "coats": None}
    values |= {"food": food, "evidence": evidence, "movement": MovementVerdict(**(movement | known.pop("movement", {})))}
    return LayeringVerdict(**(values | known))


def entry(verdict: LayeringVerdict) -> Combination:
    known: dict[str, Any] = {"base_place": HERE, "on_chart": True, "keep_off_food": None, "path": "c.md"}
    return of(Combination, id=verdict.id, base=verdict.base, top=verdict.top, **known)


def edition(*verdicts: LayeringVerdict, entered: tuple[str, ...], problems: tuple[Problem, ...] = ()) -> Edition:
    """An edition of these verdicts, of which those named have an entry; mappings in the order given."""
    glazes = {g.id: g for v in verdicts for g in (v.base, v.top)}
    book = Book(
        studio=of(Studio, name="Haus „Ö“ & Söhne", edition="2026 Autumn", cone=cone("6"), units=Units.MM),
        glazes=glazes,
        combinations={v.id: entry(v) for v in verdicts if v.id in entered},
        clays={},
        forms={},
        firings={},
        reports=(),
        pages={},
        tiles=(),
        tiles_of={},
    )
    return Edition(
        book=book,
        judged=Judged(glazes={}, layerings={(v.base.id, v.top.id): v for v in verdicts}, firings={}, tile_fire={}),
        pictures={},
        theme=Theme(name="daylight", language="en", folders=(Path("/nowhere"),), table=TABLE),
        words=Words(TABLE, Units.MM),
        problems=problems,
    )


def two_orders(problems: tuple[Problem, ...] = ()) -> Edition:
    """Rust under fog, tested and on file, fog under rust on file with nothing known, and a pair without an entry."""
    fog = glaze("fog", cone=ConeRange(cone("5"), cone("6")), food_label=FoodLabel.YES, flow=Flow.STABLE)
    rust = glaze("rust", status=Status.RUNNING_LOW, mark="R2")
    moss = glaze("moss", cone=ConeRange(cone("06"), cone("04")), food_label=FoodLabel.NOT_STATED, flow=Flow.RUNNY)
    tested = layering(
        rust,
        fog,
        coats=Coats(2, 1),
        food=FoodVerdict(
            level=FoodLevel.KEEP_OFF,
            food_ware=False,
            reasons=(reason("F1", "no", "glazes/rust.md", 7, glaze="Rust"), reason("F4", "no", "c/x.md", 5, glaze="x")),
            lab=None,
        ),
        movement={
            "cls": MoveClass.RUNNY,
            "worst_run": Fraction(127, 10),
            "reach_mm": 25,
            "margin_mm": 26,
            "off_the_tile": True,
            "reasons": (reason("M3", "run", "logs/a.csv", 12, run_mm=Fraction(127, 10)),),
        },
        evidence=Evidence(
            level=EvidenceLevel.SEEN_ONCE, tiles=1, firings=1, looked_over=1, faulty=0, disagreements=()
        ),
        bands=(
            band("vase", inside=None, none=(no_band("lip", lip_mm=20), no_band("margin")), from_mm=20, to_mm=25),
            band("mug", inside=False, from_mm=20, to_mm=75),
        ),
    )
    return edition(
        tested,
        layering(fog, rust, movement={"worst_run": Fraction(4), "catch_plate": False, "cls": MoveClass.STABLE}),
        layering(moss, fog),
        layering(rust, moss),
        entered=("rust-over-fog", "fog-over-rust", "moss-over-rust"),
        problems=problems,
    )

