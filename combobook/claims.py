"""Claims of food safety in a text, and whether a caution turns them round. Leaf module.

What counts as a claim, and that "not", "never" or "no" before it in the same sentence makes it a caution, is the
studio's contract (rules of the book, opening section): nobody here can promise that a surface may touch food.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

_GAP = r"[\s*_\-‐‑‒–]*"
_CLAIM = re.compile(
    rf"\b(?:food{_GAP}safe|dinnerware{_GAP}safe|safe[\s*_-]+for[\s*_-]+food|safe[\s*_-]+to[\s*_-]+(?:drink|eat)[\s*_-]+from"
    rf"|lead{_GAP}free|non{_GAP}toxic)\b",
    re.IGNORECASE,
)
_HINT = re.compile(r"safe|free|toxic", re.IGNORECASE)
_CAUTION = re.compile(r"\b(?:not|never|no|cannot|isn['’]t|aren['’]t)\b", re.IGNORECASE)
_SENTENCE_ENDS = re.compile(r"[.!?](?=[\"'”’)*_]{0,4}(?:\s|$))|\n[ \t]*(?=\n|[-*+#>|]|\d+[.)])")


class Claim(NamedTuple):
    """The words of a claim, and where in the text they start."""

    words: str
    start: int


def claims(text: str) -> tuple[Claim, ...]:
    """Every claim in the text that no caution turns round, in order; empty for most texts, and quickly."""
    if not _HINT.search(text):
        return ()
    sentences = _sentences(text)
    _, end, caution = next(sentences)
    found = []
    for match in _CLAIM.finditer(text):
        while match.start() >= end:
            _, end, caution = next(sentences)
        if caution is None or caution > match.start():
            found.append(Claim(match[0], match.start()))
    return tuple(found)


def _sentences(text: str) -> Iterator[tuple[int, int, int | None]]:
    """Begin and end of each sentence, and where its first word of caution stands (None where it has none)."""
    begin = 0
    for end in (*(match.end() for match in _SENTENCE_ENDS.finditer(text)), len(text) + 1):
        caution = _CAUTION.search(text, begin, end)
        yield begin, end, caution.start() if caution else None
        begin = end
