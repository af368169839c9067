"""Closed editions as they were bound, what was withdrawn since, and what changed. Leaf module.

A bound edition keeps words, not judgements to be made again: its pages say what they said then, whatever the rules and
the words are today.
"""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from combobook.problems import Place

FORMAT = 1
"""Of editions/<slug>.json; a file of another one was written by another version of the program."""
MEND = "editions/ is written by the program: take the file back from a copy, or move it away"
"""What to do about a file there that cannot be read."""


def slug(name: str) -> str:
    """An edition's name as a file is called: `2026 Autumn` is `2026-autumn`. Never empty."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-") or "edition"


@dataclass(frozen=True, slots=True, kw_only=True)
class PastReason:
    """A reason as the page gave it, and the marks of the tiles it rests on."""

    says: str
    tiles: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastPlace:
    """Where the top might go on a form, in words."""

    form: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PastVerdict:
    """What an edition said of one glaze alone or of a layering."""

    id: str
    """Of a glaze its file name, of a layering `<top>-over-<base>`."""
    base: str
    """Ids; `top` is "" for one glaze alone."""
    top: str
    name: str
    """`Pond Lantern over Ferry Rust`, or the glaze's name."""
    order: str
    """Coats in words, base first; "" where none were judged."""
    marks: tuple[str, ...]
    status: str
    """Of one glaze, in words; "" of a layering."""
    food_level: str
    """The contract's word, so that any two editions compare."""
    food_ware: bool
    food: str
    food_reasons: tuple[PastReason, ...]
    movement_class: str
    to_do: str
    catch_plate: bool
    margin_mm: int
    reach_mm: int | None
    off_walls: bool
    """It had no place on any wall."""
    movement_reasons: tuple[PastReason, ...]
    evidence_level: str
    tiles: int
    firings: int
    evidence: str
    places: tuple[PastPlace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastEdition:
    """A whole edition, closed (or, to compare with, today's). Glazes and layerings by id."""

    slug: str
    studio: str
    edition: str
    date: dt.date | None
    cone: str
    glazes: tuple[PastVerdict, ...]
    layerings: tuple[PastVerdict, ...]

    @property
    def order(self) -> tuple[dt.date, str]:
        """Earlier and later: by date, then name."""
        return (self.date or dt.date.min, self.slug)


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn:
    """A tile that somebody took out of the book and of every edition."""

    tile: str
    """As the author wrote it; compared without regard to letter case."""
    place: Place


def withdrawn_marks(withdrawn: Iterable[Withdrawn]) -> frozenset[str]:
    """In capitals, as tiles are compared."""
    return frozenset(each.tile.upper() for each in withdrawn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """One glaze or layering that both editions have, and what differs."""

    before: PastVerdict
    now: PastVerdict
    food: bool
    movement: bool
    evidence: bool
    came: tuple[str, ...]
    """Reasons that the earlier edition did not give."""
    went: tuple[str, ...]
    """Of what differs: of food where food does, of running where that does."""

    @property
    def stricter(self) -> bool:
        """Whether last term's chart is kinder than today's book: that card can hurt somebody."""
        return _stricter(self.before, self.now)

    @property
    def verdict(self) -> bool:
        """Whether what people must do has changed."""
        return self.food or self.movement


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """From one edition to the next: verdicts first, then what is new or gone, then evidence."""

    since: PastEdition
    verdicts: tuple[Changed, ...]
    new: tuple[PastVerdict, ...]
    gone: tuple[PastVerdict, ...]
    renamed: tuple[tuple[PastVerdict, PastVerdict], ...]
    """One glaze before and now."""
    retired: tuple[PastVerdict, ...]
    """Glazes on the shelf then, retired or out now."""
    evidence: tuple[Changed, ...]


def compare(
    since: PastEdition, now: PastEdition, renamed: Sequence[tuple[str, str]], off_shelf: frozenset[str]
) -> Changes:
    """What changed from `since` to `now`.

    `renamed` gives (id then, id now) of glazes; `off_shelf` the ids of glazes that are retired or out today.
    Verdicts that became stricter come first, then those that became kinder, each by name.
    """
    names = dict(renamed)
    then = {_id_now(each, names): each for each in (*since.glazes, *since.layerings)}
    today = {each.id: each for each in (*now.glazes, *now.layerings)}
    both = [_changed(then[id_], today[id_]) for id_ in then if id_ in today]
    glazes_then = {names.get(each.id, each.id): each for each in since.glazes}
    return Changes(
        since=since,
        verdicts=tuple(sorted((each for each in both if each.verdict), key=_worst_first)),
        new=tuple(each for id_, each in today.items() if id_ not in then),
        gone=tuple(each for id_, each in then.items() if id_ not in today),
        renamed=tuple(
            (glazes_then[new], today[new]) for old, new in renamed if new in glazes_then and glazes_then[new].id == old
        ),
        retired=tuple(
            today[id_] for id_, each in glazes_then.items() if id_ in today and id_ in off_shelf and _was_on_shelf(each)
        ),
        evidence=tuple(sorted((each for each in both if each.evidence and not each.verdict), key=lambda c: c.now.name)),
    )


def _id_now(each: PastVerdict, names: dict[str, str]) -> str:
    base, top = names.get(each.base, each.base), names.get(each.top, each.top)
    return f"{top}-over-{base}" if top else base


def _was_on_shelf(each: PastVerdict) -> bool:
    return each.status not in ("out", "retired")


def _changed(before: PastVerdict, now: PastVerdict) -> Changed:
    food = (before.food_level, before.food_ware) != (now.food_level, now.food_ware)
    movement = _badness(before)[2:] != _badness(now)[2:] or before.to_do != now.to_do
    said, says = _reasons(before, food, movement), _reasons(now, food, movement)
    return Changed(
        before=before,
        now=now,
        food=food,
        movement=movement,
        evidence=(before.evidence_level, before.tiles, before.firings) != (now.evidence_level, now.tiles, now.firings),
        came=tuple(each for each in says if each not in said),
        went=tuple(each for each in said if each not in says),
    )


def _reasons(past: PastVerdict, food: bool, movement: bool) -> tuple[str, ...]:
    reasons = (*(past.food_reasons if food else ()), *(past.movement_reasons if movement else ()))
    return tuple(dict.fromkeys(reason.says for reason in reasons))


def _worst_first(each: Changed) -> tuple[int, str]:
    return (0 if each.stricter else 1, each.now.name)


_FOOD = ("keep off", "not known", "labels allow", "lab report")
_CLASS = ("stable", "moves", "runny")
_NO_REACH = 1_000_000


def _stricter(before: PastVerdict, now: PastVerdict) -> bool:
    """Whether anything is worse than it was: whoever goes by the earlier edition then does too little."""
    return any(was < is_now for was, is_now in zip(_badness(before), _badness(now), strict=True))


def _badness(past: PastVerdict) -> tuple[int, ...]:
    """Each thing that can be worse, larger where it is."""
    return (
        -_FOOD.index(past.food_level),
        not past.food_ware,
        _CLASS.index(past.movement_class),
        past.margin_mm,
        -(_NO_REACH if past.reach_mm is None else past.reach_mm),
        past.off_walls,
        past.catch_plate,
    )
