"""The glaze chart: every glaze on the shelf by itself, one line each, read from across the room."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.cards import food_classes, is_house_never
from combobook.render.chart.content import other_unit
from combobook.render.chart.lengths import mm
from combobook.render.letters import Run, width, wrapped
from combobook.render.sheets.frame import Frame, frame, printed
from combobook.render.sheets.posted import both_units, not_legible, poster_papers
from combobook.render.sheets.shelf import off_the_shelf, on_the_shelf
from combobook.verdicts import FoodLevel, GlazeVerdict
from combobook.wording import MOVE_KEYS, food_key, food_lines, to_do_words

PATH = "print/glaze-chart.pdf"
_GAP = 2.2
_HEAD = 6.0
_TALLEST = 1.6
"""A line is no higher than this many times its letters: beyond that it falls apart."""
_LOWEST = 1.07
_PLATE = 0.2
"""The words under the catch-plate mark, as a share of the names' size."""
_WAYS = ((True, True, 1.0), (True, False, 1.0), (True, False, 0.6), (False, False, 0.6))
"""Whether the instruction has its mark and its other unit, and the jar's mark as a share of the names' size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlazeLine:
    """One glaze in words and marks."""

    mark: str
    name: str
    food: str
    """The class of the frame and its mark."""
    food_words: str
    movement: str
    to_do: str
    other_unit: str
    plate: str
    """The class of the catch-plate mark, or empty."""
    plate_words: tuple[str, ...]
    """Under that mark, in small print."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlazeSheet:
    """One sheet's lines."""

    lines: tuple[GlazeLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """A sheet laid out: column widths in mm, and how many lines it holds."""

    furnished: Frame
    mark_size: float
    columns: tuple[float, float, float, float, float]
    class_mark: bool
    """Whether the instruction has its mark before it; the words alone say it too."""
    unit: bool
    """Whether the other unit stands beside the instruction."""
    key: tuple[tuple[str, str], ...]
    """Lines of the key as large as the words: the mark's class, and the words."""
    off: tuple[str, ...]
    room: float
    most: int


def glaze_chart(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """The chart on tabloid or A3 across, else on `chart paper`: names, food words, what to do legible from `read from`.

    What does not fit goes to another sheet. Where neither paper holds a line there is no chart, and a warning says so.
    """
    lines = tuple(_line(edition, verdict) for verdict in on_the_shelf(edition))
    plan = next((found for found in _plans(edition, lines) if found is not None), None)
    if plan is None:
        return {}, (not_legible(edition, "glaze-chart.pdf"),)
    sheets = -(-len(lines) // plan.most) or 1
    each = -(-len(lines) // sheets)
    return printed(
        edition,
        "print/glaze-chart.html",
        path=PATH,
        furnished=plan.furnished,
        styles=("print-glaze-chart.css",),
        sheets=tuple(GlazeSheet(lines=lines[n * each : (n + 1) * each]) for n in range(sheets)),
        plan=plan,
        style=_style(plan, each),
        heads=edition.words.lines("glaze_chart.heads"),
        moves=edition.words("glaze_chart.moves"),
        inches="" if plan.unit else both_units(edition, [v.movement for v in on_the_shelf(edition)]),
        empty="" if lines else edition.words("glaze_chart.empty"),
    )


def _line(edition: Edition, verdict: GlazeVerdict) -> GlazeLine:
    words, never = edition.words, is_house_never(edition)
    key = food_key(verdict.food, never)
    return GlazeLine(
        mark=verdict.glaze.mark.value,
        name=verdict.glaze.name.value,
        food=food_classes(key, words),
        food_words=" ".join(food_lines(verdict.food, never, words, one_glaze=True)),
        movement=f"m-{MOVE_KEYS[verdict.movement.cls]}",
        to_do=to_do_words(verdict.movement, words),
        other_unit=other_unit(verdict.movement, words),
        plate="m-catch-plate" if verdict.movement.catch_plate else "",
        plate_words=edition.words.lines("glaze_chart.plate") if verdict.movement.catch_plate else (),
    )


def _plans(edition: Edition, lines: tuple[GlazeLine, ...]) -> Iterator[_Plan | None]:
    """Ways to lay the chart out, best first: the smaller paper, and on it everything that may be left out with it."""
    title = edition.words("glaze_chart.title", cone=str(edition.book.studio.cone.value))
    for paper in poster_papers(edition):
        furnished = frame(
            edition, title, paper, read_from=edition.book.studio.read_from.value, key=(), across=True
        )  # fmt: skip
        for class_mark, unit, share in _WAYS:
            yield _plan(edition, lines, furnished, class_mark=class_mark, unit=unit, mark_share=share)


def _plan(
    edition: Edition, lines: tuple[GlazeLine, ...], furnished: Frame,
    *, class_mark: bool, unit: bool, mark_share: float,
) -> _Plan | None:  # fmt: skip
    large, small = furnished.sizes.large, furnished.sizes.small
    mark_size = mark_share * large
    columns = (
        max((width(line.mark, mark_size, True) for line in lines), default=0.0) + _GAP,
        max((width(line.name, large, True) for line in lines), default=0.0) + _GAP,
        max((width(line.food_words, large, True) for line in lines), default=0.0) + 1.45 * large + _GAP,
        max((_do_width(line, large, small, class_mark=class_mark, unit=unit) for line in lines), default=0.0) + 1.0,
        max((width(said, _PLATE * large) + 0.5 for line in lines for said in line.plate_words), default=0.0),
    )
    key = _key(edition, furnished)
    off = _off(edition, furnished)
    notes = (1 + len(off) + (not unit)) * furnished.sizes.caution_line
    room = furnished.height - _HEAD - len(key) * large * 1.05 - notes - 3
    most = int(room // (_LOWEST * large))
    if sum(columns) > furnished.width or most < 1:
        return None
    return _Plan(
        furnished=furnished, mark_size=mark_size, columns=columns, class_mark=class_mark, unit=unit, key=key, off=off,
        room=room, most=most,
    )  # fmt: skip


def _do_width(line: GlazeLine, large: float, small: float, *, class_mark: bool, unit: bool) -> float:
    said = width(line.to_do, large, True) + (1.2 * large if class_mark else 0.0)
    return said + (width(line.other_unit, small) + 2 if unit else 0.0)


def _key(edition: Edition, furnished: Frame) -> tuple[tuple[str, str], ...]:
    """What a line's food words mean, where in full they say more: only of words that stand on the chart."""
    words = edition.words
    if is_house_never(edition):
        return (("m-keep-off", words("food.never.full")),)
    levels = {verdict.food.level for verdict in on_the_shelf(edition)}
    said = []
    if FoodLevel.NOT_KNOWN in levels:
        said.append(("m-not-known", words("food.not_known.full")))
    if FoodLevel.LAB_REPORT in levels:
        said.append(("m-lab-report", words("food.key_lab_report")))
    room = furnished.width - 1.3 * furnished.sizes.large
    return tuple(
        (mark if n == 0 else "", "".join(run.text for run in line))
        for mark, text in said
        for n, line in enumerate(wrapped((Run(text),), furnished.sizes.large, room))
    )


def _off(edition: Edition, furnished: Frame) -> tuple[str, ...]:
    """The glazes of the book that are not on the shelf, in small print."""
    names = [f"{v.glaze.mark.value} {v.glaze.name.value}" for v in off_the_shelf(edition)]
    if not names:
        return ()
    text = edition.words("glaze_chart.off", glazes=", ".join(names))
    lines = wrapped((Run(text),), furnished.sizes.caution, furnished.width)
    return tuple("".join(run.text for run in line) for line in lines)


def _style(plan: _Plan, lines: int) -> str:
    large = plan.furnished.sizes.large
    high = min(plan.room / max(lines, 1), _TALLEST * large)
    mark, name, food, do, _ = plan.columns
    lengths = {
        "line": high,
        "frame": high - 1.0,
        "mark-size": plan.mark_size,
        "mark-wide": mark,
        "name-wide": name,
        "food-wide": food,
        "food-frame": food - _GAP,
        "food-indent": 1.3 * large,
        "food-mark": 0.9 * large,
        "do-indent": 1.2 * large if plan.class_mark else 0.0,
        "do-wide": do,
        "do-mark": 0.85 * large,
        "plate": 0.5 * large,
        "plate-words": _PLATE * large,
        "key-row": 1.05 * large,
        "key-indent": 1.3 * large,
    }
    return ";".join(f"--{key}:{mm(length)}" for key, length in lengths.items())
