"""What the kiln's firing before says about one without a witness cone: that its thermometer had read wrong."""

from __future__ import annotations

import datetime as dt

from combobook.entries import Unknown
from combobook.render.views.desk import Desk
from combobook.verdicts import FiringVerdict


def kiln_read(desk: Desk, verdict: FiringVerdict) -> str:
    """A sentence where nobody read a cone and the same kiln's last firing with one had a peak that fits no cone.

    Empty where either firing has no date or the kiln is not known: then nobody can say which came before.
    """
    before = None if verdict.shelves else _before(desk, verdict)
    if before is None or before.peak_fits or before.peak_off_c is None:
        return ""
    side = "hotter" if before.peak_off_c > 0 else "cooler"
    return desk.text(
        "firings.kiln_read",
        kiln=before.firing.kiln.value,
        firing=before.firing.id,
        apart=round(abs(before.peak_off_c)),
        side=desk.text(f"firings.kiln_sides.{side}"),
    )


def _before(desk: Desk, verdict: FiringVerdict) -> FiringVerdict | None:
    """The same kiln's last firing before this one that has a witness cone."""
    kiln, day = verdict.firing.kiln.value, verdict.firing.date.value
    if isinstance(kiln, Unknown) or isinstance(day, Unknown):
        return None
    dated: list[tuple[dt.date, str, FiringVerdict]] = []
    for each in desk.edition.judged.firings.values():
        other, when = each.firing.kiln.value, each.firing.date.value
        same = not isinstance(other, Unknown) and other.casefold() == kiln.casefold()
        if same and not isinstance(when, Unknown) and when < day and each.shelves:
            dated.append((when, each.firing.id, each))
    return max(dated, key=lambda told: told[:2])[2] if dated else None
