"""What a converter gives instead of a value: the problem with a text, still without its place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a text is no value of its kind. `start` and `width` mark the part at fault (width 0: all of it)."""

    code: str
    message: str
    help: str
    start: int = 0
    width: int = 0


Converter = Callable[[str], T | Refusal]
"""Text that is neither blank nor *not known* to a value, or to the reason why not."""

NOT_KNOWN_WORDS = frozenset({"", "?", "not known"})


def is_not_known(text: str) -> bool:
    """True for blank, `?` and `not known`, in any letter case."""
    return text in NOT_KNOWN_WORDS or " ".join(text.casefold().split()) in NOT_KNOWN_WORDS
