"""Labels and data sheets that somebody should read again: missing, or read more than two years before this edition."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from combobook.ages import out_of_date
from combobook.entries import Glaze, Status, Unknown
from combobook.render.views.asking import glaze_href, name_key, question_page
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page

PATH = "labels.html"
FROM_THE_LABEL = ("food_label", "cone", "coats", "flow")
"""What a verdict cannot do without and only the label can tell; words at `site.glaze.facts`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToRead:
    """One glaze with what is missing or out of date about it."""

    href: str
    mark: str
    name: str
    papers: tuple[str, ...]
    """About its label, then its data sheet: only those that should be read again."""
    blank: str
    """What else of the label nobody wrote down, or empty."""
    status: str


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    studio = desk.book.studio
    rows = to_read(desk)
    stands = studio.labels_read.value
    view: dict[str, object] = {
        "lead": answer(desk),
        "counted": desk.text("asking.labels.counted", date=studio.date.value)
        if isinstance(studio.date.value, dt.date)
        else desk.text("asking.labels.not_counted"),
        "stands": _stands(desk, stands) if isinstance(stands, dt.date) else "",
        "rows": rows,
    }
    yield question_page(desk, PATH, view)


def answer(desk: Desk) -> str:
    """Of how many glazes something should be read again."""
    rows = to_read(desk)
    if not rows:
        return desk.text("asking.labels.none")
    return desk.text("asking.labels.answer", glazes=desk.words.counted("glazes", len(rows)))


def _stands(desk: Desk, day: dt.date) -> str:
    """For which jars the studio's one date counts: nobody wrote down a reading of each."""
    glazes = sorted(desk.book.glazes.values(), key=name_key)
    asked = [g for g in glazes if g.status.value is not Status.RETIRED and isinstance(g.label_read.value, Unknown)]
    if not asked:
        return desk.text("asking.labels.stands_for_none", date=day)
    return desk.text("asking.labels.stands", date=day, glazes=desk.words.listed([g.name.value for g in asked]))


def to_read(desk: Desk) -> tuple[ToRead, ...]:
    """Every glaze that is not retired and of which something should be read: missing first, then the oldest."""
    asked = [glaze for glaze in desk.book.glazes.values() if glaze.status.value is not Status.RETIRED]
    found = [(_oldest(desk, glaze), name_key(glaze), row) for glaze in asked if (row := _row(desk, glaze))]
    return tuple(row for _, _, row in sorted(found, key=lambda each: each[:2]))


def _dates(desk: Desk, glaze: Glaze) -> dict[str, dt.date | Unknown]:
    """When each paper was read; the studio's date stands for a label without its own."""
    own = glaze.label_read.value
    return {
        "label": desk.book.studio.labels_read.value if isinstance(own, Unknown) else own,
        "data_sheet": glaze.data_sheet.value,
    }


def _oldest(desk: Desk, glaze: Glaze) -> dt.date:
    """The date to sort by: of what nobody knows, the beginning of time."""
    return min(dt.date.min if isinstance(day, Unknown) else day for day in _dates(desk, glaze).values())


def _row(desk: Desk, glaze: Glaze) -> ToRead | None:
    """The glaze's line, or None where both papers are known and recent."""
    day = desk.book.studio.date.value
    today = day if isinstance(day, dt.date) else None
    papers = []
    for paper, read in _dates(desk, glaze).items():
        if isinstance(read, Unknown):
            papers.append(desk.text(f"asking.labels.{paper}_missing"))
        elif out_of_date(read, today):
            papers.append(desk.text(f"asking.labels.{paper}_old", date=read))
    if not papers:
        return None
    blank = [
        desk.text(f"asking.labels.facts.{f}") for f in FROM_THE_LABEL if isinstance(getattr(glaze, f).value, Unknown)
    ]
    out = glaze.status.value is Status.OUT
    return ToRead(
        href=glaze_href(glaze),
        mark=glaze.mark.value,
        name=glaze.name.value,
        papers=tuple(papers),
        blank=desk.text("asking.labels.blank", facts=desk.words.listed(blank)) if blank else "",
        status=desk.text("asking.labels.out") if out else "",
    )
