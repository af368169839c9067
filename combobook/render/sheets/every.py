"""Every sheet there is. (Apart from the package itself, so that a sheet elsewhere may use the frame.)"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.chart import wall_chart
from combobook.render.contact import contact_sheets

Sheet = Callable[[Edition], tuple[Mapping[str, bytes], Sequence[Problem]]]

SHEETS: tuple[Sheet, ...] = (
    wall_chart,
    contact_sheets,
)  # fmt: skip
"""Every sheet, in the order in which they are made; a stage of the pass each, named for its function."""
