"""Did you mean: near misses among the words that would do. Leaf module."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from difflib import get_close_matches


def folded(word: str) -> str:
    """A word as references compare it: letter case, outer space, and how accents are put together aside."""
    return " ".join(unicodedata.normalize("NFC", word).split()).casefold()


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word nearest to a misspelt one, letter case aside, or None where none is near."""
    by_fold = {k.casefold(): k for k in known}
    match = get_close_matches(word.strip().casefold(), by_fold, n=1, cutoff=0.7)
    return by_fold[match[0]] if match else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """`did you mean `x`?`, or empty where nothing is near."""
    found = nearest(word, known)
    return f"did you mean `{found}`?" if found else ""
