"""Closed editions to typed ones: every value must be of the kind that `bind` writes."""

from __future__ import annotations

import datetime as dt
import types
from dataclasses import MISSING, fields, is_dataclass
from functools import lru_cache
from typing import Any, get_args, get_origin, get_type_hints

from combobook.past import FORMAT, MEND, PastEdition, Withdrawn
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawEdition, RawLog
from combobook.validate.cells import tile
from combobook.validate.log import column_names
from combobook.validate.refusal import Refusal


class _Wrong(Exception):
    """What stands where something else is due."""


def bound(raw: RawEdition, problems: list[Problem]) -> PastEdition | None:
    """The edition; None, with a problem that names the first value that is not as `bind` writes it."""
    try:
        if not isinstance(raw.value, dict) or raw.value.get("format") != FORMAT:
            raise _Wrong(f"expected `format` {FORMAT}")
        found: PastEdition = _typed(PastEdition, {k: v for k, v in raw.value.items() if k != "format"}, "")
        if found.slug != raw.stem:
            raise _Wrong(f"it is `{found.slug}`, and the file is called {raw.stem}.json")
    except _Wrong as wrong:
        problems.append(
            Problem(
                place=Place(path=raw.path, line=1),
                severity=Severity.ERROR,
                code="damaged-edition",
                message=f"this closed edition cannot be read: {wrong}",
                help=MEND,
            )
        )
        return None
    return found


def withdrawn(raw: RawLog, problems: list[Problem]) -> tuple[Withdrawn, ...]:
    """The tiles of editions/withdrawn.csv, in its order; what is no tile's mark is a problem."""
    columns = column_names(raw.header)
    if "tile" not in columns:
        problems.append(_problem(raw, 1, 1, "there is no column `tile`", 1))
        return ()
    number = columns.index("tile")
    found = []
    for row in raw.rows:
        cell = row.cells[number]
        read = tile(cell.text)
        if isinstance(read, Refusal):
            problems.append(_problem(raw, cell.line, cell.column, read.message, cell.width))
        else:
            found.append(Withdrawn(tile=read, place=Place(path=raw.path, line=cell.line, column=cell.column)))
    return tuple(found)


def _problem(raw: RawLog, line: int, column: int, message: str, width: int) -> Problem:
    return Problem(
        place=Place(path=raw.path, line=line, column=column),
        severity=Severity.ERROR,
        code="damaged-withdrawn",
        message=f"the list of withdrawn tiles cannot be read: {message}",
        help="write one tile's mark in each row under `tile`, as it stands on the tile",
        width=max(width, 1),
    )


def _typed(kind: Any, value: Any, where: str) -> Any:
    """`value` as `kind`, a dataclass of past.py or what one holds. Raises _Wrong, naming where it stands."""
    if is_dataclass(kind) and isinstance(kind, type):
        return _record(kind, value, where)
    origin = get_origin(kind)
    if origin is tuple:
        if not isinstance(value, list):
            raise _Wrong(f"expected a list at `{where}`")
        inner = get_args(kind)[0]
        return tuple(_typed(inner, each, f"{where}[{n}]") for n, each in enumerate(value))
    if origin is types.UnionType:
        return None if value is None else _typed(next(k for k in get_args(kind) if k is not type(None)), value, where)
    if kind is dt.date:
        try:
            return dt.date.fromisoformat(value)
        except (TypeError, ValueError):
            raise _Wrong(f"expected a date at `{where}`") from None
    if kind in (str, int, bool) and type(value) is not kind:
        raise _Wrong(f"expected {_SAID[kind]} at `{where}`")
    return value


_SAID = {str: "a text", int: "a whole number", bool: "true or false"}


@lru_cache(maxsize=16)
def _hints(kind: Any) -> dict[str, Any]:
    """Worked out once: an edition has thousands of records of few kinds."""
    return get_type_hints(kind)


def _record(kind: Any, value: Any, where: str) -> Any:
    hints = _hints(kind)
    names = [each.name for each in fields(kind)]
    due = [each.name for each in fields(kind) if each.default is MISSING]
    if not isinstance(value, dict):
        raise _Wrong(f"expected a record at `{where}`")
    for name in due:
        if name not in value:
            raise _Wrong(f"`{f'{where}.{name}'.lstrip('.')}` is missing")
    if extra := sorted(set(value) - set(names)):
        raise _Wrong(f"nobody knows `{f'{where}.{extra[0]}'.lstrip('.')}`")
    there = [name for name in names if name in value]
    return kind(**{name: _typed(hints[name], value[name], f"{where}.{name}".lstrip(".")) for name in there})
