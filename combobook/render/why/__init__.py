"""Why a verdict is what it is: each judgement, its reasons, what each rests on, and the line where that stands.

`why` lays the account out, for a page and for a terminal alike; `as_text` writes it for the terminal. Needs words only:
neither templates nor pictures, so that the command answers at once.
"""

from __future__ import annotations

from combobook.render.why.account import why
from combobook.render.why.text import as_text
from combobook.render.why.view import Asked, Part, Point, Why

__all__ = ["Asked", "Part", "Point", "Why", "as_text", "why"]
