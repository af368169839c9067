"""The page of numbers: from the short number beside a sheet's QR code to the page it means."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import Unknown
from combobook.render.qr import numbered_pages, numbers
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page

PATH = "numbers.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbered:
    """One number, and what it leads to."""

    number: str
    href: str
    name: str


def is_numbered(edition: Edition) -> bool:
    """Sheets carry codes and numbers only where the site has an address."""
    return not isinstance(edition.book.studio.address.value, Unknown)


def pages(desk: Desk) -> Iterator[Page]:
    """The one page, lowest number first; none where no sheet carries a number."""
    if not is_numbered(desk.edition):
        return
    names = _names(desk)
    given = numbers(numbered_pages(desk.edition))
    listed = (Numbered(number=number, href=page, name=names[page]) for page, number in given.items())
    view: dict[str, object] = {
        "lead": desk.text("numbers.lead"),
        "list": tuple(sorted(listed, key=lambda each: int(each.number))),
    }
    yield Page(path=PATH, template="numbers.html", title=desk.text("numbers.title"), view=view, nav="")


def _names(desk: Desk) -> Mapping[str, str]:
    judged = desk.edition.judged
    names = {f"glazes/{glaze}.html": verdict.glaze.name.value for glaze, verdict in judged.glazes.items()}
    for verdict in judged.layerings.values():
        over = desk.words("coats.over", base=verdict.base.name.value, top=verdict.top.name.value)
        names[f"combinations/{verdict.id}.html"] = over
    return names
