"""A list of glazes, one row each, to entries of their own."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from combobook.entries import Entries, Glaze
from combobook.problems import Place, Problem, Severity
from combobook.raw import RawRow, RawText
from combobook.sources import Content
from combobook.spelling import folded
from combobook.take_in.doubtful import Doubt
from combobook.take_in.matching import Matched
from combobook.take_in.outside import Outside
from combobook.take_in.people import of_a_person
from combobook.take_in.settled import Settled
from combobook.take_in.tried import glaze_of
from combobook.validate.entry import in_quotes
from combobook.validate.known import KNOWN

FIELDS = KNOWN["glazes"]
_LISTS = ("handling",)
_ASK = ("cone", "food label", "data sheet", "flow", "coats")
"""What verdicts rest on: written with a `?` where the list does not say."""
_PLAIN = re.compile(r"[A-Za-z0-9](?:[\w .,/()+'-]*[\w.)'])?")


@dataclass(frozen=True, slots=True, kw_only=True)
class NewGlaze:
    """An entry to be written, and the row it came from."""

    row: RawRow
    path: str
    text: str
    name: str
    mark: str
    mark_made: bool
    """The list gave none."""
    said: Mapping[str, RawText]
    """The row's cells by field."""

    def cell_of(self, line: int) -> RawText | None:
        """The cell that a line of the text was made from, counted from 1; None where the list has no such column."""
        lines = self.text.split("\n")[:line]
        while lines and lines[-1].startswith("  - "):
            lines.pop()
        return self.said.get(lines[-1].partition(":")[0]) if lines else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Every row of a list of glazes, in one of three heaps."""

    new: tuple[NewGlaze, ...]
    known: int
    doubts: tuple[Doubt, ...]


def sorted_glazes(table: Outside, columns: Matched, settled: Settled, entries: Entries, content: Content) -> Shelf:
    """Sort every row: new glazes, those the shelf has, those whose name or mark is another's."""
    run = _Sorting(table, columns, settled, entries, content)
    for row in table.rows:
        run.row(row)
    doubts = (*run.doubts, *(Doubt(row=row, problems=(problem,)) for row, problem in table.broken))
    return Shelf(new=tuple(run.new), known=run.known, doubts=doubts)


class _Sorting:
    """Takes the rows one after another; names and marks given so far count with those of the shelf."""

    def __init__(
        self, table: Outside, columns: Matched, settled: Settled, entries: Entries, content: Content
    ) -> None:
        self.table, self.columns, self.settled = table, columns, settled
        self.new: list[NewGlaze] = []
        self.known = 0
        self.doubts: list[Doubt] = []
        self._entries = {f"glazes/{glaze.id}.md": glaze for glaze in entries.glazes}
        self._paths = {source.path for source in (*content.sources, *content.unread)}
        self._by_word: dict[str, tuple[str, str]] = {}
        for glaze in entries.glazes:
            self._keep(glaze.name.value, glaze.mark.value, f"glazes/{glaze.id}.md", glaze.id)
        self._wanted = {
            self._cell(row, "mark").text.casefold() for row in table.rows if self._cell(row, "mark").text
        }

    def row(self, row: RawRow) -> None:
        """One row to its heap."""
        said = {name: self._cell(row, name) for name in self.columns.columns}
        if not any(cell.text for cell in said.values()):
            return
        name, mark = said["name"].text, said["mark"].text if "mark" in said else ""
        problems = [*self._personal(said)]
        if not name:
            problems.append(self._problem(said["name"], "missing-cell", "this glaze has no name", "write its name"))
        elif (there := self._by_word.get(folded(name))) and (not mark or folded(mark) == there[1]):
            problems += self._against(said, there[0])
            self.known += not problems
            if problems:
                self.doubts.append(Doubt(row=row, problems=tuple(problems)))
            return
        problems += self._taken(said, name, mark)
        if problems:
            self.doubts.append(Doubt(row=row, problems=tuple(problems)))
            return
        given = mark or self._new_mark(name)
        path, text = f"glazes/{file_stem(name)}.md", self._text(said, name, given)
        self.new.append(
            NewGlaze(row=row, path=path, text=text, name=name, mark=given, mark_made=not mark, said=said)
        )
        self._keep(name, given, path, file_stem(name))
        self._paths.add(path)
        if (glaze := glaze_of(path, text)) is not None:
            self._entries[path] = glaze

    def _text(self, said: Mapping[str, RawText], name: str, mark: str) -> str:
        return glaze_text({**{k: c.text for k, c in said.items()}, "name": name, "mark": mark})

    def _keep(self, name: str, mark: str, path: str, id: str) -> None:
        for word in (name, mark, id):
            self._by_word.setdefault(folded(word), (path, folded(mark)))

    def _against(self, said: Mapping[str, RawText], path: str) -> Iterator[Problem]:
        """What the list says of a glaze that is there, and its entry does not: nothing that exists is changed."""
        there = self._entries.get(path)
        if there is None:
            return
        listed = glaze_of(path, self._text(said, there.name.value, there.mark.value))
        for field, cell in said.items():
            if field in ("name", "mark") or not cell.text or cell.text == "?":
                continue
            attribute = field.replace(" ", "_")
            if listed is None or said_of(listed, attribute) != said_of(there, attribute):
                message = f"{path} does not say `{field}: {cell.text}`, as this row does"
                fix = f"read the label: then mend `{field}` there, or take this cell out"
                yield self._problem(cell, "entry-says-otherwise", message, fix)

    def _taken(self, said: Mapping[str, RawText], name: str, mark: str) -> Iterator[Problem]:
        """A name, file name or mark that is another glaze's; nothing is ever written over."""
        path = f"glazes/{file_stem(name)}.md"
        there = self._by_word.get(folded(name))
        if name and (there or path in self._paths):
            where = there[0] if there else path
            message = f"`{name}` is there already, as {where}{', with another mark' if there else ''}"
            fix = "if it is the same glaze, mend the mark here or there; else give this one another name"
            yield self._problem(said["name"], "doubled-name", message, fix)
        if mark and (other := self._by_word.get(folded(mark))) and not (there and other[0] == there[0]):
            message = f"the mark `{mark}` is already that of {other[0]}"
            yield self._problem(said["mark"], "doubled-mark", message, "give one of them another mark")

    def _personal(self, said: Mapping[str, RawText]) -> Iterator[Problem]:
        for name, cell in said.items():
            if what := of_a_person(cell.text):
                message = f"`{name}` holds {what}: nothing of a person's is taken in"
                yield self._problem(cell, "of-a-person", message, "take it out of the cell")

    def _new_mark(self, name: str) -> str:
        """Initials, else letters of the name, else letters and a number: the first that nobody has or asks for."""
        plain = re.sub(r"[^A-Z0-9 ]", "", _ascii(name).upper()).split() or ["G"]
        together = "".join(plain)
        tries = ["".join(word[0] for word in plain)[:4]] if len(plain) > 1 else []
        tries += [together[:2], *(together[0] + letter for letter in together[2:]), together[:3], together[:4]]
        tries += [f"{together[0]}{n}" for n in range(2, 1000)]
        return next(mark for mark in tries if folded(mark) not in self._by_word and folded(mark) not in self._wanted)

    def _cell(self, row: RawRow, name: str) -> RawText:
        number = self.columns.columns.get(name)
        if number is None:
            return RawText("", row.line, 1, 1)
        cell = row.cells[number]
        return cell._replace(text=self.settled.read(name, " ".join(cell.text.split())))

    def _problem(self, cell: RawText, code: str, message: str, help: str) -> Problem:
        place = Place(path=self.table.path, line=cell.line, column=cell.column)
        return Problem(
            place=place, severity=Severity.ERROR, code=code, message=message, help=help, width=max(1, cell.width)
        )


def said_of(glaze: Glaze, attribute: str) -> object:
    """The value of a field, without its place."""
    found = getattr(glaze, attribute)
    return tuple(each.value for each in found) if isinstance(found, tuple) else found.value


def file_stem(name: str) -> str:
    """`Nan's Blue #2` is called nans-blue-2; `-over-` is kept for layerings."""
    plain = re.sub(r"['’]", "", _ascii(name)).lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "glaze"
    return stem.replace("-over-", "-on-")


def _ascii(name: str) -> str:
    said = unicodedata.normalize("NFKD", name.replace("ß", "ss").replace("ø", "o").replace("æ", "ae"))
    return said.replace("’", "'").encode("ascii", "ignore").decode()


def glaze_text(said: Mapping[str, str]) -> str:
    """The entry with the fields that the list fills, and a `?` for what verdicts rest on and nobody wrote."""
    lines = ["---"]
    for name in FIELDS:
        text = said.get(name, "")
        if name in _LISTS and text:
            items = [part.strip() for part in text.split(";") if part.strip()]
            lines += [f"{name}:", *(f"  - {_value(item)}" for item in items)]
        elif text and text != "?":
            lines.append(f"{name}: {_value(text)}")
        elif name in _ASK:
            lines.append(f"{name}: ?")
    return "\n".join([*lines, "---", ""])


def _value(text: str) -> str:
    return text if _PLAIN.fullmatch(text) else in_quotes(text)


