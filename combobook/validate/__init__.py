"""The validate stage: raw entries to typed ones, each by itself. Looks at no other entry."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, TypeVar

from combobook.claims import claims
from combobook.entries import Entries, LogRow, Studio
from combobook.kept import Kept
from combobook.past import PastEdition
from combobook.problems import Place, Problem
from combobook.raw import RawEdition, RawEntries, RawEntry, RawLog
from combobook.validate.editions import bound, withdrawn
from combobook.validate.entry import Fields, claim_problem
from combobook.validate.known import unknown_fields
from combobook.validate.log import column_names, log
from combobook.validate.shelf import clay, combination, glaze
from combobook.validate.studio import studio
from combobook.validate.ware import firing, form, page, report
from combobook.validate.withheld import Withheld

T = TypeVar("T")
_KEPT: Kept[Any] = Kept()
"""What became of each file, with what was found in it, while it is the same."""


def validate(raw: RawEntries) -> tuple[Entries, tuple[Problem, ...]]:
    """Every entry that could be typed, what had to be withheld, and every problem of every field and cell."""
    run = _Validating()
    the_studio = run.studio(raw.studio) if raw.studio else None
    entries = Entries(
        studio=the_studio,
        glazes=run.all(raw, "glazes", "name", glaze),
        combinations=run.all(raw, "combinations", "base", combination),
        clays=run.all(raw, "clays", "name", clay),
        forms=run.all(raw, "forms", "name", form),
        firings=run.all(raw, "firings", "cone", firing),
        reports=run.all(raw, "lab", "ware", report),
        pages=run.all(raw, "pages", "title", page),
        rows=tuple(row for table in raw.logs for row in run.log(table)),
        editions=run.editions(raw),
        withdrawn=withdrawn(raw.withdrawn, run.problems) if raw.withdrawn else (),
        withheld=run.withheld.words(raw.broken),
        withheld_layerings=run.withheld.layerings(raw.broken),
        refused=frozenset(run.refused),
    )
    return entries, tuple(run.problems)


class _Validating:
    """Types entry after entry, and gathers problems, refused fields and withheld entries."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []
        self.refused: set[tuple[str, str]] = set()
        self.withheld = Withheld()

    def all(
        self, raw: RawEntries, folder: str, stands_at: str, typed: Callable[[RawEntry, Fields], T | None]
    ) -> tuple[T, ...]:
        """All entries of a folder that could be typed."""
        found = (self._one(entry, stands_at, typed) for entry in raw.entries if entry.folder == folder)
        return tuple(entry for entry in found if entry is not None)

    def editions(self, raw: RawEntries) -> tuple[PastEdition, ...]:
        """The closed editions that could be typed, by date."""
        found = [self._bound(each) for each in raw.editions]
        return tuple(sorted((each for each in found if each is not None), key=lambda each: each.order))

    def studio(self, raw: RawEntry) -> Studio | None:
        return self._one(raw, "", studio)

    def log(self, raw: RawLog) -> tuple[LogRow, ...]:
        rows, told, problems, refused = _KEPT(raw.path, (raw,), partial(_rows, raw))
        self.problems += problems
        self.refused.update(refused)
        if not told:
            self.withheld.log(raw)
            return tuple(rows)
        typed = {row.place.line for row in rows}
        columns = column_names(raw.header)
        number = columns.index("tile")
        for row in (*(row for row in raw.rows if row.line not in typed), *raw.ragged):
            self.withheld.row(row, row.cells[number].text if number < len(row.cells) else "")
        return tuple(rows)

    def _bound(self, raw: RawEdition) -> PastEdition | None:
        edition: PastEdition | None
        # Compared as it is written: to Python `1` is equal to `true`.
        edition, problems = _KEPT(raw.path, (raw.stem, repr(raw.value)), partial(_past, raw))
        self.problems += problems
        return edition

    def _one(self, raw: RawEntry, stands_at: str, typed: Callable[[RawEntry, Fields], T | None]) -> T | None:
        entry: T | None
        entry, problems, refused = _KEPT(raw.path, (raw,), partial(_typed, raw, stands_at, typed))
        self.problems += problems
        self.refused.update((raw.path, name) for name in refused)
        if entry is None:
            self.withheld.entry(raw)
        return entry


def _typed(
    raw: RawEntry, stands_at: str, typed: Callable[[RawEntry, Fields], T | None]
) -> tuple[T | None, tuple[Problem, ...], frozenset[str]]:
    """One entry, or None; every problem of its fields and text, and the names of fields that were refused."""
    fields = Fields(raw, stands_at)
    unknown_fields(raw, fields)
    entry = typed(raw, fields)
    return entry, (*_body_claims(raw), *fields.problems), frozenset(fields.refused)


def _rows(raw: RawLog) -> tuple[tuple[LogRow, ...], bool, tuple[Problem, ...], frozenset[tuple[str, str]]]:
    """A log's rows and whether its columns could be told; its problems, and the cells that were refused."""
    problems: list[Problem] = []
    refused: set[tuple[str, str]] = set()
    rows, told = log(raw, problems, refused)
    return rows, told, tuple(problems), frozenset(refused)


def _past(raw: RawEdition) -> tuple[PastEdition | None, tuple[Problem, ...]]:
    """A closed edition, or None, and its problems."""
    problems: list[Problem] = []
    return bound(raw, problems), tuple(problems)


def _body_claims(raw: RawEntry) -> Iterator[Problem]:
    text, line, counted = raw.body.text, raw.body.line, 0
    for claim in claims(text) if text else ():
        line += text.count("\n", counted, claim.start)
        counted = claim.start
        place = Place(path=raw.path, line=line, column=claim.start - text.rfind("\n", 0, claim.start))
        yield claim_problem(claim.words, place, in_text=True)
