"""Books for the judge, built directly: every field has a line of its own, so that a reason's place can be told.

Lines of a glaze: name 2, mark 3, cone 4, food label 5, flow 6, coats 7, goes on 8, rim band 9, lot 10, retest since 11.
Of a combination: base 2, top 3, coats 4, keep off food 5. Of a report: glaze or base 2, lead 8, cadmium 9.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from fractions import Fraction
from typing import Any, TypeVar

from combobook.book import Book, Combination, LabReport, TestTile
from combobook.cones import Cone, ConeRange, read_cone
from combobook.entries import (
    NOT_KNOWN,
    Body,
    Clay,
    DoubtfulRule,
    Fault,
    Firing,
    Flow,
    FoodLabel,
    FoodRule,
    Form,
    Glaze,
    GoesOn,
    Inside,
    KilnShelf,
    Limits,
    Status,
    Stood,
    Studio,
    Units,
    Ware,
    Written,
)
from combobook.measures import CoatRange, Coats, Paper, Reading, Sides, Span
from combobook.problems import Place
from combobook.verdicts import LayeringVerdict, Reason

T = TypeVar("T")
Tile = TestTile
"""By a name that pytest does not take for a test."""
PINHOLES = (Fault.PINHOLES,)
CRAWLING = (Fault.CRAWLING,)


def written(value: T, path: str, line: int, stated: bool = True) -> Written[T]:
    return Written(value=value, place=Place(path=path, line=line, column=3), field_line=line, stated=stated)


def cone(text: str) -> Cone:
    found = read_cone(text)
    assert found is not None, text
    return found


def cones(text: str) -> ConeRange:
    """`5 to 6`, or one cone."""
    low, _, high = text.partition(" to ")
    return ConeRange(cone(low), cone(high or low))


def mm(value: float | str) -> Fraction:
    return Fraction(value)


def studio(**changed: Any) -> Studio:
    fields: dict[str, Any] = {
        "name": "Far Quay Clay Room",
        "edition": "2026 Autumn",
        "cone": cone("6"),
        "date": dt.date(2026, 11, 2),
        "food_rule": FoodRule.LABELS,
        "doubtful": DoubtfulRule.BELOW_THE_LIP,
        "most_coats": 3,
        "usual_coats": NOT_KNOWN,
        "rim_band": Span(mm(13), mm(25)),
        "lip": mm(20),
        "foot_margin": Span(mm(6), mm(13)),
        "run_factor": mm(2),
        "labels_read": NOT_KNOWN,
        "read_from": mm(2000),
        "chart_paper": Paper("A1", mm(594), mm(841)),
        "paper": Paper("A4", mm(210), mm(297)),
        "units": Units.MM,
        "address": NOT_KNOWN,
        "students": 28,
        "tiles_each": 3,
        "seats": 4,
        "tag_size": NOT_KNOWN,
        "tag_margins": NOT_KNOWN,
        "tag_gaps": Sides(Fraction(0), Fraction(0)),
        "theme": "daylight",
        "language": "en",
    } | changed
    return Studio(house_rules=(), **{name: written(value, "studio.yaml", 1) for name, value in fields.items()})


def glaze(id_: str, **changed: Any) -> Glaze:
    """A stable glaze whose label allows food at cone 5 to 6 in 1 to 3 coats."""
    path = f"glazes/{id_}.md"
    fields: dict[str, Any] = {
        "name": id_.title(),
        "mark": id_[:4].upper(),
        "cone": cones("5 to 6"),
        "food_label": FoodLabel.YES,
        "flow": Flow.STABLE,
        "coats": CoatRange(1, 3),
        "goes_on": GoesOn.ANYWHERE,
        "rim_band": NOT_KNOWN,
        "lot": NOT_KNOWN,
        "retest_since": NOT_KNOWN,
    } | changed
    for name in (
        "label_says", "label_read", "data_sheet", "surface", "clay_shows", "looks", "left", "jar", "covers", "maker", "was",
    ):  # fmt: skip
        fields.setdefault(name, NOT_KNOWN)
    fields.setdefault("status", Status.IN_USE)
    body = Body(text="", path=path, line=0)
    made = {name: written(value, path, line) for line, (name, value) in enumerate(fields.items(), start=2)}
    return Glaze(id=id_, handling=(), body=body, **made)


def clay(id_: str) -> Clay:
    path = f"clays/{id_}.md"
    blank = written(NOT_KNOWN, path, 1)
    return Clay(
        id=id_,
        name=written(id_.title(), path, 2),
        mark=blank,
        cone=written(cones("4 to 7"), path, 3),
        tone=blank,
        looks=blank,
        body=Body(text="", path=path, line=0),
    )


def form(id_: str, height: Any = 95, holds_food: Any = True, inside: Any = Inside.HOLLOW) -> Form:
    path = f"forms/{id_}.md"
    return Form(
        id=id_,
        name=written(id_.title(), path, 2),
        height=written(mm(height) if height is not NOT_KNOWN else NOT_KNOWN, path, 3),
        holds_food=written(holds_food, path, 4),
        inside=written(inside, path, 5),
        area=written(NOT_KNOWN, path, 6),
        body=Body(text="", path=path, line=0),
    )


def firing(id_: str, target: str = "6", date: Any = dt.date(2026, 9, 1), witness: Any = None, **changed: Any) -> Firing:
    """A firing with the witness cones given by shelf (`{"upper": "6"}`), by default 6 on the middle shelf."""
    path = f"firings/{id_}.md"
    bent = {"middle": "6"} if witness is None else witness
    fields: dict[str, Any] = dict.fromkeys(("kiln", "rate", "peak", "hold", "cooling"), NOT_KNOWN) | changed
    return Firing(
        id=id_,
        path=path,
        cone=written(cone(target), path, 2),
        date=written(date, path, 3),
        witness=tuple((KilnShelf(shelf), written(cone(text), path, 10)) for shelf, text in bent.items()),
        body=Body(text="", path=path, line=0),
        **{name: written(value, path, line) for line, (name, value) in enumerate(fields.items(), start=4)},
    )


WHITE, RED = clay("bank-white"), clay("river-red")
FIRINGS = {id_: firing(id_) for id_ in ("f01", "f02", "f03", "f04")}


def tile(
    mark: str,
    layers: tuple[Glaze, ...],
    coats: tuple[int, ...] | None = None,
    *,
    clay: Clay | None = WHITE,
    firing: Firing | None = FIRINGS["f01"],
    shelf: Any = KilnShelf.MIDDLE,
    stood: Any = Stood.UPRIGHT,
    ran: Any = 0,
    faults: Any = (),
    lots: tuple[Any, ...] = (NOT_KNOWN, NOT_KNOWN),
) -> TestTile:
    """A tile fired upright that did not run and shows no fault. Its line is the number in its mark."""
    path, line = "logs/log.csv", int("".join(filter(str.isdigit, mark))) + 1
    how_many = coats or tuple(1 for _ in layers)
    top = layers[1] if len(layers) == 2 else None

    def cell(value: Any) -> Any:
        return written(value, path, line)

    return TestTile(
        place=Place(path=path, line=line, column=how_many[0]),
        tile=cell(mark),
        base=layers[0],
        top=top,
        base_coats=cell(how_many[0]),
        top_coats=cell(how_many[1]) if top else None,
        clay=clay,
        firing=firing,
        kiln_shelf=cell(shelf),
        stood=cell(stood),
        ran=cell(mm(ran) if isinstance(ran, int | float | str) else ran),
        faults=cell(faults),
        looks=cell(NOT_KNOWN),
        photo=cell(NOT_KNOWN),
        base_lot=cell(lots[0]),
        top_lot=cell(lots[1]),
    )


def entry(base: Glaze, top: Glaze, coats: Any = (1, 1), keep_off: str | None = None) -> Combination:
    id_ = f"{top.id}-over-{base.id}"
    path = f"combinations/{id_}.md"
    blank = written(NOT_KNOWN, path, 2, stated=False)
    return Combination(
        id=id_,
        path=path,
        base=base,
        top=top,
        base_place=Place(path=path, line=2),
        coats=written(Coats(*coats), path, 4) if coats else blank,
        name=blank,
        looks=blank,
        photo=blank,
        on_chart=True,
        keep_off_food=written(keep_off, path, 5),
        body=Body(text="", path=path, line=0),
    )


def readings(*texts: str) -> tuple[Reading, ...]:
    """`0.02`, `<0.01`: in mg/L unless another unit follows a space."""
    found = []
    for text in texts:
        amount, _, unit = text.partition(" ")
        found.append(Reading(amount=Fraction(amount.lstrip("<")), unit=unit or "mg/L", below=amount.startswith("<")))
    return tuple(found)


def report(
    layers: tuple[Glaze, ...],
    coats: Any = None,
    *,
    id_: str = "leach-1",
    ware: Ware = Ware.SMALL_HOLLOWWARE,
    limits: Limits = Limits.CANADA,
    clay: Clay | None = WHITE,
    at_cone: Any = "6",
    lead: tuple[str, ...] = ("0.02",),
    cadmium: tuple[str, ...] = ("0.01",),
) -> LabReport:
    path = f"lab/{id_}.md"
    return LabReport(
        id=id_,
        path=path,
        layers=layers,
        layers_place=Place(path=path, line=2),
        ware=written(ware, path, 4),
        limits=written(limits, path, 5),
        coats=coats or tuple(1 for _ in layers),
        clay=clay,
        cone=cone(at_cone) if isinstance(at_cone, str) else at_cone,
        lead=written(readings(*lead), path, 8),
        cadmium=written(readings(*cadmium), path, 9),
        method=written(NOT_KNOWN, path, 10),
        lab=written(NOT_KNOWN, path, 11),
        body=Body(text="", path=path, line=0),
    )


def book(
    entries: Iterable[Combination] = (),
    tiles: Iterable[TestTile] = (),
    *,
    glazes: Iterable[Glaze] = (),
    forms: Iterable[Form] = (),
    firings: Iterable[Firing] = (),
    reports: Iterable[LabReport] = (),
    **house: Any,
) -> Book:
    """A book of these, with every glaze, clay and firing that they name. `house` changes studio.yaml."""
    entries, tiles, reports = tuple(entries), tuple(tiles), tuple(reports)
    everything = [*glazes, *(g for e in entries for g in (e.base, e.top)), *(g for r in reports for g in r.layers)]
    everything += [g for t in tiles for g in (t.base, t.top) if g is not None]
    clays = [each for each in (*(t.clay for t in tiles), *(r.clay for r in reports)) if each is not None]
    fired = [*firings, *(t.firing for t in tiles if t.firing is not None)]
    ordered = sorted(tiles, key=lambda t: (t.tile.value, t.coats, t.place))
    tiles_of: dict[tuple[str, ...], tuple[TestTile, ...]] = {}
    for each in ordered:
        tiles_of[each.layers] = (*tiles_of.get(each.layers, ()), each)
    return Book(
        studio=studio(**house),
        glazes={g.id: g for g in sorted(everything, key=lambda g: g.id)},
        combinations={e.id: e for e in sorted(entries, key=lambda e: e.id)},
        clays={c.id: c for c in sorted(clays, key=lambda c: c.id)},
        forms={f.id: f for f in sorted(forms, key=lambda f: f.id)},
        firings={f.id: f for f in sorted(fired, key=lambda f: f.id)},
        reports=reports,
        pages={},
        tiles=tuple(ordered),
        tiles_of=tiles_of,
    )


def rules_at(reasons: Iterable[Reason]) -> list[tuple[str, str]]:
    """(rule, path:line) of each reason, in order."""
    return [(each.rule, each.place.at) for each in reasons]


def food_of(verdict: LayeringVerdict) -> tuple[str, list[tuple[str, str]]]:
    return verdict.food.level.name, rules_at(verdict.food.reasons)
