"""Every length on the wall chart, in mm, from the distance it is read from."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from combobook.render.letters import LEAST_ARCMIN, PREFERRED_ARCMIN, type_size

ARMS_LENGTH = 800.0
"""mm: small print is read from here, brush in hand; a chart read from nearer takes that distance."""
_DRAWN_FOR = 14.0
"""The lengths below are drawn for large letters of this size (2 m) and grow and shrink with them."""
TILE_SHAPE = 52 / 86
"""Width to height of a picture: a tile of 50 × 84 mm with 1 mm about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Type sizes and measures of one chart."""

    large: float
    """Food words, what to do and the key to them: 16 minutes of arc at the chart's distance."""
    name_most: float
    """Names and heads at most: 20 minutes."""
    small: float
    """Coats, counts, reasons: 16 minutes at arm's length."""
    caution: float
    """Cautions and the rest of the key: 20 minutes at arm's length."""

    def of(self, drawn: float) -> float:
        """A length drawn for 2 m, at this chart's distance."""
        return drawn * self.large / _DRAWN_FOR

    @property
    def small_line(self) -> float:
        return 1.18 * self.small

    @property
    def caution_line(self) -> float:
        return 1.2 * self.caution

    @property
    def large_line(self) -> float:
        return 0.94 * self.large

    @property
    def key_line(self) -> float:
        return self.large

    @property
    def todo_line(self) -> float:
        return 0.98 * self.large

    @property
    def frame(self) -> float:
        """Height of the food frame: two lines and its edge."""
        return 2 * self.large_line + self.frame_edges

    @property
    def frame_edges(self) -> float:
        """Rules and air above and below a frame's words."""
        return self.of(2.6)

    @property
    def food_mark(self) -> float:
        return self.of(18)

    @property
    def mark(self) -> float:
        return self.of(11)

    @property
    def mark_room(self) -> float:
        """A movement mark with the space after it."""
        return self.of(14)

    @property
    def gap(self) -> float:
        """Between the parts of a card."""
        return self.of(1.2)

    @property
    def pad(self) -> float:
        """Above a card's first line and below its last."""
        return self.of(1.5)

    @property
    def head_rule(self) -> float:
        """The rule above a group's head."""
        return self.of(1.4)

    @property
    def apart(self) -> float:
        """Between the columns and the rule of the foot."""
        return self.of(1.6)

    @property
    def column_gap(self) -> float:
        return max(4.0, self.of(5))

    @property
    def plain_card(self) -> float:
        """A card whose every text takes one line (the food words two), its name at the least size."""
        lines = 1.0 * self.large + 2 * self.small_line + self.todo_line
        return lines + self.frame + 2 * self.gap + 2 * self.pad

    @property
    def tile_height(self) -> float:
        return self.plain_card - 2 * self.pad

    @property
    def tile_width(self) -> float:
        return self.tile_height * TILE_SHAPE

    @property
    def text_left(self) -> float:
        """Where a card's words begin."""
        return self.tile_width + self.of(3.6)


def sizes_for(read_from: Fraction) -> Sizes:
    """The sizes for a reading distance in mm."""
    distance = float(read_from)
    near = min(distance, ARMS_LENGTH)
    caution = type_size(near, PREFERRED_ARCMIN)
    # Within about a metre the small print would come out larger than the words that decide.
    large = max(type_size(distance, LEAST_ARCMIN), caution)
    return Sizes(
        large=large,
        name_most=max(type_size(distance, PREFERRED_ARCMIN), large),
        small=type_size(near, LEAST_ARCMIN),
        caution=caution,
    )
