"""HTML handed to the library: sooner read and dressed, and to the same sheet."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from xml.etree.ElementTree import fromstring

import pytest
from markupsafe import Markup
from weasyprint import HTML
from weasyprint.css import StyleFor
from weasyprint.urls import URLFetcher

from combobook.render.book import PATH, book
from combobook.render.book.pages import book_html, glazes_part, layering_parts
from combobook.render.book.views import _prose
from combobook.render.sheet_html import document_of
from combobook.render.views.desk import desk
from tests.book.forms import with_forms
from tests.published_demo import demo_edition
from tests.sheets.reading import read

BASE = "http://sheet.invalid/"
TEXT = """<html lang="en"><head><title>t</title></head><body><h1>Cups &amp; bowls</h1>
<p>A <b>bold</b> word<br/>and a line. <q>Quoted</q></p><ol><li>one</li><li>two<ul><li>in it</li></ul></li></ol>
<table><thead><tr><th>a</th></tr></thead><tbody><tr><td>b</td></tr></tbody></table><hr/><pre>as  it is</pre></body></html>"""


def pdf(source: Any) -> bytes:
    made: bytes = source.write_pdf(pdf_variant="pdf/ua-1")
    return made


def theirs(text: str = TEXT) -> bytes:
    return pdf(HTML(string=text, base_url=BASE))


@pytest.mark.parametrize("xml", [False, True], ids=["as HTML", "as XML"])
def test_without_notes_the_librarys_defaults_make_the_same_sheet(xml: bool) -> None:
    assert pdf(document_of(TEXT, BASE, URLFetcher(), xml=xml)) == theirs()


def test_what_is_not_well_formed_after_all_is_read_as_html() -> None:
    text = TEXT.replace("<br/>", "<br>")
    assert pdf(document_of(text, BASE, URLFetcher(), xml=True)) == theirs()


def test_no_style_is_worked_out_for_notes_that_nobody_wrote(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    own = StyleFor.set_computed_styles

    def heard(self: Any, element: Any, parent: Any, root: Any = None, pseudo_type: Any = None, **more: Any) -> None:
        asked.append(f"{getattr(element, 'tag', '@page')}::{pseudo_type}")
        own(self, element, parent, root, pseudo_type, **more)

    monkeypatch.setattr(StyleFor, "set_computed_styles", heard)
    pdf(document_of(TEXT, BASE, URLFetcher()))
    markers = {name for name in asked if name.endswith("::marker")}
    assert markers == {"li::marker"}
    assert [name for name in asked if "note" in name and not name.startswith("@page")] == []
    theirs()
    assert any(name == "p::footnote-call" for name in asked)


def test_a_book_is_well_formed_and_reads_right_whatever_its_names_are() -> None:
    """With the letters that XML keeps for itself, also in the studio's name, which stands in the style sheet."""
    edition = with_forms(("Cup & <bowl>", "90"), ('Jar "2"', "120"))
    studio = edition.book.studio
    named = replace(studio, name=replace(studio.name, value='Clay & <Fire> "9"'))
    edition = replace(edition, book=replace(edition.book, studio=named))
    made = desk(edition)
    root = fromstring(book_html(made, "Book", (glazes_part(made), *layering_parts(made)), cover=True).strip())
    names = [p.text for p in root.iter("p") if p.get("class") == "names"]
    assert names[0] == 'Cup & <bowl> \tJar "2"'
    files, problems = book(edition)
    assert problems == ()
    for page in read(files[PATH]):
        assert 'Clay & <Fire> "9" · Edition' in page.text


def test_an_entrys_own_text_is_well_formed() -> None:
    made = desk(demo_edition())
    for part in (glazes_part(made), *layering_parts(made)):
        for entry in part.entries:
            fromstring(f"<div>{entry.prose}</div>")
    html = Markup("<p>one<br>two&nbsp;three</p><hr><p>four</p>")
    assert str(_prose(html)) == "<p>one<br/>two&#160;three</p><hr/><p>four</p>"
