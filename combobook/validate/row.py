"""One row of a log to a typed row: what must be filled, and each cell by its converter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from combobook.claims import claims
from combobook.entries import NOT_KNOWN, KilnShelf, LogRow, Stood, Unknown, Written
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawText
from combobook.validate.cells import faults, mangled, ran, reads_as_a_date, tile
from combobook.validate.entry import claim_problem
from combobook.validate.quantities import coats
from combobook.validate.refusal import Converter, Refusal, is_not_known
from combobook.validate.words import choice, photo_name, text

T = TypeVar("T")
_SHELF, _STOOD = choice(KilnShelf), choice(Stood)
# A name in these may be a date by right (a firing by its day, a lot by its month).
FREE = frozenset({"base", "top", "clay", "firing", "looks", "photo", "base lot", "top lot"})


class Row:
    """Reads the cells of one row and gathers what is wrong with them."""

    def __init__(self, path: str, line: int, cells: Mapping[str, RawText], *, decimal_comma: bool) -> None:
        self.path, self.line, self.cells, self.decimal_comma = path, line, cells, decimal_comma
        self.problems: list[Problem] = []
        self.refused: set[str] = set()
        self.place = Place(path=path, line=line)
        self.absent: Written[Unknown] = Written(value=NOT_KNOWN, place=self.place, field_line=line, stated=False)

    def typed(self) -> LogRow | None:
        """The row; None, with problems, where its tile, its layers or their coats cannot be read."""
        self._claims()
        code = self._needed("tile", tile)
        base, base_coats = self._needed("base", text), self._needed("base coats", coats)
        top, top_coats = self._top()
        ran_column = next(name for name in ("ran", "ran mm", "ran in") if name in self.cells)
        rest: dict[str, Any] = {
            "ran": self._cell(ran_column, ran(ran_column, self.decimal_comma)),
            "clay": self._cell("clay", text),
            "firing": self._cell("firing", text),
            "kiln_shelf": self._cell("kiln shelf", _SHELF),
            "stood": self._cell("stood", _STOOD),
            "faults": self._cell("faults", faults),
            "looks": self._cell("looks", text),
            "photo": self._cell("photo", photo_name),
            "base_lot": self._cell("base lot", text),
            "top_lot": self._cell("top lot", text),
        }
        if code and reads_as_a_date(code.value):
            self._warn_of_a_date(code)
        unusable = self.refused & {"top", "top coats"}
        if code is None or base is None or base_coats is None or unusable:
            return None
        return LogRow(
            place=self.place, tile=code, base=base, base_coats=base_coats, top=top, top_coats=top_coats, **rest
        )

    def _top(self) -> tuple[Written[str] | None, Written[int] | None]:
        """The top and its coats; both None where one glaze stands alone."""
        name, number = self.cells["top"], self.cells["top coats"]
        if not name.text:
            if not is_not_known(number.text):
                self.refused.add("top coats")
                self._find(
                    number,
                    code="coats-without-top",
                    message="`top coats` are written, but no `top`",
                    help="write the top's name in this row; for one glaze alone leave both cells blank",
                )
            return None, None
        top = self._needed("top", text)
        top_coats = self._needed("top coats", coats)
        return top, top_coats

    def _needed(self, name: str, convert: Converter[T]) -> Written[T] | None:
        cell = self.cells[name]
        if is_not_known(cell.text):
            self.refused.add(name)
            self._find(
                cell,
                code="missing-cell",
                message=f"`{name}` must be filled in this row",
                help=f"write the {name} as it stands on the tile, or delete the row",
            )
            return None
        found = self._cell(name, convert)
        return None if name in self.refused else found  # type: ignore[return-value]  # it is known

    def _cell(self, name: str, convert: Converter[T]) -> Written[T | Unknown]:
        cell = self.cells.get(name)
        if cell is None or not cell.text:
            return self.absent
        place = Place(path=self.path, line=cell.line, column=cell.column)
        if is_not_known(cell.text):
            return Written(value=NOT_KNOWN, place=place, field_line=self.line)
        value = mangled(cell.text, free=name in FREE) or convert(cell.text)
        if isinstance(value, Refusal):
            self.refused.add(name)
            self._find(
                cell, code=value.code, message=value.message, help=value.help, start=value.start, width=value.width
            )
            return Written(value=NOT_KNOWN, place=place, field_line=self.line)
        return Written(value=value, place=place, field_line=self.line)

    def _claims(self) -> None:
        for name in ("looks", "base lot", "top lot"):
            cell = self.cells.get(name)
            for claim in claims(cell.text) if cell else ():
                assert cell is not None
                place = Place(path=self.path, line=cell.line, column=cell.column + claim.start)
                self.problems.append(claim_problem(claim.words, place, in_text=False))

    def _warn_of_a_date(self, code: Written[str]) -> None:
        fix = "choose letters that begin no month's name, such as `T` or `TT`, and mark the tile anew"
        self.problems.append(
            Problem(
                place=code.place,
                severity=Severity.WARNING,
                code="tile-reads-as-date",
                message=f"a spreadsheet reads the tile code `{code.value}` as a date and changes it",
                help=fix,
                width=len(code.value),
            )
        )

    def _find(self, cell: RawText, *, code: str, message: str, help: str, start: int = 0, width: int = 0) -> None:
        place = Place(path=self.path, line=cell.line, column=cell.column + start)
        self.problems.append(
            Problem(
                place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=width or cell.width
            )
        )
