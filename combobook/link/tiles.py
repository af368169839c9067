"""Log rows become tiles: rows of the same tile and coats are one, as long as they do not contradict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from typing import Any, NamedTuple

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Clay, Firing, Glaze, LogRow, Unknown, Written
from combobook.link.combinations import Linking, _text
from combobook.link.names import error, place_order, warning
from combobook.measures import plain_number
from combobook.problems import Problem

FILLED = ("clay", "firing", "kiln_shelf", "stood")
"""Cells that all rows of a tile share, beside its glazes; a blank in one is filled from another."""
OF_THE_ROW = ("ran", "faults", "looks", "photo", "base_lot", "top_lot")


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """A row whose names are objects. `cells` is filled up from later rows of the same tile and coats."""

    row: LogRow
    base: Glaze
    top: Glaze | None
    base_coats: Written[int]
    top_coats: Written[int] | None
    cells: dict[str, Written[Any]]
    """Of `FILLED` and `OF_THE_ROW`."""
    objects: dict[str, Clay | Firing | None]


class Difference(NamedTuple):
    """A cell of a later row that does not say what an earlier row of the same tile says."""

    column: str
    here: Written[Any]
    said: str
    there: Written[Any]
    earlier: str


def tiles(link: Linking) -> tuple[TestTile, ...]:
    """All tiles, by mark, then coats, then place. A row that names an unknown entry is left out with its problem."""
    rows = [j for j in (linked(link, r) for r in sorted(link.entries.rows, key=_order)) if j is not None]
    by_tile: dict[str, list[Joined]] = {}
    for joined in rows:
        by_tile.setdefault(joined.row.tile.value.upper(), []).append(joined)
    made = [tile for group in by_tile.values() for tile in one_tile(link, group)]
    return tuple(sorted(made, key=lambda t: (t.tile.value, t.coats, t.place)))


def by_layers(made: Iterable[TestTile]) -> Mapping[tuple[str, ...], tuple[TestTile, ...]]:
    """The same tiles by their ordered layers."""
    found: dict[tuple[str, ...], list[TestTile]] = {}
    for tile in made:
        found.setdefault(tile.layers, []).append(tile)
    return {layers: tuple(found[layers]) for layers in sorted(found)}


def _order(row: LogRow) -> tuple[str, int, int]:
    return place_order(row.place)


def linked(link: Linking, row: LogRow) -> Joined | None:
    """The row with its names as objects; None, with its problem, where one names no entry."""
    base = link.glaze(row.base)
    top = link.glaze(row.top) if row.top is not None else None
    clay = link.clay(_text(row.clay)) if isinstance(row.clay.value, str) else None
    firing = _firing(link, row.firing)
    photo = link.photo(row.photo)
    known = base is not None and (row.top is None or top is not None)
    known = known and not (isinstance(row.clay.value, str) and clay is None)
    known = known and not (isinstance(row.firing.value, str) and firing is None)
    if base is None or not known:
        link.tiles_left_out.add(row.tile.value.upper())
        return None
    cells = {name: getattr(row, name) for name in (*FILLED, *OF_THE_ROW)}
    cells["photo"] = photo
    joined = Joined(
        row=row,
        base=base,
        top=top,
        base_coats=row.base_coats,
        top_coats=row.top_coats,
        cells=cells,
        objects={"clay": clay, "firing": firing},
    )
    return _twice_the_same(link, joined) if top is not None and top.id == base.id else joined


def _firing(link: Linking, word: Written[str | Unknown]) -> Firing | None:
    if not isinstance(word.value, str):
        return None
    found = link.firing_names.find(_text(word), link.entries, frozenset(), link.problems)
    return link.firings[found] if found else None


def _twice_the_same(link: Linking, joined: Joined) -> Joined:
    """A glaze over itself is that glaze alone, in as many coats."""
    assert joined.row.top is not None and joined.top_coats is not None
    total = joined.base_coats.value + joined.top_coats.value
    word = joined.row.top
    message = f"base and top are both {joined.base.name.value}: read as that glaze alone, {total} coats"
    fix = f"leave `top` and `top coats` blank and write {total} under `base coats`"
    link.problems.append(warning(word.place, "tile-over-itself", message, fix, len(word.value)))
    blank = Written(value=NOT_KNOWN, place=joined.row.place, field_line=joined.row.place.line, stated=False)
    return replace(
        joined,
        top=None,
        base_coats=replace(joined.base_coats, value=total),
        top_coats=None,
        cells={**joined.cells, "top_lot": blank},
    )


def one_tile(link: Linking, group: list[Joined]) -> list[TestTile]:
    """The tile's joined rows, one for each coat count, from its rows in the order in which they stand.

    A later row that contradicts is reported once. Fills blank `cells` of the earlier rows.
    """
    agreed: dict[str, Joined] = {}
    by_coats: dict[tuple[int, int | None], Joined] = {}
    for joined in group:
        differences = _other_layers(group[0], joined)
        if not differences:
            differences = [found for name in FILLED for found in _agree(agreed, name, joined)]
            key = (joined.base_coats.value, None if joined.top_coats is None else joined.top_coats.value)
            first = by_coats.setdefault(key, joined)
            if first is not joined:
                differences += [found for name in OF_THE_ROW for found in _fill(name, first, joined)]
        if differences:
            link.problems.append(_two_ways(joined, differences))
    return [_made(joined, agreed) for joined in by_coats.values()]


def _other_layers(first: Joined, joined: Joined) -> list[Difference]:
    """How the row's glazes differ from those of the tile's first row: such a row is about another tile."""
    pairs = (
        ("base", joined.base, joined.row.base, first.base, first.row.base),
        ("top", joined.top, joined.row.top, first.top, first.row.top),
    )
    return [
        Difference(
            column=column,
            here=word or joined.row.tile,
            said=glaze.name.value if glaze else "blank",
            there=its_word or first.row.tile,
            earlier=its.name.value if its else "blank",
        )
        for column, glaze, word, its, its_word in pairs
        if (glaze and glaze.id) != (its and its.id)
    ]


def _agree(agreed: dict[str, Joined], name: str, joined: Joined) -> Iterator[Difference]:
    """Keeps the first row that fills a cell of the whole tile; a later one must say the same."""
    cell = joined.cells[name]
    if cell.value is NOT_KNOWN:
        return
    first = agreed.setdefault(name, joined)
    if first is not joined and _meaning(name, joined) != _meaning(name, first):
        yield _difference(name, cell, first.cells[name])


def _fill(name: str, first: Joined, joined: Joined) -> Iterator[Difference]:
    """Fills the first row's blank cell from a later row; where both are filled, they must say the same."""
    mine, later = first.cells[name], joined.cells[name]
    if later.value is NOT_KNOWN:
        return
    if mine.value is NOT_KNOWN:
        first.cells[name] = later
    elif _meaning(name, first) != _meaning(name, joined):
        yield _difference(name, later, mine)


def _meaning(name: str, joined: Joined) -> object:
    found = joined.objects.get(name)
    value = found.id if found is not None else joined.cells[name].value
    if isinstance(value, tuple):
        return frozenset(value)
    return " ".join(value.split()) if isinstance(value, str) else value


def _difference(name: str, here: Written[Any], there: Written[Any]) -> Difference:
    return Difference(
        column=name.replace("_", " "), here=here, said=_said(here.value), there=there, earlier=_said(there.value)
    )


def _said(value: object) -> str:
    if isinstance(value, tuple):
        return "; ".join(fault.value for fault in value) or "none"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Fraction):
        return f"{plain_number(value)} mm" if value else "no run"
    return str(value)


def _two_ways(joined: Joined, differences: Sequence[Difference]) -> Problem:
    """One problem for a row, at the first cell that differs."""
    first, *others = differences
    message = (
        f"tile {joined.row.tile.value} is written down two ways: `{first.column}` is {first.said} here and "
        f"{first.earlier} at {first.there.at.at}"
    )
    if others:
        message += f"; so with {', '.join(f'`{other.column}`' for other in others)}"
    fix = "look at the tile, and mend the row that is wrong; if these are two tiles, give one of them another mark"
    written = first.here.value
    return error(first.here.place, "tile-two-ways", message, fix, len(written) if isinstance(written, str) else 1)


def _made(joined: Joined, agreed: Mapping[str, Joined]) -> TestTile:
    def cell(name: str) -> Written[Any]:
        return agreed[name].cells[name] if name in agreed else joined.cells[name]

    clay = agreed["clay"].objects["clay"] if "clay" in agreed else None
    firing = agreed["firing"].objects["firing"] if "firing" in agreed else None
    return TestTile(
        place=joined.row.place,
        tile=joined.row.tile,
        base=joined.base,
        top=joined.top,
        base_coats=joined.base_coats,
        top_coats=joined.top_coats,
        clay=clay if isinstance(clay, Clay) else None,
        firing=firing if isinstance(firing, Firing) else None,
        kiln_shelf=cell("kiln_shelf"),
        stood=cell("stood"),
        **{name: joined.cells[name] for name in OF_THE_ROW},
    )
