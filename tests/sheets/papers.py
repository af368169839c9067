"""Editions on other papers: the demo's with some of its studio's fields changed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from combobook.edition import Edition
from combobook.measures import Paper
from tests.published_demo import demo_edition

PAPERS = {
    "letter": Paper("letter", Fraction("215.9"), Fraction("279.4")),
    "A4": Paper("A4", Fraction(210), Fraction(297)),
    "tabloid": Paper("tabloid", Fraction("279.4"), Fraction("431.8")),
}
"""Sizes as in tests/published/paper_sizes.csv (ASME Y14.1, ISO 216)."""


def demo_with(edition: Edition | None = None, /, **fields: Any) -> Edition:
    """The demo's edition with these fields of studio.yaml changed to these values."""
    base = edition or demo_edition()
    studio = base.book.studio
    changed = {name: replace(getattr(studio, name), value=value) for name, value in fields.items()}
    return replace(base, book=replace(base.book, studio=replace(studio, **changed)))
