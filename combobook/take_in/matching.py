"""Which column of the outside table is which of ours: as settled, as known, as likely meant; none of people's."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from combobook.problems import Place, Problem, Severity
from combobook.raw import RawText
from combobook.spelling import did_you_mean
from combobook.take_in import headings
from combobook.take_in.outside import Outside
from combobook.take_in.people import of_a_person
from combobook.take_in.settled import GLAZES, LOG, Settled
from combobook.validate.known import KNOWN
from combobook.validate.log import COLUMNS, RAN
from combobook.validate.words import mark

_KEYS = ("tile", "base", "base coats", "top", "top coats", headings.COATS, "name", "mark")
"""What a row is known by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Matched:
    """Columns by our name (`coats` and `ran cm` among them), and what was made of the others."""

    kind: str
    """The section of columns.yaml: LOG or GLAZES."""
    columns: Mapping[str, int]
    people: tuple[int, ...]
    """Columns for people: their cells are written nowhere."""
    ours: tuple[int, ...]
    """`reason` and `row` of a doubtful file of take-in's own."""
    learned: tuple[tuple[str, str], ...]
    """Headings that are no column's own name, with the column: to be kept in columns.yaml."""
    problems: tuple[Problem, ...]

    @property
    def usable(self) -> bool:
        """False where an error keeps every row out."""
        return not any(problem.is_error for problem in self.problems)


def matched(table: Outside, settled: Settled, columns_path: str) -> Matched:
    """Every column of the table, told or named in a problem. `columns_path` is columns.yaml's as people read it."""
    return _Matching(table, settled, columns_path).done()


class _Matching:
    """One look over the headings."""

    def __init__(self, table: Outside, settled: Settled, columns_path: str) -> None:
        self.table, self.settled, self.columns_path = table, settled, columns_path
        self.columns: dict[str, int] = {}
        self.people: list[int] = []
        self.ours: list[int] = []
        self.learned: list[tuple[str, str]] = []
        self.problems: list[Problem] = []
        self.kind = self._kind()

    def done(self) -> Matched:
        headed = [(n, cell) for n, cell in enumerate(self.table.header) if cell.text]
        # What is settled or bears a column's own name comes first: another heading for the same thing stands back.
        headed.sort(key=lambda each: not self._sure(each[1].text))
        rest = sorted(n for n, cell in headed if not self._told(n, cell))
        for number in [n for n in rest if not self._marks(n)]:
            self._untold(number, self.table.header[number])
        self._unnamed()
        self._needed()
        return Matched(
            kind=self.kind,
            columns=self.columns,
            people=tuple(self.people),
            ours=tuple(self.ours),
            learned=tuple(self.learned),
            problems=tuple(self.problems),
        )

    def _kind(self) -> str:
        """A list of glazes has names and marks (or labels) of glazes and no tile; anything else is a log."""
        texts = [cell.text for cell in self.table.header if cell.text]
        as_log = {self._known(LOG, text) for text in texts} - {None}
        as_glazes = {self._known(GLAZES, text) for text in texts} - {None}
        named = [text for text in texts if self._known(GLAZES, text) == "name"]
        layered = as_log & {"top", "firing", "kiln shelf", "stood", "faults", "base coats", "top coats"}
        return GLAZES if len(named) == 1 and len(as_glazes) >= 2 and not layered and not self._tiles() else LOG

    def _tiles(self) -> bool:
        """True where a heading says tile or test, and not only code or mark."""
        return any("tile" in headings.words_of(cell.text) for cell in self.table.header)

    def _known(self, kind: str, text: str) -> str | None:
        own = headings.log_column if kind == LOG else headings.glaze_column
        due: tuple[str, ...] = COLUMNS if kind == LOG else KNOWN["glazes"]
        plain = " ".join(text.casefold().split())
        return self.settled.column(kind, text) or (plain if plain in due else own(text))

    def _sure(self, text: str) -> bool:
        due: tuple[str, ...] = COLUMNS if self.kind == LOG else KNOWN["glazes"]
        return self.settled.column(self.kind, text) is not None or " ".join(text.casefold().split()) in due

    def _told(self, number: int, cell: RawText) -> bool:
        """True where the heading is settled or known."""
        column = self._known(self.kind, cell.text)
        if " ".join(cell.text.casefold().split()) in headings.OURS and column is None:
            self.ours.append(number)
        elif column == headings.PERSON:
            self._refuse(number, cell)
        elif column is None:
            return False
        elif column != headings.LEAVE_OUT:
            self._take(number, cell, self._coats(number) if column == headings.COATS and self.kind == LOG else column)
        return True

    def _coats(self, number: int) -> str:
        """The coats column right of a glaze's is that glaze's, where each glaze has its own."""
        kinds = [self._known(LOG, cell.text) for cell in self.table.header]
        if kinds.count(headings.COATS) < 2:
            rest = {"base coats": "top coats", "top coats": "base coats"}
            return next((due for has, due in rest.items() if has in kinds), headings.COATS)
        left = next((kind for kind in reversed(kinds[:number]) if kind in ("base", "top")), "base")
        return f"{left} coats"

    def _take(self, number: int, cell: RawText, column: str) -> None:
        if column in self.columns or (column in (*RAN, headings.CM) and set(self.columns) & {*RAN, headings.CM}):
            self._twice(cell, column)
            return
        self.columns[column] = number
        repeated = sum(each.text.casefold() == cell.text.casefold() for each in self.table.header) > 1
        if repeated:
            # Of a heading that stands here twice only coats can be told again, by the glaze to their left.
            column = headings.COATS if column.endswith(" coats") else ""
        if column and " ".join(cell.text.casefold().split()) != column:
            self.learned.append((cell.text, column))

    def _twice(self, cell: RawText, column: str) -> None:
        """A second column for one thing: an error where a tile is known by it and nothing says which is meant."""
        alike = (*RAN, headings.CM) if column in (*RAN, headings.CM) else (column,)
        first = self.table.header[next(self.columns[name] for name in alike if name in self.columns)].text
        if column in _KEYS and (self._sure(cell.text) or not self._sure(first)):
            fix = self._line(cell.text, headings.LEAVE_OUT, "name one of the two columns otherwise, or leave it out")
            message = f"`{cell.text}` and `{first}` are both read as `{column}`"
            self._find(cell, "repeated-column", message, fix, Severity.ERROR)
            return
        message = f"`{first}` is read as `{column}`, and the cells of `{cell.text}` stay where they are"
        fix = self._line(cell.text, column, f"if this is the one that is meant, leave `{first}` out and write")
        self._find(cell, "repeated-column", message, fix, Severity.WARNING)

    def _refuse(self, number: int, cell: RawText) -> None:
        self.people.append(number)
        message = f"the column `{cell.text}` is for people: nothing of it is taken in or written anywhere"
        fix = "only a tile's mark tells whose it is: keep the list of who made it out of this folder"
        self._find(cell, "column-of-people", message, fix, Severity.WARNING)

    def _untold(self, number: int, cell: RawText) -> None:
        """A misspelt heading is read as the column it is near to, and said; any other is named and left where it is."""
        near: Callable[[str], str | None]
        near = headings.near_log_column if self.kind == LOG else headings.near_glaze_column
        column = near(cell.text)
        if column is not None and column not in self.columns:
            self._take(number, cell, column)
            fix = self._line(cell.text, headings.LEAVE_OUT, "if it is another, write so")
            self._find(cell, "column-guessed", f"`{cell.text}` is read as `{column}`", fix, Severity.WARNING)
        elif any(of_a_person(row.cells[number].text) for row in self.table.rows):
            self._refuse(number, cell)
        elif any(row.cells[number].text for row in self.table.rows):
            due = COLUMNS if self.kind == LOG else KNOWN["glazes"]
            meant = did_you_mean(cell.text, [name for name in due if name not in self.columns])
            why = meant or "if it is one of ours, write which; else say so once"
            fix = self._line(cell.text, meant.split("`")[1] if meant else headings.LEAVE_OUT, why)
            message = f"`{cell.text}` is no column that is known: its cells stay where they are"
            self._find(cell, "unknown-column", message, fix, Severity.WARNING)

    def _marks(self, number: int) -> bool:
        """True, with the column taken, where a list of glazes has no marks and these cells could only be such."""
        words = [row.cells[number].text for row in self.table.rows if row.cells[number].text]
        if self.kind != GLAZES or "mark" in self.columns or len(words) < 2 or len(set(words)) < len(words):
            return False
        if not all(isinstance(mark(word), str) and not word.isdigit() for word in words):
            return False
        cell = self.table.header[number]
        self._take(number, cell, "mark")
        fix = self._line(cell.text, headings.LEAVE_OUT, "if these are no marks, write so")
        self._find(cell, "column-guessed", f"`{cell.text}` is read as `mark`", fix, Severity.WARNING)
        return True

    def _unnamed(self) -> None:
        for number, cell in enumerate(self.table.header):
            if not cell.text and any(row.cells[number].text for row in self.table.rows):
                message = "this column has no heading: its cells stay where they are"
                self._find(cell, "unknown-column", message, "write a heading above it", Severity.WARNING)

    def _needed(self) -> None:
        """A log without tiles, a list without names: nothing could be told of any row."""
        due = "tile" if self.kind == LOG else "name"
        if due not in self.columns and self.table.header:
            first = next((cell for cell in self.table.header if cell.text), self.table.header[0])
            have = ", ".join(f"`{cell.text}`" for cell in self.table.header if cell.text) or "none"
            fix = f"headings here: {have}. {self._line('the heading', due, 'Say which it is')}"
            self._find(first, "missing-column", f"no column is read as `{due}`", fix, Severity.ERROR)

    def _line(self, heading: str, column: str, why: str) -> str:
        return f"{why}, in {self.columns_path}:\n{self.kind}:\n  \"{heading}\": {column}"

    def _find(self, cell: RawText, code: str, message: str, help: str, severity: Severity) -> None:
        place = Place(path=self.table.path, line=cell.line, column=cell.column)
        self.problems.append(
            Problem(place=place, severity=severity, code=code, message=message, help=help, width=cell.width)
        )
