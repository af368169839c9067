"""What a loader must find on a piece before it goes into the kiln."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.entries import Glaze
from combobook.render.our_kiln import unread
from combobook.render.said import Verdict
from combobook.verdicts import LayeringVerdict, ToDo
from combobook.wording import Words

GROUPS = ("not_on_walls", "catch_plate", "plain")
"""Worst first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asks:
    """What is asked of one glaze or of a pair; pairs that ask for the same stand in one line."""

    group: str
    margin_mm: int
    reach_mm: int | None
    third: bool
    plate: bool

    @property
    def order(self) -> tuple[object, ...]:
        """Within a group the widest bare margin comes first, then what keeps to a band."""
        return (
            GROUPS.index(self.group),
            -self.margin_mm,
            self.reach_mm is None,
            self.reach_mm or 0,
            not self.third,
            not self.plate,
        )


def asks(verdict: Verdict) -> Asks:
    """Of what may go into the studio's kiln."""
    movement = verdict.movement
    if movement.to_do is ToDo.NOT_ON_WALLS:
        # It lies flat, where neither a margin nor a band has anything to be measured on.
        return Asks(group=GROUPS[0], margin_mm=0, reach_mm=None, third=False, plate=movement.catch_plate)
    return Asks(
        group=GROUPS[1] if movement.catch_plate else GROUPS[2],
        margin_mm=movement.margin_mm,
        reach_mm=movement.reach_mm,
        third=movement.untested_upright and isinstance(verdict, LayeringVerdict),
        plate=movement.catch_plate,
    )


def marked(glaze: Glaze, words: Words) -> str:
    """Its mark, with a sign beside it where nobody knows the cone on its label."""
    return words("loading_sheet.unread", mark=glaze.mark.value) if unread(glaze) else glaze.mark.value
