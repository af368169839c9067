"""One take-in from its table to its report, step by step; see the package for the order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from combobook import journal, records
from combobook.pipeline import Checked
from combobook.problems import Place, Problem, Severity, in_order
from combobook.read import MOST_BYTES
from combobook.take_in.account import TakenIn
from combobook.take_in.class_log import Sorted, misread, sorted_rows
from combobook.take_in.contact_sheet import contact_sheet
from combobook.take_in.doubtful import Doubt, beside, doubtful_table, in_file_order
from combobook.take_in.headings import is_known
from combobook.take_in.matching import Matched, matched
from combobook.take_in.outside import Outside, outside
from combobook.take_in.photos import Photos, names_in, photos, with_photos
from combobook.take_in.settled import GLAZES, LOG, PATH, settled, with_columns
from combobook.take_in.shelf import NewGlaze, sorted_glazes
from combobook.take_in.tiles import NewRow, Tiles
from combobook.take_in.tried import errors_with
from combobook.take_in.written import entries_due, log_path, log_text

_NOTHING = Sorted(new=(), known=0, doubts=(), warnings=(), respelt=(), pictures={})


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """What the file gave, once the folder was asked about it."""

    rows: tuple[NewRow, ...] = ()
    glazes: tuple[NewGlaze, ...] = ()
    known: int = 0
    doubts: tuple[Doubt, ...] = ()
    sorted: Sorted = _NOTHING


class Run:
    """Reads the file and columns.yaml when it is made; `done` sorts, tries, writes and tells."""

    def __init__(
        self, *, file: Path | None, folder: Path, photos: Path | None, resumed: bool, checked: Checked
    ) -> None:
        self.file, self.folder, self.photos, self.resumed = file, folder, photos, resumed
        self.checked, self.content, self.entries = checked, checked.content, checked.entries
        self.shown = folder.as_posix()
        self.settled, self.settled_problems = settled(_text(folder / PATH), f"{self.shown}/{PATH}")
        self.table: Outside | None = None
        self.columns: Matched | None = None
        self.table_problem: Problem | None = None
        if file is not None:
            found = outside(file, file.as_posix(), self._heads)
            if isinstance(found, Problem):
                self.table_problem = found
            else:
                self.table = found
                self.columns = matched(found, self.settled, f"{self.shown}/{PATH}")

    def stopped(self, problems: Sequence[Problem], why: str, *, inside: bool = False) -> TakenIn:
        """Nothing is written; `inside` problems have their places in the studio's folder."""
        lines: dict[str, Sequence[str]] = {self.table.path: self.table.lines} if self.table else {}
        if inside:
            problems = [self._in_folder(problem) for problem in problems]
            lines = {f"{self.shown}/{source.path}": source.lines for source in self.content.sources}
        lines[f"{self.shown}/{PATH}"] = tuple(self.settled.text.split("\n"))
        return TakenIn(problems=in_order(problems), lines=lines, stopped=why, resumed=self.resumed)

    def done(self) -> TakenIn:
        """Everything, from the rows to the report. Raises OSError where a file cannot be written."""
        book = self.checked.book
        assert book is not None, "a folder without a book was refused before"
        names = names_in(self.photos) if self.photos is not None else ()
        found, tiles = self._found(frozenset(name.casefold() for name in names))
        made = self._pictures(names, tiles, found.sorted.pictures)
        rows = with_photos(found.rows, made.shown, tiles) if made is not None else found.rows
        log = log_path(book.studio.edition.value, self.content) if rows else ""
        entries = entries_due(rows, book, self.entries, self.content)
        texts = {**entries, **{glaze.path: glaze.text for glaze in found.glazes}}
        texts |= {log: log_text(rows)} if log else {}
        copies = made.copies if made is not None else {}
        refused = self._refused(texts, copies)
        if refused:
            return self.stopped(refused, "nothing was taken in: the folder would have these errors", inside=True)
        outputs = self._beside(found, made)
        files = {f"photos/{name}": data for name, data in copies.items()}
        journal.write_all(self.folder, {**files, **{path: text.encode() for path, text in texts.items()}})
        kept = self._keep_columns()
        return self._told(found, made, rows, f"{self.shown}/{log}" if log else "", len(entries), {**outputs, **kept})

    def _found(self, pictures: frozenset[str]) -> tuple[_Found, Tiles]:
        """The file's rows in their heaps; a row that would be an error in the folder is doubtful too."""
        tiles = Tiles(self.entries, self.content.photos)
        if self.table is None or self.columns is None:
            return _Found(), tiles
        doubts: list[Doubt] = []
        table = self.table
        while True:
            found = self._sorted(table, self.columns, tiles, pictures)
            more = self._errors_of_rows(table, found)
            if not more:
                return replace(found, doubts=in_file_order((*found.doubts, *doubts))), tiles
            doubts += more
            out = {doubt.row.line for doubt in more}
            table = replace(table, rows=tuple(row for row in table.rows if row.line not in out))
            tiles = Tiles(self.entries, self.content.photos)

    def _sorted(self, table: Outside, columns: Matched, tiles: Tiles, pictures: frozenset[str]) -> _Found:
        if columns.kind == GLAZES:
            shelf = sorted_glazes(table, columns, self.settled, self.entries, self.content)
            return _Found(glazes=shelf.new, known=shelf.known, doubts=shelf.doubts)
        log = sorted_rows(table, columns, self.settled, tiles, pictures)
        return _Found(rows=log.new, known=log.known, doubts=log.doubts, sorted=log)

    def _errors_of_rows(self, table: Outside, found: _Found) -> list[Doubt]:
        """Rows that by themselves read well, and in the folder would be an error."""
        assert self.checked.book is not None
        log = log_path(self.checked.book.studio.edition.value, self.content)
        line_of: dict[tuple[str, int], int] = {(log, n): row.line for n, row in enumerate(found.rows, 2)}
        texts = {glaze.path: glaze.text for glaze in found.glazes}
        if found.rows:
            entries = entries_due(found.rows, self.checked.book, self.entries, self.content)
            texts |= {**entries, log: log_text(found.rows)}
        by_glaze = {glaze.path: glaze for glaze in found.glazes}
        told: dict[int, list[Problem]] = {}
        for problem in self._new_errors(texts, ()):
            line, cell = line_of.get((problem.place.path, problem.place.line)), None
            if glaze := by_glaze.get(problem.place.path):
                line, cell = glaze.row.line, glaze.cell_of(problem.place.line)
            if line is not None:
                place = Place(path=table.path, line=line, column=cell.column if cell else 1)
                width = max(1, cell.width) if cell else 1
                told.setdefault(line, []).append(replace(problem, place=place, width=width))
        return [Doubt(row=row, problems=tuple(told[row.line])) for row in table.rows if row.line in told]

    def _new_errors(self, texts: Mapping[str, str], copies: Sequence[str]) -> list[Problem]:
        old = {(p.place, p.code) for p in self.checked.problems if p.is_error}
        return [p for p in errors_with(self.content, texts, copies) if (p.place, p.code) not in old] if texts else []

    def _refused(self, texts: Mapping[str, str], copies: Mapping[str, bytes]) -> list[Problem]:
        """The last look before writing: nothing that is written may stop the next edition."""
        problems = self._new_errors(texts, tuple(copies))
        for path, text in texts.items():
            if len(text.encode()) > MOST_BYTES:
                fix = "divide the file over several, and take them in one by one"
                problems.append(_error(Place(path=path, line=1), "too-large", "this log would be too large", fix))
        return problems

    def _pictures(self, names: Sequence[str], tiles: Tiles, named: Mapping[str, str]) -> Photos | None:
        if self.photos is None:
            return None
        return photos(self.photos, names, tiles, named, self.folder, self.content.photos)

    def _beside(self, found: _Found, made: Photos | None) -> dict[str, str]:
        """What goes back: doubtful rows beside the file, pictures without a tile beside their folder."""
        out = {}
        if found.doubts and self.file is not None and self.table is not None and self.columns is not None:
            data = doubtful_table(self.table, self.columns, found.doubts)
            out["doubtful_file"] = beside(self.file, "doubtful.csv", data, same="reason")[0].as_posix()
        if made is not None and made.unmatched and self.photos is not None:
            near = self.photos.parent / self.photos.resolve().name if self.file is None else self.file
            out["sheet"] = beside(near, "unmatched.html", contact_sheet(made.unmatched))[0].as_posix()
        return out

    def _keep_columns(self) -> dict[str, Any]:
        """How headings were read, into columns.yaml; what a person wrote there stands as it is."""
        if self.columns is None or not self.columns.learned:
            return {}
        path, learned = self.folder / PATH, dict(self.columns.learned)
        new = {h: c for h, c in learned.items() if self.settled.column(self.columns.kind, h) is None}
        text = with_columns(self.settled, self.columns.kind, new.items(), f"{self.shown}/{PATH}")
        if text is None:
            return {"columns_to_add": tuple(new.items())}
        records.replace(path, text.encode())
        return {"columns": f"{self.shown}/{PATH}"}

    def _told(
        self,
        found: _Found,
        made: Photos | None,
        rows: Sequence[NewRow],
        log: str,
        entries: int,
        more: Mapping[str, Any],
    ) -> TakenIn:
        columns, table = self.columns, self.table
        seen = [p for doubt in found.doubts for p in doubt.problems] + list(found.sorted.warnings)
        seen += columns.problems if columns else ()
        # A line of a table with people's columns is not shown again, not on a screen either.
        lines = {table.path: table.lines} if table and columns and not columns.people else {}
        return TakenIn(
            problems=in_order(replace(problem, severity=Severity.WARNING) for problem in seen),
            lines=lines,
            resumed=self.resumed,
            file=self.file.as_posix() if self.file else "",
            folder=self.shown,
            what="glazes" if columns and columns.kind == GLAZES else "rows",
            taken=len(found.rows) + len(found.glazes),
            log=log,
            known=found.known,
            doubtful=len(found.doubts),
            entries=entries,
            glazes=tuple(f"{glaze.name} ({glaze.mark})" for glaze in found.glazes if glaze.mark_made),
            respelt=found.sorted.respelt,
            misread=misread(found.doubts, columns) if columns else {},
            photos=made,
            photo_rows=len(rows) - len(found.rows),
            **more,
        )

    def _heads(self, text: str) -> bool:
        return is_known(text) or any(self.settled.column(kind, text) for kind in (LOG, GLAZES))

    def _in_folder(self, problem: Problem) -> Problem:
        return replace(problem, place=replace(problem.place, path=f"{self.shown}/{problem.place.path}"))


def _text(path: Path) -> str:
    """The file's text, empty where there is none. Raises OSError where it cannot be read."""
    try:
        return path.read_bytes().decode("utf-8-sig", errors="replace").replace("\r\n", "\n")
    except FileNotFoundError:
        return ""


def _error(place: Place, code: str, message: str, help: str) -> Problem:
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=help)
