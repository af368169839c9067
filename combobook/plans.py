"""Which tiles to make next: what was asked, the tiles shared out, what they take from the jars. Leaf module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from combobook.book import TestTile
from combobook.entries import Clay, Glaze
from combobook.measures import Coats

FIRST_GLAZES_EACH = 2
"""A student opens at most so many jars for first glazes: fewer brushes to wash, less waiting."""

ENOUGH = 3
"""Tiles of an ordered pair after which there is enough to look at (rules.md, section 4: steady asks for three)."""


class Why(Enum):
    """What makes a tile worth making. The value is its weight in hundredths of a new ordered pair (house)."""

    NEW = 100
    """Nobody has fired this order yet."""
    UPRIGHT = 80
    """Only tiles that lay flat, or did not measure: whether it runs is unknown."""
    DISAGREES = 70
    OLD = 60
    ONCE = 40
    REPEATED = 25


OTHER_ORDER = 10
"""Hundredths more where the other order has a fired tile: both can then hang side by side."""
LOW_JAR = 2
"""A tile counts one half where a jar of it is running low."""
AGAIN = 3
"""Each further tile of a pair in the same plan counts a third of the one before it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Who is going to glaze: whole numbers, all at least 1 (`seed` any)."""

    students: int = 28
    tiles: int = 3
    """For each student."""
    table: int = 4
    """Students at one table."""
    seed: int = 1

    @property
    def in_all(self) -> int:
        return self.students * self.tiles

    @property
    def tables(self) -> int:
        return -(-self.students // self.table)

    def table_of(self, student: int) -> int:
        """Both count from 1."""
        return (student - 1) // self.table + 1


USUAL_CLASS = Asked()
"""Where neither the studio nor the command says who is going to glaze."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """An ordered pair worth another tile, and how that tile would be made. Always upright."""

    base: Glaze
    top: Glaze
    coats: Coats
    clay: Clay | None
    """None where the studio has written no clay that takes the cone."""
    why: Why
    worth: tuple[int, ...]
    """Of the first tile of it in a plan, the second …: hundredths, never rising; as many as may be made."""

    @property
    def pair(self) -> tuple[str, str]:
        return (self.base.id, self.top.id)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedTile:
    """One tile to make: who makes it, and what it adds to the plan's sum (hundredths)."""

    mark: str
    student: int
    table: int
    candidate: Candidate
    worth: int


class Ground(Enum):
    """Why a glaze or a clay is in no plan, or a pair not any more."""

    RETIRED = "retired"
    OUT = "out"
    STATUS = "status"
    NO_CONE = "no cone"
    OTHER_CONE = "other cone"
    RIM_ONLY_FIRST = "rim only first"
    OFF_THE_TILE = "off the tile"
    SETTLED = "settled"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """What one glaze gives to the plan, and what is left for the term. Volumes in litres."""

    glaze: Glaze
    tiles: int
    coats: int
    """Over all tiles, as its first or its second layer."""
    tables: tuple[int, ...]
    """Each gets a cup."""
    covers: Fraction
    """m² a litre covers with one coat."""
    covers_assumed: bool
    needed: Fraction
    """Area × coats ÷ covers, and the share that stays in brush and cup."""
    poured: Fraction
    """At least a cup's worth a table; what is not used goes back."""
    left_after: Fraction | None
    """None where `left` is not written."""
    jars_to_buy: int | None
    """0 where what is left is enough; None where `left` or `jar` is not written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The tiles to make next, by student, and what follows from them."""

    asked: Asked
    tiles: tuple[PlannedTile, ...]
    worth: int
    """The sum that was maximised, in hundredths of a new ordered pair."""
    new_pairs: int
    """Ordered pairs in it that have no fired tile yet."""
    pairs: int
    """Ordered pairs that the shelf allows."""
    missing: int
    """Tiles until each of those has three."""
    left_out: tuple[tuple[Ground, Glaze | Clay], ...]
    pairs_left_out: Mapping[Ground, int]
    pours: tuple[Pour, ...]
    unused: tuple[Glaze, ...]
    """Glazes on the shelf of which no log has a tile."""
    not_fired: tuple[TestTile, ...]
    """Tiles in the logs that wait for a firing: they count as made."""
    jar_limit: int
    """Most tiles that may ask for one jar; half of it where the jar is running low."""

    @property
    def plans_until_enough(self) -> int:
        """How many plans of this size until every pair has three tiles; 0 where they have."""
        return -(-self.missing // self.asked.in_all)

    def of_student(self, student: int) -> tuple[PlannedTile, ...]:
        return tuple(tile for tile in self.tiles if tile.student == student)
