"""The book and the poster cut against their floors; called from `parts`."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from unittest.mock import patch

from combobook.edition import Edition
from combobook.render.book.lists import ListView
from tests.bench.clock import plain, seconds, side_by_side, told
from tests.bench.studios import lay_out

DEMO = Path(__file__).parents[2] / "content"


def cut(scratch: Path) -> Iterator[str]:
    """The demo's wall chart over letter against rendering the chart, in time and bytes; and its grey form."""
    from combobook.render.chart import PATH, wall_chart
    from combobook.render.chart.grey import in_grey
    from combobook.render.drawn import Drawn, drawn
    from combobook.render.sheets.poster import PATH as PIECES
    from combobook.render.sheets.poster import poster_cut
    from tests.bench.editions import edition_of

    edition = edition_of(DEMO, scratch / "cache-cut")
    pages: list[Drawn] = []
    whole = wall_chart(edition, then=lambda pdf: pages.append(drawn(pdf)))[0][PATH]
    pieces = poster_cut(edition, pages[0])[0][PIECES]
    floor, ours, grey = side_by_side(
        lambda: wall_chart(edition), lambda: poster_cut(edition, pages[0]), lambda: in_grey(whole), turns=3
    )
    yield told("poster cut of the demo's chart, with its plan", ours, floor, "0.15 at most")
    yield f"  bytes: {len(pieces) / len(whole):.2f} times the chart's (goal 1.1 at most)"
    yield told("grey form of the chart", grey, floor, "no goal of its own")


def book(scratch: Path) -> Iterator[str]:
    """The demo's book a page against a plain page of text; 150, 500 and 1,500 layerings an entry."""
    from combobook.render.book import PATH
    from combobook.render.book import book as bound
    from tests.bench.editions import edition_of

    edition = edition_of(DEMO, scratch / "cache-book")
    pages = _count(bound(edition)[0][PATH])
    plain_pages = _count(_plain(40))
    floor, ours, bare = side_by_side(lambda: _plain(40), lambda: bound(edition), lambda: _unlisted(edition), turns=3)
    yield told("book of the demo, a page, tagged", ours / pages, floor / plain_pages, "2.6 at most")
    yield told("book of the demo with its contents and indexes", ours, bare, "1.15 at most")
    each: dict[int, float] = {}
    for size in (150, 500, 1500):
        lay_out(scratch / f"book-{size}", size)
        grown = edition_of(scratch / f"book-{size}", scratch / "cache-book")
        spent = seconds(lambda grown=grown: bound(grown))  # type: ignore[misc]
        each[size] = spent / (len(grown.judged.glazes) + size)
        yield plain(f"book of {size} layerings", spent)
    yield f"an entry at 1,500: {each[1500] / each[150]:.2f} times an entry at 150 (goal 1.2 at most)"


def _unlisted(edition: Edition) -> object:
    """The book without contents and indexes: what they cost beside it."""
    import combobook.render.book as book
    from combobook.render.book import pages

    def nothing(_: object, anchor: str, title: str, __: object) -> ListView:
        return ListView(anchor=anchor, title=title, pages=())

    with patch.object(pages, "_listed", nothing), patch.object(book, "_indexes", lambda _: ()):
        return book.book(edition)


def _plain(pages: int) -> bytes:
    """So many pages of text by the library alone."""
    from weasyprint import HTML

    words = " ".join(["what a page of plain text says to whoever reads it"] * 65)
    body = "".join(f"<p style='break-after:page'>{words}</p>" for _ in range(pages))
    made = HTML(string=f"<html lang=en><title>t</title>{body}</html>").write_pdf()
    assert isinstance(made, bytes)
    return made


def _count(pdf: bytes) -> int:
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(pdf)).pages)
