"""How a sheet becomes bytes: the library's own, but for how hard they are pressed."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from typing import Any

import pydyf  # type: ignore[import-untyped]
import pytest
from pypdf import PdfReader
from weasyprint import HTML  # type: ignore[import-untyped]

from combobook.render import written
from combobook.render.written import written_here

PAGES = 12
WORDS = "".join(f"<h2 id=p{n} style='break-before:page'>Page {n}</h2><p><a href='#p0'>back</a> to the first" for n in range(PAGES))


@cache
def laid_out() -> Any:
    return HTML(string=f"<html lang=en><title>t</title>{WORDS}</html>").render(pdf_variant="pdf/ua-1")


def theirs() -> bytes:
    made: bytes = laid_out().write_pdf(pdf_variant="pdf/ua-1")
    return made


def ours() -> bytes:
    with written_here():
        return theirs()


def test_at_the_librarys_own_level_the_bytes_are_the_librarys_own(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(written, "LEVEL", 9)
    assert ours() == theirs()


def test_at_our_level_a_reader_finds_the_same_objects() -> None:
    ours_read, theirs_read = PdfReader(BytesIO(ours())), PdfReader(BytesIO(theirs()))
    assert len(ours_read.pages) == len(theirs_read.pages) == PAGES
    for one, other in zip(ours_read.pages, theirs_read.pages, strict=True):
        assert one.get_contents().get_data() == other.get_contents().get_data()  # type: ignore[union-attr]
    count = theirs_read.trailer["/Size"]
    assert ours_read.trailer["/Size"] == count
    assert len(ours()) != len(theirs())


def test_the_librarys_class_is_its_own_again_afterwards_even_where_writing_fails() -> None:
    before = pydyf.PDF
    with pytest.raises(ValueError, match="stopped"), written_here():
        assert pydyf.PDF is not before
        raise ValueError("stopped")
    assert pydyf.PDF is before


def test_pages_that_are_added_later_are_known() -> None:
    with written_here():
        pdf = pydyf.PDF()
    for count in range(1, 4):
        page = pydyf.Dictionary({"Type": "/Page"})
        pdf.add_page(page)
        assert len(pdf.page_references) == count
        assert pdf.page_references[-1] == page.reference


def test_references_to_pages_are_made_out_once_and_not_for_each_tag(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[int] = []
    own = pydyf.PDF.page_references.fget
    monkeypatch.setattr(pydyf.PDF, "page_references", property(lambda pdf: (asked.append(1), own(pdf))[1]))
    ours()
    assert len(asked) == 1
    theirs()
    assert len(asked) > 5 * PAGES
