"""What is asked, and the account that answers it: finished words, which page and terminal only place."""

from __future__ import annotations

from dataclasses import dataclass

from combobook.book import Book
from combobook.entries import FoodRule, Glaze
from combobook.render.said import Verdict
from combobook.verdicts import Judged, LayeringVerdict
from combobook.wording import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A verdict with what it was judged from. `reverse`: the other order; None for one glaze alone."""

    book: Book
    judged: Judged
    verdict: Verdict
    reverse: LayeringVerdict | None
    words: Words

    @property
    def layering(self) -> LayeringVerdict | None:
        """The verdict where it is of two glazes."""
        return self.verdict if isinstance(self.verdict, LayeringVerdict) else None

    @property
    def glazes(self) -> tuple[Glaze, ...]:
        """First to last as they are brushed."""
        verdict = self.verdict
        return (verdict.base, verdict.top) if isinstance(verdict, LayeringVerdict) else (verdict.glaze,)

    @property
    def never(self) -> bool:
        """House rule: nothing made here is for food."""
        return self.book.studio.food_rule.value is FoodRule.NEVER


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A reason in a sentence, what it rests on, and where that stands (`path:line` from the content folder)."""

    says: str
    rests_on: str
    """`The label of Ferry Rust`; empty where the place says enough."""
    at: str
    rule: str
    """The rule's code: for book.json and the terminal, never for a page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One judgement: the verdict in words, its reasons, and what else must be said."""

    key: str
    """`food`, `running`, `places`, `trust`, `tiles`, `fire` or `change`."""
    title: str
    verdict: str
    under: tuple[str, ...]
    """Sentences that belong to the verdict."""
    points: tuple[Point, ...]
    notes: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    """Cautions right under the verdict, one a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """The whole account. `order` says back which glaze goes on first."""

    order: str
    coats: str
    untested: str
    """That all of this comes from labels, as nobody has seen the two glazes together; empty where somebody has."""
    notices: tuple[str, ...]
    """What must be known first: that a glaze is off the shelf, that there is no entry."""
    parts: tuple[Part, ...]
    other_way: str
    """The other order in one line; empty for one glaze alone."""
    cautions: tuple[str, ...]
