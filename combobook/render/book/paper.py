"""The book's page: margins, and how large its letters are."""

from __future__ import annotations

from combobook.render.letters import LEAST_ARCMIN, type_size

TOP, BOTTOM, INNER, OUTER = 18.0, 21.0, 18.0, 14.0
"""Margins in mm; the left one is for punching."""
_READ_FROM = 400.0


def letters_size() -> float:
    """Small print at 16 minutes of arc in the hand, and a little more, for there is a lot of it; in mm."""
    return type_size(_READ_FROM, LEAST_ARCMIN) + 0.4
