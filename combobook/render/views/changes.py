"""What changed since the last edition, and the way to the closed ones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial

from combobook.edition import Edition
from combobook.entries import Status
from combobook.kept import Kept
from combobook.past import Changed, Changes, PastEdition, PastReason, PastVerdict, compare, slug, withdrawn_marks
from combobook.render.snapshot import snapshot
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page

PATH = "changes.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedView:
    """One glaze or layering: what was said, what is said now, and why."""

    href: str
    name: str
    lines: tuple[str, ...]
    """`Food: was … Now …`."""
    came: tuple[str, ...]
    went: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A link with a few words behind it; `href` is "" where there is no page any more."""

    href: str
    name: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ListView:
    """One part of the list of changes."""

    id: str
    title: str
    items: tuple[Named, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangesView:
    """Everything that changed since an edition, finished for a page or a sheet."""

    since: str
    lead: str
    stricter: tuple[ChangedView, ...]
    others: tuple[ChangedView, ...]
    lists: tuple[ListView, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page; of a studio's first edition it says that there is nothing to compare with."""
    view = changes_view(desk.edition)
    closed = tuple(
        Named(href=f"editions/{past.slug}/index.html", name=past.edition, says=_counts(desk.edition, past))
        for past in reversed(desk.book.editions)
    )
    words = desk.words
    title = words("editions.title_since", edition=view.since) if view else words("editions.title")
    yield Page(
        path=PATH, template="changes.html", title=title, view={"changes": view, "closed": closed}, nav="home"
    )  # fmt: skip


def last_closed(edition: Edition) -> PastEdition | None:
    """The edition to compare with: the newest closed one that is not this one."""
    mine = slug(edition.book.studio.edition.value)
    return next((past for past in reversed(edition.book.editions) if past.slug != mine), None)


def renamed(edition: Edition) -> tuple[tuple[str, str], ...]:
    """(file name then, file name now) of glazes that say what they were; none that another glaze is called now."""
    glazes = edition.book.glazes
    return tuple(
        (glaze.was.value, id_)
        for id_, glaze in glazes.items()
        if isinstance(glaze.was.value, str) and glaze.was.value not in glazes
    )


_SINCE: Kept[Changes | None] = Kept()


def changes_since(edition: Edition) -> Changes | None:
    """What changed since the last closed edition; None where there is none."""
    book = edition.book
    given = (book.editions, book.studio, book.glazes, edition.judged, edition.words)
    return _SINCE("since", given, partial(_since, edition))


def _since(edition: Edition) -> Changes | None:
    since = last_closed(edition)
    if since is None:
        return None
    off = frozenset(g.id for g in edition.book.glazes.values() if g.status.value in (Status.OUT, Status.RETIRED))
    return compare(since, snapshot(edition), renamed(edition), off)


def changes_view(edition: Edition) -> ChangesView | None:
    """The same, finished; None where there is nothing to compare with."""
    found, words = changes_since(edition), edition.words
    if found is None:
        return None
    gone = withdrawn_marks(edition.book.withdrawn)
    lists = (
        ("new", tuple(_named(each, each.food) for each in found.new)),
        ("retired", tuple(_named(each, each.status) for each in found.retired)),
        ("renamed", tuple(_named(now, words("editions.was_called", name=was.name)) for was, now in found.renamed)),
        ("gone", tuple(Named(href="", name=each.name, says=each.food) for each in found.gone)),
        ("evidence", tuple(_evidence(edition, each) for each in found.evidence)),
    )
    return ChangesView(
        since=found.since.edition,
        lead=_lead(edition, found),
        stricter=tuple(_changed(edition, each, gone) for each in found.verdicts if each.stricter),
        others=tuple(_changed(edition, each, gone) for each in found.verdicts if not each.stricter),
        lists=tuple(
            ListView(id=key, title=words(f"editions.{key}", n=len(items)), items=items) for key, items in lists if items
        ),
    )


def without(reasons: Iterable[PastReason], gone: frozenset[str]) -> tuple[str, ...]:
    """The sentences that rest on no withdrawn tile."""
    return tuple(reason.says for reason in reasons if not gone & {mark.upper() for mark in reason.tiles})


def _lead(edition: Edition, found: Changes) -> str:
    words, n = edition.words, len(found.verdicts)
    return words("editions.lead" if n else "editions.lead_none", n=words.counted("verdicts", n))


def _changed(edition: Edition, each: Changed, gone: frozenset[str]) -> ChangedView:
    words, before, now = edition.words, each.before, each.now
    lines = []
    if each.food:
        lines.append(words("editions.food", before=_food(edition, before), now=_food(edition, now)))
    if each.movement:
        lines.append(words("editions.running", before=to_do(edition, before), now=to_do(edition, now)))
    said = set(without((*before.food_reasons, *before.movement_reasons), gone))
    return ChangedView(
        href=page_of(now),
        name=now.name,
        lines=tuple(lines),
        came=each.came,
        went=tuple(says for says in each.went if says in said),
    )


def _food(edition: Edition, past: PastVerdict) -> str:
    ware = "" if past.food_ware or past.food_level in ("keep off", "not known") else edition.words("editions.no_ware")
    return f"{past.food}{ware}"


def to_do(edition: Edition, past: PastVerdict) -> str:
    """What to do about running in one line: the instruction, the bare margin where it is another, the catch plate."""
    words = edition.words
    margin = words("editions.margin", margin_up_mm=past.margin_mm)
    short = words("to_do.leave", length=words.short_length(past.margin_mm, "up"))
    plate = words("editions.catch_plate") if past.catch_plate else ""
    return f"{past.to_do}{'' if past.to_do == short else margin}{plate}"


def _evidence(edition: Edition, each: Changed) -> Named:
    says = edition.words("editions.evidence_says", before=each.before.evidence, now=each.now.evidence)
    return Named(href=page_of(each.now), name=each.now.name, says=says)


def _named(past: PastVerdict, says: str) -> Named:
    return Named(href=page_of(past), name=past.name, says=says)


def page_of(past: PastVerdict) -> str:
    """Today's page of a glaze or layering, relative to site/."""
    return f"combinations/{past.id}.html" if past.top else f"glazes/{past.id}.html"


def _counts(edition: Edition, past: PastEdition) -> str:
    words = edition.words
    day = words("not_known") if past.date is None else words.date(past.date)
    return words(
        "editions.closed_counts",
        date=day,
        layerings=words.counted("layerings", len(past.layerings)),
        glazes=words.counted("glazes", len(past.glazes)),
    )
