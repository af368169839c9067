"""The studio's own pages: their Markdown, cleaned."""

from __future__ import annotations

from collections.abc import Iterator

from combobook.edition import Edition
from combobook.render.views.desk import desk
from combobook.render.views.page import Page


def pages(edition: Edition) -> Iterator[Page]:
    """One page each, by file name."""
    laid_out = desk(edition)
    for page in edition.book.pages.values():
        path, title = f"pages/{page.id}.html", page.title.value
        view: dict[str, object] = {"prose": laid_out.prose(page.body, "../")}
        yield Page(path=path, template="free.html", title=title, view=view, nav="")
