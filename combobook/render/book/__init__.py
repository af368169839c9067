"""The book: every glaze and layering with its picture, where it may go and why, every cross-reference a page number.

Up to MOST entries it is one tagged document. A larger one is a book of glazes with contents and index, and volumes of
layerings by first glaze: PDFs lose their tags when they are joined, and one document of thousands of entries takes
minutes. Volumes are made side by side, then the book itself, which knows their page numbers by then.
"""

from __future__ import annotations

from collections.abc import Mapping

from combobook.edition import Edition
from combobook.problems import Problem
from combobook.render.book.bind import Job, bind, bind_all
from combobook.render.book.lists import by_first, by_mark, by_tile, by_top
from combobook.render.book.pages import Part, book_html, glazes_part, layering_parts
from combobook.render.book.views import together
from combobook.render.book.volumes import volumes
from combobook.render.views.desk import Desk, desk

PATH = "print/book.pdf"
MOST = 400
"""Entries in one document."""
A_VOLUME = 250
"""Entries in a volume, about; a document takes up to 0.75 MB of memory an entry while it is made."""


def book(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """`print/book.pdf`; of more than MOST entries also `print/book-1.pdf` and so on, one a volume of layerings."""
    laid_out = desk(edition)
    glazes, parts = glazes_part(laid_out), layering_parts(laid_out)
    entries = len(glazes.entries) + sum(len(part.entries) for part in parts)
    if entries <= MOST:
        return _one(laid_out, glazes, parts)
    return _in_volumes(laid_out, glazes, parts)


def _indexes(made: Desk) -> tuple[tuple[str, tuple[object, ...]], ...]:
    return (
        ("by_first", tuple(by_first(made))),
        ("by_top", tuple(by_top(made))),
        ("by_mark", tuple(by_mark(made))),
        ("by_tile", tuple(by_tile(made))),
    )


def _one(made: Desk, glazes: Part, parts: tuple[Part, ...]) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    title = made.words("book.title", cone=str(made.book.studio.cone.value))
    html = book_html(made, title, (glazes, *parts), cover=True, indexes=_indexes(made))
    files = together(part.files for part in (glazes, *parts))
    bound = bind(Job(html=html, theme=made.edition.theme, files=files, path=PATH))
    return {PATH: bound.pdf}, bound.problems


def _in_volumes(made: Desk, glazes: Part, parts: tuple[Part, ...]) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    words, jobs = made.words, []
    held = volumes(parts, A_VOLUME)
    for n, some in enumerate(held, 1):
        span = words("book.span", first=some[0].short, last=some[-1].short) if len(some) > 1 else some[0].short
        title = words("book.volume", n=n, span=span)
        files = together(part.files for part in some)
        html = book_html(made, title, some, cover=False, elsewhere=True)
        jobs.append(Job(html=html, theme=made.edition.theme, files=files, path=f"print/book-{n}.pdf"))
    bound = bind_all(jobs)
    known = {
        anchor: words("book.in_volume", n=n, page=page)
        for n, each in enumerate(bound, 1)
        for anchor, page in each.pages.items()
    }
    title = words("book.title", cone=str(made.book.studio.cone.value))
    html = book_html(made, title, (glazes,), cover=True, indexes=_indexes(made), known=known, volumes=len(held))
    first = bind(Job(html=html, theme=made.edition.theme, files=glazes.files, path=PATH))
    made_files = {job.path: each.pdf for job, each in zip(jobs, bound, strict=True)}
    return {PATH: first.pdf, **made_files}, tuple(p for each in (first, *bound) for p in each.problems)
