"""The glaze chart laid out: on which paper, how wide its columns are, and how many lines a sheet holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.render.chart.lengths import mm
from combobook.render.letters import Run, width, wrapped
from combobook.render.sheets.frame import Frame, frame
from combobook.render.sheets.glaze_chart.key import KeyItem, food_keys, move_keys, small_print
from combobook.render.sheets.glaze_chart.lines import GlazeLine
from combobook.render.sheets.posted import poster_papers

_GAP, _BEFORE_KILN = 2.2, 4.0
"""mm between columns, and before the last."""
_HEAD = 6.0
_TALLEST, _LOWEST = 1.6, 1.07
"""A line is no higher than this many times its letters, beyond which it falls apart, and no lower."""
_KILN = 0.2
"""The words in the last column, as a share of the names' size."""
_FOOD_INDENT, _FOOD_SIDES, _DO_INDENT = 1.15, 1.3, 1.05
"""Before food words, beside them in all, and before an instruction: so many letters."""
_REASONS = (0.42, 0.36, 0.3, 0.25)
"""How large a reason may be, as shares of the names' size, larger first; it has two lines."""
_WAYS = ((True, True, 1.0), (True, False, 1.0), (True, False, 0.6), (False, False, 0.6))
"""Whether the instruction has its mark and its other unit, and the jar's mark as a share of the names' size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A sheet laid out: column widths in mm, and how many lines it holds."""

    furnished: Frame
    mark_size: float
    columns: tuple[float, float, float, float, float]
    class_mark: bool
    """Whether the instruction has its mark before it; the words alone say it too."""
    unit: bool
    """Whether the other unit stands beside the instruction."""
    key: tuple[tuple[KeyItem, ...], ...]
    """Lines of the key as large as the words."""
    marks: tuple[KeyItem, ...]
    """The other marks, in one line of small print."""
    small: tuple[str, ...]
    """Further lines of it."""
    room: float
    most: int

    def reason(self, line: GlazeLine) -> tuple[tuple[str, ...], str]:
        """The reason folded beside the food words, and its size; no line where it has no room there."""
        large = self.furnished.sizes.large
        room = self.columns[2] - _GAP - (_FOOD_INDENT + 0.5) * large - width(line.food_words, large, True)
        for size in (share * large for share in _REASONS):
            folded = wrapped((Run(line.reason),), size, room) if line.reason and room > 0 else ()
            if 0 < len(folded) <= 2:
                return tuple("".join(run.text for run in each) for each in folded), f"font-size:{mm(size)}"
        return (), ""


def plans(edition: Edition, lines: tuple[GlazeLine, ...]) -> Iterator[Plan | None]:
    """Ways to lay the chart out, best first: the smaller paper, and on it everything that may be left out with it."""
    studio = edition.book.studio
    title = edition.words("glaze_chart.title", cone=studio.cone.value)
    for paper in poster_papers(edition):
        furnished = frame(edition, title, paper, read_from=studio.read_from.value, key=(), across=True)
        for class_mark, unit, share in _WAYS:
            yield _plan(edition, lines, furnished, class_mark=class_mark, unit=unit, mark_share=share)


def _plan(
    edition: Edition, lines: tuple[GlazeLine, ...], furnished: Frame,
    *, class_mark: bool, unit: bool, mark_share: float,
) -> Plan | None:  # fmt: skip
    large, small = furnished.sizes.large, furnished.sizes.small
    mark_size = mark_share * large
    do = [_do_width(line, large, small, class_mark=class_mark, unit=unit) for line in lines]
    columns = (
        max((width(line.mark, mark_size, True) for line in lines), default=0.0) + _GAP,
        max((width(line.name, large, True) for line in lines), default=0.0) + _GAP,
        max((width(line.food_words, large, True) for line in lines), default=0.0) + _FOOD_SIDES * large + _GAP,
        max(do, default=0.0) + _BEFORE_KILN,
        max((width(said, _KILN * large, True) + 0.5 for line in lines for said in line.kiln_words), default=0.0),
    )
    key, marks, more = food_keys(edition, furnished), move_keys(edition), small_print(edition, furnished)
    notes = (1 + bool(marks) + len(more) + (not unit)) * furnished.sizes.caution_line
    room = furnished.height - _HEAD - len(key) * large * 1.05 - notes - 3
    most = int(room // (_LOWEST * large))
    if sum(columns) > furnished.width or most < 1:
        return None
    return Plan(
        furnished=furnished, mark_size=mark_size, columns=columns, class_mark=class_mark, unit=unit, key=key,
        marks=marks, small=more, room=room, most=most,
    )  # fmt: skip


def _do_width(line: GlazeLine, large: float, small: float, *, class_mark: bool, unit: bool) -> float:
    said = width(line.to_do, large, True) + (_DO_INDENT * large if class_mark else 0.0)
    return said + (width(line.other_unit, small) + 2 if unit else 0.0)


def style(plan: Plan, lines: int) -> str:
    """Its lengths as CSS properties, for so many lines a sheet."""
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
        "food-indent": _FOOD_INDENT * large,
        "food-mark": 0.9 * large,
        "do-indent": _DO_INDENT * large if plan.class_mark else 0.0,
        "do-wide": do,
        "do-mark": 0.85 * large,
        "plate": 0.5 * large,
        "plate-words": _KILN * large,
        "key-row": 1.05 * large,
        "key-indent": 1.3 * large,
    }
    return ";".join(f"--{key}:{mm(length)}" for key, length in lengths.items())
