"""How many students, and how many at a table: what a plan is made for."""

from __future__ import annotations

import re

from combobook.validate.refusal import Refusal

MOST = 500


def count(text: str) -> int | Refusal:
    """A whole number from 1 to 500."""
    if re.fullmatch(r"[1-9]\d{0,2}", text) and int(text) <= MOST:
        return int(text)
    return Refusal(
        code="bad-count",
        message=f"expected a whole number from 1 to {MOST}, got `{text}`",
        help="write how many there are, in digits: `28`",
    )
