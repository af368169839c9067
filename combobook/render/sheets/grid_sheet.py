"""The grid on the wall: every pair of the shelf, first glaze down, top glaze across."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import FoodLabel, Glaze
from combobook.problems import Problem
from combobook.render.cards import food_small, is_house_never
from combobook.render.chart.lengths import mm
from combobook.render.letters import Run, width, wrapped
from combobook.render.sheets.frame import Frame, frame, printed
from combobook.render.sheets.posted import both_units, not_legible
from combobook.render.sheets.shelf import on_the_shelf, pairs_on_the_shelf
from combobook.verdicts import EvidenceLevel, FoodLevel, LayeringVerdict
from combobook.wording import food_key, food_lines, to_do_words

PATH = "print/grid.pdf"
_SMALL = (5.6, 4.4, 3.5, 2.8)
"""mm: words in the squares are as large as they can be on the fewest sheets; 2.8 is 16 minutes of arc from 40 cm."""
_PAD, _CORNER = 1.0, 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GridCell:
    """A pair: `kind` is `tested`, `untested` or `same`; lines in small print beside the mark."""

    kind: str
    mark: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GridLine:
    """A first glaze, and its squares on this sheet."""

    mark: str
    name: str
    cells: tuple[GridCell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GridSheet:
    """A block of the grid: the tops' marks across, the first glazes down."""

    heads: tuple[str, ...]
    lines: tuple[GridLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """How many rows and columns stand on a sheet, and every length in mm."""

    furnished: Frame
    small: float
    stacked: bool
    """Whether the words stand under the mark, or beside it."""
    mark: float
    names: float
    marks: float
    columns: int
    rows: int
    wide: float
    high: float


def grid_sheet(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """The grid on `chart paper`: names and food marks, and the key to them, legible from `read from`.

    The words in a square are for those who stand before it. What does not fit goes to another sheet; where the paper
    holds not one square there is no grid, and a warning says so.
    """
    tops = tuple(verdict.glaze for verdict in on_the_shelf(edition))
    bases = tuple(glaze for glaze in tops if not glaze.rim_only)
    lines = tuple(_line(edition, base, tops) for base in bases)
    plans = [plan for plan in _plans(edition, lines, tops) if plan is not None]
    if not plans:
        return {}, (not_legible(edition, "grid.pdf"),)
    plan = min(plans, key=lambda each: _sheets(each, len(tops), len(lines)))
    return printed(
        edition,
        "print/grid.html",
        path=PATH,
        furnished=plan.furnished,
        styles=("print-grid.css",),
        sheets=tuple(_blocks(lines, tops, plan)),
        style=_style(plan),
        stacked=plan.stacked,
        words_below=_below(edition),
        corner=edition.words("grid_sheet.corner"),
        empty="" if lines else edition.words("grid_sheet.empty"),
    )


def _below(edition: Edition) -> tuple[str, ...]:
    shown = [v.movement for v in pairs_on_the_shelf(edition) if v.evidence.level is not EvidenceLevel.UNTESTED]
    both = both_units(edition, shown)
    return (*edition.words.lines("grid_sheet.below"), *((both,) if both else ()))


def _line(edition: Edition, base: Glaze, tops: tuple[Glaze, ...]) -> GridLine:
    return GridLine(
        mark=base.mark.value, name=base.name.value, cells=tuple(_cell(edition, base, top) for top in tops)
    )


def _cell(edition: Edition, base: Glaze, top: Glaze) -> GridCell:
    """What is known of a pair. Of an untested one only what keeps it off food; the rest is for a tile to say."""
    if base.id == top.id:
        return GridCell(kind="same", mark="", lines=(edition.words("grid_sheet.same"),))
    pair = base.id, top.id
    verdict = edition.judged.layerings.get(pair) or edition.pairs.get(pair)
    untested = edition.words("evidence.untested.short")
    if verdict is not None and verdict.evidence.level is not EvidenceLevel.UNTESTED:
        return _tested(edition, verdict)
    said_no = FoodLabel.NO in (base.food_label.value, top.food_label.value)
    if is_house_never(edition) or not (said_no or (verdict is not None and verdict.food.level is FoodLevel.KEEP_OFF)):
        return GridCell(kind="untested", mark="", lines=(untested,))
    return GridCell(kind="untested", mark=_mark(edition, "keep_off"), lines=(*_food(edition, "keep_off"), untested))


def _tested(edition: Edition, verdict: LayeringVerdict) -> GridCell:
    never, words = is_house_never(edition), edition.words
    key = food_key(verdict.food, never)
    report = _folded_like_food(edition, food_small(verdict, words, never)) if key == "lab_report" else ()
    return GridCell(
        kind="tested",
        mark=_mark(edition, key),
        lines=(*food_lines(verdict.food, never, words), *report, to_do_words(verdict.movement, words)),
    )


def _folded_like_food(edition: Edition, text: str) -> tuple[str, ...]:
    """A report's limits and ware, which it speaks of alone, no wider than the widest food words."""
    said = [line for key in ("keep_off", "not_known", "labels_allow") for line in _food(edition, key)]
    lines = wrapped((Run(text),), 1.0, max(width(line, 1.0, True) for line in said))
    return tuple("".join(run.text for run in line) for line in lines)


def _mark(edition: Edition, key: str) -> str:
    return f"m-{edition.words(f'food.{key}.mark')}"


def _food(edition: Edition, key: str) -> tuple[str, ...]:
    return edition.words.lines(f"food.{key}.card")


def _plans(edition: Edition, lines: tuple[GridLine, ...], tops: tuple[Glaze, ...]) -> Iterator[_Plan | None]:
    studio = edition.book.studio
    furnished = frame(
        edition,
        edition.words("grid_sheet.title", cone=str(studio.cone.value)),
        studio.chart_paper.value,
        read_from=studio.read_from.value,
        key=("food", "clays"),
        across=True,
    )
    below = (len(_below(edition)) + 1) * furnished.sizes.caution_line
    for small in _SMALL:
        for stacked in (False, True):
            yield _plan(lines, tops, furnished, small, stacked=stacked, below=below)


def _plan(
    lines: tuple[GridLine, ...], tops: tuple[Glaze, ...], furnished: Frame, small: float, *, stacked: bool, below: float
) -> _Plan | None:
    """Squares as small as their words allow, then stretched over the sheet; None where not one fits."""
    large = furnished.sizes.large
    mark, line = 0.75 * large, 1.15 * small
    marks = max((width(each.mark, large, True) for each in lines), default=0.0) + _CORNER
    names = max((width(each.name, large, True) for each in lines), default=0.0) + _CORNER
    cells = [cell for each in lines for cell in each.cells]
    said = max((width(text, small, True) for cell in cells for text in cell.lines), default=0.0)
    heads = max((width(top.mark.value, large, True) for top in tops), default=0.0)
    told = max((len(cell.lines) for cell in cells), default=1) * line
    least_wide = max(max(mark, said) if stacked else mark + 1.0 + said, heads) + 2 * _PAD
    least_high = max(mark + 1.0 + told if stacked else max(mark, told), 1.05 * large) + 2 * _PAD
    room_wide = furnished.width - marks - names
    room_high = furnished.height - 1.3 * large - below
    columns, rows = int(room_wide // least_wide), int(room_high // least_high)
    if columns < 1 or rows < 1:
        return None
    across, down = _shared(len(tops), columns), _shared(len(lines), rows)
    return _Plan(
        furnished=furnished, small=small, stacked=stacked, mark=mark, names=names, marks=marks,
        columns=across, rows=down,
        wide=room_wide / max(across, 1), high=min(room_high / max(down, 1), 2.2 * least_high),
    )  # fmt: skip


def _shared(count: int, most: int) -> int:
    """So many on each sheet that all sheets hold about as many."""
    sheets = -(-count // most) or 1
    return -(-count // sheets)


def _sheets(plan: _Plan, tops: int, lines: int) -> int:
    return -(-tops // max(plan.columns, 1)) * -(-lines // max(plan.rows, 1))


def _blocks(lines: tuple[GridLine, ...], tops: tuple[Glaze, ...], plan: _Plan) -> Iterator[GridSheet]:
    for top in range(0, len(lines), max(plan.rows, 1)):
        for left in range(0, len(tops), max(plan.columns, 1)):
            yield GridSheet(
                heads=tuple(glaze.mark.value for glaze in tops[left : left + plan.columns]),
                lines=tuple(
                    GridLine(mark=each.mark, name=each.name, cells=each.cells[left : left + plan.columns])
                    for each in lines[top : top + plan.rows]
                ),
            )


def _style(plan: _Plan) -> str:
    large = plan.furnished.sizes.large
    lengths = {
        "names": plan.names,
        "marks": plan.marks,
        "wide": plan.wide,
        "high": plan.high,
        "cell": plan.small,
        "cell-line": 1.15 * plan.small,
        "cell-mark": plan.mark,
        "cell-indent": plan.mark + 1.0 + _PAD,
        "cell-under": plan.mark + 0.6,
        "heads": 1.3 * large,
    }
    return ";".join(f"--{key}:{mm(length)}" for key, length in lengths.items())
