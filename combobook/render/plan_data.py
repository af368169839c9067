"""The plan as tables: log rows filled in but for the kiln's part, and what to pour and order."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence

from combobook.edition import Edition
from combobook.entries import Unknown, Written
from combobook.plans import PlannedTile, Pour
from combobook.problems import Problem
from combobook.wording import number

ROWS, ORDER = "data/planned-rows.csv", "data/order-list.csv"
LOG_COLUMNS = (
    "tile", "base", "base coats", "top", "top coats", "clay", "firing", "kiln shelf", "stood", "ran", "faults", "looks",
    "photo", "base lot", "top lot",
)  # fmt: skip
"""A log's columns, as the entry format names them."""
ORDER_COLUMNS = (
    "glaze", "mark", "tiles", "coats", "tables", "covers m2 per litre", "covers assumed", "needed ml", "pour ml",
    "left after ml", "jars to order",
)  # fmt: skip


def plan_data(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """Both tables, UTF-8 with byte-order mark, CRLF; nothing where no plan was made.

    The rows name no firing, kiln shelf, run or fault: whoever makes the tiles corrects what was brushed otherwise, and
    the kiln tells the rest. They are a log that `take-in` reads.
    """
    if edition.plan is None:
        return {}, ()
    return {
        ROWS: _table(LOG_COLUMNS, map(_row, edition.plan.tiles)),
        ORDER: _table(ORDER_COLUMNS, map(_order, edition.plan.pours)),
    }, ()


def _row(tile: PlannedTile) -> Sequence[str]:
    made = tile.candidate
    cells = {
        "tile": tile.mark,
        "base": made.base.id,
        "base coats": str(made.coats.base),
        "top": made.top.id,
        "top coats": str(made.coats.top),
        "clay": made.clay.id if made.clay else "",
        "stood": "upright",
        "base lot": _written(made.base.lot),
        "top lot": _written(made.top.lot),
    }
    return [cells.get(name, "") for name in LOG_COLUMNS]


def _written(lot: Written[str | Unknown]) -> str:
    return lot.value if isinstance(lot.value, str) else ""


def _order(pour: Pour) -> Sequence[str]:
    return [
        pour.glaze.id,
        pour.glaze.mark.value,
        str(pour.tiles),
        str(pour.coats),
        " ".join(str(table) for table in pour.tables),
        number(pour.covers),
        "yes" if pour.covers_assumed else "no",
        number(pour.needed * 1000),
        number(pour.poured * 1000),
        "" if pour.left_after is None else number(pour.left_after * 1000),
        "" if pour.jars_to_buy is None else str(pour.jars_to_buy),
    ]


def _table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return out.getvalue().encode("utf-8-sig")
