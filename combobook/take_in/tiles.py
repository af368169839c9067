"""The tiles that the logs know and those taken in with this file: what a row adds to them, and what it contradicts."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Entries, Fault, LogRow
from combobook.link import linking_of
from combobook.link.tiles import FILLED, OF_THE_ROW, Joined, linked, one_tile
from combobook.past import withdrawn_marks
from combobook.problems import Problem
from combobook.raw import RawText
from combobook.take_in.cells import tile_key

_CODE = re.compile(r"([A-Za-z]{1,4})([\s_-]*)(\d{1,5})")
_NAME_OF = {name: name.replace("_", " ") for name in (*FILLED, *OF_THE_ROW)}


@dataclass(frozen=True, slots=True, kw_only=True)
class NewRow:
    """A row for the new log: its cells by column, and what its layers and tile are."""

    line: int
    """In the outside file; 0 where a photograph alone made the row."""
    cells: Mapping[str, str]
    tile: str
    layers: tuple[str, ...]
    """Ids, base first."""


class Tiles:
    """Every tile's rows, in order: those of the logs, then those accepted from outside."""

    def __init__(self, entries: Entries, photos: tuple[str, ...]) -> None:
        self._gone = withdrawn_marks(entries.withdrawn)
        self._linking = linking_of(entries, photos)
        self._rows: dict[str, list[LogRow]] = {}
        self._spelt: dict[str, str] = {}
        for row in sorted(entries.rows, key=lambda row: row.place):
            if row.tile.value.upper() not in self._gone:
                self.add(row)

    def add(self, row: LogRow) -> None:
        """Keep a row that stands."""
        self._rows.setdefault(row.tile.value.upper(), []).append(row)
        self._spelt.setdefault(tile_key(row.tile.value), row.tile.value)

    def is_withdrawn(self, mark: str) -> bool:
        return mark.upper() in self._gone or tile_key(mark) in {tile_key(gone) for gone in self._gone}

    def spelt(self, text: str) -> str:
        """A tile's mark as the logs spell it; with the space out of one letter's code; else as it is written."""
        if text.upper() in self._rows:
            return text
        if known := self._spelt.get(tile_key(text)):
            return known
        match = _CODE.fullmatch(text)
        # Two letters and a number may be a person's: `Jo 7` is left to the row's own check.
        return f"{match[1]}{match[3]}" if match and len(match[1]) == 1 and match[2].strip() == "" else text

    def marks(self) -> Mapping[str, str]:
        """Each known tile by its spellings' common key."""
        return self._spelt

    def made(self, mark: str) -> Sequence[TestTile]:
        """The tile at each of its coat counts, joined from its rows; none where it is not known."""
        rows = self._rows.get(mark.upper(), ())
        joined = [one for one in (linked(self._linking, row) for row in rows) if one is not None]
        made = one_tile(self._linking, joined) if joined else []
        self._linking.problems.clear()
        return made

    def fill_keys(self, cells: dict[str, RawText], has_top: bool) -> bool:
        """Fill a row's layers and coats from its tile, where it leaves them out and they can be only one way.

        True where it did. A row that names its base and leaves its top blank speaks of one glaze alone, unless the
        table has no column for tops.
        """
        named = bool(cells["base"].text)
        if named and (has_top or cells["top"].text) and cells["base coats"].text:
            return False
        fits = [tile for tile in self.made(cells["tile"].text) if _fits(tile, cells)]
        if len(fits) != 1 or (named and has_top and not cells["top"].text and fits[0].top is not None):
            return False
        for name, text in _keys(fits[0]).items():
            # What a row says itself stands, so that a row of another tile contradicts and is not bent to fit.
            if not cells[name].text:
                cells[name] = cells[name]._replace(text=text)
        return True

    def coat_counts(self, mark: str) -> Sequence[str]:
        """The coat counts that a tile is known with, in words."""
        return [" + ".join(str(coats) for coats in tile.coats) for tile in self.made(mark)]

    def compared(self, row: LogRow, ran: str) -> tuple[NewRow | None, tuple[Problem, ...]]:
        """What the row adds, None where it adds nothing; and what is wrong with it beside the rows before it.

        `ran` is the run's length as written, with its unit: an inch's fraction stays one.
        """
        earlier = self._rows.get(row.tile.value.upper(), ())
        known = [one for one in (linked(self._linking, each) for each in earlier) if one is not None]
        before = {tile.coats: tile for tile in one_tile(self._linking, known)} if known else {}
        self._linking.problems.clear()
        mine = linked(self._linking, row)
        if mine is not None:
            # Joining fills blanks of the rows before: a fresh look at each, so that nothing of this row stays.
            group = [one for one in (linked(self._linking, each) for each in earlier) if one is not None]
            copy = linked(self._linking, row)
            here = row.place.path
            self._linking.problems = [p for p in dict.fromkeys(self._linking.problems) if p.place.path == here]
            assert copy is not None, "it was linked a moment ago"
            one_tile(self._linking, [*group, copy])
        problems = tuple(dict.fromkeys(self._linking.problems))
        self._linking.problems = []
        if mine is None or any(problem.is_error for problem in problems):
            return None, problems
        return _added(mine, before, ran), problems


def _fits(tile: TestTile, cells: Mapping[str, RawText]) -> bool:
    """True where the tile has the coats that the row writes, as far as it writes any."""
    own = [str(coats) for coats in tile.coats]
    said = [cells["base coats"].text, cells["top coats"].text]
    return all(not text or text == due for text, due in zip(said, [*own, ""], strict=False))


def _keys(tile: TestTile) -> dict[str, str]:
    top, coats = tile.top, tile.top_coats
    return {
        "base": tile.base.id,
        "base coats": str(tile.base_coats.value),
        "top": top.id if top else "",
        "top coats": str(coats.value) if coats else "",
    }


def _added(mine: Joined, before: Mapping[tuple[int, ...], TestTile], ran: str) -> NewRow | None:
    """The row with the cells that its tile does not have yet, beside the cells by which it is known."""
    coats = (mine.base_coats.value,) if mine.top_coats is None else (mine.base_coats.value, mine.top_coats.value)
    same = before.get(coats)
    new = {name: cell for name, cell in mine.cells.items() if cell.value is not NOT_KNOWN}
    if same is not None:
        new = {name: cell for name, cell in new.items() if not _has(same, name)}
        if not new:
            return None
    keys = {
        "tile": mine.row.tile.value,
        "base": mine.base.id,
        "base coats": str(mine.base_coats.value),
        "top": mine.top.id if mine.top else "",
        "top coats": str(mine.top_coats.value) if mine.top_coats else "",
    }
    said = {_NAME_OF[name]: _said(mine, name, cell.value, ran) for name, cell in new.items()}
    layers = (mine.base.id,) if mine.top is None else (mine.base.id, mine.top.id)
    return NewRow(line=mine.row.place.line, cells={**keys, **said}, tile=mine.row.tile.value, layers=layers)


def _has(tile: TestTile, name: str) -> bool:
    found = getattr(tile, name)
    return found is not None and getattr(found, "value", found) is not NOT_KNOWN


def _said(mine: Joined, name: str, value: Any, ran: str) -> str:
    """A cell's value as a log writes it; names by their file."""
    if isinstance(value, Fraction):
        return ran if value else "no"
    if (found := mine.objects.get(name)) is not None:
        return found.id
    if isinstance(value, tuple):
        return "; ".join(fault.value for fault in value if isinstance(fault, Fault)) or "none"
    return str(getattr(value, "value", value))
