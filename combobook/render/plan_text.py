"""The plan as a few lines for a terminal; the sheets have the rest."""

from __future__ import annotations

from combobook.plans import Plan
from combobook.render.sheets.plan_sheet import lead, reckoning
from combobook.wording import Words


def plan_text(plan: Plan, words: Words) -> str:
    """What is planned, tile by tile, and how far the shelf is from enough."""
    lines = [lead(plan, words), ""]
    for tile in plan.tiles:
        made = tile.candidate
        lines.append(
            words(
                "plan.text",
                student=f"{tile.student:>3}",
                mark=f"{tile.mark:<8}",
                order=words("coats.not_said", base=made.base.name.value, top=made.top.name.value),
                why=words(f"plan.why.{made.why.name.lower()}"),
            )
        )
    return "\n".join((*lines, "", *reckoning(plan, words)))
