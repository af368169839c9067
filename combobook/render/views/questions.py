"""Questions people ask: a short answer to each, and the page that answers it in full."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from combobook.render.views import drink, kept_off, labels, liners, ran, today
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page

QUESTIONS: tuple[tuple[str, Callable[[Desk], str]], ...] = (
    (drink.PATH, drink.answer),
    (kept_off.PATH, kept_off.answer),
    (liners.PATH, liners.answer),
    (ran.PATH, ran.answer),
    (today.PATH, today.answer),
    (labels.PATH, labels.answer),
)
"""Each page (its words at `site.asking.<name>`) and its answer in a sentence, those for a student first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question with its short answer."""

    href: str
    asks: str
    answer: str


def pages(desk: Desk) -> Iterator[Page]:
    """The list of questions, then each question's own page."""
    yield Page(
        path="questions.html",
        template="questions.html",
        title=desk.text("asking.questions.title"),
        view={"lead": desk.text("asking.questions.lead"), "questions": questions(desk)},
        nav="questions",
    )
    for kind in (drink, kept_off, liners, ran, today, labels):
        yield from kind.pages(desk)


def questions(desk: Desk) -> tuple[Question, ...]:
    """Every question in its order, as the list and the first page show it."""
    return tuple(
        Question(href=path, asks=desk.text(f"asking.{_key(path)}.title"), answer=answer(desk))
        for path, answer in QUESTIONS
    )


def _key(path: str) -> str:
    return path.removesuffix(".html").replace("-", "_")
