"""Why a layering is judged as it is: the account that the terminal gives too, less what the page shows anyway."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.render.views.desk import Desk
from combobook.render.why import Asked, Part, why
from combobook.verdicts import EvidenceLevel, LayeringVerdict

SHOWN = ("food", "running", "fire", "change", "words")
"""Forms, tiles and those that disagree have sections of their own on the page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AccountView:
    """The account, folded under its title."""

    title: str
    lead: str
    untested: str
    parts: tuple[Part, ...]


def account_view(desk: Desk, verdict: LayeringVerdict) -> AccountView:
    """Food, running, fire and what would change it; and what made the tiles old where they are."""
    old = verdict.evidence.level is EvidenceLevel.OLD
    asked = Asked(book=desk.book, judged=desk.edition.judged, verdict=verdict, reverse=None, words=desk.words)
    told = why(asked, (*SHOWN, "trust") if old else SHOWN)
    return AccountView(
        title=desk.words("why.title.page"),
        lead=desk.words("why.title.lead"),
        untested=told.untested,
        parts=told.parts,
    )
