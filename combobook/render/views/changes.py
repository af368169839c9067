"""What changed since the last edition, and the way to the closed ones."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from combobook.edition import Edition
from combobook.entries import Status
from combobook.kept import Kept
from combobook.past import Changed, Changes, PastEdition, PastVerdict, compare, slug, withdrawn_marks
from combobook.render.snapshot import snapshot
from combobook.render.views.changed import WayView, page_of, ways
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.wording import Words

PATH = "changes.html"


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
    ways: tuple[WayView, ...]
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
    shown: dict[str, object] = {"changes": view, "closed": closed, "jumps": _jumps(view, words)}
    yield Page(path=PATH, template="changes.html", title=title, view=shown, nav="home")


def _jumps(view: ChangesView | None, words: Words) -> tuple[Named, ...]:
    """The way to each part of the page, as far as it has any; none where there is nothing to compare with."""
    if view is None:
        return ()
    parts = [*((way.id, way.title) for way in view.ways), *((some.id, some.title) for some in view.lists)]
    parts.append(("closed", words("editions.closed")))
    return tuple(Named(href=f"#{id_}", name=title, says="") for id_, title in parts)


def last_closed(edition: Edition) -> PastEdition | None:
    """The edition to compare with: the newest closed one that is not this one."""
    mine = slug(edition.book.studio.edition.value)
    return next((past for past in reversed(edition.book.editions) if past.slug != mine), None)


def renamed(edition: Edition) -> tuple[tuple[str, str], ...]:
    """(file name then, file name now) of glazes that say what they were; none that another glaze is called now.

    A glaze renamed again says only its last name: closed editions have kept what it was called before that.
    """
    glazes = edition.book.glazes
    found: dict[str, str] = {}
    for id_, glaze in glazes.items():
        if isinstance(glaze.was.value, str):
            for was in (glaze.was.value, *_before(edition, glaze.was.value)):
                if was not in glazes:
                    found.setdefault(was, id_)
    return tuple(found.items())


def _before(edition: Edition, name: str) -> Iterator[str]:
    """What closed editions, the newest first, say that a glaze was called before it had this name."""
    for past in reversed(edition.book.editions):
        was = next((glaze.was for glaze in past.glazes if glaze.id == name), "")
        if was:
            yield was
            name = was


def all_names(edition: Edition) -> Mapping[str, Sequence[str]]:
    """Of every glaze the file name that it has now, and those it had."""
    found = {glaze: [glaze] for glaze in edition.book.glazes}
    for was, now in renamed(edition):
        found[now].append(was)
    return found


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
        ways=ways(edition, found, gone),
        lists=tuple(
            ListView(id=key, title=words(f"editions.{key}", n=len(items)), items=items) for key, items in lists if items
        ),
    )


def _lead(edition: Edition, found: Changes) -> str:
    words, n = edition.words, len(found.verdicts)
    return words("editions.lead" if n else "editions.lead_none", n=words.counted("verdicts", n))


def _evidence(edition: Edition, each: Changed) -> Named:
    says = edition.words("editions.evidence_says", before=each.before.evidence, now=each.now.evidence)
    return Named(href=page_of(each.now), name=each.now.name, says=says)


def _named(past: PastVerdict, says: str) -> Named:
    return Named(href=page_of(past), name=past.name, says=says)


def _counts(edition: Edition, past: PastEdition) -> str:
    words = edition.words
    day = words("not_known") if past.date is None else words.date(past.date)
    return words(
        "editions.closed_counts",
        date=day,
        layerings=words.counted("layerings", len(past.layerings)),
        glazes=words.counted("glazes", len(past.glazes)),
    )
