"""What stands around every sheet: title, studio, edition, date, sheet n of m, the key and the cautions."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from markupsafe import Markup

from combobook.edition import Edition
from combobook.measures import Paper
from combobook.problems import Problem
from combobook.render.chart.foot import KEY, foot
from combobook.render.chart.head import counted
from combobook.render.chart.lengths import mm
from combobook.render.chart.sizes import Sizes, sizes_for
from combobook.render.chart.views import FootColumnView, foot_column
from combobook.render.letters import LEAST_ARCMIN, PREFERRED_ARCMIN, Line, Run, type_size, width, wrapped
from combobook.render.sheet import filled, sheet

HAND = Fraction(400)
"""mm: a sheet on the bench or in the hand is read from here (common practice, no source)."""
SIDE, EDGE = 10.0, 8.0
"""Blank margins in mm, left and right, above and below: office printers leave about 6 mm white."""
_TITLE = 6.4
_SMALL_PAPER = 440
"""mm: the longer side of tabloid and A3; a sheet no larger is taken in the hand or looked at from close by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A sheet's furniture, finished; lengths in mm."""

    language: str
    title: str
    title_lines: tuple[str, ...]
    whole_title: str
    """With studio and edition: the document's own."""
    told: Line
    replaces: str
    beside: bool
    """Whether studio and edition stand at the right of the title, or below it."""
    foot: tuple[FootColumnView, ...]
    style: Markup
    """The page, and every length as a property."""
    width: float
    """Of the room between head and foot."""
    height: float
    sizes: Sizes


def frame(
    edition: Edition,
    title: str,
    paper: Paper,
    *,
    read_from: Fraction = HAND,
    key: tuple[str, ...] = KEY,
    across: bool = False,
    drawings: str = "",
) -> Frame:
    """The furniture of a sheet of this paper, upright or (`across`) with its long side across.

    `key` names the parts of the key that the sheet needs (of `food`, `moves`, `trust`); the cautions are always there.
    `read_from` in mm: a posted sheet's key is as large as the words that it explains must be. `drawings`: "" where no
    picture is shown, else `edition.drawings` or `edition.some_drawings`, told in the head.
    """
    wide, high = sorted((float(paper.width), float(paper.height)), reverse=across)
    sizes = _sizes(paper, read_from)
    words, inner = edition.words, wide - 2 * SIDE
    told: Line = (Run(_edition_line(edition)),)
    rest = " · ".join(("", words("edition.replaces"), *((words(drawings),) if drawings else ())))
    title_size = max(_TITLE, sizes.large)
    sheet_of = words("edition.sheet", n="888", m="888")
    right = max(width(told[0].text, sizes.caution), width(f"{sheet_of}{rest}", sizes.caution, True))
    beside = width(title, title_size, True) + right + 8 <= inner
    lines = (title,) if beside else tuple(_text(line) for line in wrapped((Run(title, True),), title_size, inner))
    below = 0.0 if beside else _folded(told[0].text, sizes, inner) + _folded(f"{sheet_of}{rest}", sizes, inner)
    head = max(len(lines) * title_size * 1.1, 2 * sizes.caution_line if beside else 0.0) + below + 2.5
    bottom = foot(edition, sizes, inner, notes="trust" in key, key=key)
    room = high - 2 * EDGE - head - bottom.height - 2
    return Frame(
        language=edition.theme.language,
        title=title,
        title_lines=lines,
        whole_title=f"{title} · {edition.book.studio.name.value} · {edition.book.studio.edition.value}",
        told=told,
        replaces=rest,
        beside=beside,
        foot=tuple(foot_column(column, bottom, n == 0) for n, column in enumerate(bottom.columns)),
        style=_style(edition, wide, high, head, bottom.height + 2, room, sizes, title_size, bottom.pad),
        width=inner,
        height=room,
        sizes=sizes,
    )


def printed(
    edition: Edition,
    template: str,
    *,
    path: str,
    furnished: Frame,
    styles: tuple[str, ...] = (),
    files: Mapping[str, bytes] | None = None,
    then: Callable[[Any], None] | None = None,
    xml: bool = False,
    **views: object,
) -> tuple[dict[str, bytes], tuple[Problem, ...]]:
    """The sheet's PDF at `path` (under build/), its template filled with `furnished` and these views.

    `then` and `xml` are as `render.sheet` has them.
    """
    html = filled(edition.theme, template, furnished=furnished, words=edition.words, **views)
    style = ("print-sheet.css", *styles)
    pdf, problems = sheet(html, theme=edition.theme, style=style, files=files or {}, path=path, then=then, xml=xml)
    return {path: pdf}, problems


def _sizes(paper: Paper, read_from: Fraction) -> Sizes:
    """On small paper all small print is of 16 minutes of arc in the hand; else one would post a sheet of cautions."""
    posted = sizes_for(max(read_from, HAND))
    if paper.landscape.width > _SMALL_PAPER:
        return posted
    least = type_size(float(HAND), LEAST_ARCMIN)
    if read_from <= HAND:
        return Sizes(large=least, name_most=type_size(float(HAND), PREFERRED_ARCMIN), small=least, caution=least)
    large = type_size(float(read_from), LEAST_ARCMIN)
    return Sizes(large=large, name_most=type_size(float(read_from), PREFERRED_ARCMIN), small=least, caution=least)


def _folded(text: str, sizes: Sizes, room: float) -> float:
    """The height of a line of the head, folded where it must be."""
    return len(wrapped((Run(text, True),), sizes.caution, room)) * sizes.caution_line


def _edition_line(edition: Edition) -> str:
    studio = edition.book.studio
    return edition.words(
        "edition.line",
        studio=studio.name.value,
        edition=studio.edition.value,
        date=edition.words.date(studio.date.value),
    )


def _text(line: Line) -> str:
    return "".join(run.text for run in line)


def _style(
    edition: Edition, wide: float, high: float, head: float, bottom: float, room: float,
    sizes: Sizes, title: float, pad: float,
) -> Markup:  # fmt: skip
    lengths = {
        "wide": wide,
        "high": high,
        "inner": wide - 2 * SIDE,
        "side": SIDE,
        "edge": EDGE,
        "head": head,
        "foot": bottom - 2,
        "foot-pad": pad,
        "room-high": room,
        "title": title,
        "large": sizes.large,
        "key-line": sizes.key_line,
        "key-mark": sizes.large,
        "small": sizes.small,
        "small-line": sizes.small_line,
        "caution": sizes.caution,
        "caution-line": sizes.caution_line,
        "caution-mark": sizes.caution,
        "title-line": 1.25 * sizes.caution,
        "line-thin": max(0.25, sizes.of(0.5)),
    }
    properties = "".join(f"--{name}:{mm(length)};" for name, length in lengths.items())
    page = f"size:{mm(wide)} {mm(high)};margin:{mm(EDGE + head)} {mm(SIDE)} {mm(EDGE + bottom)}"
    return Markup(f"@page{{{page}}}html{{{properties}}}{counted(edition)}")
