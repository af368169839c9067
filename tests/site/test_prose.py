"""What students write below the fields: Markdown stays, anything that acts or asks elsewhere does not."""

from __future__ import annotations

from pathlib import Path

import html5lib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from combobook.book import Link
from combobook.entries import Body, Units
from combobook.pictures import Picture, PictureFile
from combobook.problems import Place
from combobook.render.markdown import Prose
from combobook.theme import load_theme
from combobook.wording import Words

HERE = Place(path="studio.yaml", line=1)
PATH = "pages/how.md"
TILE = Picture(
    name="drawing-b1.jpg",
    drawing=True,
    sizes={
        size: PictureFile(path=f"pictures/ab-{wide}.jpg", width=wide, height=wide, stored=Path("none"))
        for size, wide in (("page", 1200), ("card", 480), ("thumb", 160))
    },
    webp={"card": PictureFile(path="pictures/ab-480.webp", width=480, height=480, stored=Path("none"))},
)
LINKS = {
    (PATH, "../glazes/ferry-rust.md"): Link(kind="glazes", id="ferry-rust"),
    (PATH, "../forms/mug.md"): Link(kind="forms", id="mug"),
    (PATH, "../photos/drawing-b1.jpg"): Link(kind="photos", id="drawing-b1.jpg"),
    (PATH, "../photos/gone.jpg"): Link(kind="photos", id="gone.jpg"),
}


def prose() -> Prose:
    theme, problems = load_theme("daylight", "en", HERE, HERE)
    assert theme is not None and problems == ()
    words = Words(theme.table, Units.MM)
    return Prose(LINKS, {TILE.name: TILE}, {TILE.name: "Tile B1: 2 coats Ferry Rust. Drawing."}, words)


def shown(text: str, under: int = 1) -> str:
    return str(prose()(Body(text=text, path=PATH, line=5), "../", under))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A *kind* glaze.", "<p>A <em>kind</em> glaze.</p>"),
        ("# Coats\n\n## Two", "<h2>Coats</h2>\n<h3>Two</h3>"),
        ("## Coats\n\n#### Two", "<h2>Coats</h2>\n<h3>Two</h3>"),
        ("<h1>Coats</h1>", "<h2>Coats</h2>"),
        ("", ""),
        (" \n\n", ""),
    ],
)
def test_markdown_becomes_html_with_its_headings_below_the_pages_own(text: str, expected: str) -> None:
    assert shown(text) == expected


def test_headings_go_no_deeper_than_six() -> None:
    assert shown("# A\n\n## B\n\n### C", under=4) == "<h5>A</h5>\n<h6>B</h6>\n<h6>C</h6>"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[rust](../glazes/ferry-rust.md)", '<a href="../glazes/ferry-rust.html" rel="noopener noreferrer">rust</a>'),
        ("[mug](../forms/mug.md)", '<a href="../forms.html#mug" rel="noopener noreferrer">mug</a>'),
        ("[tile](../photos/drawing-b1.jpg)", '<a href="../pictures/ab-1200.jpg" rel="noopener noreferrer">tile</a>'),
        ("[us](https://glaze.example/)", '<a href="https://glaze.example/" rel="noopener noreferrer">us</a>'),
        ('<a href="../glazes/ferry-rust.md">rust</a>', '<a href="../glazes/ferry-rust.html" rel="noopener noreferrer">rust</a>'),
    ],
)
def test_links_lead_to_pages_of_this_edition(text: str, expected: str) -> None:
    assert shown(text) == f"<p>{expected}</p>"


@pytest.mark.parametrize(
    "target",
    ["../glazes/nobody.md", "javascript:alert(1)", "JaVaScRiPt:alert(1)", "java\nscript:alert(1)", "data:text/html,x", "file:///etc/passwd", "//elsewhere.example/x", "\\\\server\\x", "vbscript:x", "../../../etc/passwd"],
)
def test_a_link_that_is_none_of_ours_leads_nowhere(target: str) -> None:
    assert "href" not in shown(f'<a href="{target}">x</a>')


def test_a_picture_has_its_size_its_words_and_says_that_it_is_a_drawing() -> None:
    assert shown("![two coats](../photos/drawing-b1.jpg)") == (
        '<p><span class="picture"><picture><source type="image/webp" srcset="../pictures/ab-480.webp">'
        '<img src="../pictures/ab-480.jpg" width="480" height="480" alt="two coats" loading="lazy"></picture>'
        '<span class="caption">Tile B1: 2 coats Ferry Rust. Drawing.</span></span></p>'
    )


@pytest.mark.parametrize("target", ["https://elsewhere.example/spy.png", "../photos/gone.jpg", "data:image/png;base64,AAAA", "x.png"])
def test_a_picture_that_is_not_in_the_edition_leaves_its_words(target: str) -> None:
    assert shown(f"![the *blue* one]({target})") == "<p>the *blue* one</p>"


def test_words_of_a_picture_cannot_become_tags() -> None:
    assert shown('<img src="x" alt="&lt;script&gt;alert(1)&lt;/script&gt;" onerror="alert(1)">').count("<") == 2


def test_a_table_scrolls_in_a_box_of_its_own_that_a_keyboard_reaches() -> None:
    made = shown("| a | b |\n|---|---|\n| 1 | 2 |")
    assert made.startswith('<div class="scroll" role="region" tabindex="0" aria-label="A table; scroll sideways for the rest"><table>')
    assert made.endswith("</table></div>")


HOSTILE = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "<svg onload=alert(1)><style>*{display:none}</style></svg>",
    "<iframe src='https://elsewhere.example'></iframe>",
    "<form action=x><input name=y><button>z</button></form>",
    "<p style='position:fixed' class='verdict' id='main' onclick='x'>t</p>",
    "<meta http-equiv=refresh content='0;url=x'><base href='https://elsewhere.example/'>",
    "<a href='https://x.example' target=_blank ping='https://spy.example'>x</a>",
    "<math><mtext><style><img src=x onerror=alert(1)></style></mtext></math>",
    "<!-- --><!--> <script>alert(1)</script> -->",
    "</main></body><h1>mine</h1>",
    "<object data=x></object><embed src=x><link rel=stylesheet href=x><video src=x></video>",
    "```\n<script>alert(1)</script>\n```",
)
ALLOWED_ATTRIBUTES = {"href", "rel", "src", "alt", "width", "height", "loading", "class", "role", "tabindex", "aria-label", "start", "colspan", "rowspan", "scope"}


def acts(html: str) -> list[str]:
    """Elements and attributes that have no place in a cleaned body, as another reader of HTML finds them."""
    tree = html5lib.parseFragment(html, namespaceHTMLElements=False)
    found = []
    for element in tree.iter():
        if str(element.tag) in {"script", "style", "iframe", "form", "input", "object", "embed", "link", "meta", "base", "svg", "math", "video", "h1", "body"}:
            found.append(str(element.tag))
        found += [f"{element.tag} {name}" for name in element.attrib if name not in ALLOWED_ATTRIBUTES]
        if element.get("class") not in (None, "picture", "caption", "scroll"):
            found.append(f"class {element.get('class')}")
    return found


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_that_acts_is_left(text: str) -> None:
    assert acts(shown(text)) == []
    assert acts(shown(f"Before *{text}* after\n\n{text}\n\n- {text}")) == []


def test_what_acts_would_be_found() -> None:
    assert acts("<script></script><p onclick=x class=verdict>") == ["script", "p onclick", "class verdict"]


@given(st.lists(st.sampled_from([*HOSTILE, "<", ">", '"', "'", "](", "![", "`", "\n", "#", "|", "&lt;", "\x00", "x", "<p", "<a href=", "<img alt="]), max_size=12))
@settings(max_examples=150, deadline=None)
def test_no_mixture_of_them_acts_or_breaks_the_page(parts: list[str]) -> None:
    assert acts(shown("".join(parts))) == []


def test_a_thousand_quotes_in_one_another_are_shown_and_raise_nothing() -> None:
    assert "deep" in shown("> " * 3000 + "deep")


def test_one_body_leaves_nothing_to_the_next() -> None:
    reader = prose()
    first = Body(text="[a]: https://one.example\n\n[a]", path=PATH, line=1)
    second = Body(text="[a]", path="pages/other.md", line=1)
    assert "one.example" in reader(first, "../")
    assert reader(second, "../") == "<p>[a]</p>"
