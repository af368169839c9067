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
from enum import Enum

from combobook.problems import Place

FORMAT = 1
"""Of editions/<slug>.json; a file of another one was written by another version of the program."""
MEND = "editions/ is written by the program: take the file back from a copy, or move it away"
"""What to do about a file there that cannot be read."""


_LONGEST = 80
"""Letters of a file's name that hold on every system, with what is put before and behind it."""


def slug(name: str) -> str:
    """An edition's name as a file is called: `2026 Autumn` is `2026-autumn`. Never empty, never too long for a file."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower())[:_LONGEST].strip("-") or "edition"


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
    was: str = ""
    """Of one glaze, the file name that it had before, as it said then; files of earlier versions do not have it."""


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


class Way(Enum):
    """Which way a verdict went; something of it worse and something better is stricter."""

    STRICTER = "stricter"
    KINDER = "kinder"
    OTHERWISE = "otherwise"
    """Nothing is worse or better, but it is said in other words, or in another unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedPart:
    """What differs in one verdict, that on food or that on running."""

    way: Way
    came: tuple[str, ...]
    """Reasons that the earlier edition did not give."""
    went: tuple[str, ...]
    """Reasons that today's book does not give."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """One glaze or layering that both editions have, and what differs."""

    before: PastVerdict
    now: PastVerdict
    food: ChangedPart | None
    """None where it is what it was, as of running."""
    movement: ChangedPart | None
    evidence: bool

    @property
    def stricter(self) -> bool:
        """Whether last term's chart is kinder than today's book: that card can hurt somebody."""
        return any(part is not None and part.way is Way.STRICTER for part in (self.food, self.movement))

    @property
    def verdict(self) -> bool:
        """Whether what people must do has changed."""
        return self.food is not None or self.movement is not None


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
    return Changed(
        before=before,
        now=now,
        food=_food_part(before, now),
        movement=_movement_part(before, now),
        evidence=(before.evidence_level, before.tiles, before.firings) != (now.evidence_level, now.tiles, now.firings),
    )


def _food_part(before: PastVerdict, now: PastVerdict) -> ChangedPart | None:
    way = _way(_food_badness(before), _food_badness(now))
    if way is Way.OTHERWISE:
        return None
    return _part(way, before.food_reasons, now.food_reasons)


def _movement_part(before: PastVerdict, now: PastVerdict) -> ChangedPart | None:
    way = _way(_movement_badness(before), _movement_badness(now))
    if way is Way.OTHERWISE and before.to_do == now.to_do:
        return None
    return _part(way, before.movement_reasons, now.movement_reasons)


def _part(way: Way, before: Iterable[PastReason], now: Iterable[PastReason]) -> ChangedPart:
    said, says = ({reason.says: None for reason in reasons} for reasons in (before, now))
    return ChangedPart(
        way=way,
        came=tuple(each for each in says if each not in said),
        went=tuple(each for each in said if each not in says),
    )


def _worst_first(each: Changed) -> tuple[int, str]:
    return (0 if each.stricter else 1, each.now.name)


_FOOD = ("keep off", "not known", "labels allow", "lab report")
_CLASS = ("stable", "moves", "runny")
_NO_REACH = 1_000_000


def _way(before: tuple[int, ...], now: tuple[int, ...]) -> Way:
    """Stricter where anything is worse than it was: whoever goes by the earlier edition then does too little."""
    if any(was < is_now for was, is_now in zip(before, now, strict=True)):
        return Way.STRICTER
    return Way.OTHERWISE if before == now else Way.KINDER


def _food_badness(past: PastVerdict) -> tuple[int, ...]:
    """Each thing that can be worse, larger where it is."""
    return -_FOOD.index(past.food_level), not past.food_ware


def _movement_badness(past: PastVerdict) -> tuple[int, ...]:
    return (
        _CLASS.index(past.movement_class),
        past.margin_mm,
        -(_NO_REACH if past.reach_mm is None else past.reach_mm),
        past.off_walls,
        past.catch_plate,
    )
