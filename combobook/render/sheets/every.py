"""Every sheet there is. (Apart from the package itself, so that a sheet elsewhere may use the frame.)"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.contact import contact_sheets
from combobook.render.sheets.plan_sheet import plan_sheet
from combobook.render.sheets.wall_charts import wall_charts

Sheet = Callable[[Edition], tuple[Mapping[str, bytes], Sequence[Problem]]]

SHEETS: tuple[Sheet, ...] = (
    wall_charts,
    contact_sheets,
    plan_sheet,
)  # fmt: skip
"""Every sheet, in the order in which they are made; a stage of the pass each, named for its function."""
OF_A_PLAN: tuple[Sheet, ...] = (plan_sheet,)
"""Those that the command `plan` makes, as they speak of what was asked there."""
