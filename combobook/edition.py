"""One edition, ready to render. Leaf module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from combobook.book import Book
from combobook.pictures import Picture
from combobook.problems import Problem
from combobook.theme import Theme
from combobook.verdicts import Judged
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
