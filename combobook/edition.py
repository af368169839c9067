"""One edition, ready to render. Leaf module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from combobook.book import Book
from combobook.pictures import Picture
from combobook.plans import Plan
from combobook.problems import Problem
from combobook.theme import Theme
from combobook.verdicts import Judged, LayeringVerdict
from combobook.wording import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """What site, sheets and data are made from; `problems` are the warnings that stand."""

    book: Book
    judged: Judged
    pictures: Mapping[str, Picture]
    """By file name in photos/."""
    theme: Theme
    words: Words
    problems: tuple[Problem, ...]
    pairs: Mapping[tuple[str, str], LayeringVerdict] = field(default_factory=dict)
    """Every ordered pair of the book's glazes, tested or not, by (base id, top id); empty where nobody asked."""
    plan: Plan | None = None
    """The tiles to make next."""
    sheets: tuple[str, ...] = ()
    """The sheets made for printing, by their paths under build/."""
