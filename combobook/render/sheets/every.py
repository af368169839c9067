"""Every sheet there is. (Apart from the package itself, so that a sheet elsewhere may use the frame.)"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.book import book
from combobook.render.contact import contact_sheets
from combobook.render.sheets.base_sheets import base_sheets
from combobook.render.sheets.change_sheet import change_sheet
from combobook.render.sheets.glaze_chart import glaze_chart
from combobook.render.sheets.grid_sheet import grid_sheet
from combobook.render.sheets.kiln_tickets import kiln_tickets
from combobook.render.sheets.loading_sheet import loading_sheet
from combobook.render.sheets.log_sheets import log_sheets
from combobook.render.sheets.plan_sheet import plan_sheet
from combobook.render.sheets.shelf_cards import shelf_cards
from combobook.render.sheets.slips import slips
from combobook.render.sheets.substitute import substitute
from combobook.render.sheets.tile_tags import tile_tags
from combobook.render.sheets.wall_charts import wall_charts

Sheet = Callable[[Edition], tuple[Mapping[str, bytes], Sequence[Problem]]]

SHEETS: tuple[Sheet, ...] = (
    wall_charts,
    book,
    base_sheets,
    glaze_chart,
    grid_sheet,
    shelf_cards,
    loading_sheet,
    kiln_tickets,
    contact_sheets,
    plan_sheet,
    log_sheets,
    tile_tags,
    substitute,
    slips,
    change_sheet,
)  # fmt: skip
"""Every sheet, in the order in which they are made; a stage of the pass each, named for its function."""
OF_A_PLAN: tuple[Sheet, ...] = (plan_sheet, log_sheets, tile_tags)
"""Those that the command `plan` makes, as they speak of what was asked there."""
