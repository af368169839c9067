"""One table of words for site, sheets and data, and the few sentences that need grammar. Leaf module.

Words come from themes/<theme>/words/<language>.yaml; a key is a dotted path. Facts fill `{fields}`: one whose name
ends in `_mm` is printed as a length with its unit, in mm and inches; `_up` and `_down` before it (`margin_up_mm`,
`to_down_mm`) say which way the inches may be rounded.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor

from combobook.colours import Shade, TileColour, in_words
from combobook.entries import Units, Unknown
from combobook.measures import MM_PER_INCH, Coats
from combobook.pictures import Picture
from combobook.verdicts import (
    Evidence,
    EvidenceLevel,
    FoodLevel,
    FoodVerdict,
    MoveClass,
    MovementVerdict,
    NoBand,
    Reason,
    ToDo,
)

_SIXTEENTH = MM_PER_INCH / 16
_HALF_MM = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Words:
    """The table of words, and which unit the studio prints first."""

    table: Mapping[str, object]
    units: Units
    _found: dict[str, object] = field(default_factory=dict, repr=False, compare=False)
    """What was asked for before: a page asks for hundreds of words, all of them for the same."""

    def __call__(self, key: str, /, **facts: object) -> str:
        """The words at a dotted key, filled in. Raises KeyError for a key the theme does not have."""
        text = self._found.get(key) or self._find(key)
        if not isinstance(text, str):
            raise KeyError(f"words: {key} is not one text")
        if not facts:
            return text
        return text.format_map({n: v if type(v) is str else self.fact(n, v) for n, v in facts.items()})

    def lines(self, key: str) -> tuple[str, ...]:
        """The lines at a dotted key (a list in the words file)."""
        found = self._find(key)
        if not isinstance(found, list):
            raise KeyError(f"words: {key} is not a list")
        return tuple(str(line) for line in found)

    def has(self, key: str) -> bool:
        try:
            self._find(key)
        except KeyError:
            return False
        return True

    def _find(self, key: str) -> object:
        """Raises KeyError for a key the theme does not have."""
        if key not in self._found:
            self._found[key] = self._looked_up(key)
        return self._found[key]

    def _looked_up(self, key: str) -> object:
        found: object = self.table
        for part in key.split("."):
            if not isinstance(found, Mapping) or part not in found:
                raise KeyError(f"words: no {key}")
            found = found[part]
        return found

    def fact(self, name: str, value: object) -> str:
        """One fact as it is printed."""
        if name.endswith("_mm") and isinstance(value, int | Fraction):
            return self.length(value, "up" if "_up" in name else "down" if "_down" in name else "near")
        if isinstance(value, Fraction):
            return number(value)
        if isinstance(value, Enum):
            return str(value.value)
        if isinstance(value, dt.date):
            return self.date(value)
        if isinstance(value, tuple | list):
            return self.listed([self.fact("", item) for item in value])
        return str(value)

    def length(self, mm: int | Fraction, rounding: str = "near") -> str:
        """`13 mm (1/2 in)`, the studio's unit first. `rounding` of the inches: `up`, `down` or `near`, to 1/16 in."""
        metric, inches = f"{tenths(mm)} mm", f"{inch_fraction(mm, rounding)} in"
        return f"{metric} ({inches})" if self.units is Units.MM else f"{inches} ({metric})"

    def short_length(self, mm: int | Fraction, rounding: str = "near") -> str:
        """In the studio's unit only: where both do not fit (the sheet's key says how they compare)."""
        return f"{number(mm)} mm" if self.units is Units.MM else f"{inch_fraction(mm, rounding)} in"

    def date(self, day: dt.date | Unknown) -> str:
        """`12 October 2026`; not known is said so."""
        if isinstance(day, Unknown):
            return self("not_known")
        return self("date").format(day=day.day, month=self.lines("months")[day.month - 1], year=day.year)

    def listed(self, items: Sequence[str]) -> str:
        """`a, b and c`."""
        if len(items) < 2:
            return "".join(items)
        return f"{', '.join(items[:-1])} {self('and')} {items[-1]}"

    def counted(self, key: str, count: int) -> str:
        """`1 tile`, `3 tiles`: the words at `counts.<key>.one` or `.many`."""
        return self(f"counts.{key}.{'one' if count == 1 else 'many'}", n=count)


@lru_cache(maxsize=4096)
def number(value: int | Fraction) -> str:
    """Whole numbers without a point, others with as few decimals as say them to a thousandth."""
    return str(int(value)) if value == int(value) else f"{float(value):.3f}".rstrip("0").rstrip(".")


@lru_cache(maxsize=4096)
def tenths(mm: int | Fraction) -> str:
    """A length in mm to a tenth; to a thousandth where a tenth would move it across 1 or 5 mm, which divide classes."""
    rounded = Fraction(round(mm * 10), 10)
    crosses = any((mm <= end) != (rounded <= end) or (mm < end) != (rounded < end) for end in (1, 5))
    return number(mm if crosses else rounded)


@lru_cache(maxsize=4096)
def inch_fraction(mm: int | Fraction, rounding: str = "near") -> str:
    """Inches to 1/16, as `1 1/2`.

    `up` gives the least sixteenth that is at most half a millimetre short, `down` the largest that is at most half a
    millimetre over, so that a margin read in inches is never kinder than the one in mm by more than that.
    """
    length = Fraction(mm)
    if rounding == "up":
        sixteenths = max(0, ceil((length - _HALF_MM) / _SIXTEENTH))
    elif rounding == "down":
        sixteenths = max(0, floor((length + _HALF_MM) / _SIXTEENTH))
    else:  # Halves go up, as everywhere in a workshop: 5/32 in that ran are 3/16.
        sixteenths = floor(length / _SIXTEENTH + Fraction(1, 2))
    whole, rest = divmod(sixteenths, 16)
    part = Fraction(rest, 16)
    if rest == 0:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def sentence(reason: Reason, words: Words) -> str:
    """A reason as a sentence a student understands: `reasons.<wording>` filled with its facts."""
    return words(f"reasons.{reason.wording}", **dict(reason.facts))


def no_band_sentence(no_band: NoBand, words: Words) -> str:
    """Why a form has no useful place, as a sentence: `bands.<wording>` filled with its facts."""
    return words(f"bands.{no_band.wording}", **dict(no_band.facts))


FOOD_KEYS = {
    FoodLevel.KEEP_OFF: "keep_off",
    FoodLevel.NOT_KNOWN: "not_known",
    FoodLevel.LABELS_ALLOW: "labels_allow",
    FoodLevel.LAB_REPORT: "lab_report",
}
MOVE_KEYS = {MoveClass.STABLE: "stable", MoveClass.MOVES: "moves", MoveClass.RUNNY: "runny"}
EVIDENCE_KEYS = {
    EvidenceLevel.UNTESTED: "untested",
    EvidenceLevel.OLD: "old",
    EvidenceLevel.DISAGREES: "disagrees",
    EvidenceLevel.SEEN_ONCE: "seen_once",
    EvidenceLevel.REPEATED: "repeated",
    EvidenceLevel.STEADY: "steady",
}


def food_key(food: FoodVerdict, house_never: bool) -> str:
    """The key of a verdict's words: the level's, or `never` where the house rule is that nothing is for food."""
    return "never" if house_never else FOOD_KEYS[food.level]


def food_lines(food: FoodVerdict, house_never: bool, words: Words, one_glaze: bool = False) -> tuple[str, ...]:
    """At most two lines for charts and cards."""
    key = food_key(food, house_never)
    one = f"food.{key}.card_one"
    return words.lines(one if one_glaze and words.has(one) else f"food.{key}.card")


def food_in_full(food: FoodVerdict, house_never: bool, words: Words, one_glaze: bool = False) -> str:
    """The verdict in full, for pages and keys; a lab report names its limits and ware."""
    key = food_key(food, house_never)
    if key == "lab_report" and food.lab is not None:
        return words("food.lab_report.full", limits=food.lab.limits.value, ware=food.lab.ware.value)
    one = f"food.{key}.full_one"
    return words(one if one_glaze and words.has(one) else f"food.{key}.full")


def to_do_words(movement: MovementVerdict, words: Words) -> str:
    """The one instruction about running: `Leave 13 mm`, `Top third`, `Top 25 mm`, `Not on walls`."""
    if movement.to_do is ToDo.LEAVE and movement.to_do_mm is not None:
        return words("to_do.leave", length=words.short_length(movement.to_do_mm, "up"))
    if movement.to_do is ToDo.TOP_BAND and movement.to_do_mm is not None:
        return words("to_do.top_band", length=words.short_length(movement.to_do_mm, "down"))
    return words("to_do.top_third" if movement.to_do is ToDo.TOP_THIRD else "to_do.not_on_walls")


def coats_words(base: str, top: str, coats: Coats | None, words: Words) -> str:
    """`2 coats Ferry Rust, then 1 Pond Lantern`; without coats `Ferry Rust first, then Pond Lantern`."""
    if coats is None:
        return words("coats.not_said", base=base, top=top)
    return words("coats.layering", first=words.counted("coats", coats.base), base=base, n=coats.top, top=top)


def order_words(base: str, top: str, words: Words) -> str:
    """`Ferry Rust first, then Pond Lantern`."""
    return words("coats.not_said", base=base, top=top)


def evidence_words(evidence: Evidence, words: Words) -> str:
    """`steady: 3 tiles, 3 firings`; untested says only that."""
    level = level_words(evidence, words)
    if evidence.level is EvidenceLevel.UNTESTED:
        return level
    tiles, firings = words.counted("tiles", evidence.tiles), words.counted("firings", evidence.firings)
    return words("evidence.counts", level=level, tiles=tiles, firings=firings)


def colour_words(colour: TileColour, words: Words) -> str:
    """`deep blue-green, breaks amber`: a tile's colours, for alternative texts and for reading without colour."""
    said = in_words(colour)
    if said.breaking is None:
        return shade_words(said.main, words)
    return words("colours.breaks", main=shade_words(said.main, words), breaking=shade_words(said.breaking, words))


def picture_note(picture: Picture, words: Words) -> str:
    """What must be said beside a picture: that it is a drawing, or whose light a photograph's colours were seen in."""
    if picture.drawing:
        return words("picture.drawing")
    fair = picture.colour is not None and picture.colour.balanced
    return words("picture.balanced" if fair else "picture.as_photographed")


def shade_words(shade: Shade, words: Words) -> str:
    """`deep blue-green`: one colour."""
    return words(f"colours.depths.{shade.depth}", name=words(f"colours.names.{shade.name}"))


def level_words(evidence: Evidence, words: Words) -> str:
    """The level by itself; of several tiles that each were seen once, that."""
    each = evidence.level is EvidenceLevel.SEEN_ONCE and evidence.tiles > 1
    return words("evidence.seen_once.short_each" if each else f"evidence.{EVIDENCE_KEYS[evidence.level]}.short")


def upper_first(text: str) -> str:
    """The same words at the head of a line."""
    return text[:1].upper() + text[1:]
