"""Witness cones over the term, drawn: dates across, cones up; on narrow screens a firing a row, cones across.

Kiln shelves are told apart by shape and, in the legend, by word; the aim is a line in the band of half a cone to
either side. What is off the band says `hot` or `cool`. The table beside the drawing says the same in words.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from markupsafe import Markup, escape

from combobook.cones import WHOLE_CONES, Cone
from combobook.entries import KilnShelf, Unknown
from combobook.render.letters import Run, wrapped
from combobook.render.views.desk import Desk
from combobook.render.views.plot_dates import day_words, months, spread
from combobook.verdicts import FiringVerdict

WIDE = 1248.0
NARROW = 288.0
"""Pixels; labels keep their size, so each drawing is made for its own width."""
_LEFT, _RIGHT, _TOP = 96.0, 40.0, 30.0
_GAP = 58.0
"""Least distance between two firings."""
_STEP = 30.0
"""Pixels for half a cone."""
_MOST_HIGH = 540.0
_ROW, _ROW_LEFT = 60.0, 90.0
_LINE = 16.0
"""Between the lines of a kiln's name."""
_BESIDE = 17.0
"""Between the shelves of one firing."""
_ASIDE = {KilnShelf.UPPER: -1, KilnShelf.MIDDLE: 0, KilnShelf.LOWER: 1}
_LAST_HALF = 2 * (len(WHOLE_CONES) - 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Cones from `low` to `high` in half cones, laid out from `start` over `length` pixels (either way round)."""

    low: int
    high: int
    start: float
    length: float

    def at(self, halves: float) -> float:
        return self.start + self.length * (halves - self.low) / (self.high - self.low)

    @property
    def step(self) -> float:
        return abs(self.length) / (self.high - self.low)


def wide_plot(desk: Desk, aim: Cone, dated: Sequence[tuple[dt.date, FiringVerdict]], label: str) -> Markup:
    """Dates across, pushed apart where firings crowd, each led to its day on the ruler below; cones up."""
    low, high = _range(aim, (verdict for _, verdict in dated))
    tall = min(_STEP * (high - low), _MOST_HIGH)
    scale = Scale(low=low, high=high, start=_TOP + tall, length=-tall)
    width = max(WIDE, _LEFT + _RIGHT + _GAP * len(dated))
    days = [day for day, _ in dated]
    kilns = [_kiln(verdict, _GAP - 4) for _, verdict in dated]
    true, across = spread(days, _LEFT + _GAP / 2, width - _RIGHT - _GAP / 2, _GAP)
    bottom = _TOP + tall
    parts = [_band(aim, scale, _LEFT, width - _RIGHT, up=True), *_grid(desk, aim, scale, _LEFT, width - _RIGHT)]
    for (day, verdict), kiln, x in zip(dated, kilns, across, strict=True):
        parts += _readings(desk, verdict, scale, x, up=True)
        parts.append(_text(x, bottom + 26, verdict.firing.id, "plot-name", "middle"))
        parts.append(_text(x, bottom + 44, day_words(desk, day), "plot-soft", "middle"))
        parts += _lines(x, bottom + 62, kiln, "middle")
    under = bottom + 52 + _LINE * max(map(len, kilns))
    ruler = under + 26
    parts += [
        f'<path class="plot-lead" d="M{x:.1f} {under:.1f}v6L{exact:.1f} {ruler:.1f}"/>'
        for x, exact in zip(across, true, strict=True)
    ]
    parts.append(f'<path class="plot-axis" d="M{_LEFT:.1f} {ruler:.1f}H{width - _RIGHT:.1f}"/>')
    for x, words in months(desk, days, _LEFT + _GAP / 2, width - _RIGHT - _GAP / 2):
        parts.append(f'<path class="plot-axis" d="M{x:.1f} {ruler:.1f}v6"/>')
        parts.append(_text(x, ruler + 21, words, "plot-soft", "middle"))
    return _svg(width, ruler + 28, label, parts)


def narrow_plot(desk: Desk, aim: Cone, dated: Sequence[tuple[dt.date, FiringVerdict]], label: str) -> Markup:
    """A firing a row, earliest first; cones across, hotter to the right."""
    low, high = _range(aim, (verdict for _, verdict in dated))
    scale = Scale(low=low, high=high, start=_ROW_LEFT + 14, length=NARROW - _ROW_LEFT - 28)
    kilns = [_kiln(verdict, _ROW_LEFT - 4) for _, verdict in dated]
    row = _ROW + _LINE * max(map(len, kilns))
    bottom = _TOP + row * len(dated)
    parts = [_band(aim, scale, _TOP, bottom, up=False), *_grid_across(desk, aim, scale, bottom)]
    for number, (day, verdict) in enumerate(dated):
        y = _TOP + row * (number + 0.5)
        first = y - row / 2 + 23
        parts += _readings(desk, verdict, scale, y, up=False)
        parts.append(_text(0, first, verdict.firing.id, "plot-name", "start"))
        parts.append(_text(0, first + 17, day_words(desk, day), "plot-soft", "start"))
        parts += _lines(0, first + 34, kilns[number], "start")
        parts.append(f'<path class="plot-line" d="M0 {y + row / 2:.1f}H{NARROW:.1f}"/>')
    return _svg(NARROW, bottom + 4, label, parts)


def shelf_mark(shelf: KilnShelf, x: float, y: float) -> str:
    """The shape of a kiln shelf: upper points up, lower points down, middle is round."""
    if shelf is KilnShelf.MIDDLE:
        return f'<circle class="plot-mark" cx="{x:.1f}" cy="{y:.1f}" r="6"/>'
    up = -1 if shelf is KilnShelf.UPPER else 1
    return f'<path class="plot-mark" d="M{x - 7.5:.1f} {y - 5.5 * up:.1f}h15L{x:.1f} {y + 7.5 * up:.1f}z"/>'


def legend(desk: Desk) -> Markup:
    """What the shapes, the line and the band mean."""
    drawn = {f"shelf.{shelf.value}": shelf_mark(shelf, 14, 9) for shelf in KilnShelf}
    drawn["aim"] = '<path class="plot-aim" d="M1 9H27"/>'
    drawn["band"] = '<rect class="plot-band" x="1" y="2" width="26" height="14"/>'
    drawn["none"] = '<path class="plot-none" d="M1 9H27"/>'
    items = "".join(
        f'<li><svg width="28" height="18" viewBox="0 0 28 18" aria-hidden="true">{svg}</svg> '
        f"{escape(desk.text(f'firings.plot.{key}'))}</li>"
        for key, svg in drawn.items()
    )
    return Markup(f'<ul class="plot-legend">{items}</ul>')


def _range(aim: Cone, verdicts: Iterable[FiringVerdict]) -> tuple[int, int]:
    """At least a cone to either side of the aim, and half a cone beyond every reading, within the cones there are."""
    read = [shelf.witness.halves for verdict in verdicts for shelf in verdict.shelves]
    low = min([aim.halves - 2, *(halves - 1 for halves in read)])
    high = max([aim.halves + 2, *(halves + 1 for halves in read)])
    return max(0, low), min(_LAST_HALF, high)


def _band(aim: Cone, scale: Scale, start: float, end: float, *, up: bool) -> str:
    """Half a cone to either side of the aim, and the aim."""
    one, other = sorted((scale.at(max(aim.halves - 1, scale.low)), scale.at(min(aim.halves + 1, scale.high))))
    middle = scale.at(aim.halves)
    if up:
        box = f'x="{start:.1f}" y="{one:.1f}" width="{end - start:.1f}" height="{other - one:.1f}"'
        line = f"M{start:.1f} {middle:.1f}H{end:.1f}"
    else:
        box = f'x="{one:.1f}" y="{start:.1f}" width="{other - one:.1f}" height="{end - start:.1f}"'
        line = f"M{middle:.1f} {start:.1f}V{end:.1f}"
    return f'<rect class="plot-band" {box}/><path class="plot-aim" d="{line}"/>'


def _grid(desk: Desk, aim: Cone, scale: Scale, start: float, end: float) -> list[str]:
    """A line for each whole cone with its name; the aim says so."""
    parts = []
    for halves in _named(scale, 20):
        y = scale.at(halves)
        if halves != aim.halves:
            parts.append(f'<path class="plot-line" d="M{start:.1f} {y:.1f}H{end:.1f}"/>')
        css = "plot-name" if halves == aim.halves else "plot-text"
        parts.append(_text(start - 10, y + 4.5, desk.text("tiles.reached", cone=Cone(halves)), css, "end"))
    return parts


def _grid_across(desk: Desk, aim: Cone, scale: Scale, bottom: float) -> list[str]:
    parts = [_text(0, 18, desk.text("firings.plot.cone"), "plot-soft", "start")]
    for halves in _named(scale, 26):
        x = scale.at(halves)
        if halves != aim.halves:
            parts.append(f'<path class="plot-line" d="M{x:.1f} {_TOP:.1f}V{bottom:.1f}"/>')
        parts.append(_text(x, 18, str(Cone(halves)), "plot-name" if halves == aim.halves else "plot-text", "middle"))
    return parts


def _named(scale: Scale, room: float) -> list[int]:
    """The whole cones that have room for their names."""
    whole = [halves for halves in range(scale.low, scale.high + 1) if halves % 2 == 0]
    return whole[:: max(1, ceil(room / (2 * scale.step)))]


def _readings(desk: Desk, verdict: FiringVerdict, scale: Scale, middle: float, *, up: bool) -> list[str]:
    """A firing's shelves side by side about `middle`, and the words for what is off the band."""
    if not verdict.shelves:
        return _unknown(desk, scale, middle, up=up)
    parts = []
    for shelf in verdict.shelves:
        aside, at = middle + _BESIDE * _ASIDE[shelf.shelf], scale.at(shelf.witness.halves)
        parts.append(shelf_mark(shelf.shelf, *((aside, at) if up else (at, aside))))
    for fired, outermost in (("hot", max), ("cool", min)):
        off = [shelf.witness.halves for shelf in verdict.shelves if shelf.fired == fired]
        if off:
            parts.append(_off_word(desk, fired, scale.at(outermost(off)), middle, up=up))
    return parts


def _unknown(desk: Desk, scale: Scale, middle: float, *, up: bool) -> list[str]:
    """A broken line over all the cones, its words above it: it may have been any of them."""
    low, high = scale.at(scale.low), scale.at(scale.high)
    line = f"M{middle:.1f} {high:.1f}V{low:.1f}" if up else f"M{low:.1f} {middle:.1f}H{high:.1f}"
    x, y = (middle, high - 8) if up else ((low + high) / 2, middle - 9)
    words = _text(x, y, desk.text("firings.plot.no_cone"), "plot-off", "middle")
    return [f'<path class="plot-none" d="{line}"/>', words]


def _kiln(verdict: FiringVerdict, room: float) -> tuple[str, ...]:
    """The kiln's name in lines no wider than `room`; none where nobody wrote it down."""
    kiln = verdict.firing.kiln.value
    if isinstance(kiln, Unknown):
        return ()
    return tuple("".join(run.text for run in line) for line in wrapped((Run(kiln),), 14.0, room))


def _lines(x: float, y: float, lines: Sequence[str], anchor: str) -> list[str]:
    return [_text(x, y + _LINE * number, line, "plot-soft", anchor) for number, line in enumerate(lines)]


def _off_word(desk: Desk, fired: str, at: float, middle: float, *, up: bool) -> str:
    words = desk.text(f"firings.plot.{fired}")
    if up:
        return _text(middle, at - 13 if fired == "hot" else at + 23, words, "plot-off", "middle")
    anchor, beside = ("start", 11) if fired == "hot" else ("end", -11)
    return _text(at + beside, middle - 22, words, "plot-off", anchor)


def _text(x: float, y: float, words: str, css: str, anchor: str) -> str:
    return f'<text class="{css}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(words)}</text>'


def _svg(width: float, height: float, label: str, parts: Iterable[str]) -> Markup:
    return Markup(
        f'<svg class="plot" role="img" aria-label="{escape(label)}" width="{width:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {width:.0f} {height:.0f}">{"".join(parts)}</svg>'
    )
