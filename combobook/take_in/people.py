"""Names, addresses and telephone numbers of people: none of them is taken into a studio's folder."""

from __future__ import annotations

import re

_MAIL = re.compile(r"[\w.+'-]+@[\w-]+(?:\.[\w-]+)+")
_TELEPHONE = re.compile(
    r"(?<![\w.,/-])(?:\+\d[\d\s().-]{6,}\d|\(?\d{3}\)?[\s.-]\d{3}[\s.-]\d{4}"
    r"|0\d{2,4}[\s/-]\d{3,4}[\s-]?\d{3,4})(?![\w,/-])"
)
_FORMULA = re.compile(r"[=@]|[+-](?=[A-Za-z(])")


def of_a_person(text: str) -> str | None:
    """What of a person's a text holds (`an e-mail address`, `a telephone number`), None where nothing is seen.

    Names in running text cannot be told from other words: columns that are named for people are left out as a whole.
    """
    if "@" in text and _MAIL.search(text):
        return "an e-mail address"
    return "a telephone number" if _TELEPHONE.search(text) else None


def is_formula(text: str) -> bool:
    """True of what a spreadsheet would run instead of showing."""
    return bool(_FORMULA.match(text))
