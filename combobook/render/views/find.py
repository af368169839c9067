"""Find a layering: the choices that can be made, and a plain list by first glaze for where no script runs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from combobook.colours import FAMILIES
from combobook.entries import Glaze
from combobook.render.cards import off_words
from combobook.render.search_data import EVIDENCE, FOOD_KEYS, TO_DO_KEYS, glazes_by_name
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Way, sign, upper_first

MOST = 24
"""Results shown at once, and more at each asking."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One choice of a list: its value in the address, its words and, where it has one, its mark."""

    value: str
    words: str
    mark: Markup | str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionGroup:
    """Glazes on the shelf, or off it."""

    title: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question with a few answers, each with its mark."""

    name: str
    title: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstGlaze:
    """A glaze that goes on first, for the plain list."""

    mark: str
    way: Way
    count: str


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    view: dict[str, object] = {
        "glazes": glaze_options(desk),
        "clays": tuple(Option(value=clay.id, words=clay.name.value) for clay in desk.book.clays.values()),
        "questions": (_food(desk), _running(desk), _trust(desk)),
        "families": tuple(Option(value=key, words=desk.words(f"colours.families.{key}")) for key in FAMILIES),
        "one": desk.words.counted("layerings", 1),
        "many": desk.words("counts.layerings.many", n="{n}"),
        "piece": desk.words("food.piece"),
        "most": MOST,
        "plain": tuple(_first(desk, glaze) for glaze in glazes_by_name(desk) if glaze.id in desk.on),
    }
    yield Page(path="find.html", template="find.html", title=desk.text("find.title"), view=view, nav="find")


def glaze_options(desk: Desk) -> tuple[OptionGroup, ...]:
    """Every glaze by name, those on the shelf first."""
    off = {glaze.id: bool(off_words(glaze, desk.words)) for glaze in glazes_by_name(desk)}
    groups = ((desk.text("find.on_shelf"), False), (desk.text("find.off_shelf"), True))
    found = (
        OptionGroup(title=title, options=tuple(_glaze(g) for g in glazes_by_name(desk) if off[g.id] is gone))
        for title, gone in groups
    )
    return tuple(group for group in found if group.options)


def _glaze(glaze: Glaze) -> Option:
    return Option(value=glaze.id, words=glaze.name.value)


def _food(desk: Desk) -> Question:
    words, keys = desk.words, [key for key in FOOD_KEYS if (key == "never") is desk.never]
    options = tuple(
        Option(value=key, words=" ".join(words.lines(f"food.{key}.card")), mark=sign(words(f"food.{key}.mark")))
        for key in keys
    )
    return Question(name="food", title=desk.text("index.key.food"), options=options)


def _running(desk: Desk) -> Question:
    options = (Option(value=key, words=desk.text(f"find.to_do.{key}")) for key in TO_DO_KEYS.values())
    return Question(name="running", title=desk.text("index.key.movement"), options=tuple(options))


def _trust(desk: Desk) -> Question:
    options = (
        Option(value=key, words=upper_first(desk.words(f"evidence.{key}.short")), mark=sign(key.replace("_", "-")))
        for key in EVIDENCE
    )
    return Question(name="trust", title=desk.text("index.key.evidence"), options=tuple(options))


def _first(desk: Desk, glaze: Glaze) -> FirstGlaze:
    return FirstGlaze(
        mark=glaze.mark.value,
        way=Way(href=f"layerings.html#then-{glaze.id}", words=desk.words("coats.first", base=glaze.name.value)),
        count=desk.words.counted("layerings", len(desk.on[glaze.id])),
    )
