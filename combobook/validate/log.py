"""A log's header and rows: which column is which, and each row's cells to a typed row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from combobook.entries import LogRow
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawLog, RawText
from combobook.spelling import did_you_mean
from combobook.validate.row import Row

FIRST_ELEVEN = (
    "tile",
    "base",
    "base coats",
    "top",
    "top coats",
    "clay",
    "firing",
    "kiln shelf",
    "stood",
    "ran",
    "faults",
)
RAN = ("ran", "ran mm", "ran in")
OTHERS = ("looks", "photo", "base lot", "top lot")
COLUMNS = (*FIRST_ELEVEN, *RAN[1:], *OTHERS)


def log(raw: RawLog, problems: list[Problem], refused: set[tuple[str, str]]) -> tuple[tuple[LogRow, ...], bool]:
    """The log's rows that could be typed, and whether its columns could be told."""
    columns = _columns(raw, problems)
    if columns is None:
        return (), False
    rows = []
    for line, cells in raw.rows:
        row = Row(raw.path, line, {name: cells[n] for name, n in columns.items()}, decimal_comma=raw.delimiter == ";")
        typed = row.typed()
        problems += row.problems
        refused.update((f"{raw.path}:{line}", name) for name in row.refused)
        if typed is not None:
            rows.append(typed)
    return tuple(rows), True


def column_names(header: Sequence[RawText]) -> tuple[str, ...]:
    """The header's names as the contract writes them: lower case, single spaces."""
    return tuple(" ".join(cell.text.casefold().split()) for cell in header)


def _columns(raw: RawLog, problems: list[Problem]) -> Mapping[str, int] | None:
    """Column name to its number; None, with problems, where a column is missing, unknown or repeated."""
    found: dict[str, int] = {}
    before = len(problems)
    for number, (name, cell) in enumerate(zip(column_names(raw.header), raw.header, strict=True)):
        if not name and not any(row.cells[number].text for row in raw.rows):
            continue
        if name not in COLUMNS:
            what = (
                f"there is no column `{cell.text}`"
                if name
                else "this column has no name, and cells below it are filled"
            )
            problems.append(
                _problem(
                    raw,
                    cell,
                    code="unknown-column",
                    message=what,
                    help=did_you_mean(name, [c for c in COLUMNS if c not in found])
                    or f"delete the column, or use one of: {', '.join(COLUMNS)}",
                )
            )
        elif name in found:
            problems.append(
                _problem(
                    raw,
                    cell,
                    code="repeated-column",
                    message=f"the column `{name}` stands here twice",
                    help="keep one of the two columns",
                )
            )
        else:
            found[name] = number
    unnamed = len(problems) > before
    _ran_columns(raw, found, problems)
    missing = [name for name in FIRST_ELEVEN if name not in found and not (name == "ran" and set(RAN) & found.keys())]
    # A column with a misspelt name is not missing a second time.
    if missing and not (unnamed and len(missing) <= len(problems) - before):
        listed = ", ".join(f"`{name}`" for name in missing)
        message = f"the log lacks the column{'s' if len(missing) > 1 else ''} {listed}"
        problems.append(
            _problem(
                raw,
                raw.header[0],
                code="missing-column",
                message=message,
                help="add it to the header, and leave its cells blank where nobody filled them in; the "
                f"first columns of a log are:\n{raw.delimiter.join(FIRST_ELEVEN)}",
            )
        )
    return found if len(problems) == before else None


def _ran_columns(raw: RawLog, found: Mapping[str, int], problems: list[Problem]) -> None:
    written = [name for name in RAN if name in found]
    if len(written) > 1:
        cell = raw.header[max(found[name] for name in written)]
        problems.append(
            _problem(
                raw,
                cell,
                code="several-ran-columns",
                message=f"a log has one column for runs: this one has {' and '.join(f'`{n}`' for n in written)}",
                help="keep one of them: `ran` with units in its cells, or `ran mm`, or `ran in`",
            )
        )


def _problem(raw: RawLog, cell: RawText, *, code: str, message: str, help: str) -> Problem:
    place = Place(path=raw.path, line=cell.line, column=cell.column)
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=cell.width)
