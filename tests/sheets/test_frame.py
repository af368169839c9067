"""What stands around every sheet, and the codes that stand on it."""

from __future__ import annotations

import subprocess
import tempfile
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from markupsafe import Markup
from PIL import Image
from pyzbar.pyzbar import decode  # type: ignore[import-untyped]

from combobook.edition import Edition
from combobook.entries import NOT_KNOWN, Written
from combobook.measures import Paper
from combobook.render.letters import capital_height
from combobook.render.qr import coder, numbered_pages, numbers
from combobook.render.sheets.frame import frame, printed
from tests.chart.reading import pages as read_letters
from tests.chart.reading import pieces
from tests.published_demo import demo_edition, demo_files
from tests.sheets.reading import sound

BODY = """{% import "print/frame.html" as frame %}
{{ frame.opened(furnished) }}
<section class="whole-page"><h2>One</h2><p>first words of a page, and then some more of them</p>
<table><thead><tr><th>A</th><th>B</th></tr></thead>
<tbody><tr><th scope="row">x</th><td>y <a href="#two">over there</a></td></tr></tbody></table>
{% for n in range(30) %}<p>line {{ n }} of many</p>{% endfor %}</section>
<section class="whole-page"><h2 id="two">Two</h2><p>words</p></section>
<section class="whole-page"><h2>Three</h2>{{ code }}<p>words</p></section>
{{ frame.closed() }}"""
LETTER = Paper("letter", Fraction("215.9"), Fraction("279.4"))
A4 = Paper("A4", Fraction(210), Fraction(297))
TABLOID = Paper("tabloid", Fraction("279.4"), Fraction("431.8"))


def with_body() -> Edition:
    """The demo with a template of our own before the theme's."""
    folder = Path(tempfile.mkdtemp())
    (folder / "templates/print").mkdir(parents=True)
    (folder / "templates/print/body.html").write_text(BODY)
    made = demo_edition()
    return replace(made, theme=replace(made.theme, folders=(folder, *made.theme.folders)))


def pdf(paper: Paper, code: object = "", **asked: object) -> bytes:
    made = with_body()
    furnished = frame(made, "A sheet", paper, **asked)  # type: ignore[arg-type]
    files, problems = printed(made, "print/body.html", path="print/x.pdf", furnished=furnished, code=code)
    assert problems == ()
    return files["print/x.pdf"]


@pytest.mark.parametrize(
    ("paper", "asked"),
    [
        (LETTER, {}),
        (A4, {"across": True}),
        (TABLOID, {"read_from": Fraction(1250)}),
        (LETTER, {"key": ()}),
        (LETTER, {"key": ("food",), "drawings": "edition.drawings"}),
    ],
)
def test_every_page_has_head_cautions_number_and_is_sound(paper: Paper, asked: dict[str, object]) -> None:
    made = sound(pdf(paper, **asked))
    assert len(made) == 3
    for page in made:
        assert page.text.startswith("A sheet") or "A sheet" in page.text
        assert ("Keep off food" in page.text) == ("food" in asked.get("key", ("food",)))  # type: ignore[operator]
        assert ("Pictures are drawings" in page.text) == ("drawings" in asked)


def test_the_head_is_read_out_once_and_not_on_every_page() -> None:
    told = subprocess.run(
        ["pdfinfo", "-struct-text", "-"], input=pdf(LETTER), capture_output=True, check=True
    ).stdout.decode()
    assert told.count('"A sheet"') == 1
    assert told.count("the stricter wins") == 1
    assert told.index('"A sheet"') < told.index('"One"') < told.index("the stricter wins")
    assert "/Scope /Column" in told
    assert "/Scope /Row" in told


def test_a_posted_sheets_key_can_be_read_from_there() -> None:
    """ISO 9241-3:1992: 16 minutes of arc."""
    (first, *_) = read_letters(pdf(TABLOID, read_from=Fraction(1250)))
    found = [p.capital for p in pieces(first) if p.text.startswith("Keep off food")]
    assert found
    assert min(found) >= capital_height(1250, 16) - 0.005


def test_a_sheet_is_the_same_bytes_twice() -> None:
    assert pdf(LETTER) == pdf(LETTER)


def test_a_code_is_read_back_as_the_pages_address_by_another_reader() -> None:
    """zbar reads what Poppler drew; the code was made by neither."""
    page = next(iter(numbered_pages(demo_edition())))
    code = coder(demo_edition())(page)
    assert code is not None
    made = pdf(LETTER, code=Markup('<div style="width:24mm">{}</div>').format(code.svg))
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["pdftoppm", "-r", "150", "-f", "3", "-png", "-", f"{folder}/p"], input=made, check=True)
        (drawn,) = Path(folder).glob("p*.png")
        found = [each.data.decode() for each in decode(Image.open(drawn))]
    assert found == [f"https://glaze.example/{page}"]


def test_without_an_address_no_page_has_a_code() -> None:
    made = demo_edition()
    studio = made.book.studio
    none = Written(value=NOT_KNOWN, place=studio.address.place, field_line=1, stated=False)
    silent = replace(made, book=replace(made.book, studio=replace(studio, address=none)))
    assert coder(silent)("glazes/any.html") is None


def test_numbers_are_short_of_their_own_and_stay_when_others_come() -> None:
    pages = [f"combinations/x{n}-over-y{n % 7}.html" for n in range(120)]
    given = numbers(pages)
    assert sorted(given) == sorted(pages)
    assert len(set(given.values())) == 120
    assert {len(number) for number in given.values()} == {4}
    assert not any(number.startswith("0") for number in given.values())
    more = numbers([*pages, "glazes/new.html"])
    assert sum(more[page] != number for page, number in given.items()) <= 1


def test_the_page_of_numbers_leads_from_each_to_its_page() -> None:
    page = demo_files()["site/numbers.html"].decode()
    for target, number in numbers(numbered_pages(demo_edition())).items():
        assert f'<li id="n{number}"><a href="{target}"><b>{number}</b>' in page
