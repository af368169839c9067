"""Log sheets for the bench: a line for each tile, filled in as far as the plan knows, and a blank form."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from combobook.book import TestTile
from combobook.edition import Edition
from combobook.entries import Fault
from combobook.plans import Plan, PlannedTile
from combobook.problems import Problem
from combobook.render.cards import tile_coats
from combobook.render.letters import Run, wrapped
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed
from combobook.wording import Words, coats_words

PATH = "print/log-sheets.pdf"
LINE_HIGH = 9.0
"""mm between lines, so that a pencil in a wet hand finds room (common practice, no source)."""
MOST_LINES = 14
_IN_A_COLUMN = 3
"""Words for faults, in each of four columns."""
_AROUND = 53.0
"""mm above and below a sheet's lines: heading, the firing, the table's head, what faults look like."""
_PLANNED, _SIZE = 62.0, 3.0
"""mm: the column that tells what was planned, and its letters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogLine:
    """One tile. What is empty is for a pencil."""

    mark: str
    student: str
    planned: tuple[str, ...]
    """Order and coats, and the clay."""
    brushed: str
    """Says that it stands in the log already; empty where it is to be pencilled in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSheet:
    """One sheet of lines under its heading."""

    title: str
    lines: tuple[LogLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultLooks:
    """A fault's word, as the log takes it, and what it looks like."""

    word: str
    looks: str


def log_sheets(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """A sheet for each table of the plan, one of tiles that wait for the kiln, and a blank form; paper across."""
    words, paper = edition.words, edition.book.studio.paper.value
    furnished = frame(edition, words("log_sheets.title"), paper, across=True, key=())
    room = min(MOST_LINES, int((furnished.height - _AROUND) // LINE_HIGH))
    if room < 1 or furnished.width < 240:
        return {}, (too_small(edition, "log-sheets.pdf"),)
    faults = tuple(_faults(words))
    sheets = (*_planned(edition.plan, room, words), *_waiting(edition.book.tiles, room, words))
    return printed(
        edition,
        "print/log-sheets.html",
        path=PATH,
        furnished=furnished,
        styles=("print-log-sheets.css",),
        sheets=sheets,
        heads=words.lines("log_sheets.heads"),
        blank_title=words("log_sheets.blank"),
        blank_heads=words.lines("log_sheets.blank_heads"),
        blank_lines=room,
        before=words("log_sheets.before"),
        after=words("log_sheets.after"),
        firing=words.lines("log_sheets.firing"),
        choices=words.lines("log_sheets.choices"),
        coats=words.lines("log_sheets.coats"),
        blank_coats=words("log_sheets.blank_coats"),
        stood=words.lines("log_sheets.stood"),
        unit=words("log_sheets.unit"),
        faults_title=words("log_sheets.faults_title"),
        faults=tuple(faults[start : start + _IN_A_COLUMN] for start in range(0, len(faults), _IN_A_COLUMN)),
    )


def _planned(plan: Plan | None, room: int, words: Words) -> Iterator[LogSheet]:
    """By table, so that the sheet lies where its tiles are brushed."""
    for table in range(1, plan.asked.tables + 1) if plan else ():
        tiles = [tile for tile in plan.tiles if tile.table == table] if plan else []
        title = words("log_sheets.table", table=table)
        yield from _parts(title, [_planned_line(tile, words) for tile in tiles], room, words)


def _waiting(tiles: Sequence[TestTile], room: int, words: Words) -> Iterator[LogSheet]:
    """Tiles in the logs that no firing has: only the kiln's part is left to write."""
    waiting = sorted((tile for tile in tiles if not tile.fired), key=lambda tile: (tile.tile.value, tile.place))
    yield from _parts(words("log_sheets.waiting"), [_waiting_line(tile, words) for tile in waiting], room, words)


def _parts(title: str, lines: Sequence[LogLine], room: int, words: Words) -> Iterator[LogSheet]:
    """As few sheets as hold the lines, each with about as many."""
    count = -(-len(lines) // room)
    ends = [len(lines) * n // count for n in range(count + 1)] if count else []
    parts = [tuple(lines[start:end]) for start, end in pairwise(ends)]
    for n, part in enumerate(parts, 1):
        more = words("log_sheets.part", n=n, m=len(parts)) if len(parts) > 1 else ""
        yield LogSheet(title=f"{title}{more}", lines=part)


def _planned_line(tile: PlannedTile, words: Words) -> LogLine:
    made = tile.candidate
    order = coats_words(made.base.name.value, made.top.name.value, made.coats, words)
    clay = words("plan.any_clay") if made.clay is None else words("plan.on_clay", clay=made.clay.name.value)
    return LogLine(mark=tile.mark, student=str(tile.student), planned=_folded(order, clay), brushed="")


def _waiting_line(tile: TestTile, words: Words) -> LogLine:
    clay = words("log_sheets.no_clay") if tile.clay is None else words("plan.on_clay", clay=tile.clay.name.value)
    planned = _folded(tile_coats(tile, words), clay)
    return LogLine(mark=tile.tile.value, student="", planned=planned, brushed=words("log_sheets.in_the_log"))


def _folded(order: str, clay: str) -> tuple[str, ...]:
    """The clay on a line of its own; of three lines the clay stands behind the order."""
    lines = wrapped((Run(order),), _SIZE, _PLANNED)
    both = (*lines, (Run(clay),)) if len(lines) == 1 else wrapped((Run(f"{order}, {clay}"),), _SIZE, _PLANNED)
    return tuple("".join(run.text for run in line) for line in both)


def _faults(words: Words) -> Iterator[FaultLooks]:
    """Every fault that the log knows, and `none`."""
    for key in ("none", *(fault.value for fault in Fault)):
        yield FaultLooks(word=key, looks=words(f"log_sheets.faults.{key.replace(' ', '_')}"))
