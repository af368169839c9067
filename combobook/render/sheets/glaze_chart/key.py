"""What stands under the lines of the glaze chart: the key, as large as the words, and what is said in small print."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.render.cards import is_house_never
from combobook.render.letters import Run, width, wrapped
from combobook.render.our_kiln import MARK, misses, unread
from combobook.render.sheets.frame import Frame
from combobook.render.sheets.shelf import off_the_shelf, on_the_shelf
from combobook.verdicts import GlazeVerdict
from combobook.wording import FOOD_KEYS, MOVE_KEYS, Words

_INDENT = 1.3
"""Before an item's words, for its mark: so many letters."""
_BETWEEN = 6.0
"""mm between two items of a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyItem:
    """Words beside their mark."""

    mark: str
    """Its class; empty where the words of the line before go on, or need none."""
    words: str


def food_keys(edition: Edition, furnished: Frame) -> tuple[tuple[KeyItem, ...], ...]:
    """The food words that stand on the chart with their marks, in full; nothing where one word is all there is to know.

    Lines as large as the words, several items in one where they fit.
    """
    words, large = edition.words, furnished.sizes.large
    if is_house_never(edition):
        said = [(words("food.never.mark"), words("food.never.full"))]
    else:
        said = [(words(f"food.{key}.mark"), _in_full(words, key)) for key in _levels(edition)]
        if len(said) == 1 and said[0][1] == " ".join(words.lines("food.labels_allow.card_one")):
            return ()
    return tuple(_folded(said, large, furnished.width))


def _levels(edition: Edition) -> tuple[str, ...]:
    there = {FOOD_KEYS[verdict.food.level] for verdict in on_the_shelf(edition)}
    return tuple(key for key in FOOD_KEYS.values() if key in there)


def _in_full(words: Words, key: str) -> str:
    if key == "lab_report":
        return words("food.key_lab_report")
    return words(f"food.{key}.full_one" if words.has(f"food.{key}.full_one") else f"food.{key}.full")


def _folded(said: Sequence[tuple[str, str]], large: float, room: float) -> Iterator[tuple[KeyItem, ...]]:
    """Each item whole where it fits into a line, the shortest with each other."""
    line, left = list[KeyItem](), room
    for mark, text in sorted(said, key=lambda each: width(each[1], large)):
        parts = ["".join(run.text for run in part) for part in wrapped((Run(text),), large, room - _INDENT * large)]
        for n, part in enumerate(parts):
            wide = _INDENT * large + width(part, large) + _BETWEEN
            if line and (wide - _BETWEEN > left or n > 0):
                yield tuple(line)
                line, left = [], room
            line.append(KeyItem(mark=f"m-{mark}" if n == 0 else "", words=part))
            left -= wide
    if line:
        yield tuple(line)


def move_keys(edition: Edition) -> tuple[KeyItem, ...]:
    """The marks of running and of the kiln that stand on the chart."""
    words, shelf = edition.words, on_the_shelf(edition)
    fit = [verdict for verdict in shelf if not misses(verdict.glaze, edition.book)]
    there = {verdict.movement.cls for verdict in fit}
    found = [
        KeyItem(mark=f"m-{key}", words=f"{words(f'movement.{key}.word')}: {words(f'movement.{key}.means')}")
        for cls, key in MOVE_KEYS.items()
        if cls in there
    ]
    if any(verdict.movement.catch_plate for verdict in fit):
        found.append(KeyItem(mark="m-catch-plate", words=words("glaze_chart.catch_plate")))
    if len(fit) < len(shelf):
        cone = edition.book.studio.cone.value
        found.append(KeyItem(mark=f"m-{MARK}", words=words("glaze_chart.other_kiln", cone=cone)))
    return tuple(found)


def small_print(edition: Edition, furnished: Frame) -> tuple[str, ...]:
    """Which glazes one must ask about, and which of the book are not on the shelf."""
    words = edition.words
    ask = [verdict for verdict in on_the_shelf(edition) if unread(verdict.glaze)]
    said = [("glaze_chart.ask_first", ask), ("glaze_chart.off", list(off_the_shelf(edition)))]
    texts = (words(key, glazes=_named(some)) for key, some in said if some)
    lines = (line for text in texts for line in wrapped((Run(text),), furnished.sizes.caution, furnished.width))
    return tuple("".join(run.text for run in line) for line in lines)


def _named(verdicts: Sequence[GlazeVerdict]) -> str:
    return ", ".join(f"{each.glaze.mark.value} {each.glaze.name.value}" for each in verdicts)
