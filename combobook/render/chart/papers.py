"""The papers an author can name, smallest first: what a chart that does not fit is told to take instead."""

from __future__ import annotations

import csv
from fractions import Fraction
from importlib import resources

from combobook.measures import Paper

_AS_WRITTEN = {"Letter": "letter", "Legal": "legal", "Tabloid": "tabloid"}


def _named() -> tuple[Paper, ...]:
    """From figures/paper_sizes.csv: ISO 216 A4 to A0, letter, legal, tabloid, and the architectural sizes in inches."""
    text = resources.files("combobook").joinpath("figures/paper_sizes.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    papers = [
        Paper(_written(row), Fraction(row["width_mm"]), Fraction(row["height_mm"]))
        for row in rows
        if (row["series"] == "ISO 216" and row["name"] != "A5") or row["series"] in ("US loose", "Architectural")
    ]
    return tuple(sorted(papers, key=lambda p: (p.width * p.height, p.name)))


def _written(row: dict[str, str]) -> str:
    if row["series"] == "Architectural":
        return f"{row['width_in']} x {row['height_in']} in"
    return _AS_WRITTEN.get(row["name"], row["name"])


NAMED_PAPERS: tuple[Paper, ...] = _named()
