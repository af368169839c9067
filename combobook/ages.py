"""When what was read of a label or data sheet has to be read again. Leaf module.

Two years are the house's own choice; no standard asks for them.
"""

from __future__ import annotations

import datetime as dt


def out_of_date(read: dt.date, day: dt.date | None) -> bool:
    """More than two years, by the calendar, before the edition's day; False where that is not known."""
    return day is not None and read < _two_years_before(day)


def _two_years_before(day: dt.date) -> dt.date:
    leap = (day.month, day.day) == (2, 29)
    return day.replace(year=day.year - 2, day=28 if leap else day.day)
