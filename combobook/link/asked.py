"""Which two glazes somebody asks about, in the words typed: file names, names or marks, in any letter case."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from combobook.book import Book
from combobook.link.names import Names

_OVER = re.compile(r"\s+over\s+|-over-", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two words for glazes, base first, and the folder named after them (empty: none named)."""

    base: str
    top: str
    folder: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why the words do not name two glazes, and what would."""

    message: str


def pairs_meant(words: Sequence[str]) -> tuple[Pair, ...]:
    """Every way to read `BASE TOP [FOLDER]`, `TOP-over-BASE [FOLDER]` or `TOP over BASE [FOLDER]`, likeliest first.

    Empty where there are too few or too many words, or one that names no pair.
    """
    return tuple(_readings(tuple(words)))


def _readings(words: tuple[str, ...]) -> Iterator[Pair]:
    if len(words) in (3, 4) and words[1].casefold() == "over":
        yield Pair(base=words[2], top=words[0], folder="".join(words[3:]))
    if len(words) in (1, 2):
        for found in _OVER.finditer(words[0]):
            top, base = words[0][: found.start()].strip(), words[0][found.end() :].strip()
            if top and base:
                yield Pair(base=base, top=top, folder="".join(words[1:]))
    if len(words) == 3 or (len(words) == 2 and "-over-" not in words[0].casefold()):
        yield Pair(base=words[0], top=words[1], folder="".join(words[2:]))


def glazes_named(book: Book, pairs: Sequence[Pair]) -> tuple[str, str] | Refusal:
    """The ids (base, top) of the first of these readings of which both words name a glaze, or why there is none."""
    said = {glaze.id: (glaze.name.value, glaze.mark.value) for glaze in book.glazes.values()}
    names = Names("glaze", "glazes", book.glazes.values(), said)
    for pair in pairs:
        base, top = names.ids(pair.base), names.ids(pair.top)
        if len(base) == 1 and len(top) == 1:
            return base[0], top[0]
    refused = [why for word in (pairs[0].base, pairs[0].top) if (why := names.refusal(word))]
    return Refusal(message="; ".join(dict.fromkeys(refused)))
