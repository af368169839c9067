"""Generated studios: plain sketches that a law can change in one place before they are made into a book."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st

from combobook.book import Book
from combobook.entries import (
    NOT_KNOWN,
    OFF_THE_TILE,
    DoubtfulRule,
    Fault,
    Flow,
    FoodLabel,
    FoodRule,
    GoesOn,
    Inside,
    KilnShelf,
    Limits,
    Stood,
    Ware,
)
from combobook.measures import CoatRange, Coats, Span
from tests.judge.building import RED, WHITE, book, cones, entry, firing, form, glaze, mm, report, tile

NAMES = ("amber", "birch", "cedar")
CLAYS = {"bank-white": WHITE, "river-red": RED, "": None}
FIRINGS = {
    "": None,
    "f01": firing("f01"),
    "f02": firing("f02", witness={"upper": "6 1/2", "lower": "5 1/2"}),
    "f03": firing("f03", date=NOT_KNOWN, witness={}),
    "f04": firing("f04", date=dt.date(2026, 3, 1), witness={"middle": "5"}),
    "f05": firing("f05", date=dt.date(2026, 9, 20), witness={"middle": "6", "upper": "7"}),
}
FORMS = (
    form("bowl", 60, NOT_KNOWN),
    form("jar", "240.5", False),
    form("mug", 95),
    form("plate", 25, True, Inside.OPEN),
    form("tile", NOT_KNOWN, False, Inside.NONE),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """A studio as the arguments of the builders; glazes are named by id."""

    house: dict[str, Any]
    glazes: dict[str, dict[str, Any]]
    entries: tuple[tuple[str, str, Any, Any], ...]
    tiles: tuple[dict[str, Any], ...]
    reports: tuple[dict[str, Any], ...]

    def made(self) -> Book:
        glazes = {id_: glaze(id_, **fields) for id_, fields in self.glazes.items()}

        def layers(spec: dict[str, Any]) -> tuple[Any, ...]:
            return tuple(glazes[id_] for id_ in spec["layers"])

        def others(spec: dict[str, Any], *names: str) -> dict[str, Any]:
            return {name: value for name, value in spec.items() if name not in names}

        return book(
            [entry(glazes[base], glazes[top], coats, why) for base, top, coats, why in self.entries],
            [
                tile(
                    spec["mark"],
                    layers(spec),
                    clay=CLAYS[spec["clay"]],
                    firing=FIRINGS[spec["firing"]],
                    **others(spec, "mark", "layers", "clay", "firing"),
                )
                for spec in self.tiles
            ],
            glazes=glazes.values(),
            forms=FORMS,
            firings=[each for each in FIRINGS.values() if each is not None],
            reports=[
                report(layers(spec), clay=CLAYS[spec["clay"]], **others(spec, "layers", "clay"))
                for spec in self.reports
            ],
            **self.house,
        )

    def with_glaze(self, id_: str, **changed: Any) -> Sketch:
        return replace(self, glazes=self.glazes | {id_: self.glazes[id_] | changed})

    def with_tile(self, number: int, **changed: Any) -> Sketch:
        tiles = list(self.tiles)
        tiles[number] = tiles[number] | changed
        return replace(self, tiles=tuple(tiles))

    def and_tile(self, **spec: Any) -> Sketch:
        return replace(self, tiles=(*self.tiles, spec))

    def with_house(self, **changed: Any) -> Sketch:
        return replace(self, house=self.house | changed)


def often(good: Any, *others: Any) -> st.SearchStrategy[Any]:
    """The good word four times as often as all the others: else hardly a studio would have anything to lose."""
    return st.sampled_from([good] * 4 * len(others) + list(others))


def glaze_fields() -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(
        {
            "food_label": often(FoodLabel.YES, FoodLabel.NO, FoodLabel.CONDITIONAL, FoodLabel.NOT_STATED, NOT_KNOWN),
            "cone": often(cones("5 to 6"), cones("6"), cones("6 to 7"), cones("4 to 5"), cones("06 to 04"), NOT_KNOWN),
            "flow": often(Flow.STABLE, Flow.MOVES, Flow.RUNNY, NOT_KNOWN),
            "coats": often(CoatRange(1, 3), CoatRange(1, 1), CoatRange(2, 3), NOT_KNOWN),
            "goes_on": often(GoesOn.ANYWHERE, GoesOn.RIM_ONLY, NOT_KNOWN),
            "rim_band": st.sampled_from([NOT_KNOWN, Span(mm(10), mm("15.5")), Span(mm(20), mm(40))]),
            "lot": st.sampled_from([NOT_KNOWN, "L2"]),
            "retest_since": often(NOT_KNOWN, dt.date(2026, 6, 1)),
        }
    )


@st.composite
def tile_specs(draw: st.DrawFn, mark: str) -> dict[str, Any]:
    layers = draw(st.sampled_from([("amber", "birch")] * 5 + [("birch", "amber"), ("amber",), ("amber",), ("birch",)]))
    return {
        "mark": mark,
        "layers": layers,
        "coats": tuple(draw(often(1, 2)) for _ in layers),
        "clay": draw(often("bank-white", "river-red", "")),
        "firing": draw(st.sampled_from(["f01", "f01", "f02", "f03", "f05", "f04", ""])),
        "shelf": draw(often(KilnShelf.MIDDLE, KilnShelf.UPPER, KilnShelf.LOWER, NOT_KNOWN)),
        "stood": draw(often(Stood.UPRIGHT, Stood.FLAT, NOT_KNOWN)),
        "ran": draw(often(0, 1, "1.5", 4, 5, "11.3", OFF_THE_TILE, NOT_KNOWN)),
        "faults": draw(often((), (Fault.PINHOLES,), (Fault.CRAWLING, Fault.DRY), NOT_KNOWN)),
        "lots": tuple(draw(often(NOT_KNOWN, "L1", "L2")) for _ in (0, 1)),
    }


@st.composite
def report_specs(draw: st.DrawFn, number: int) -> dict[str, Any]:
    layers = draw(st.sampled_from([("amber", "birch")] * 3 + [("birch", "amber"), ("amber",)]))
    amounts = often("0.02", "<0.02", "0.5", "0.7", "1.1", "2.5", "<3", "0.05 mg/dm2", "4.5", "19")
    return {
        "layers": layers,
        "coats": draw(often(tuple(1 for _ in layers), tuple(2 for _ in layers), NOT_KNOWN)),
        "id_": f"leach-{number}",
        "ware": draw(often(Ware.SMALL_HOLLOWWARE, *Ware)),
        "limits": draw(often(Limits.CANADA, *Limits)),
        "clay": draw(often("bank-white", "river-red", "")),
        "at_cone": draw(often("6", "5 1/2", NOT_KNOWN)),
        "lead": draw(st.one_of(st.just(("0.02",) * 6), st.lists(amounts, max_size=7).map(tuple))),
        "cadmium": draw(st.one_of(st.just(("0.02",) * 6), st.lists(amounts, max_size=7).map(tuple))),
    }


@st.composite
def entries(draw: st.DrawFn) -> tuple[tuple[str, str, Any, Any], ...]:
    found = []
    for base, top in (("amber", "birch"), ("birch", "amber"), ("amber", "cedar")):
        if base == "amber" or draw(st.booleans()):
            coats = draw(often((1, 1), (2, 1), (2, 2), None))
            found.append((base, top, coats, draw(often(None, "smells odd"))))
    return tuple(found)


@st.composite
def sketches(draw: st.DrawFn) -> Sketch:
    house = {
        "food_rule": draw(often(FoodRule.LABELS, *FoodRule)),
        "doubtful": draw(st.sampled_from(list(DoubtfulRule))),
        "usual_coats": draw(st.sampled_from([NOT_KNOWN, Coats(1, 1)])),
        "most_coats": draw(often(3, 2)),
        "run_factor": draw(st.sampled_from([mm(2), mm("1.5")])),
        "foot_margin": draw(st.sampled_from([Span(mm(6), mm(13)), Span(mm("6.35"), mm("12.7"))])),
    }
    return Sketch(
        house=house,
        glazes={name: draw(glaze_fields()) for name in NAMES},
        entries=draw(entries()),
        tiles=tuple(draw(tile_specs(f"T{n}")) for n in range(draw(st.integers(0, 7)))),
        reports=tuple(draw(report_specs(n)) for n in range(draw(st.sampled_from([0, 0, 1, 2])))),
    )
