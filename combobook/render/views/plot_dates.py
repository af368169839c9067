"""Dates along a line: where each day stands, pushed apart where days crowd, and a ruler of months."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from combobook.render.views.desk import Desk

_MONTH_WIDE = 72.0
"""Pixels that a month's name needs."""


def day_words(desk: Desk, day: dt.date) -> str:
    """`13 Nov`."""
    return desk.text("firings.plot.day", day=day.day, month=_short(desk, day.month))


def spread(days: Sequence[dt.date], start: float, end: float, gap: float) -> tuple[list[float], list[float]]:
    """Where each day (in order) truly stands from `start` to `end`, and the same moved to be at least `gap` apart.

    Needs room for all of them: `end - start` at least `gap` times one fewer than there are days.
    """
    true = [_at(day, days, start, end) for day in days]
    moved: list[float] = []
    for x in true:
        moved.append(max(x, moved[-1] + gap) if moved else x)
    limit = end
    for number in range(len(moved) - 1, -1, -1):
        moved[number] = min(moved[number], limit)
        limit = moved[number] - gap
    return true, moved


def months(desk: Desk, days: Sequence[dt.date], start: float, end: float) -> list[tuple[float, str]]:
    """The first of each month between the first and last day, as many as have room; the year where it begins."""
    first, last = days[0], days[-1]
    count = (last.year - first.year) * 12 + last.month - first.month
    every = max(1, -int(-count * _MONTH_WIDE // (end - start)))
    found: list[tuple[float, str]] = []
    year = 0
    for number in range(1, count + 1, every):
        years, month = divmod(first.month - 1 + number, 12)
        day = dt.date(first.year + years, month + 1, 1)
        key = "month" if day.year == year else "month_year"
        words = desk.text(f"firings.plot.{key}", month=_short(desk, day.month), year=day.year)
        found.append((_at(day, days, start, end), words))
        year = day.year
    return found


def _at(day: dt.date, days: Sequence[dt.date], start: float, end: float) -> float:
    """A single day stands in the middle."""
    whole = (days[-1] - days[0]).days
    return start + (end - start) * (day - days[0]).days / whole if whole else (start + end) / 2


def _short(desk: Desk, month: int) -> str:
    return desk.words.lines("site.firings.plot.months")[month - 1]
