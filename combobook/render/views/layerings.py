"""The index of layerings, by the glaze that goes on first and by the glaze on top."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from combobook.entries import Glaze
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, short_food, sign, upper_first
from combobook.verdicts import EvidenceLevel, LayeringVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One layering, in a line."""

    href: str
    name: str
    food: Signed
    to_do: Signed
    trust: Signed


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A glaze with the layerings that begin with it, or that end with it."""

    id: str
    href: str
    mark: str
    name: str
    lines: tuple[Line, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    shown = [verdict for verdict in desk.edition.judged.layerings.values() if has_page(verdict)]
    tested = [verdict for verdict in shown if verdict.evidence.level is not EvidenceLevel.UNTESTED]
    view: dict[str, object] = {
        "lead": desk.text(
            "layerings.lead", written=desk.words.counted("layerings", len(shown)), tested=len(tested)
        ),
        "by_first": _groups(desk, desk.on, "then"),
        "by_top": _groups(desk, desk.over, "first"),
    }
    title = desk.text("layerings.title")
    yield Page(path="layerings.html", template="layerings.html", title=title, view=view, nav="find")


def _groups(desk: Desk, by: Mapping[str, tuple[LayeringVerdict, ...]], side: str) -> tuple[Group, ...]:
    """Glazes by name; under each its layerings by the other glaze's name."""
    glazes = sorted((desk.book.glazes[glaze] for glaze in by), key=_name)
    return tuple(
        Group(
            id=f"{side}-{glaze.id}",
            href=f"glazes/{glaze.id}.html",
            mark=glaze.mark.value,
            name=glaze.name.value,
            lines=tuple(_line(desk, verdict, side) for verdict in _by_other(by[glaze.id], side)),
        )
        for glaze in glazes
    )


def _name(glaze: Glaze) -> tuple[str, str]:
    return (glaze.name.value.casefold(), glaze.id)


def _by_other(verdicts: tuple[LayeringVerdict, ...], side: str) -> list[LayeringVerdict]:
    return sorted(verdicts, key=lambda verdict: _name(verdict.top if side == "then" else verdict.base))


def _line(desk: Desk, verdict: LayeringVerdict, side: str) -> Line:
    """The line, made once for each side."""
    whole = layering_card(desk, verdict)
    to_do = f"{whole.to_do}, {whole.catch_plate}" if whole.catch_plate else whole.to_do
    name = {"then": whole.then, "first": desk.text("lists.over", base=whole.base)}[side]
    return Line(
        href=whole.page,
        name=name,
        food=Signed(key=whole.food_key, mark=sign(whole.food_mark), words=short_food(desk, whole)),
        to_do=Signed(key=whole.movement_key, mark=sign(whole.movement_mark), words=to_do),
        trust=Signed(key=whole.evidence_key, mark=sign(whole.evidence_mark), words=upper_first(whole.evidence)),
    )
