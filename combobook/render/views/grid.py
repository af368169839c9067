"""Every ordered pair in one grid: first glaze down, top glaze across. Untested is a stated value, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.entries import FoodLabel, Glaze
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, short_food, sign, upper_first
from combobook.verdicts import EvidenceLevel, LayeringVerdict

MOST_WITH_PICTURES = 28
"""Beyond so many glazes a picture in a square shows nothing, and the page would grow heavy: marks alone."""
MOST_IN_THE_COLUMN = 21
"""More columns than these need the whole width of a window."""
FOOD = ("keep_off", "not_known", "labels_allow", "lab_report")


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A glaze at the head of a row or column."""

    href: str
    mark: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """One ordered pair. `kind` is `tested`, `untested` or `same`; `words` say all that the square shows."""

    kind: str
    key: str
    href: str
    mark: object
    picture: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    head: Head
    squares: tuple[Square, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    glazes = sorted(desk.book.glazes.values(), key=lambda glaze: (glaze.name.value.casefold(), glaze.id))
    pictures = len(glazes) <= MOST_WITH_PICTURES
    rows = tuple(
        GridRow(head=_head(base), squares=tuple(_square(desk, base, top, pictures) for top in glazes))
        for base in glazes
    )
    tested = sum(square.kind == "tested" for row in rows for square in row.squares)
    count = len(glazes) * (len(glazes) - 1)
    view: dict[str, object] = {
        "lead": desk.text("grid.lead", tested=tested, all=count),
        "heads": tuple(_head(glaze) for glaze in glazes),
        "rows": rows,
        "size": "wide" if len(glazes) > MOST_IN_THE_COLUMN else "",
        "legend": _legend(desk),
        "piece": desk.words("food.piece"),
        "drawings": _drawings(desk) if pictures else "",
    }
    yield Page(path="grid.html", template="grid.html", title=desk.text("grid.title"), view=view, nav="grid")


def _drawings(desk: Desk) -> str:
    """That all or some of the pictures are drawings; empty where none is."""
    drawn = {picture.drawing for picture in desk.edition.pictures.values()}
    if True not in drawn:
        return ""
    return desk.words("edition.drawings" if drawn == {True} else "edition.some_drawings") + "."


def _head(glaze: Glaze) -> Head:
    return Head(href=f"glazes/{glaze.id}.html", mark=glaze.mark.value, name=glaze.name.value)


def _square(desk: Desk, base: Glaze, top: Glaze, pictures: bool) -> Square:
    if base.id == top.id:
        same = desk.text("grid.same", glaze=base.name.value)
        return Square(kind="same", key="", href="", mark="", picture="", words=same)
    verdict = desk.edition.judged.layerings.get((base.id, top.id))
    return _untried(desk, base, top) if verdict is None else _tried(desk, verdict, pictures)


def _tried(desk: Desk, verdict: LayeringVerdict, pictures: bool) -> Square:
    """A pair that was judged: with an entry or a tile it has a page."""
    whole = layering_card(desk, verdict)
    tested = verdict.evidence.level is not EvidenceLevel.UNTESTED
    picture = whole.picture if pictures and tested else None
    said = desk.text("grid.cell", over=whole.over, food=short_food(desk, whole), evidence=whole.evidence)
    if picture is not None and not picture.picture.drawing:
        said = desk.text("grid.photograph", said=said, tile=picture.caption)
    return Square(
        kind="tested" if tested else "untested",
        key=whole.food_key,
        href=whole.page if has_page(verdict) else "",
        mark=sign(whole.food_mark),
        picture=picture.picture.thumb.path if picture is not None else "",
        words=said,
    )


def _untried(desk: Desk, base: Glaze, top: Glaze) -> Square:
    """A pair that nobody wrote down: a label that says no stands, and nothing else is known."""
    no = FoodLabel.NO in (base.food_label.value, top.food_label.value)
    key = "never" if desk.never else "keep_off" if no else "not_known"
    said = desk.text(
        "grid.cell",
        over=desk.words("coats.over", base=base.name.value, top=top.name.value),
        food=" ".join(desk.words.lines(f"food.{key}.card")),
        evidence=desk.words("evidence.untested.short"),
    )
    return Square(kind="untested", key=key, href="", mark="", picture="", words=said)


def _legend(desk: Desk) -> tuple[Signed, ...]:
    keys = ("never", *FOOD) if desk.never else FOOD
    return tuple(
        Signed(
            key=key,
            mark=sign(desk.words(f"food.{key}.mark")),
            words=upper_first(desk.words("food.key_lab_report" if key == "lab_report" else f"food.{key}.full")),
        )
        for key in keys
    )
