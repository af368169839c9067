"""Looking over an edition before it is put in place."""

from __future__ import annotations

from html.parser import HTMLParser
from io import BytesIO

import html5lib
import pytest
from pypdf import PdfWriter

from combobook.check_output import check_output
from combobook.markup import read_markup

HEAD = '<!doctype html>\n<html lang="en"><head><title>Pond</title></head>\n<body><h1>Pond</h1>\n'


def page(body: str) -> bytes:
    return f"{HEAD}{body}\n</body></html>".encode()


def found(files: dict[str, bytes]) -> list[str]:
    return [f"{p.place.path}:{p.place.line}:{p.place.column} {p.code}: {p.message}" for p in check_output(files)]


def a_sheet(pages: int) -> bytes:
    writer, out = PdfWriter(), BytesIO()
    for _ in range(pages):
        writer.add_blank_page(100, 100)
    writer.write(out)
    return out.getvalue()


def test_a_sound_edition_has_nothing_to_report() -> None:
    files = {
        "site/index.html": page(
            '<a href="glazes/attic-moth.html#tiles">Moth</a> <a href="#here" id="here">here</a>'
            '<a href="../print/wall-chart.pdf">chart</a> <a href="https://example.org/x">a book</a>'
            '<a href="mailto:room@example.org">ask</a> <img src="p/a%20b.jpg" srcset="p/a%20b.jpg 1x, p/c.jpg 2x" alt="">'
            '<link rel="stylesheet" href="style.css?v=1"><script src="order.js"></script>'
            '<svg aria-label="x"><use href="marks.svg#bowl"></use></svg>'
            '<a href="glazes/attic-moth.html"><img src="p/c.jpg" alt="a tile"></a>'
        ),
        "site/glazes/attic-moth.html": page('<h2 id="tiles">Tiles</h2><a href="../index.html">up</a>'),
        "site/style.css": b"/* url(gone.png) */ @font-face { src: url('face.woff2') } a { background: url(data:,x) }",
        "site/face.woff2": b"wOF2",
        "site/order.js": b"'use strict'",
        "site/marks.svg": b'<svg><symbol id="bowl"></symbol></svg>',
        "site/p/a b.jpg": b"jpeg",
        "site/p/c.jpg": b"jpeg",
        "print/wall-chart.pdf": a_sheet(1),
    }
    assert found(files) == []


@pytest.mark.parametrize(
    ("body", "problem"),
    [
        ('<a href="gone.html">x</a>', "dead-link: `gone.html` leads to a file that is not in this edition"),
        ('<a href="glazes/">x</a>', "dead-link: `glazes/` leads to a file that is not in this edition"),
        ('<a href="index.html#gone">x</a>', "dead-link: `index.html#gone` leads to a place that site/index.html does not have"),
        ('<a href="#gone">x</a>', "dead-link: `#gone` leads to a place that site/index.html does not have"),
        ('<a href="/index.html">x</a>', "dead-link: `/index.html` begins at the top of a machine, not at this page"),
        ('<a href="//example.org/">x</a>', "dead-link: `//example.org/` begins at the top of a machine, not at this page"),
        ('<a href="">x</a>', "dead-link: `` leads nowhere: the link is empty"),
        ('<a href="javascript:x()">x</a>', "dead-link: `javascript:x()` is no link that a page may have"),
        ('<a href="file:///etc/passwd">x</a>', "dead-link: `file:///etc/passwd` is no link that a page may have"),
        ('<img src="gone.jpg" alt="x">', "dead-link: `gone.jpg` leads to a file that is not in this edition"),
        ('<img srcset="gone.jpg 2x" alt="x">', "dead-link: `gone.jpg` leads to a file that is not in this edition"),
        ('<p style="background: url(gone.png)">x</p>', "dead-link: `gone.png` leads to a file that is not in this edition"),
        ('<style>@import "gone.css";</style>', "dead-link: `gone.css` leads to a file that is not in this edition"),
        (
            '<script src="https://example.org/x.js"></script>',
            "loads-from-elsewhere: `https://example.org/x.js` loads from elsewhere: a page needs nothing but its own files",
        ),
        (
            '<link rel="stylesheet" href="http://example.org/x.css">',
            "loads-from-elsewhere: `http://example.org/x.css` loads from elsewhere: a page needs nothing but its own files",
        ),
        ('<h1>Again</h1>', "page-without-one-heading: expected one main heading (h1) on the page, got 2"),
        ('<i id="a"></i><i id="a"></i>', "doubled-id: the id `a` stands on the page twice"),
        ('<a href="index.html"><i></i> </a>', "missing-words: a link has no words"),
        ('<img src="index.html">', "missing-words: a picture has no words"),
        (
            "<p>&lt;Unknown.NOT_KNOWN: &#39;not known&#39;&gt;</p>",
            "missing-words: a value stands here as the program writes it: `&lt;Unknown.NOT_KNOWN: &#39;`",
        ),
    ],
)
def test_one_fault_on_a_page_is_reported_once_at_its_place(body: str, problem: str) -> None:
    [only] = found({"site/index.html": page(body)})
    place, _, rest = only.partition(" ")
    assert rest == problem
    assert place.startswith("site/index.html:4:")


def test_a_place_counts_lines_and_columns_from_one() -> None:
    [only] = check_output({"site/index.html": page('<p>\n  é <a href="gone.html">x</a>')})
    assert (only.place.line, only.place.column) == (5, 5)


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("<html><head><title>x</title></head><body><h1>x</h1></body></html>", ["page-without-language"]),
        ('<html lang=""><head><title>x</title></head><body><h1>x</h1></body></html>', ["page-without-language"]),
        ('<html lang="en"><head><title> </title></head><body><h1>x</h1></body></html>', ["page-without-title"]),
        (
            '<html lang="en"><head></head><body><h1>x</h1><svg><title>mark</title></svg></body></html>',
            ["page-without-title"],
        ),
        ('<html lang="en"><head><title>x</title></head><body></body></html>', ["page-without-one-heading"]),
        ('<html lang="en"><head><title>x</title></head><body><h1> </h1></body></html>', ["missing-words"]),
    ],
)
def test_a_page_says_its_language_title_and_heading(text: str, codes: list[str]) -> None:
    assert [p.code for p in check_output({"site/index.html": text.encode()})] == codes


def test_a_dead_link_that_every_page_repeats_is_one_problem() -> None:
    files = {f"site/glazes/g{n}.html": page('<a href="../gone.html">x</a>') for n in range(3)}
    assert found(files) == [
        "site/glazes/g0.html:4:1 dead-link: `../gone.html` leads to a file that is not in this edition (and on 2 more pages)"
    ]


def test_what_a_style_sheet_loads_is_followed_too() -> None:
    assert found({"site/a/style.css": b"a { }\nb { background: url(../gone.png) }"}) == [
        "site/a/style.css:2:17 dead-link: `../gone.png` leads to a file that is not in this edition"
    ]


@pytest.mark.parametrize(
    ("one", "other"), [("site/A.html", "site/a.html"), ("site/caf\u00e9.html", "site/cafe\u0301.html")]
)
def test_two_files_that_some_machines_take_for_one_are_reported(one: str, other: str) -> None:
    codes = [p.code for p in check_output({one: page(""), other: page("")})]
    assert codes == ["two-files-at-one-path"]


def test_a_file_where_a_folder_must_be_is_reported() -> None:
    assert found({"data/x": b"1", "data/X/y": b"2"}) == [
        "data/x:1:1 two-files-at-one-path: a file stands where data/X/y needs a folder"
    ]


@pytest.mark.parametrize("sheet", [b"%PDF-1.7\n%%EOF", b"not a sheet", a_sheet(0), a_sheet(1)[:200]])
def test_a_sheet_without_a_page_is_reported(sheet: bytes) -> None:
    assert [p.code for p in check_output({"print/wall-chart.pdf": sheet})] == ["sheet-without-pages"]


def test_an_empty_file_is_reported_once() -> None:
    assert [p.code for p in check_output({"print/wall-chart.pdf": b"", "data/x.csv": b""})] == ["empty-file"] * 2


TRICKY = [
    HEAD + """<p title="a > b" data-x='<a href="no">'>x</p><!-- <a href="no">x</a> --></body></html>""",
    HEAD + "<script>if (a < b) { '<a href=no>' }</script><a\n  href='one.html'\n  class=big>x</a></body></html>",
    HEAD + '<svg viewBox="0 0 1 1"><title>mark</title><use xlink:href="#m"/></svg><br/><img alt="" src=x.jpg /></body></html>',
    HEAD + '<A HREF="x.html?a=1&amp;b=2" ID=Up>up</A><input disabled value="a=b"><td colspan=2>y</td></body></html>',
    HEAD + '<textarea><a href="no"></textarea><h2 id="a&quot;b">z</h2><a href=""></a></body></html>',
]


class StandardReader(HTMLParser):
    """The standard library's parser, to hold ours against."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.targets: list[str] = []
        self.ids: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.targets += [value or "" for name, value in attrs if name in ("href", "src", "xlink:href")]
        self.ids += [value or "" for name, value in attrs if name == "id"]


@pytest.mark.parametrize("text", TRICKY)
def test_our_quick_sweep_reads_what_two_other_parsers_read(text: str) -> None:
    ours = read_markup(text)
    targets = [reference.target for reference in ours.references]
    ids = [name for name, _ in ours.ids]
    tree = html5lib.parse(text, namespaceHTMLElements=False)
    by_html5lib = [
        value
        for element in tree.iter()
        for name, value in element.attrib.items()
        if name in ("href", "src", "{http://www.w3.org/1999/xlink}href")
    ]
    if "textarea" not in text:  # html.parser of 3.11 takes a textarea's text for tags; html5lib follows the standard.
        standard = StandardReader(text)
        assert (sorted(targets), ids) == (sorted(standard.targets), standard.ids)
    assert sorted(targets) == sorted(by_html5lib)
    assert ids == [e.attrib["id"] for e in tree.iter() if "id" in e.attrib]
