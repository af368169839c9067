"""Log rows become tiles: rows of the same tile and coats are one, as long as they do not contradict."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN, Clay, Firing, Glaze, LogRow, Unknown, Written
from combobook.link.combinations import Linking, _text
from combobook.link.names import error, place_order, warning

_OF_THE_TILE = ("base", "top", "clay", "firing", "kiln_shelf", "stood")
_OF_THE_ROW = ("ran", "faults", "looks", "photo", "base_lot", "top_lot")


@dataclass(slots=True, kw_only=True)
class Joined:
    """A row whose names are objects, and in which later rows of the same tile and coats are joined."""

    row: LogRow
    base: Glaze
    top: Glaze | None
    base_coats: Written[int]
    top_coats: Written[int] | None
    cells: dict[str, Written[Any]]
    """Of `_OF_THE_ROW`, and of `_OF_THE_TILE` less base and top."""
    objects: dict[str, Clay | Firing | None]


def tiles(link: Linking) -> tuple[TestTile, ...]:
    """All tiles, by mark, then coats, then place. A row that names an unknown entry is left out with its problem."""
    rows = [j for j in (_linked(link, r) for r in sorted(link.entries.rows, key=_order)) if j is not None]
    by_tile: dict[str, list[Joined]] = {}
    for joined in rows:
        by_tile.setdefault(joined.row.tile.value.upper(), []).append(joined)
    made = [tile for group in by_tile.values() for tile in _one_tile(link, group)]
    return tuple(sorted(made, key=lambda t: (t.tile.value, t.coats, t.place)))


def by_layers(made: Iterable[TestTile]) -> Mapping[tuple[str, ...], tuple[TestTile, ...]]:
    """The same tiles by their ordered layers."""
    found: dict[tuple[str, ...], list[TestTile]] = {}
    for tile in made:
        found.setdefault(tile.layers, []).append(tile)
    return {layers: tuple(found[layers]) for layers in sorted(found)}


def _order(row: LogRow) -> tuple[str, int, int]:
    return place_order(row.place)


def _linked(link: Linking, row: LogRow) -> Joined | None:
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
    cells = {name: getattr(row, name) for name in ("clay", "firing", "kiln_shelf", "stood", *_OF_THE_ROW)}
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
    coats = joined.base_coats
    joined.base_coats = Written(value=total, place=coats.place, field_line=coats.field_line)
    joined.top = joined.top_coats = None
    joined.cells["top_lot"] = Written(
        value=NOT_KNOWN, place=joined.row.place, field_line=joined.row.place.line, stated=False
    )
    return joined


def _one_tile(link: Linking, group: list[Joined]) -> list[TestTile]:
    """The tile's joined rows, one for each coat count. Contradictions are reported at the later row."""
    agreed: dict[str, Joined] = {}
    by_coats: dict[tuple[int, int | None], Joined] = {}
    for joined in group:
        if _contradicts_layers(link, group[0], joined):
            continue
        for name in ("clay", "firing", "kiln_shelf", "stood"):
            _agree(link, agreed, name, joined)
        key = (joined.base_coats.value, None if joined.top_coats is None else joined.top_coats.value)
        first = by_coats.setdefault(key, joined)
        if first is not joined:
            for name in _OF_THE_ROW:
                first.cells[name] = _fill(link, name, first, joined)
    return [_made(joined, agreed) for joined in by_coats.values()]


def _contradicts_layers(link: Linking, first: Joined, joined: Joined) -> bool:
    for name, mine, its in (("base", joined.base, first.base), ("top", joined.top, first.top)):
        if (mine.id if mine else None) == (its.id if its else None):
            continue
        here = joined.row.base if name == "base" else joined.row.top or joined.row.tile
        there = first.row.base if name == "base" else first.row.top or first.row.tile
        said, earlier = (g.name.value if g else "no top" for g in (mine, its))
        _two_ways(link, joined, name, here, said, earlier, there)
        return True
    return False


def _agree(link: Linking, agreed: dict[str, Joined], name: str, joined: Joined) -> None:
    """Keeps the first row that fills a cell of the whole tile; a later one must say the same."""
    cell = joined.cells[name]
    if cell.value is NOT_KNOWN:
        return
    first = agreed.setdefault(name, joined)
    if first is not joined and _meaning(name, joined) != _meaning(name, first):
        _two_ways(link, joined, name, cell, _said(cell), _said(first.cells[name]), first.cells[name])


def _meaning(name: str, joined: Joined) -> object:
    found = joined.objects.get(name)
    value = found.id if found is not None else joined.cells[name].value
    if isinstance(value, tuple):
        return frozenset(value)
    return " ".join(value.split()) if isinstance(value, str) else value


def _fill(link: Linking, name: str, first: Joined, joined: Joined) -> Written[Any]:
    """The cell that is filled; where both are, they must say the same."""
    mine, later = first.cells[name], joined.cells[name]
    if later.value is NOT_KNOWN:
        return mine
    if mine.value is NOT_KNOWN:
        return later
    if _meaning(name, first) != _meaning(name, joined):
        _two_ways(link, joined, name, later, _said(later), _said(mine), mine)
    return mine


def _said(cell: Written[Any]) -> str:
    value = cell.value
    if isinstance(value, tuple):
        return "; ".join(fault.value for fault in value) or "none"
    if hasattr(value, "value"):
        return str(value.value)
    return f"{value} mm" if not isinstance(value, str) else value


def _two_ways(
    link: Linking, joined: Joined, name: str, here: Written[Any], said: str, earlier: str, there: Written[Any]
) -> None:
    column = name.replace("_", " ")
    tile = joined.row.tile.value
    message = f"tile {tile} is written down two ways: `{column}` is {said} here and {earlier} at {there.at.at}"
    fix = "look at the tile, and mend the row that is wrong; if these are two tiles, give one of them another mark"
    link.problems.append(error(here.place, "tile-two-ways", message, fix, 1))


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
        **{name: joined.cells[name] for name in _OF_THE_ROW},
    )
