"""Addresses of glazes that were renamed: each keeps its page, which says where to find it now."""

from __future__ import annotations

from collections.abc import Iterator

from combobook.render.views.changes import all_names, renamed
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.page import Page


def pages(desk: Desk) -> Iterator[Page]:
    """One for the glaze, one for each of its layerings, at the addresses they had."""
    glazes = desk.book.glazes
    names = all_names(desk.edition)
    for was, now in renamed(desk.edition):
        yield _page(desk, f"glazes/{was}.html", f"glazes/{now}.html", glazes[now].name.value, "glazes")
    for verdict in desk.edition.judged.layerings.values():
        if not has_page(verdict):
            continue
        name = desk.words("coats.over", base=verdict.base.name.value, top=verdict.top.name.value)
        for base in names[verdict.base.id]:
            for top in names[verdict.top.id]:
                id_ = f"{top}-over-{base}"
                if id_ != verdict.id:
                    path, page = f"combinations/{id_}.html", f"combinations/{verdict.id}.html"
                    yield _page(desk, path, page, name, "layerings")


def _page(desk: Desk, path: str, href: str, name: str, nav: str) -> Page:
    return Page(
        path=path,
        template="moved.html",
        title=desk.words("editions.moved_title", name=name),
        view={"href": href, "name": name},
        nav=nav,
    )
