"""Closed editions, page by page as they were bound; each page says what replaced it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from combobook.past import PastEdition, PastReason, PastVerdict, withdrawn_marks
from combobook.render.views.changed import page_of, to_do, without
from combobook.render.views.changes import Named, all_names, renamed
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.page import Page


@dataclass(frozen=True, slots=True, kw_only=True)
class Replaced:
    """What stands at the head of every page of a closed edition."""

    says: str
    href: str
    """Today's page of the same thing, relative to site/; "" where there is none."""
    link: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a closed edition said under one heading."""

    title: str
    says: str
    reasons: tuple[str, ...]
    left_out: str
    """That a reason is left out, as its tile was withdrawn; else empty."""


def pages(desk: Desk) -> Iterator[Page]:
    """Every closed edition: its list, and a page for each glaze and layering."""
    editions = desk.book.editions
    today = _today(desk)
    for n, past in enumerate(editions):
        next_one = editions[n + 1].edition if n + 1 < len(editions) else desk.book.studio.edition.value
        replaced = desk.words("editions.replaced", edition=past.edition, by=next_one)
        yield _list(desk, past, replaced)
        for verdict in (*past.glazes, *past.layerings):
            yield _page(desk, past, verdict, replaced, today)


def _today(desk: Desk) -> dict[str, str]:
    """Of every glaze and layering that has a page today, its page by its id, by earlier ids too."""
    edition = desk.edition
    found = {id_: f"glazes/{id_}.html" for id_ in edition.book.glazes}
    shown = [v for v in edition.judged.layerings.values() if has_page(v)]
    names = all_names(edition)
    for was, now in renamed(edition):
        found[was] = f"glazes/{now}.html"
    for verdict in shown:
        for base in names[verdict.base.id]:
            for top in names[verdict.top.id]:
                found.setdefault(f"{top}-over-{base}", f"combinations/{verdict.id}.html")
    return found


def _list(desk: Desk, past: PastEdition, replaced: str) -> Page:
    words = desk.words
    rows = tuple(
        {
            "href": page_of(each),
            "name": each.name,
            "food": each.food,
            "to_do": to_do(desk.edition, each),
            "evidence": each.evidence,
        }
        for each in past.layerings
    )
    glazes = tuple(Named(href=page_of(each), name=each.name, says=each.food) for each in past.glazes)
    return Page(
        path=f"editions/{past.slug}/index.html",
        template="past-list.html",
        title=words("editions.past_title", edition=past.edition),
        view={
            "replaced": Replaced(says=replaced, href="index.html", link=words("editions.to_today")),
            "here": f"editions/{past.slug}/",
            "rows": rows,
            "glazes": glazes,
            "dated": "" if past.date is None else words("editions.past_dated", date=words.date(past.date)),
        },
        nav="home",
    )


def _page(desk: Desk, past: PastEdition, verdict: PastVerdict, replaced: str, today: dict[str, str]) -> Page:
    words, now = desk.words, today.get(verdict.id, "")
    link = words("editions.to_page", name=verdict.name) if now else words("editions.no_page", name=verdict.name)
    gone = withdrawn_marks(desk.book.withdrawn)
    return Page(
        path=f"editions/{past.slug}/{page_of(verdict)}",
        template="past.html",
        title=words("editions.past_page", name=verdict.name, edition=past.edition),
        view={
            "name": verdict.name,
            "order": verdict.order,
            "replaced": Replaced(says=replaced, href=now, link=link),
            "list_href": f"editions/{past.slug}/index.html",
            "list_words": words("editions.past_title", edition=past.edition),
            "told": (
                _told(desk, "food", verdict.food, verdict.food_reasons, gone),
                _told(desk, "movement", to_do(desk.edition, verdict), verdict.movement_reasons, gone),
                Told(title=words("editions.past.evidence"), says=verdict.evidence, reasons=(), left_out=""),
            ),
            "places": verdict.places,
        },
        nav="home",
    )


def _told(desk: Desk, key: str, says: str, reasons: tuple[PastReason, ...], gone: frozenset[str]) -> Told:
    kept = without(reasons, gone)
    left = desk.words("editions.past.left_out") if len(kept) < len(reasons) else ""
    return Told(title=desk.words(f"editions.past.{key}"), says=says, reasons=kept, left_out=left)
