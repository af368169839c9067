"""The studio's own pages: their Markdown, cleaned."""

from __future__ import annotations

from collections.abc import Iterator

from combobook.render.views.desk import Desk
from combobook.render.views.page import Page


def pages(desk: Desk) -> Iterator[Page]:
    """One page each, by file name."""
    for page in desk.book.pages.values():
        path, title = f"pages/{page.id}.html", page.title.value
        view: dict[str, object] = {"prose": desk.prose(page.body, "../")}
        yield Page(path=path, template="free.html", title=title, view=view, nav="")
