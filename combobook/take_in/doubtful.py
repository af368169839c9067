"""Rows that cannot be taken in as they are: each with its cells as they came, its reasons, and its row in the file."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from combobook import records
from combobook.parse.table import DELIMITERS
from combobook.problems import Problem
from combobook.raw import RawRow
from combobook.take_in.matching import Matched
from combobook.take_in.outside import Outside

_TABLES = (".csv", ".tsv", ".txt")


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A row, and why it was not taken in."""

    row: RawRow
    problems: tuple[Problem, ...]

    @property
    def reason(self) -> str:
        """All reasons in one cell, each with what to do."""
        return " | ".join(
            f"{p.message}{f' ({p.help.splitlines()[0]})' if p.help else ''}" for p in self.problems
        )


def doubtful_table(table: Outside, columns: Matched, doubts: Sequence[Doubt]) -> bytes:
    """A table of the doubtful rows as they came, with `reason` and `row` after them; UTF-8 with byte-order mark.

    Columns for people are left out: what was refused is not written again.
    """
    keep = [n for n in range(len(table.header)) if n not in columns.people and n not in columns.ours]
    more = max((len(d.row.cells) for d in doubts), default=0) - len(table.header)
    out = io.StringIO()
    writer = csv.writer(out, delimiter=table.delimiter, lineterminator="\r\n")
    writer.writerow([*(table.header[n].text for n in keep), *[""] * max(0, more), "reason", "row"])
    for doubt in doubts:
        cells = [cell.text for cell in doubt.row.cells]
        beyond = cells[len(table.header) :]
        beyond += [""] * (max(0, more) - len(beyond))
        writer.writerow([*(cells[n] for n in keep), *beyond, doubt.reason, doubt.row.line])
    return out.getvalue().encode("utf-8-sig")


def beside(path: Path, suffix: str, data: bytes, *, same: str = "") -> tuple[Path, bool]:
    """Write a file beside `path`, named after it, never over another: `class-doubtful.csv`, `class-doubtful-2.csv` …

    Where one of these says the same already it stays, and nothing is written (False). `same` names a column that may
    differ. Raises OSError.
    """
    stem, number = path.stem if path.suffix.lower() in _TABLES else path.name, 1
    name, ending = suffix.rsplit(".", 1)
    # What is left of a mended doubtful file is the next of its kind.
    stem = re.sub(rf"-{name}(?:-\d+)?$", "", stem)
    while True:
        to = path.parent / f"{stem}-{name}{'' if number == 1 else f'-{number}'}.{ending}"
        try:
            records.write_new(to, data)
        except FileExistsError:
            if _essence(to.read_bytes(), same) == _essence(data, same):
                return to, False
            number += 1
        else:
            return to, True


def _essence(data: bytes, without: str) -> object:
    """What a table says without one column: a reason may name another place the second time."""
    if not without:
        return data
    text = data.decode("utf-8-sig", errors="replace")
    for delimiter in DELIMITERS:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
        if rows and without in rows[0]:
            at = rows[0].index(without)
            return [[cell for n, cell in enumerate(row) if n != at] for row in rows]
    return data


def in_file_order(doubts: Iterable[Doubt]) -> tuple[Doubt, ...]:
    """By row."""
    return tuple(sorted(doubts, key=lambda doubt: doubt.row.line))
