"""A table from outside, as spreadsheets and forms save it: bytes to text, text to header and rows with their places.

A row keeps its cells as they were written: what is doubtful goes back to the teacher as it came.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from combobook.parse.table import DELIMITERS, log
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawLog, RawRow, RawText
from combobook.read import MOST_BYTES
from combobook.sources import Source

MOST = 4 * MOST_BYTES
"""UTF-16 takes twice the bytes, and what is taken in leaves out what is no column of ours."""
_TITLES = 40
"""Lines above the header that are looked through."""
_MARKS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
# What no text of the studio's folder may hold either.
_NO_TEXT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff]")
_SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")


@dataclass(frozen=True, slots=True, kw_only=True)
class Outside:
    """A table from outside. `broken` rows have more filled cells than the header, each with its problem."""

    path: str
    """As the user named it."""
    lines: tuple[str, ...]
    delimiter: str
    header: tuple[RawText, ...]
    rows: tuple[RawRow, ...]
    broken: tuple[tuple[RawRow, Problem], ...]


def outside(path: Path, shown: str, heading: Callable[[str], bool]) -> Outside | Problem:
    """The table in a file, or why it has none. `heading` tells whether a cell's text could head a column.

    Raises OSError where the file cannot be read.
    """
    text = _text(path, shown)
    if isinstance(text, Problem):
        return text
    lines = text.split("\n")
    start, delimiter = _header(lines, heading)
    # What stands above the header is no table; its lines stay, so that places are those of the file.
    below = "\n".join(["" if n < start else _plain_quotes(line, delimiter) for n, line in enumerate(lines)])
    table, problems = log(Source(path=shown, folder="", stem=path.stem, text=below))
    if table is None:
        return problems[0]
    return _whole(table, tuple(lines), problems)


def _whole(table: RawLog, lines: tuple[str, ...], problems: tuple[Problem, ...]) -> Outside:
    """With rows whose last cells a spreadsheet left off, as blank cells are."""
    columns = len(table.header)
    padded = [_padded(row, columns) for row in table.ragged if len(row.cells) < columns]
    said = {problem.place.line: problem for problem in problems}
    long = [row for row in table.ragged if len(row.cells) > columns]
    by_line = {row.line: said.get(row.line) or _of_row(row, problems) for row in long}
    return Outside(
        path=table.path,
        lines=lines,
        delimiter=table.delimiter,
        header=table.header,
        rows=tuple(sorted((*table.rows, *padded), key=lambda row: row.line)),
        broken=tuple((row, by_line[row.line]) for row in long),
    )


def _padded(row: RawRow, columns: int) -> RawRow:
    last = row.cells[-1]
    blank = RawText("", last.line, last.column, 1)
    return RawRow(row.line, (*row.cells, *[blank] * (columns - len(row.cells))))


def _of_row(row: RawRow, problems: tuple[Problem, ...]) -> Problem:
    """The problem of a row that goes over several lines: at one of its cells' lines."""
    within = {cell.line for cell in row.cells}
    found = next(problem for problem in problems if problem.place.line in within)
    return replace(found, place=replace(found.place, line=row.line, column=1))


def _text(path: Path, shown: str) -> str | Problem:
    with path.open("rb") as file:
        data = file.read(MOST + 1)
    if len(data) > MOST:
        message = f"this file has more than {MOST // 1_000_000} MB, the most that is taken in at once"
        return _problem(shown, 1, "too-large", message, "divide it over several files, and take them in one by one")
    if data.startswith(_SPREADSHEETS):
        message = "this is a spreadsheet's own file, not a table as text"
        return _problem(shown, 1, "not-a-table", message, "open it in the spreadsheet and save it as CSV (UTF-8)")
    text = _decoded(data)
    # Tables joined by hand have a byte-order mark in their middle.
    text = text.replace("\ufeff", "") if text is not None else None
    if text is None or (match := _NO_TEXT.search(text)):
        line = 1 if text is None or match is None else text.count("\n", 0, match.start()) + 1
        message = "this is no text in UTF-8, UTF-16 or Windows-1252"
        return _problem(shown, line, "not-a-table", message, "open it in a spreadsheet and save it as CSV (UTF-8)")
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _decoded(data: bytes) -> str | None:
    """By its byte-order mark; else UTF-8; else UTF-16 where every other byte is nothing; else Windows-1252."""
    marked = next((name for mark, name in _MARKS if data.startswith(mark)), None)
    if marked is None and data and data.count(0) * 3 > len(data):
        marked = "utf-16-le" if data[1::2].count(0) > data[::2].count(0) else "utf-16-be"
    for name in (marked,) if marked else ("utf-8", "cp1252"):
        try:
            return data.decode(name)
        except UnicodeDecodeError:
            continue
    return None


def _header(lines: list[str], heading: Callable[[str], bool]) -> tuple[int, str]:
    """Which line (from 0) names the columns, and by what it is cut: where most cells are headings that are known."""
    best, found = 0, (0, ",")
    filled = [n for n, line in enumerate(lines) if line.strip(" \t,;")]
    for number in filled[:_TITLES]:
        for delimiter in DELIMITERS:
            known = sum(heading(cell.strip().strip("“”")) for cell in _record(lines, number, delimiter))
            if known > best:
                best, found = known, (number, delimiter)
    return found if best else (filled[0] if filled else 0, ",")


def _record(lines: list[str], number: int, delimiter: str) -> list[str]:
    """The cells that begin with a line: a heading may hold a line break, within quotes."""
    ahead = (f"{line}\n" for line in lines[number : number + _TITLES])
    try:
        return next(csv.reader(ahead, delimiter=delimiter), [])
    except csv.Error:  # Text without end is no heading.
        return []


def _plain_quotes(line: str, delimiter: str) -> str:
    """Curly quotes around a whole cell are quotes of the table; within a text they are the text's."""
    if not any(mark in line for mark in "“”„"):
        return line
    cut = re.escape(delimiter)
    return re.sub(rf'(^|(?<={cut}))(\s*)[“„”]([^“”„"]*)[”“](\s*)(?=$|{cut})', r'\1\2"\3"\4', line)


def _problem(path: str, line: int, code: str, message: str, help: str) -> Problem:
    return Problem(
        place=Place(path=path, line=line), severity=Severity.ERROR, code=code, message=message, help=help
    )
