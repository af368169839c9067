"""Can I drink from this mug? Plain questions from what is inside and on the lip, to a no or to the label: never a yes.

Each answer is a link to the next question on the page, so that it works on paper too, and without a script.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.entries import Glaze, Unknown
from combobook.render.cards import short_reason
from combobook.render.cautions import clays_that_speak, in_short
from combobook.render.views.asking import (
    Named,
    by_first_then_top,
    glaze_href,
    glazes_by_name,
    name_key,
    question_page,
)
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.glaze import coats_words
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed, layering_card, short_food, sign
from combobook.render.views.verdict import food_sign
from combobook.verdicts import GlazeVerdict, LayeringVerdict

PATH = "drink.html"
NEXT = "#look"
"""Where a glaze or layering leads that this studio lets go where food goes."""
STOPS = ("unknown", "listed", "other", "bare", "piece", "fired", "clay", "coats")
"""Where a question can end with a no; words at `site.asking.drink.stops`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """An answer to a question, and where on the page it leads."""

    to: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A no, and why."""

    id: str
    title: str
    """What leads here."""
    stop: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class First:
    """The layerings that go on, by the glaze that went on first."""

    id: str
    mark: str
    name: str
    first: str
    tops: tuple[Named, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What a label says: yes in one word, or in its own words where somebody copied them."""

    href: str
    name: str
    words: str


def pages(desk: Desk) -> Iterator[Page]:
    """The one page. Where the house makes nothing for food there is nothing to ask."""
    allowed = tuple(each for each in glazes_by_name(desk) if each.food.food_ware)
    facts = {"lip_up_mm": desk.book.studio.lip.value, "cone": desk.book.studio.cone.value}
    view: dict[str, object] = {
        "lead": desk.text("asking.drink.lead"),
        "never": desk.words("food.never.full") if desk.never else "",
        "start": desk.text("asking.drink.start", **facts),
        "start_choices": _choices(desk, "start", ("one", "two", "stop-other", "stop-bare", "stop-unknown")),
        "one": tuple(_go_on(desk, each) for each in allowed),
        "not_one": tuple(_stopped(desk, each) for each in glazes_by_name(desk) if not each.food.food_ware),
        "one_choices": _choices(desk, "one", ("stop-listed", "stop-unknown")),
        "two": _layerings(desk),
        "two_choices": _choices(desk, "two", ("stop-listed", "stop-clay", "stop-unknown")),
        "look": desk.text("asking.drink.look", **facts),
        "look_choices": tuple(
            Choice(to=to, words=desk.text(f"asking.drink.look_choices.{to.replace('-', '_')}", **facts))
            for to in ("stop-piece", "stop-fired", "stop-clay", "stop-coats", "end")
        ),
        "stops": tuple(_stop(desk, key, facts) for key in STOPS),
        "end": desk.words.lines("site.asking.drink.end"),
        "piece": desk.words("food.piece"),
        "quotes": tuple(_quote(desk, each) for each in allowed),
    }
    yield question_page(desk, PATH, view)


def answer(desk: Desk) -> str:
    """The house rule, or that the page finds a no and never says yes."""
    return desk.words("food.never.full") + "." if desk.never else desk.text("asking.drink.answer")


def _choices(desk: Desk, question: str, ways: tuple[str, ...]) -> tuple[Choice, ...]:
    return tuple(
        Choice(to=to, words=desk.text(f"asking.drink.{question}_choices.{to.replace('-', '_')}")) for to in ways
    )


def _stop(desk: Desk, key: str, facts: dict[str, object]) -> Stop:
    return Stop(
        id=f"stop-{key}",
        title=desk.text(f"asking.drink.stops.{key}.title"),
        stop=desk.text("asking.drink.stop"),
        why=desk.text(f"asking.drink.stops.{key}.why", **facts),
    )


def _go_on(desk: Desk, verdict: GlazeVerdict) -> Named:
    glaze = verdict.glaze
    return Named(
        href=NEXT,
        mark=glaze.mark.value,
        name=glaze.name.value,
        note=_with_rim(desk, glaze, coats_words(desk, glaze)),
        food=food_sign(desk, verdict.food, True, short=True),
    )


def _stopped(desk: Desk, verdict: GlazeVerdict) -> Named:
    """A glaze that ends the question, and why in a few words."""
    glaze = verdict.glaze
    why = next((said for said in (short_reason(reason, desk.words) for reason in verdict.food.reasons) if said), "")
    return Named(
        href=glaze_href(glaze),
        mark=glaze.mark.value,
        name=glaze.name.value,
        note=why or desk.text("asking.drink.house"),
        food=food_sign(desk, verdict.food, True, short=True),
    )


def _layerings(desk: Desk) -> tuple[First, ...]:
    """Those that the house lets go where food goes, by first glaze, then by top."""
    firsts: dict[str, list[LayeringVerdict]] = {}
    shown = (each for each in desk.edition.judged.layerings.values() if has_page(each) and each.food.food_ware)
    for verdict in by_first_then_top(shown):
        firsts.setdefault(verdict.base.id, []).append(verdict)
    glazes = sorted((desk.book.glazes[id_] for id_ in firsts), key=name_key)
    return tuple(
        First(
            id=f"first-{glaze.id}",
            mark=glaze.mark.value,
            name=glaze.name.value,
            first=desk.words("coats.first", base=glaze.name.value),
            tops=tuple(_top(desk, each) for each in firsts[glaze.id]),
        )
        for glaze in glazes
    )


def _top(desk: Desk, verdict: LayeringVerdict) -> Named:
    whole = layering_card(desk, verdict)
    return Named(
        href=NEXT,
        mark=verdict.top.mark.value,
        name=whole.then,
        note=". ".join(
            (_with_rim(desk, verdict.top, whole.coats).rstrip("."), *in_short(verdict, desk.edition.judged, desk.words))
        ),
        food=Signed(key=whole.food_key, mark=sign(whole.food_mark), words=short_food(desk, whole)),
        only=_only_on(desk, verdict),
    )


def _only_on(desk: Desk, verdict: LayeringVerdict) -> str:
    """The clays that the line holds for: of another clay the verdict says nothing."""
    clays = clays_that_speak(verdict)
    key = "only_on" if clays else "no_clay"
    return desk.text(f"asking.drink.{key}", clays=desk.words.listed(list(clays)))


def _with_rim(desk: Desk, glaze: Glaze, coats: str) -> str:
    """The coats, and that a glaze for rims was never meant for the whole inside."""
    return f"{coats}. {desk.text('asking.drink.rim_only')}" if glaze.rim_only else coats


def _quote(desk: Desk, verdict: GlazeVerdict) -> Quote:
    glaze = verdict.glaze
    own = glaze.label_says.value
    return Quote(
        href=glaze_href(glaze),
        name=glaze.name.value,
        words=desk.text("asking.drink.no_quote")
        if isinstance(own, Unknown)
        else desk.text("asking.drink.quote", words=own),
    )
