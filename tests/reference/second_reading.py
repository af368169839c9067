"""A second reading of rules.md, written apart from combobook/judge: plain, slow, by the paragraph.

It takes a linked book and gives for every combination what data/book.json promises. Two readings that agree over
thousands of generated studios are worth more than one with tests written by its author. It shares the entry types,
the table of cones and the figures of the lab limits with the program, and nothing of the judge.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from math import ceil, floor
from pathlib import Path
from typing import Any

from combobook.book import Book, LabReport, TestTile
from combobook.cones import Cone
from combobook.entries import (
    NOT_KNOWN,
    OFF_THE_TILE,
    DoubtfulRule,
    Flow,
    FoodLabel,
    FoodRule,
    Glaze,
    GoesOn,
    Inside,
    Limits,
    Stood,
    Ware,
)

LEVELS = ["keep off", "not known", "labels allow", "lab report"]
CLASSES = ["stable", "moves", "runny"]
_FIGURES = Path(__file__).parents[1] / "published" / "leach_limits.csv"
LIMITS = list(csv.DictReader(_FIGURES.read_text(encoding="utf-8").splitlines()))


def tile_cone(tile: TestTile) -> Cone:
    firing = tile.firing
    readings = {shelf: written.value for shelf, written in firing.witness}
    if tile.kiln_shelf.value in readings:
        return readings[tile.kiln_shelf.value]
    if readings:
        target = firing.cone.value
        return min(readings.values(), key=lambda c: (-abs(c.halves - target.halves), c.halves))
    return firing.cone.value


def in_label_or_half_hotter(cone: Cone, glaze: Glaze) -> bool:
    label = glaze.cone.value
    return label is not NOT_KNOWN and label.low.halves <= cone.halves <= label.high.halves + 1


def run_class(ran: Any) -> int:
    if ran is OFF_THE_TILE:
        return 2
    return 0 if ran <= 1 else 1 if ran < 5 else 2


class Reading:
    def __init__(self, book: Book) -> None:
        self.book = book
        self.s = book.studio

    def tiles(self, layers: list[Glaze]) -> list[TestTile]:
        ids = [g.id for g in layers]
        return [
            t
            for t in self.book.tiles
            if [t.base.id] + ([t.top.id] if t.top is not None else []) == ids
        ]

    # -- section 1, food -----------------------------------------------------------------------------------------
    def food_of_surface(self, layers: list[Glaze], coats: tuple[int, ...] | None, entry: Any) -> tuple[int, set[str]]:
        """(level, codes that apply) of the layers at these coats; coats None: F6 is not asked, F7 and F8 apply."""
        found: list[tuple[int, str]] = []
        studio_cone = self.s.cone.value
        for g in layers:
            if g.food_label.value is FoodLabel.NO:
                found.append((0, "F1"))
            if g.food_label.value in (FoodLabel.CONDITIONAL, FoodLabel.NOT_STATED, NOT_KNOWN):
                found.append((1, "F5"))
            if g.cone.value is NOT_KNOWN or not g.cone.value.low.halves <= studio_cone.halves <= g.cone.value.high.halves:
                found.append((1, "F7"))
        here = [t for t in self.tiles(layers) if coats is not None and t.coats == coats]
        fault_tiles = {t.tile.value for t in here if t.faults.value not in (NOT_KNOWN, ())}
        looked = {t.tile.value for t in here if t.fired and t.faults.value is not NOT_KNOWN} | fault_tiles
        if fault_tiles:
            found.append((0 if Fraction(len(fault_tiles), len(looked)) >= Fraction(1, 5) else 1, "F2"))
        if entry is not None and entry.keep_off_food.value is not None:
            found.append((0, "F4"))
        for report in self.book.reports:
            if [g.id for g in report.layers] == [g.id for g in layers] and judge_report(report)[0] == "exceeds":
                found.append((0, "F3"))
        if coats is not None:
            for g, n in zip(layers, coats, strict=True):
                label = g.coats.value
                if label is NOT_KNOWN or n > label.high or (len(layers) == 1 and n < label.low):
                    found.append((1, "F6"))
            if sum(coats) > self.s.most_coats.value:
                found.append((1, "F6"))
        if len(layers) == 2:
            fit = [t for t in here if t.fired and all(in_label_or_half_hotter(tile_cone(t), g) for g in layers)]
            if not fit:
                found.append((1, "F7"))
            if not any(t.faults.value is not NOT_KNOWN for t in fit):
                found.append((1, "F8"))
        if found:
            return min(level for level, _ in found), {code for _, code in found}
        assert coats is not None
        reports = [
            r
            for r in self.book.reports
            if [g.id for g in r.layers] == [g.id for g in layers]
            and r.coats == coats
            and r.cone == studio_cone
            and r.clay is not None
            and judge_report(r)[0] == "within"
        ]
        clays = {t.clay.id if t.clay is not None else "" for t in here if t.fired}
        if reports and clays <= {r.clay.id for r in reports if r.clay is not None}:
            return 3, {"F9"}
        return 2, {"label"}

    def food(self, base: Glaze, top: Glaze, entry: Any, coats: tuple[int, ...] | None) -> tuple[int, set[str]]:
        layers = [base, top]
        if coats is not None:
            return self.food_of_surface(layers, coats, entry)
        named = {
            t.coats for t in self.tiles(layers) if t.fired or t.faults.value not in (NOT_KNOWN, ())
        }
        if not named:
            return self.food_of_surface(layers, None, entry)
        all_of_them = [self.food_of_surface(layers, c, entry) for c in named]
        worst = min(level for level, _ in all_of_them)
        return worst, set().union(*(codes for level, codes in all_of_them if level == worst))

    def food_ware(self, level: int, layering: bool) -> bool:
        rule = self.s.food_rule.value
        if rule is FoodRule.NEVER:
            return False
        if rule is FoodRule.LAB_REPORTS_ONLY:
            return level == 3
        if rule is FoodRule.LABELS:
            return level >= 2
        return level == 3 if layering else level >= 2

    # -- section 2, movement -------------------------------------------------------------------------------------
    def measures(self, tile: TestTile, coats: tuple[int, ...] | None) -> bool:
        return (
            tile.fired
            and tile.stood.value is Stood.UPRIGHT
            and tile.ran.value is not NOT_KNOWN
            and tile_cone(tile).halves >= self.s.cone.value.halves - 1
            and (coats is None or all(a >= b for a, b in zip(tile.coats, coats, strict=True)))
        )

    def class_of_glaze(self, glaze: Glaze) -> int:
        alone = self.tiles([glaze])
        runs = [run_class(t.ran.value) for t in alone if t.upright and t.ran.value is not NOT_KNOWN]
        flow = glaze.flow.value
        if flow is NOT_KNOWN:
            return max(runs) if any(self.measures(t, None) for t in alone) else 2
        own = {Flow.STABLE: 0, Flow.MOVES: 1, Flow.RUNNY: 2}[flow]
        return max([own, *runs])

    def movement(self, base: Glaze, top: Glaze, coats: tuple[int, ...] | None) -> dict[str, Any]:
        tiles = self.tiles([base, top])
        untested = not any(self.measures(t, coats) for t in tiles)
        cls = max(self.class_of_glaze(base), self.class_of_glaze(top))
        if untested:
            cls = min(2, cls + 1)
        written = [t.ran.value for t in tiles if t.upright and t.ran.value is not NOT_KNOWN]
        cls = max([cls, *(run_class(r) for r in written)])
        lengths = [r for r in written if r is not OFF_THE_TILE]
        worst = max(lengths) if lengths else None
        off = OFF_THE_TILE in written
        times = self.s.run_factor.value * (worst or 0)
        margin = ceil(max(times, self.s.foot_margin.value.high))
        reaches = []
        if top.goes_on.value in (GoesOn.RIM_ONLY, NOT_KNOWN):
            band = top.rim_band.value
            reaches.append(self.s.rim_band.value.high if band is NOT_KNOWN else band.high)
        if cls == 2 and not self.steady_upright(tiles, coats):
            reaches.append(self.s.rim_band.value.high)
        reach = floor(min(reaches)) if reaches else None
        return {
            "class": CLASSES[cls],
            "worst_run_mm": None if worst is None else plain(worst),
            "off_the_tile": off,
            "margin_mm": margin,
            "reach_mm": reach,
            "catch_plate": cls == 2 or untested or times > 10,
            "untested": untested,
        }

    def steady_upright(self, tiles: list[TestTile], coats: tuple[int, ...] | None) -> bool:
        if coats is None:
            return False
        chosen = [t for t in tiles if t.coats == coats and self.measures(t, coats)]
        return self.level(chosen) == "steady"

    # -- section 3, places ---------------------------------------------------------------------------------------
    def places(self, base: Glaze, top: Glaze, food_ware: bool, m: dict[str, Any]) -> list[dict[str, Any]]:
        out = []
        no_cone = (
            base.cone.value is not NOT_KNOWN
            and top.cone.value is not NOT_KNOWN
            and (base.cone.value.high < top.cone.value.low or top.cone.value.high < base.cone.value.low)
        )
        p7 = base.goes_on.value in (GoesOn.RIM_ONLY, NOT_KNOWN) or no_cone
        for form in self.book.forms.values():
            holds = form.holds_food.value is not False
            doubtful = holds and not food_ware
            inside: bool | None = None if form.inside.value is Inside.NONE else (not doubtful) and not p7
            none = (
                (doubtful and self.s.doubtful.value is DoubtfulRule.NEVER)
                or m["off_the_tile"]
                or p7
                or form.inside.value is Inside.OPEN
                or form.height.value is NOT_KNOWN
            )
            start = end = None
            if not none:
                h = form.height.value
                start = ceil(self.s.lip.value) if doubtful else 0
                ends = [h - m["margin_mm"]]
                if m["reach_mm"] is not None:
                    ends.append(Fraction(m["reach_mm"]))
                if m["untested"]:
                    ends.append(h / 3)
                end = floor(min(ends))
                none = end - start < 10
            out.append(
                {
                    "form": form.id,
                    "inside": inside,
                    "from_rim_mm": None if none else start,
                    "to_rim_mm": None if none else end,
                    "none": bool(none),
                }
            )
        return out

    # -- section 4, evidence -------------------------------------------------------------------------------------
    def old(self, t: TestTile) -> bool:
        for glaze, lot in ((t.base, t.base_lot), (t.top, t.top_lot)):
            if glaze is None:
                continue
            if lot.value is not NOT_KNOWN and glaze.lot.value is not NOT_KNOWN and lot.value != glaze.lot.value:
                return True
            since = glaze.retest_since.value
            if since is not NOT_KNOWN and (t.firing.date.value is NOT_KNOWN or t.firing.date.value < since):
                return True
        return False

    def current(self, t: TestTile) -> bool:
        if self.old(t):
            return False
        for glaze, lot in ((t.base, t.base_lot), (t.top, t.top_lot)):
            if glaze is not None and lot.value is not NOT_KNOWN and lot.value != glaze.lot.value:
                return False
        return True

    def level(self, tiles: list[TestTile]) -> str:
        fired = [t for t in tiles if t.fired]
        if not fired:
            return "untested"
        if all(self.old(t) for t in fired):
            return "old"
        groups: dict[Any, list[TestTile]] = {}
        for t in fired:
            if t.clay is not None:
                groups.setdefault((t.coats, t.clay.id), []).append(t)
        for rows in groups.values():
            looked = [t for t in rows if t.faults.value is not NOT_KNOWN]
            if len(looked) < 2:
                continue
            classes = {run_class(t.ran.value) for t in rows if t.upright and t.ran.value is not NOT_KNOWN}
            faulty = [t for t in looked if t.faults.value]
            if {0, 2} <= classes or Fraction(1, 3) <= Fraction(len(faulty), len(looked)) <= Fraction(2, 3):
                return "disagrees"
        for rows in groups.values():
            good = [t for t in rows if t.faults.value is not NOT_KNOWN and self.current(t)]
            if len({t.tile.value for t in good}) >= 3 and len({t.firing.id for t in good}) >= 3:
                return "steady"
        for rows in groups.values():
            if len({t.tile.value for t in rows if t.faults.value is not NOT_KNOWN}) >= 2:
                return "repeated"
        return "seen once"

    # -- all of it -----------------------------------------------------------------------------------------------
    def combination(self, entry: Any) -> dict[str, Any]:
        base, top = entry.base, entry.top
        given = entry.coats.value if entry.coats.value is not NOT_KNOWN else self.s.usual_coats.value
        coats = None if given is NOT_KNOWN else (given.base, given.top)
        level, codes = self.food(base, top, entry, coats)
        ware = self.food_ware(level, layering=True)
        m = self.movement(base, top, coats)
        tiles = [t for t in self.tiles([base, top]) if t.fired]
        return {
            "id": f"{top.id}-over-{base.id}",
            "coats": None if coats is None else list(coats),
            "food": {"level": LEVELS[level], "food_ware": ware, "codes": sorted(codes)},
            "movement": {k: v for k, v in m.items() if k != "untested"},
            "evidence": {
                "tiles": len({t.tile.value for t in tiles}),
                "firings": len({t.firing.id for t in tiles}),
                "level": self.level(tiles),
            },
            "places": self.places(base, top, ware, m),
        }

    def all(self) -> list[dict[str, Any]]:
        return [self.combination(c) for c in sorted(self.book.combinations.values(), key=lambda c: c.id)]


def plain(n: Fraction) -> int | float:
    return int(n) if n.denominator == 1 else float(n)


# -- lab reports ---------------------------------------------------------------------------------------------------
def limit_rows(limits: Limits, ware: Ware, metal: str) -> list[dict[str, str]]:
    """The rows that could be meant: one, none, or two hollowware rows of which the stricter counts."""
    regime = {Limits.FDA: "US FDA", Limits.CANADA: "Canada", Limits.EU: "EU", Limits.ISO: "ISO"}[limits]
    rows = [r for r in LIMITS if r["regime"] == regime and r["metal"] == metal]
    if limits is Limits.ISO:
        rows = [r for r in rows if r["document"] == "ISO 6486-2:1999"]
    if limits is Limits.EU:
        number = {Ware.FLATWARE: "1", Ware.COOKING_WARE: "3", Ware.STORAGE_WARE: "3"}.get(ware, "2")
        return [r for r in rows if r["category"].startswith(f"Category {number}")]
    start = {
        Ware.FLATWARE: "flatware",
        Ware.SMALL_HOLLOWWARE: "small hollowware",
        Ware.LARGE_HOLLOWWARE: "large hollowware",
        Ware.CUP_OR_MUG: "cups and mugs",
        Ware.PITCHER: "pitchers",
        Ware.COOKING_WARE: "cooking ware",
        Ware.STORAGE_WARE: "storage hollowware",
    }[ware]
    own = [r for r in rows if r["category"].startswith(start)]
    if own or ware not in (Ware.CUP_OR_MUG, Ware.PITCHER):
        return own
    hollow = [r for r in rows if r["category"].startswith(("small hollowware", "large hollowware"))]
    return [min(hollow, key=lambda r: Fraction(r["limit"]))] if hollow else []


def judge_metal(report: LabReport, metal: str, readings: tuple[Any, ...]) -> tuple[str, bool]:
    """(`within`, `exceeds`, `open`; does the limit come from memory) for one metal."""
    rows = limit_rows(report.limits.value, report.ware.value, metal)
    if not rows or not readings:
        return "open", False
    row = rows[0]
    limit, memory = Fraction(row["limit"]), row["status"] == "from memory"
    unit = row["unit"].replace("ug/mL", "mg/L")
    if any(r.unit != unit for r in readings):
        return "open", memory
    if any(r.below and r.amount > limit for r in readings):
        certain = [r for r in readings if not (r.below and r.amount > limit)]  # Every other `<x` counts as x.
        return certain_excess(report, certain, len(readings), limit), memory
    amounts = [r.amount for r in readings]
    over = [a for a in amounts if a > limit]
    fda, flat = report.limits.value is Limits.FDA, report.ware.value is Ware.FLATWARE
    if fda and flat:
        return flat_six(readings, limit), memory
    if report.limits.value is Limits.ISO and flat:
        return ("within" if sum(amounts) <= limit * len(amounts) else "exceeds"), memory
    if report.limits.value is Limits.EU and len(over) == 1 and len(amounts) >= 4 and over[0] <= limit * Fraction(3, 2):
        return "within", memory
    if over:
        return "exceeds", memory
    return ("open" if fda and len(amounts) < 6 else "within"), memory


def flat_six(readings: tuple[Any, ...], limit: Fraction) -> str:
    total = sum(r.amount for r in readings)
    if len(readings) < 6:
        return "exceeds" if total > 6 * limit else "open"
    return "within" if total <= limit * len(readings) else "exceeds"


def certain_excess(report: LabReport, certain: list[Any], count: int, limit: Fraction) -> str:
    """With a `<` reading above the limit: still exceeds where the written numbers alone do."""
    if report.ware.value is Ware.FLATWARE and report.limits.value in (Limits.FDA, Limits.ISO):
        n = max(count, 6) if report.limits.value is Limits.FDA else count
        return "exceeds" if sum(r.amount for r in certain) > limit * n else "open"
    # The EU's exception asks that all others are within, which a piece read as less than too much does not show.
    over = [r for r in certain if r.amount > limit]
    return "exceeds" if over else "open"


def judge_report(report: LabReport) -> tuple[str, list[str]]:
    """(`exceeds`, `within`, `open`, exceeding metals)."""
    outcomes = {
        name: judge_metal(report, metal, written.value)
        for name, metal, written in (("lead", "Pb", report.lead), ("cadmium", "Cd", report.cadmium))
    }
    over = [name for name, (outcome, _) in outcomes.items() if outcome == "exceeds"]
    if over:
        return "exceeds", over
    if all(outcome == "within" and not memory for outcome, memory in outcomes.values()):
        return "within", []
    return "open", []
