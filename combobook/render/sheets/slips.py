"""Slips for finished ware: what the book says of this layering, to go home with the piece."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from combobook.edition import Edition
from combobook.entries import Glaze
from combobook.problems import Problem
from combobook.render.cards import food_classes, is_house_never
from combobook.render.cautions import every_in_short
from combobook.render.chart.content import on_chart
from combobook.render.letters import Run, wrapped
from combobook.render.sheets.cut import too_small
from combobook.render.sheets.frame import frame, printed
from combobook.render.sheets.shelf import on_the_shelf, pairs_on_the_shelf
from combobook.render.views.desk import desk
from combobook.render.views.glaze import coats_words as label_coats
from combobook.verdicts import FoodLevel, FoodVerdict, GlazeVerdict, LayeringVerdict
from combobook.wording import Words, coats_words, food_in_full, food_key, order_words, sentence, upper_first

PATH = "print/slips.pdf"
SLIP_HIGH, ACROSS = 71.0, 2
"""mm: a slip; two stand side by side."""
_ABOVE = 6.0
"""mm free above the slips."""
_NARROWEST = 90.0
_INSIDE = 6.0
"""mm: the narrowest slip (A4's is 95), and what its edges take of a line."""
_TITLE, _SIZE, _LINE = 4.0, 2.8, 3.5
_TITLE_LINE, _FOOD_LINE, _NEVER_LINE = 4.6, 4.4, 4.4
_FIXED = 18.5
"""mm: the frame of the verdict, the lines to fill in, the edition, and the air between them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipView:
    """One slip in finished words."""

    title: str
    coats: str
    food: str
    """The class of the frame and its mark."""
    food_words: str
    why: str
    """Of the verdict, or of the house's own rule; empty where there is no room for it."""
    not_for_food: str
    """The words for ornamental ware, or empty."""
    cautions: str
    """What the verdict does not speak of, each in a few words, all that its page says; or empty."""


def slips(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """A first sheet that tells how to use them, then a slip for each glaze on the shelf and each layering on the chart.

    By the mark of the glaze that goes on first: alone, then under each top by its mark.
    """
    words, paper = edition.words, edition.book.studio.paper.value
    furnished = frame(edition, words("slips.title"), paper, key=("food",))
    down, wide = int((furnished.height - _ABOVE) // SLIP_HIGH), furnished.width / ACROSS
    if down < 1 or wide < _NARROWEST:
        return {}, (too_small(edition, "slips.pdf"),)
    return printed(
        edition,
        "print/slips.html",
        path=PATH,
        furnished=furnished,
        styles=("print-slips.css",),
        notes=words.lines("slips.notes"),
        sheets=_sheets(tuple(_slips(edition, wide - _INSIDE)), down),
        piece=words("food.piece"),
        care=words("slips.care"),
        fields=words.lines("slips.fields"),
    )


def _sheets(made: Sequence[SlipView], down: int) -> tuple[tuple[tuple[SlipView, ...], ...], ...]:
    """By sheet, then by row."""
    rows = [tuple(made[start : start + ACROSS]) for start in range(0, len(made), ACROSS)]
    return tuple(tuple(rows[start : start + down]) for start in range(0, len(rows), down))


def _slips(edition: Edition, room: float) -> Iterator[SlipView]:
    shown = [verdict for verdict in pairs_on_the_shelf(edition) if on_chart(verdict)]
    for alone in on_the_shelf(edition):
        yield _slip(edition, alone, room)
        yield from (_slip(edition, verdict, room) for verdict in shown if verdict.base.id == alone.glaze.id)


def _slip(edition: Edition, verdict: GlazeVerdict | LayeringVerdict, room: float) -> SlipView:
    words, never = edition.words, is_house_never(edition)
    key = food_key(verdict.food, never)
    title, coats = _named(edition, verdict)
    food = food_in_full(verdict.food, never, words, one_glaze=isinstance(verdict, GlazeVerdict))
    not_for_food = "" if verdict.food.food_ware else words("slips.not_for_food")
    view = SlipView(
        title=title,
        coats=coats,
        food=food_classes(key, words),
        food_words=food,
        why="",
        not_for_food=not_for_food,
        cautions=_cautions(edition, verdict),
    )
    with_reasons = (replace(view, why=why) for why in _whys(verdict.food, never, words))
    fit = next((slip for slip in with_reasons if _high_in_all(slip, words, room) <= SLIP_HIGH), None)
    return fit or replace(view, title=_by_marks(verdict, words) if coats else title, why=words("slips.see_page"))


def _cautions(edition: Edition, verdict: GlazeVerdict | LayeringVerdict) -> str:
    return " ".join(f"{each}." for each in every_in_short(verdict, edition.book, edition.judged, edition.words))


def _named(edition: Edition, verdict: GlazeVerdict | LayeringVerdict) -> tuple[str, str]:
    """The heading, by marks and names in brushing order, and the coats."""
    words = edition.words
    if isinstance(verdict, GlazeVerdict):
        glaze = verdict.glaze
        return words("slips.alone", glaze=_marked(glaze, words)), upper_first(label_coats(desk(edition), glaze))
    base, top = verdict.base, verdict.top
    title = order_words(_marked(base, words), _marked(top, words), words)
    return title, coats_words(base.name.value, top.name.value, verdict.coats, words) if verdict.coats else ""


def _by_marks(verdict: GlazeVerdict | LayeringVerdict, words: Words) -> str:
    """The heading where names would take the room of the reason; a layering's names stand by its coats."""
    if isinstance(verdict, GlazeVerdict):
        return words("slips.alone", glaze=_marked(verdict.glaze, words))
    return order_words(verdict.base.mark.value, verdict.top.mark.value, words)


def _marked(glaze: Glaze, words: Words) -> str:
    return words("slips.marked", mark=glaze.mark.value, name=glaze.name.value)


def _whys(food: FoodVerdict, never: bool, words: Words) -> Iterator[str]:
    """Every reason as grave as the worst, the first of them alone, then where to look: the slip takes what fits."""
    if never:
        yield ""
        return
    if food.level >= FoodLevel.LABELS_ALLOW and not food.food_ware:
        yield words("slips.house")
    else:
        said = tuple(sentence(reason, words) for reason in food.reasons if reason.severity == food.reasons[0].severity)
        yield " ".join(said)
        yield from said[:1]
    yield words("slips.see_page")


def _high_in_all(view: SlipView, words: Words, room: float) -> float:
    """The height in mm that a slip's words take."""
    return (
        _FIXED
        + _high(view.why, _SIZE, room, _LINE)
        + _high(view.title, _TITLE, room, _TITLE_LINE)
        + _high(view.coats, _SIZE, room, _LINE)
        + _high(view.food_words, 3.4, room - 12, _FOOD_LINE)
        + _high(view.cautions, _SIZE, room, _LINE)
        + _high(view.not_for_food, 3.4, room, _NEVER_LINE)
        + _high(words("food.piece"), _SIZE, room, _LINE)
        + _high(words("slips.care"), _SIZE, room, _LINE)
    )


def _high(text: str, size: float, room: float, line: float) -> float:
    return len(wrapped((Run(text, True),), size, room)) * line if text else 0.0
