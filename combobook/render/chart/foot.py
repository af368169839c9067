"""The foot of every sheet: the cautions, and the key to words and marks, fitted into the least height."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import DoubtfulRule
from combobook.render.cards import is_house_never
from combobook.render.chart.sizes import Sizes
from combobook.render.letters import Line, Run, line_width, wrapped

KEY = ("food", "clays", "moves", "trust")
"""The parts of the key, for sheets that need only some, or have no room for all."""
_FOOD_KEY = ("keep_off", "not_known", "labels_allow", "lab_report")
_SHARES = tuple(range(28, 56, 2))
"""Of the width, in hundredths, what a column may take; the cautions' own first choice is 40."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A piece of the foot: running text, or words beside their mark."""

    line: Line
    kind: str
    """`large` (the key to large words), `caution` or `title`."""
    mark: str = ""
    flows: bool = False
    """Stands beside its neighbours where there is room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One line of one item, as it is printed."""

    line: Line
    mark: str
    indent: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    cells: tuple[Cell, ...]
    kind: str
    flows: bool
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FootColumn:
    width: float
    rows: tuple[Row, ...]

    @property
    def height(self) -> float:
        return sum(row.height for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Foot:
    columns: tuple[FootColumn, ...]
    gap: float
    pad: float
    """Between the rule and the first line."""

    @property
    def height(self) -> float:
        return max(column.height for column in self.columns) + self.pad


def foot(edition: Edition, sizes: Sizes, room: float, *, notes: bool, key: tuple[str, ...] = KEY) -> Foot:
    """The arrangement that takes the least height in `room` mm across; of equals the one named first.

    `notes`: with what the words for evidence mean, which a small sheet can do without. `key`: the parts of the key
    that the sheet needs; the cautions are always there.
    """
    gap, made = 2 * sizes.column_gap, dict[tuple[tuple[Item, ...], int], FootColumn]()

    def column(items: tuple[Item, ...], share: int, free: float) -> FootColumn:
        """The same items are tried at the same width in many arrangements; they are folded once."""
        key = (items, round(free * share))
        if key not in made:
            made[key] = _column(items, free * share / 100, sizes)
        return made[key]

    feet = (
        Foot(
            columns=tuple(
                column(items, share, room - gap * (len(blocks) - 1))
                for items, share in zip(blocks, shares, strict=True)
            ),
            gap=gap,
            pad=sizes.of(2.4),
        )
        for blocks in _arrangements(edition, notes, key)
        for shares in _shares(len(blocks))
    )
    return min(feet, key=lambda f: round(f.height, 3))


def _arrangements(edition: Edition, notes: bool, key: tuple[str, ...]) -> tuple[tuple[tuple[Item, ...], ...], ...]:
    c, p = _cautions(edition), _piece(edition, key)
    f = _food(edition) if "food" in key else ()
    m = _moves(edition) if "moves" in key else ()
    s = (*(_classes(edition) if "moves" in key else ()), *(_notes(edition) if notes and "trust" in key else ()))
    ways = (
        (c, (*f, *p, *m, *s)),
        (c, (*f, *p), (*m, *s)),
        ((*c, *p), f, (*m, *s)),
        ((*c, *s), (*f, *p, *m)),
        ((*c, *p, *s), (*f, *m)),
        ((*c, *s), (*f, *p), m),
        ((*c, *p, *s), f, m),
        ((*c, *p, *f, *m, *s),),
    )
    return tuple(dict.fromkeys(tuple(column for column in way if column) for way in ways))


def _shares(columns: int) -> Iterator[tuple[int, ...]]:
    if columns == 1:
        yield (100,)
    elif columns == 2:
        yield from ((share, 100 - share) for share in sorted(_SHARES, key=lambda s: abs(s - 40)))
    else:
        for share in range(24, 56, 4):
            yield from ((share, other, 100 - share - other) for other in range(24, 56, 2) if share + other < 80)


def _cautions(edition: Edition) -> tuple[Item, ...]:
    words = edition.words
    text = " ".join((*words.lines("cautions.lines"), words("cautions.private")))
    return (
        Item(line=(Run(words("cautions.title"), True),), kind="title"),
        Item(line=(Run(text),), kind="caution"),
    )


def _food(edition: Edition) -> tuple[Item, ...]:
    words = edition.words
    if is_house_never(edition):
        return (Item(line=(Run(words("food.never.full"), True),), kind="large", mark=words("food.never.mark")),)
    return tuple(
        Item(
            line=(Run(words("food.key_lab_report" if key == "lab_report" else f"food.{key}.full")),),
            kind="large",
            mark=words(f"food.{key}.mark"),
            flows=True,
        )
        for key in _FOOD_KEY
    )


def _piece(edition: Edition, key: tuple[str, ...]) -> tuple[Item, ...]:
    """That each piece decides; where the food words keep off ware for food; which clays a verdict speaks of."""
    words, studio = edition.words, edition.book.studio
    line = [Run(words("food.piece"), True)]
    if not is_house_never(edition) and "food" in key:
        never = studio.doubtful.value is DoubtfulRule.NEVER
        line.append(Run(words("chart.ware.never" if never else "chart.ware.below_the_lip", lip_up_mm=studio.lip.value)))
    if not is_house_never(edition) and "clays" in key:
        line.append(Run(words("chart.ware.clays")))
    return (Item(line=tuple(line), kind="caution"),)


def _moves(edition: Edition) -> tuple[Item, ...]:
    words = edition.words
    return tuple(
        Item(
            line=(Run(words(f"chart.key.{key}.term"), True), Run(words(f"chart.key.{key}.says"))),
            kind="large",
            mark=words(f"chart.key.{key}.mark"),
            flows=True,
        )
        for key in ("leave", "not_on_walls", "top", "catch_plate")
    )


def _classes(edition: Edition) -> tuple[Item, ...]:
    words = edition.words
    classes = tuple(
        Item(
            line=(Run(f"{words(f'movement.{key}.word')}:", True), Run(words(f"movement.{key}.means"))),
            kind="caution",
            mark=key,
            flows=True,
        )
        for key in ("stable", "moves", "runny")
    )
    return (*classes, Item(line=(Run(words("chart.limits")),), kind="caution", flows=True))


def _notes(edition: Edition) -> tuple[Item, ...]:
    return (Item(line=(Run(edition.words("chart.notes")),), kind="caution"),)


def _column(items: tuple[Item, ...], width: float, sizes: Sizes) -> FootColumn:
    rows: list[Row] = []
    for item in items:
        cells = _cells(item, width, sizes)
        if rows and item.flows and len(cells) == 1 and _joins(rows[-1], item, cells[0], width, sizes):
            rows[-1] = _row((*rows[-1].cells, cells[0]), item.kind, item.flows, sizes)
        else:
            rows.extend(_row((cell,), item.kind, item.flows and len(cells) == 1, sizes) for cell in cells)
    return FootColumn(width=width, rows=tuple(rows))


def _joins(row: Row, item: Item, cell: Cell, width: float, sizes: Sizes) -> bool:
    """Whether there is room for one more beside what flows in this row."""
    used = sum(c.width for c in row.cells) + cell.width - _after(sizes, item)
    return row.flows and row.kind == item.kind and used <= width


def _row(cells: tuple[Cell, ...], kind: str, flows: bool, sizes: Sizes) -> Row:
    height = {"large": sizes.key_line, "caution": sizes.caution_line, "title": 1.25 * sizes.caution}[kind]
    return Row(cells=cells, kind=kind, flows=flows, height=height)


def _cells(item: Item, width: float, sizes: Sizes) -> tuple[Cell, ...]:
    size = sizes.large if item.kind == "large" else sizes.caution
    indent = 1.22 * size if item.mark else 0.0
    lines = wrapped(item.line, size, width - indent)
    return tuple(
        Cell(
            line=line,
            mark=item.mark if n == 0 else "",
            indent=indent,
            width=indent + line_width(line, size) + _after(sizes, item),
        )
        for n, line in enumerate(lines)
    )


def _after(sizes: Sizes, item: Item) -> float:
    """The space kept free after an item that has a neighbour."""
    return 0.6 * (sizes.large if item.kind == "large" else sizes.caution)
