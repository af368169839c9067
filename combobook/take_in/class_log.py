"""A class's log: row by row into what is new, what the logs know already, and what is doubtful."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from combobook.problems import Place, Problem, Severity
from combobook.raw import RawRow, RawText
from combobook.spelling import did_you_mean
from combobook.take_in.cells import LOG_COLUMNS, cells_of
from combobook.take_in.doubtful import Doubt
from combobook.take_in.matching import Matched
from combobook.take_in.outside import Outside
from combobook.take_in.people import is_formula, of_a_person
from combobook.take_in.settled import Settled
from combobook.take_in.tiles import NewRow, Tiles
from combobook.validate.cells import tile
from combobook.validate.row import Row

_ASKED_IN = ("base", "top", "clay", "firing", "kiln shelf", "stood", "ran", "faults")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sorted:
    """Every row of a log, in one of three heaps. `respelt` are tiles written otherwise than before: (written, read)."""

    new: tuple[NewRow, ...]
    known: int
    doubts: tuple[Doubt, ...]
    warnings: tuple[Problem, ...]
    respelt: tuple[tuple[str, str], ...]
    pictures: Mapping[str, str]
    """Names of pictures that rows give for their tiles and that photos/ does not have, by tile."""


def sorted_rows(
    table: Outside, columns: Matched, settled: Settled, tiles: Tiles, elsewhere: frozenset[str] = frozenset()
) -> Sorted:
    """Sort every row; accepted ones are added to `tiles`. `elsewhere` are names of pictures that are to be copied."""
    run = _Sorting(table, columns, settled, tiles, elsewhere)
    for row in table.rows:
        run.row(row)
    return Sorted(
        new=tuple(run.new),
        known=run.known,
        doubts=(*run.doubts, *(Doubt(row=row, problems=(problem,)) for row, problem in table.broken)),
        warnings=tuple(run.warnings),
        respelt=tuple(dict.fromkeys(run.respelt)),
        pictures=run.pictures,
    )


class _Sorting:
    """Takes the rows one after another: of two that contradict the first stands."""

    def __init__(
        self, table: Outside, columns: Matched, settled: Settled, tiles: Tiles, elsewhere: frozenset[str]
    ) -> None:
        self.table, self.columns, self.settled, self.tiles = table, columns, settled, tiles
        self.elsewhere = elsewhere
        self.new: list[NewRow] = []
        self.known = 0
        self.doubts: list[Doubt] = []
        self.warnings: list[Problem] = []
        self.respelt: list[tuple[str, str]] = []
        self.pictures: dict[str, str] = {}

    def row(self, raw: RawRow) -> None:
        """One row to its heap."""
        kept = [n for n in range(len(raw.cells)) if n not in self.columns.people and n not in self.columns.ours]
        if not any(raw.cells[n].text for n in kept):
            return
        cells = cells_of(raw, self.columns.columns, self.settled, self.table.delimiter == ";")
        written, picture = cells["tile"].text, self._picture(cells)
        cells["tile"] = cells["tile"]._replace(text=self.tiles.spelt(written))
        problems = [*self._personal(cells), *self._withdrawn(cells)]
        self.tiles.fill_keys(cells, "top" in self.columns.columns)
        problems += [*self._unclear_coats(cells), *self._unknown_tile(cells)]
        row = Row(self.table.path, raw.line, cells, decimal_comma=False)
        typed = row.typed()
        code = cells["tile"].text
        lost = bool(code) and not cells["base"].text and not isinstance(tile(code), str)
        told = lost or any(p.code in ("coats-due", "unknown-tile") for p in problems)
        problems += [p for p in row.problems if not (told and p.code == "missing-cell")]
        added = None
        if typed is not None and not any(p.is_error for p in problems):
            added, found = self.tiles.compared(typed, cells["ran"].text)
            problems += found
        if typed is None or any(problem.is_error for problem in problems):
            self.doubts.append(Doubt(row=raw, problems=tuple(p for p in problems if p.is_error)))
            return
        self.warnings += problems
        if typed.tile.value != written:
            self.respelt.append((written, typed.tile.value))
        if picture:
            self.pictures[typed.tile.value] = picture
        if added is None:
            self.known += 1
            return
        self.tiles.add(typed)
        self.new.append(added)

    def _picture(self, cells: dict[str, RawText]) -> str:
        """The name of a picture that is still to be copied: the copy has another name."""
        name = cells["photo"].text
        if name.casefold() not in self.elsewhere:
            return ""
        cells["photo"] = cells["photo"]._replace(text="")
        return name

    def _personal(self, cells: Mapping[str, RawText]) -> list[Problem]:
        found = []
        for name in LOG_COLUMNS:
            cell = cells[name]
            if what := of_a_person(cell.text):
                message = f"`{name}` holds {what}: nothing of a person's is taken in"
                found.append(self._problem(cell, "of-a-person", message, "take it out of the cell"))
            elif is_formula(cell.text):
                message = f"`{cell.text}` is a formula to a spreadsheet"
                found.append(self._problem(cell, "formula", message, "write what it comes to as text"))
        return found

    def _withdrawn(self, cells: Mapping[str, RawText]) -> list[Problem]:
        cell = cells["tile"]
        if not cell.text or not self.tiles.is_withdrawn(cell.text):
            return []
        message = f"tile `{cell.text}` was withdrawn, and is never taken in again"
        return [self._problem(cell, "withdrawn", message, "if this is another tile, give it another mark")]

    def _unclear_coats(self, cells: dict[str, RawText]) -> list[Problem]:
        cell = cells["base coats"]
        if cell.text.endswith(" of both?"):
            shown = cell.text.removesuffix(" of both?")
            cells["base coats"] = cell._replace(text="")
            message = f"`{shown}` coats of which glaze? This row has two"
            fix = "write both, the first glaze's and then the top's: `2 + 1`"
            return [self._problem(cell, "coats-due", message, fix)]
        mark = cells["tile"].text
        if mark and not cell.text and len(counts := self.tiles.coat_counts(mark)) > 1:
            message = f"tile `{mark}` is known with {' and '.join(counts)} coats: which is this row's?"
            return [self._problem(cells["tile"], "coats-due", message, "write the coats into the row")]
        return []

    def _unknown_tile(self, cells: Mapping[str, RawText]) -> list[Problem]:
        """A finding for a tile that nobody wrote down when it was brushed."""
        cell = cells["tile"]
        if cells["base"].text or not isinstance(tile(cell.text), str) or self.tiles.made(cell.text):
            return []
        message = f"this row names no base, and no log has a tile `{cell.text}`"
        fix = did_you_mean(cell.text, self.tiles.marks().values()) or "write its base, top and coats into the row"
        return [self._problem(cell, "unknown-tile", message, fix)]

    def _problem(self, cell: RawText, code: str, message: str, help: str) -> Problem:
        place = Place(path=self.table.path, line=cell.line, column=cell.column)
        return Problem(
            place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=max(1, cell.width)
        )


def misread(doubts: Sequence[Doubt], columns: Matched) -> Mapping[tuple[str, str], int]:
    """Words that name nothing here but are near to something, and in how many rows: ((word, meant), rows)."""
    counted: dict[tuple[str, str], int] = {}
    unknown = {"unknown-glaze", "unknown-clay", "unknown-firing", "not-one-of"}
    for doubt in doubts:
        for problem in (p for p in doubt.problems if p.code in unknown and p.help.startswith("did you mean")):
            for name in _ASKED_IN:
                number = columns.columns.get(name)
                cell = doubt.row.cells[number] if number is not None and number < len(doubt.row.cells) else None
                if cell and (cell.line, cell.column) == (problem.place.line, problem.place.column):
                    key = (cell.text, problem.help.split("`")[1])
                    counted[key] = counted.get(key, 0) + 1
    return counted
