"""Kiln tickets: blank slips that go to the kiln with a piece, so that whoever loads it knows what is on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.sheets.cut import cut_sheets, layout, too_small
from combobook.render.sheets.frame import frame, printed
from combobook.wording import Words

PATH = "print/kiln-tickets.pdf"
_FIELDS = (("code", "day"), ("first", "first_coats"), ("then", "then_coats"), ("inside",), ("form", "clay"))
"""Row by row, by their words' keys; of two, the second is short."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TicketView:
    """What is printed on every slip; the rest is for a pencil."""

    title: str
    told: str
    rows: tuple[tuple[str, ...], ...]
    foot: str
    foot_unit: str
    asked: str
    plate: str
    choices: tuple[str, ...]
    refuse: str


def kiln_tickets(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """A sheet that tells how to fill them in, with the cautions, and one of blank slips, as many as `paper` holds."""
    paper = edition.book.studio.paper.value
    laid = layout(paper)
    if laid is None:
        return {}, (too_small(edition, "kiln-tickets.pdf"),)
    words = edition.words
    sheets = cut_sheets([_ticket(edition)] * (laid.columns * laid.rows), laid)
    return printed(
        edition,
        "print/kiln-tickets.html",
        path=PATH,
        furnished=frame(edition, words("kiln_tickets.title"), paper, across=laid.across, key=("moves",)),
        styles=("print-cards.css", "print-kiln-tickets.css"),
        sheets=sheets,
        laid=laid,
        strips=tuple(words("edition.sheet", n=sheet.number + 1, m=len(sheets) + 1) for sheet in sheets),
        notes=words.lines("kiln_tickets.notes"),
    )


def _ticket(edition: Edition) -> TicketView:
    words: Words = edition.words
    return TicketView(
        title=words("kiln_tickets.one"),
        told=edition.book.studio.edition.value,
        rows=tuple(tuple(words(f"kiln_tickets.fields.{key}") for key in row) for row in _FIELDS),
        foot=words("kiln_tickets.fields.foot"),
        foot_unit=words(f"kiln_tickets.units.{words.units.value}"),
        asked=words("kiln_tickets.fields.asked"),
        plate=words("kiln_tickets.fields.plate"),
        choices=words.lines("kiln_tickets.choices"),
        refuse=words("kiln_tickets.refuse"),
    )
