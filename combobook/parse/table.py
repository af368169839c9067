"""A log's CSV text to rows of cells, each with its line and column.

The standard library's reader forgets columns, so the cells are cut here; RFC 4180 quoting.
"""

from __future__ import annotations

from combobook.parse.too_long import too_long
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawLog, RawRow, RawText
from combobook.sources import LONGEST_LINE, Source

DELIMITERS = (",", ";", "\t")


def log(source: Source) -> tuple[RawLog | None, tuple[Problem, ...]]:
    """The table; None, with a problem, where it has no header or a quote is never closed."""
    lines = source.lines
    if (long := next((n for n, line in enumerate(lines) if len(line) > LONGEST_LINE), None)) is not None:
        return None, (too_long(source.path, long + 1),)
    header_line = next((n for n, line in enumerate(lines) if line.strip(" \t,;")), None)
    if header_line is None:
        return None, (
            _problem(
                source.path,
                1,
                1,
                1,
                code="empty-log",
                message="this log is empty: expected a header",
                help="write the header of a log:\ntile,base,base coats,top,top coats,clay,firing,"
                "kiln shelf,stood,ran,faults",
            ),
        )
    delimiter = max(DELIMITERS, key=lines[header_line].count)
    rows, unclosed = _records(lines, header_line, delimiter)
    if unclosed is not None:
        line, column = unclosed
        return None, (
            _problem(
                source.path,
                line,
                column,
                1,
                code="unclosed-quote",
                message="this quotation mark is never closed",
                help='close the text with a second `"`, or delete this one; a mark inside quotes '
                'is written twice: `""`',
            ),
        )
    header, *rest = rows
    good, ragged, problems = [], [], []
    for row in rest:
        if not any(cell.text for cell in row.cells):
            continue
        if fitted := _fitted(row, len(header.cells)):
            good.append(fitted)
        else:
            ragged.append(row)
            problems.append(_ragged(source.path, row, len(header.cells), delimiter))
    table = RawLog(path=source.path, delimiter=delimiter, header=header.cells, rows=tuple(good), ragged=tuple(ragged))
    return table, tuple(problems)


def _fitted(row: RawRow, columns: int) -> RawRow | None:
    """The row, less blank cells beyond the header; None where it has too few cells or filled ones too many."""
    cells = row.cells
    if len(cells) == columns:
        return row
    if len(cells) < columns or any(cell.text for cell in cells[columns:]):
        return None
    return RawRow(row.line, cells[:columns])


def _ragged(path: str, row: RawRow, columns: int, delimiter: str) -> Problem:
    cells = row.cells
    extra = next((cell for cell in cells[columns:] if cell.text), cells[-1])
    shown = {",": "comma", ";": "semicolon", "\t": "tab"}[delimiter]
    count = f"{len(cells)} cell{'' if len(cells) == 1 else 's'}"
    return _problem(
        path,
        row.line,
        extra.column,
        extra.width,
        code="ragged-row",
        message=f"this row has {count}: the header has {columns}",
        help=f"put text that holds a {shown} in double quotes; leave a cell that nobody filled blank between "
        f"its {shown}s",
    )


def _records(lines: tuple[str, ...], start: int, delimiter: str) -> tuple[list[RawRow], tuple[int, int] | None]:
    """All records from a line on, and the place of a quotation mark that is never closed (or None)."""
    rows: list[RawRow] = []
    number = start
    while number < len(lines):
        line = lines[number]
        if '"' not in line:
            rows.append(RawRow(number + 1, _cut(line, number + 1, delimiter)))
            number += 1
            continue
        cells, following = _cut_quoted(lines, number, delimiter)
        if isinstance(cells, int):
            return rows, (number + 1, cells)
        rows.append(RawRow(number + 1, cells))
        number = following
    return rows, None


def _cut(line: str, number: int, delimiter: str) -> tuple[RawText, ...]:
    cells, offset = [], 0
    for part in line.split(delimiter):
        text = part.strip()
        column = offset + (len(part) - len(part.lstrip()) if text else 0) + 1
        cells.append(RawText(text, number, column, len(text) or 1))
        offset += len(part) + 1
    return tuple(cells)


def _cut_quoted(lines: tuple[str, ...], number: int, delimiter: str) -> tuple[tuple[RawText, ...] | int, int]:
    """The cells of a record with quotes and the line after it; instead of cells the column of an unclosed quote."""
    cells: list[RawText] = []
    first, line, at = number, lines[number], 0
    while True:
        begin = at
        while at < len(line) and line[at] == " ":
            at += 1
        if at < len(line) and line[at] == '"':
            opened_line, opened = number, at
            text, at = "", at + 1
            while True:
                close = line.find('"', at)
                if close < 0:
                    text += line[at:] + "\n"
                    number += 1
                    if number >= len(lines):
                        # Named by the record's first line: that is where the reader of the file looks for it.
                        return (opened + 1 if opened_line == first else 1), number
                    line, at = lines[number], 0
                elif line[close + 1 : close + 2] == '"':
                    text, at = text + line[at : close + 1], close + 2
                else:
                    text, at = text + line[at:close], close + 1
                    break
            end = line.find(delimiter, at)
            end = len(line) if end < 0 else end
            text = " ".join((text + line[at:end]).split())
            width = end - opened if opened_line == number else len(lines[opened_line]) - opened
            cells.append(RawText(text, opened_line + 1, opened + 1, max(1, width)))
        else:
            end = line.find(delimiter, begin)
            end = len(line) if end < 0 else end
            text = line[begin:end].strip()
            cells.append(RawText(text, number + 1, (at if text else begin) + 1, len(text) or 1))
        if end >= len(line):
            return tuple(cells), number + 1
        at = end + 1


def _problem(path: str, line: int, column: int, width: int, *, code: str, message: str, help: str) -> Problem:
    place = Place(path=path, line=line, column=column)
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=width)
