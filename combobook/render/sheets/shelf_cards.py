"""Shelf cards: one for the jar of each glaze, cut out and stood or stuck by it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import Unknown
from combobook.problems import Problem
from combobook.render.cards import card, food_classes, is_house_never, short_looks, short_reason
from combobook.render.cautions import KIND, asks_first, kept_off_alone
from combobook.render.chart.content import on_chart, other_unit
from combobook.render.chart.lengths import mm
from combobook.render.letters import Run, width, wrapped
from combobook.render.our_kiln import refused, to_do, to_do_key
from combobook.render.qr import Code, coder
from combobook.render.sheets.cut import cut_sheets, fitted, layout, too_small
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.shelf import on_the_shelf, pairs_on_the_shelf
from combobook.render.views.desk import Desk, desk
from combobook.render.views.glaze import coats_words, cone_words, goes_on_words, label_read_words
from combobook.verdicts import FoodLevel, GlazeVerdict, LayeringVerdict
from combobook.wording import food_key, food_lines

PATH = "print/shelf-cards.pdf"
PARTNERS = 3
_PARTNER_LINES = 4
_SMALL, _LINE = 2.8, 4.2
_WIDE, _BESIDE_MARK, _BESIDE_CODE, _PARTNER = 96.0, 68.0, 58.0, 27.0
"""mm of room: a whole line, beside the jar's mark, in a frame beside the code, for a partner's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartnerView:
    """A layering with another glaze, in one line."""

    name: str
    food: tuple[str, ...]
    food_mark: str
    to_do: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfCardView:
    """Finished words and sizes of one card."""

    mark: str
    mark_style: str
    name: tuple[str, ...]
    name_style: str
    facts: str
    looks: tuple[str, ...]
    food: str
    """The class of the frame and its mark."""
    food_words: str
    food_small: str
    movement: str
    to_do: str
    other_unit: str
    goes: tuple[str, ...]
    partners: tuple[PartnerView, ...]
    partners_title: str
    no_partner: str
    code: Code | None
    number: str
    told: str
    """When its label was read, and the edition."""


def shelf_cards(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """A card for each glaze on the shelf, by mark, after a first sheet with the key and the cautions.

    Cards are 102 × 66 mm, as many on a sheet of `paper` as it holds; codes only where the studio has an `address`.
    """
    paper = edition.book.studio.paper.value
    laid = layout(paper)
    if laid is None:
        return {}, (too_small(edition, "shelf-cards.pdf"),)
    words, at = edition.words, desk(edition)
    code, partners = coder(edition), _partners(edition)
    cards = [_card(at, v, partners.get(v.glaze.id, ()), code) for v in on_the_shelf(edition)]
    sheets = cut_sheets(cards, laid)
    return printed(
        edition,
        "print/shelf-cards.html",
        path=PATH,
        furnished=frame(edition, words("shelf_cards.title"), paper, across=laid.across),
        styles=("print-cards.css", "print-shelf-cards.css"),
        sheets=sheets,
        laid=laid,
        strips=tuple(words("edition.sheet", n=sheet.number + 1, m=len(sheets) + 1) for sheet in sheets),
        notes=words.lines("shelf_cards.notes"),
    )


def _partners(edition: Edition) -> Mapping[str, tuple[LayeringVerdict, ...]]:
    """Of each glaze its layerings on the chart: kindest on food, then most tiles and firings, then by name.

    Those that send to the teacher first come after those that do not. A layering that may touch food with a layer that
    by itself may not is left out: the card of that jar would say two things.
    """
    found: dict[str, list[LayeringVerdict]] = {}
    for verdict in pairs_on_the_shelf(edition):
        if on_chart(verdict) and not (verdict.food.level >= KIND and kept_off_alone(verdict, edition.judged)):
            found.setdefault(verdict.base.id, []).append(verdict)
            found.setdefault(verdict.top.id, []).append(verdict)
    return {glaze: tuple(sorted(some, key=lambda v: _order(edition, v, glaze))) for glaze, some in found.items()}


def _order(edition: Edition, verdict: LayeringVerdict, glaze: str) -> tuple[float, int, int, int, str, str]:
    other, seen = verdict.top if verdict.base.id == glaze else verdict.base, verdict.evidence
    level = KIND - 0.5 if _asks(edition, verdict) else verdict.food.level
    return -level, -verdict.food.level, -seen.tiles, -seen.firings, other.name.value.casefold(), verdict.id


def _asks(edition: Edition, verdict: LayeringVerdict) -> bool:
    """It may touch food, and a caution beside that sends to the teacher."""
    kind = verdict.food.level >= KIND and not is_house_never(edition)
    return kind and asks_first(verdict, edition.judged)


def _card(
    at: Desk, verdict: GlazeVerdict, partners: tuple[LayeringVerdict, ...], code: Callable[[str], Code | None]
) -> ShelfCardView:
    words, glaze, movement = at.words, verdict.glaze, verdict.movement
    key, out = food_key(verdict.food, at.never), refused(verdict, at.book)
    mark, found = glaze.mark.value, code(f"glazes/{glaze.id}.html")
    name, size = fitted(glaze.name.value, _BESIDE_MARK, 8.2, 5.2)
    small = _food_small(at, verdict)
    return ShelfCardView(
        mark=mark,
        mark_style=f"font-size:{mm(min(17.0, 24 / width(mark, 1, True)))}",
        name=name,
        name_style=f"font-size:{mm(size)}",
        facts=words("shelf_cards.facts", cone=cone_words(at, glaze), coats=coats_words(at, glaze)),
        looks=_looks(glaze.looks.value, 1 if len(name) > 1 else 2),
        food=food_classes(key, words),
        food_words=" ".join(food_lines(verdict.food, at.never, words, one_glaze=True)),
        food_small=small,
        movement=f"m-{to_do_key(verdict, at.book)[1]}",
        to_do=to_do(verdict, at.book, words),
        other_unit="" if out else other_unit(movement, words),
        goes=_goes(at, verdict),
        partners=_that_fit(_partner(at, v, glaze.id == v.base.id) for v in partners[:PARTNERS]),
        partners_title=words("shelf_cards.partners"),
        no_partner=words("shelf_cards.no_partner"),
        code=found,
        number=words("sheets.number", n=found.number) if found else "",
        told=words("shelf_cards.told", date=label_read_words(at, glaze), edition=at.book.studio.edition.value),
    )


def _looks(looks: str | Unknown, lines: int) -> tuple[str, ...]:
    """In so many lines, else only its first words."""
    if isinstance(looks, Unknown):
        return ()
    folded = _folded(looks, _BESIDE_MARK)
    return folded if len(folded) <= lines else _folded(short_looks(looks), _BESIDE_MARK)[:lines]


def _folded(text: str, room: float) -> tuple[str, ...]:
    return tuple("".join(run.text for run in line) for line in wrapped((Run(text),), _SMALL, room))


def _food_small(at: Desk, verdict: GlazeVerdict) -> str:
    """The worst reason in a few words where there is one; else that a layering has its own verdict."""
    if is_house_never(at.edition):
        return ""
    if verdict.food.level >= FoodLevel.LABELS_ALLOW:
        return at.words("shelf_cards.alone")
    said = (short_reason(reason, at.words) for reason in verdict.food.reasons)
    return next((s for s in said if s and width(s, _SMALL) <= _BESIDE_CODE), at.words("shelf_cards.alone"))


def _goes(at: Desk, verdict: GlazeVerdict) -> tuple[str, ...]:
    """Where it goes, and on a catch plate where it needs one."""
    where = at.words("shelf_cards.goes", where=goes_on_words(at, verdict.glaze))
    if refused(verdict, at.book):
        return _folded(at.words("other_kiln.under"), _BESIDE_CODE)
    plate = at.words("to_do.catch_plate") if verdict.movement.catch_plate else ""
    both = " · ".join(part for part in (where, plate) if part)
    if width(both, _SMALL) <= _BESIDE_CODE:
        return (both,)
    return (*_folded(where, _BESIDE_CODE), *((plate,) if plate else ()))


def _that_fit(partners: Iterable[PartnerView]) -> tuple[PartnerView, ...]:
    """From the first on, as many as have room in all."""
    found: list[PartnerView] = []
    for partner in partners:
        if sum(len(each.food) for each in (*found, partner)) > _PARTNER_LINES:
            break
        found.append(partner)
    return tuple(found)


def _partner(at: Desk, verdict: LayeringVerdict, first: bool) -> PartnerView:
    """With the other glaze's name, or its mark where the name has no room."""
    other = card(at.edition, verdict)
    name = other.then if first else other.over.removeprefix(f"{other.top} ")
    if width(name, _SMALL, True) > _PARTNER:
        whole, short = (other.top, other.top_mark) if first else (other.base, other.base_mark)
        name = name.replace(whole, short)
    lines = " ".join(other.food_lines)
    food = f"{lines}: {other.food_small}" if other.food_key == "lab_report" else lines
    food = at.words("shelf_cards.asks", food=food) if _asks(at.edition, verdict) else food
    room = _WIDE - _PARTNER - 7 - width(other.to_do, _SMALL)
    return PartnerView(name=name, food=_folded(food, room), food_mark=f"m-{other.food_mark}", to_do=other.to_do)
