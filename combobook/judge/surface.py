"""What a food verdict is asked of: ordered layers, coats and the rows that speak of them."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.book import Combination
from combobook.cones import Cone, ConeRange
from combobook.entries import FoodRule, Glaze, Studio
from combobook.judge.rows import Row
from combobook.problems import Place
from combobook.verdicts import FoodLevel, LabFinding


@dataclass(frozen=True, slots=True, kw_only=True)
class Layering:
    """One glaze, or base then top, with what a studio wrote about them. `rows` are all of it, whatever their coats."""

    studio: Studio
    layers: tuple[Glaze, ...]
    entry: Combination | None
    findings: tuple[LabFinding, ...]
    rows: tuple[Row, ...]

    @property
    def alone(self) -> bool:
        return len(self.layers) == 1

    @property
    def coats_place(self) -> Place:
        """Where a reason about coats or about what is absent points: the entry's `coats` line, or `base` without one.

        (An absent `coats` stands at the `base` line.) A pair without an entry has neither: the base's `name` line. One
        glaze alone: its label's `coats`.
        """
        if self.entry is not None:
            return self.entry.coats.at
        return self.layers[0].coats.at if self.alone else self.layers[0].name.at


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A layering at one coat count, over all clays or on one. `coats` None: none is suggested and no tile names any."""

    of: Layering
    coats: tuple[int, ...] | None
    clay: str | None
    rows: tuple[Row, ...]
    """The rows of exactly these coats (and this clay)."""


def at_coats(layering: Layering, coats: tuple[int, ...] | None, clay: str | None = None) -> Surface:
    """The surface with the rows of exactly these coats, on this clay or (None) on all."""
    rows = tuple(row for row in layering.rows if row.coats == coats and clay in (None, row.clay))
    return Surface(of=layering, coats=coats, clay=clay, rows=rows)


def within_labels(cone: Cone, layers: tuple[Glaze, ...]) -> bool:
    """Within every layer's label range or up to half a cone hotter, ends included; False where a range is not known."""
    return all(
        isinstance(glaze.cone.value, ConeRange) and glaze.cone.value.low <= cone <= glaze.cone.value.high.shifted(1)
        for glaze in layers
    )


def food_ware(level: FoodLevel, alone: bool, rule: FoodRule) -> bool:
    """May it go inside, or on the lip, of ware that holds food: the house's `food rule` on a level."""
    if rule is FoodRule.NEVER:
        return False
    if rule is FoodRule.LAB_REPORTS_ONLY or (rule is FoodRule.ONE_GLAZE_ALONE and not alone):
        return level is FoodLevel.LAB_REPORT
    return level >= FoodLevel.LABELS_ALLOW
