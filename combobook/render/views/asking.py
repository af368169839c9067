"""What the pages of questions share: which jars are in use, how a glaze stands in a list, how a page is handed over."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from combobook.entries import FoodLabel, Glaze, Status
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed
from combobook.verdicts import GlazeVerdict, LayeringVerdict

IN_USE = (Status.IN_USE, Status.RUNNING_LOW)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A glaze or layering in a list: its page (relative to site/), its mark where it has one, and a line about it."""

    href: str
    mark: str
    name: str
    note: str
    food: Signed | None = None
    only: str = ""
    """What the line holds for and nothing else, where that must stand out."""


def in_use(glaze: Glaze) -> bool:
    """The jar is on the shelf with something in it; a status that nobody knows is not."""
    return glaze.status.value in IN_USE


def label_allows(glaze: Glaze) -> bool:
    """The label says yes to food."""
    return glaze.food_label.value is FoodLabel.YES


def glazes_by_name(desk: Desk) -> tuple[GlazeVerdict, ...]:
    """Every glaze's verdict, in the order in which people look for a name."""
    return tuple(sorted(desk.edition.judged.glazes.values(), key=lambda each: name_key(each.glaze)))


def by_first_then_top(verdicts: Iterable[LayeringVerdict]) -> tuple[LayeringVerdict, ...]:
    """Layerings by the name of the glaze that goes on first, then by that of the top."""
    return tuple(sorted(verdicts, key=lambda each: (name_key(each.base), name_key(each.top))))


def name_key(glaze: Glaze) -> tuple[str, str]:
    """Names in any letter case; two of one name by their files."""
    return (glaze.name.value.casefold(), glaze.id)


def glaze_href(glaze: Glaze) -> str:
    """The glaze's page, relative to site/."""
    return f"glazes/{glaze.id}.html"


def question_page(desk: Desk, path: str, view: dict[str, object]) -> Page:
    """A page that answers one question; its template has its name, its title stands at `site.asking.<name>.title`."""
    key = path.removesuffix(".html").replace("-", "_")
    title = desk.text(f"asking.{key}.title")
    return Page(path=path, template=path, title=title, view=view, nav="questions")
