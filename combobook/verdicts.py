"""What the judge says: levels, figures and reasons, never words. Leaf module.

A reason names its wording by key and carries the facts; `render.wording` makes the sentence, so that site, sheets
and data say the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import IntEnum
from fractions import Fraction

from combobook.book import Combination, LabReport, TestTile
from combobook.cones import Cone
from combobook.entries import Clay, Firing, Form, Glaze, KilnShelf
from combobook.leach import LeachLimit
from combobook.measures import Coats
from combobook.problems import Place


class FoodLevel(IntEnum):
    """Worst first, so that the weakest link is the minimum."""

    KEEP_OFF = 0
    NOT_KNOWN = 1
    LABELS_ALLOW = 2
    LAB_REPORT = 3


class MoveClass(IntEnum):
    """Calmest first, so that the worst is the maximum."""

    STABLE = 0
    MOVES = 1
    RUNNY = 2


class EvidenceLevel(IntEnum):
    UNTESTED = 0
    OLD = 1
    DISAGREES = 2
    SEEN_ONCE = 3
    REPEATED = 4
    STEADY = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why. `rule` is a code of rules.md (`F1` … `M3`) or `label`; `wording` keys the sentence; `facts` fill it."""

    rule: str
    wording: str
    facts: tuple[tuple[str, object], ...]
    place: Place
    severity: int
    """0 is the worst: reasons are listed worst first, then by rule, then by place."""

    @property
    def sort_key(self) -> tuple[int, str, Place]:
        return (self.severity, self.rule, self.place)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldAgainst:
    """A limit that readings were held against."""

    row: LeachLimit
    another_ware: bool
    """The regime has none for this ware, so the stricter of two others was taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabFinding:
    """A report measured against its limits: `within`, `exceeds` or `cannot be judged`, and why."""

    report: LabReport
    outcome: str
    exceeding: tuple[str, ...]
    """Of `lead`, `cadmium`."""
    unverified: bool
    """A limit from memory decided."""
    wording: str
    facts: tuple[tuple[str, object], ...]
    held_against: tuple[HeldAgainst, ...] = ()
    """The limits for its ware, lead's first."""
    counts: tuple[tuple[str, tuple[tuple[str, object], ...]], ...] = ()
    """What it does to the verdict it stands beside, and why: sentences at `lab.counts.<key>`, with their facts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodVerdict:
    level: FoodLevel
    food_ware: bool
    reasons: tuple[Reason, ...]
    lab: LabReport | None
    """The report that allows `lab report`."""


class ToDo(IntEnum):
    """What to do about running: the one instruction on charts and cards."""

    LEAVE = 0
    TOP_THIRD = 1
    TOP_BAND = 2
    NOT_ON_WALLS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class MovementVerdict:
    cls: MoveClass
    worst_run: Fraction | None
    """In mm."""
    worst_tile: TestTile | None
    off_the_tile: bool
    margin_mm: int
    reach_mm: int | None
    catch_plate: bool
    untested_upright: bool
    upright_tiles: int
    """Tiles on whose upright rows `ran` is written."""
    upright_firings: int
    to_do: ToDo
    to_do_mm: int | None
    """Of LEAVE the margin, of TOP_BAND the reach."""
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    """Tiles of the same coats and clay that say different things; never averaged."""

    coats: tuple[int, ...]
    clay: Clay
    about: str
    """`running` or `faults`."""
    tiles: tuple[TestTile, ...]
    differ: tuple[str, ...] = ()
    """What else tells these tiles apart: fields of `judge.differ.FIELDS`, in its order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrast:
    """Tiles of different coats or clays that came out differently: no disagreement, but something to learn from."""

    about: str
    """`running` or `faults`."""
    tiles: tuple[TestTile, ...]
    differ: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    level: EvidenceLevel
    tiles: int
    firings: int
    looked_over: int
    """Fired tiles looked over."""
    faulty: int
    """Of those, with a fault."""
    disagreements: tuple[Disagreement, ...]
    firings_looked_over: int = 0
    """Firings with a tile looked over: the independent trials."""
    firings_faulty: int = 0
    """Of those, with a fault on one of their tiles."""
    faulty_at_most: float | None = None
    """What that leaves open: the one-sided 95 % upper bound on the share of firings that fail; null without a trial."""
    contrasts: tuple[Contrast, ...] = ()
    """Of what no disagreement speaks of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoBand:
    """Why a form has no useful outside band: `rule` P1 … P8 (or `height` where none is written)."""

    rule: str
    wording: str
    facts: tuple[tuple[str, object], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Where the top may go on one form, in whole mm down from the rim; null ends where `none` speaks."""

    form: Form
    inside: bool | None
    inside_to_mm: int | None
    """A top with a reach goes inside only in the same band."""
    from_mm: int | None
    to_mm: int | None
    none: tuple[NoBand, ...]
    margin_mm: int
    lip_mm: int
    """0 where the lip does not matter."""
    reach_mm: int | None
    third_mm: int | None
    """H/3 where it binds (untested upright), else null."""
    base_to_mm: int | None
    """How far down the base's own band goes, judged as one glaze (null: it has no place there)."""
    base_from_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceVerdict:
    """One coat count on one clay (or over all clays: `clay` None), with its tiles."""

    coats: tuple[int, ...]
    clay: Clay | None
    food: FoodVerdict
    evidence: Evidence
    tiles: tuple[TestTile, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayeringVerdict:
    """Everything judged of base under top, at the studio's cone."""

    id: str
    base: Glaze
    top: Glaze
    entry: Combination | None
    """None: no entry; judged from labels, classes and any tiles."""
    coats: Coats | None
    """The coats judged: suggested, else the house's usual; None where neither is written."""
    food: FoodVerdict
    movement: MovementVerdict
    evidence: Evidence
    bands: tuple[Band, ...]
    """One a form, by the form's file name."""
    surfaces: tuple[SurfaceVerdict, ...]
    """Each coat count that has a tile (and the judged one) on each clay that has a tile, by coats then clay."""
    deciding_clays: tuple[Clay, ...]
    """The clays whose tiles decide a headline worse than the labels' own (may be empty)."""
    tiles: tuple[TestTile, ...]
    findings: tuple[LabFinding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GlazeVerdict:
    """One glaze alone, used as its label says."""

    glaze: Glaze
    food: FoodVerdict
    movement: MovementVerdict
    evidence: Evidence
    bands: tuple[Band, ...]
    surfaces: tuple[SurfaceVerdict, ...]
    tiles: tuple[TestTile, ...]
    findings: tuple[LabFinding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfFire:
    """A kiln shelf of one firing: its witness cone and how far from the target, in half cones (+ is hotter)."""

    shelf: KilnShelf
    witness: Cone
    off_by_halves: int
    fired: str
    """`hot`, `cool` or `as meant`."""
    table_c: Fraction | None = None
    """The witness cone's end point at the firing's rate (°C); null without a rate, or outside the chart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FiringVerdict:
    firing: Firing
    shelves: tuple[ShelfFire, ...]
    table_c: Fraction | None
    """The target cone's end point at the firing's rate (°C); null without a rate, or outside the chart."""
    peak_off_c: Fraction | None
    """Peak minus the nearest witness cone's value; null unless a rate, no hold, and both known."""
    tiles: tuple[TestTile, ...]
    """Its load, worst first."""
    peak_by: ShelfFire | None = None
    """The kiln shelf whose cone is nearest to the peak: what `peak_off_c` is measured against."""
    peak_fits: bool = True
    """False where the peak is further from that cone than a thermometer and a cone may differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TileFire:
    """The cone a tile reached, and how we know: `witness`, `furthest` (no shelf named) or `controller`."""

    cone: Cone
    known_by: str
    fired: str
    """`hot`, `cool` or `as meant`, against the firing's target."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OldBecause:
    """Why a tile no longer speaks of what is in one of its jars: another lot, a firing before the re-test date."""

    glaze: Glaze
    lot: str | None
    """The lot on the tile, where it is not the jar's."""
    before: bool
    """Its firing has no date, or one before the glaze's `retest since`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """All verdicts of a book, ordered by id."""

    glazes: Mapping[str, GlazeVerdict]
    layerings: Mapping[tuple[str, str], LayeringVerdict]
    """By (base id, top id): every entry and its reverse, and every pair that has a tile or a lab report."""
    firings: Mapping[str, FiringVerdict]
    tile_fire: Mapping[Place, TileFire]
    """By a fired tile's `place`."""
    old: Mapping[Place, tuple[OldBecause, ...]] = field(default_factory=dict)
    """By the `place` of each fired tile that is old: one or two of its layers."""
