"""How the words of a base sheet's cards fold and how wide they come out: one reading for both forms."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.edition import Edition
from combobook.render.cards import food_classes
from combobook.render.chart.cards import emphasised
from combobook.render.chart.content import ChartCard
from combobook.render.chart.lengths import mm
from combobook.render.chart.views import TileView, aside
from combobook.render.letters import Line, Run, width, wrapped
from combobook.render.sheets.base_sheets.content import BaseCardView, BaseGroup


@dataclass(frozen=True, slots=True, kw_only=True)
class Type:
    """Type sizes of a sheet's cards in mm, and what follows from them."""

    large: float
    """Food words and what to do: 16 minutes of arc."""
    name: float
    """Names: 16 to 20."""
    small: float

    @property
    def small_line(self) -> float:
        return 1.18 * self.small

    @property
    def food_line(self) -> float:
        return 0.96 * self.large

    @property
    def do_line(self) -> float:
        return 1.0 * self.large

    @property
    def name_line(self) -> float:
        return 1.0 * self.name

    @property
    def mark(self) -> float:
        """The food mark, with its air before the words."""
        return 1.35 * self.large

    @property
    def edge(self) -> float:
        """Air about a frame's words."""
        return 0.3 * self.large

    def properties(self) -> dict[str, str]:
        """For the style sheet."""
        lengths = {
            "card-name": self.name, "card-name-line": self.name_line, "card-large": self.large,
            "card-food-line": self.food_line, "card-do-line": self.do_line, "card-small": self.small,
            "card-small-line": self.small_line, "card-mark": self.mark, "card-edge": self.edge,
            "mark-past": 1.1 * self.large, "food-indent": self.mark + self.edge,
            "food-mark": self.mark - self.edge, "do-indent": 1.2 * self.large,
        }  # fmt: skip
        return {name: mm(length) for name, length in lengths.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Folded:
    """A card's words in lines."""

    name: tuple[Line, ...]
    coats: tuple[str, ...]
    food_small: tuple[str, ...]
    other_unit: str
    trust: tuple[str, ...]
    frame: float
    """Height of the food frame."""


def folded(told: ChartCard, type_: Type, *, words: float, frame: float, small: float) -> Folded:
    """Folded to `words` mm for name and instruction, `frame` for the food frame, `small` for small print."""
    line = emphasised(told.card.then, told.card.top)
    name = (line,) if name_width(line, type_) <= words else wrapped(line, type_.name, words)
    food_small = lines(told.reason, type_.small, frame - type_.mark - 2 * type_.edge)
    beside = do_width(told, type_) + width(told.other_unit, type_.small) + type_.edge <= words
    high = len(told.card.food_lines) * type_.food_line + len(food_small) * type_.small_line + 2 * type_.edge
    return Folded(
        name=name,
        coats=tuple(part for text in (told.coats, told.shelf) for part in lines(text, type_.small, small)),
        food_small=food_small,
        other_unit=told.other_unit if beside else "",
        trust=lines(told.trust if beside else told.trust_with_unit, type_.small, small),
        frame=max(high, 2 * type_.food_line + 2 * type_.edge),
    )


def frame_width(groups: tuple[BaseGroup, ...], type_: Type) -> float:
    """The narrowest food frame that holds every card's food words unfolded."""
    said = {line for group in groups for told in group.cards for line in told.card.food_lines}
    return max((width(line, type_.large, True) for line in said), default=0.0) + type_.mark + 3 * type_.edge


def words_width(groups: tuple[BaseGroup, ...], type_: Type) -> float:
    """The least width in which every card's instruction stands beside its marks."""
    return max((do_width(told, type_) for group in groups for told in group.cards), default=0.0)


def do_width(told: ChartCard, type_: Type) -> float:
    """The instruction in one line with its mark, and the marks for rim band and catch plate."""
    asides = int(told.card.rim_band) + int(bool(told.card.catch_plate))
    return 1.2 * type_.large + width(told.card.to_do, type_.large, True) + asides * 1.1 * type_.large


def name_width(line: Line, type_: Type) -> float:
    """Names in bold, the words about them as large as the instruction."""
    return sum(width(run.text, type_.name if run.bold else type_.large, run.bold) for run in line)


def lines(text: str, size: float, room: float) -> tuple[str, ...]:
    """A small text folded; nothing for no text."""
    if not text:
        return ()
    return tuple("".join(run.text for run in line) for line in wrapped((Run(text),), size, room))


def head_lines(first: str, base: str, size: float, room: float) -> tuple[Line, ...]:
    """`Ferry Rust first`, folded where it must be."""
    return wrapped(emphasised(first, base), size, room)


def base_card(
    edition: Edition, told: ChartCard, fold: Folded, *, high: float, tile: TileView | None, place: str, size: str = ""
) -> BaseCardView:
    """A finished card, `high` mm: what it says is the same whether a picture or a place for a tile stands with it."""
    card = told.card
    return BaseCardView(
        style=f"height:{mm(high)}",
        tile=tile,
        place=place,
        place_size=size,
        name=fold.name,
        coats=fold.coats,
        food=food_classes(card.food_key, edition.words),
        food_lines=card.food_lines,
        food_small=fold.food_small,
        movement=f"m-{card.movement_mark}",
        to_do=card.to_do,
        other_unit=fold.other_unit,
        aside=aside(card),
        trust=fold.trust,
    )
