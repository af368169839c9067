"""Marks for tiles yet to be made: they go on from the highest in the logs, so that none is ever given twice."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from string import ascii_uppercase
from typing import cast

from combobook.book import Book

FIRST = "T101"
"""The first mark of all; no month begins with T."""
_MARK = re.compile(r"([A-Z]{1,4})(-?)(\d{1,5})")
_MOST = 99_999
_MONTHS = ("JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC")


def marks_after(book: Book) -> Iterator[str]:
    """Marks that no log has and no tile had that was withdrawn, without end."""
    return after((*(tile.tile.value for tile in book.tiles), *(gone.tile for gone in book.withdrawn)))


def after(used: Iterable[str]) -> Iterator[str]:
    """Marks beyond the highest of `used`, written like it.

    The highest has as many letters as most marks have (a stray `TEST1` begins no series), then the last letters, then
    the largest number.
    """
    marks = sorted({mark.upper() for mark in used})
    taken = {mark.replace("-", "") for mark in marks}
    found = [match for mark in marks if (match := _MARK.fullmatch(mark))]
    lengths = Counter(len(match[1]) for match in found)
    best = max(found, key=lambda match: (lengths[len(match[1])], match[1], int(match[3])), default=None)
    letters, hyphen, digits = (best or cast(re.Match[str], _MARK.fullmatch(FIRST))).groups()
    number = int(digits) + (best is not None)
    while True:
        if number > _MOST:
            letters, number = next_letters(letters), 1
        mark = f"{letters}{hyphen}{number:0{len(digits)}d}"
        if not letters.startswith(_MONTHS) and mark.replace("-", "") not in taken:
            yield mark
        number += 1


def spoken(mark: str) -> str:
    """A mark as it is said aloud: `B117`, `b-117` and `B0117` are one, and a class writes any of them."""
    match = _MARK.fullmatch(mark.upper())
    return f"{match[1]}{int(match[3])}" if match else mark.upper()


def next_letters(letters: str) -> str:
    """`K` to `L`, `Z` to `AA`; after `ZZZZ` it begins again at `A`, which the caller's `taken` guards."""
    for place in range(len(letters) - 1, -1, -1):
        if letters[place] != "Z":
            step = ascii_uppercase[ascii_uppercase.index(letters[place]) + 1]
            return letters[:place] + step + "A" * (len(letters) - place - 1)
    return "A" * (len(letters) % 4 + 1)
