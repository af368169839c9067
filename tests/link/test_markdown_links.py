"""Links in Markdown name entries and photos of this folder, and nothing else in it or outside it."""

from __future__ import annotations

import pytest

from combobook.book import Link
from tests.studios import GOOD_FILES, entry, make_with, said

PAGE = "pages/how.md"
PHOTOS = ["a tile.jpg", "b1.jpg"]


def page(body: str) -> dict[str, str]:
    """A page whose body begins in line 4, and that uses every photo."""
    return {PAGE: entry("title: How", body=body + "\n"), "pages/photos.md": entry("title: P", body="![](../photos/b1.jpg) ![](../photos/a%20tile.jpg)\n")}


@pytest.mark.parametrize(
    ("target", "link"),
    [
        ("../glazes/ferry-rust.md", Link(kind="glazes", id="ferry-rust")),
        ("glazes/ferry-rust.md", Link(kind="glazes", id="ferry-rust")),
        ("../glazes/ferry-rust.md#tiles", Link(kind="glazes", id="ferry-rust", fragment="tiles")),
        ("./how.md", Link(kind="pages", id="how")),
        ("photos.md", Link(kind="pages", id="photos")),
        ("../clays/quarry-white.md", Link(kind="clays", id="quarry-white")),
        ("../forms/mug.md", Link(kind="forms", id="mug")),
        ("../firings/f01.md", Link(kind="firings", id="f01")),
        ("../photos/b1.jpg", Link(kind="photos", id="b1.jpg")),
        ("photos/a%20tile.jpg", Link(kind="photos", id="a tile.jpg")),
        ("../combinations/pond-lantern-over-ferry-rust.md", Link(kind="combinations", id="pond-lantern-over-ferry-rust")),
    ],
)
def test_a_link_to_a_file_names_its_entry(target: str, link: Link) -> None:
    book, problems = make_with(page(f"See [this]({target}) first."), photos=PHOTOS)
    assert book.links[PAGE, target] == link
    assert problems == ()


def test_a_layering_is_linked_by_its_files_name_or_by_its_id() -> None:
    moved = {"combinations/favourite.md": GOOD_FILES["combinations/pond-lantern-over-ferry-rust.md"]}
    body = "[a](../combinations/favourite.md) [b](../combinations/pond-lantern-over-ferry-rust.md)"
    book, problems = make_with({**moved, **page(body)}, without=["combinations/pond-lantern-over-ferry-rust.md"], photos=PHOTOS)
    assert {link.id for (path, _), link in book.links.items() if path == PAGE} == {"pond-lantern-over-ferry-rust"}
    assert problems == ()


def test_a_picture_inside_a_link_gives_both() -> None:
    book, problems = make_with(page('[![a tile](../photos/b1.jpg "a tile")](../glazes/ferry-rust.md)'), photos=PHOTOS)
    assert [link.kind for (path, _), link in book.links.items() if path == PAGE] == ["glazes", "photos"]
    assert problems == ()


def test_a_reference_below_the_text_is_a_link() -> None:
    book, problems = make_with(page("See [this][one].\n\n[one]: ../glazes/ferry-rust.md"), photos=PHOTOS)
    assert book.links[PAGE, "../glazes/ferry-rust.md"] == Link(kind="glazes", id="ferry-rust")
    assert problems == ()


@pytest.mark.parametrize(
    ("target", "code"),
    [
        ("../glazes/fery-rust.md", "unknown-glaze"), ("../clays/x.md", "unknown-clay"), ("../forms/x.md", "unknown-form"),
        ("../firings/x.md", "unknown-firing"), ("x.md", "unknown-page"), ("../pages/x.md", "unknown-page"),
        ("../combinations/x.md", "unknown-combination"), ("../photos/x.jpg", "unknown-photo"),
        ("../../glazes/ferry-rust.md", "unknown-page"), ("/etc/passwd", "unknown-page"), ("../studio.yaml", "unknown-page"),
        ("../lab/x.md", "unknown-page"), ("../glazes/ferry-rust", "unknown-glaze"),
    ],
)  # fmt: skip
def test_a_link_to_what_is_not_there_is_an_error_at_the_target(target: str, code: str) -> None:
    book, problems = make_with(page(f"Two\nlines, then [this]({target})."), photos=PHOTOS)
    assert said(problems) == [f"{PAGE}:5:20 error {code}"]
    assert problems[0].width == len(target)
    assert (PAGE, target) not in book.links


@pytest.mark.parametrize("target", ["https://glaze.example/a", "http://glaze.example", "HTTPS://glaze.example", "mailto:studio@glaze.example", "#first"])
def test_addresses_elsewhere_and_on_the_page_are_left_alone(target: str) -> None:
    book, problems = make_with(page(f"[this]({target})"), photos=PHOTOS)
    assert [path for path, _ in book.links] == ["pages/photos.md", "pages/photos.md"]
    assert problems == ()


@pytest.mark.parametrize(
    "target",
    ["javascript:alert(1)", "JavaScript:alert(1)", "data:text/html,x", "file:///etc/passwd", "vbscript:x", "//glaze.example/a", "javascript&#58;alert(1)",
     "java%0ascript:x"],
)  # fmt: skip
def test_no_other_scheme_goes_anywhere(target: str) -> None:
    book, problems = make_with(page(f"[this]({target})"), photos=PHOTOS)
    assert [p.severity.value for p in problems] == ["error"]
    assert problems[0].place.at == f"{PAGE}:4"
    assert [path for path, _ in book.links] == ["pages/photos.md", "pages/photos.md"]


@pytest.mark.parametrize(
    "body",
    ["`[x](nowhere.md)`", "``a ` [x](nowhere.md)``", "```\n[x](nowhere.md)\n```", "~~~\n[x](nowhere.md)\n~~~", "Text.\n\n    [x](nowhere.md)\n", r"\[x](nowhere.md)",
     "<!-- [x](nowhere.md) -->"],
)  # fmt: skip
def test_code_is_no_link(body: str) -> None:
    book, problems = make_with(page(body), photos=PHOTOS)
    assert problems == ()
    assert len(book.links) == 2


def test_code_does_not_hide_what_stands_after_it() -> None:
    _, problems = make_with(page("A ` here.\n\n```\ncode\n```\n\n[x](nowhere.md) and `code`"), photos=PHOTOS)
    assert said(problems) == [f"{PAGE}:10:5 error unknown-page"]


def test_a_link_in_a_list_stands_even_where_it_is_set_in() -> None:
    _, problems = make_with(page("- one\n\n    [x](nowhere.md)"), photos=PHOTOS)
    assert said(problems) == [f"{PAGE}:6:9 error unknown-page"]


def test_a_link_to_an_entry_with_a_problem_of_its_own_has_none() -> None:
    _, problems = make_with({**page("[x](../firings/f01.md)"), "firings/f01.md": entry("cone: 60"), }, photos=PHOTOS)
    assert [p.code for p in problems] == ["bad-cone"]


def test_a_link_to_a_layering_whose_glaze_is_unknown_has_no_problem_of_its_own() -> None:
    name = "combinations/pond-lantern-over-ferry-rust.md"
    _, problems = make_with({**page(f"[x](../{name})"), name: entry("base: Fery Rust", "top: PL")}, photos=PHOTOS)
    assert said(problems) == [f"{name}:2:7 error unknown-glaze"]


@pytest.mark.parametrize("body", ["[" * 20_000, "](" * 20_000, "[a](" * 20_000, "[" + "a" * 100_000, "[a](b " + " " * 100_000, "`" * 20_001 + " a", "[a](" + "(" * 50_000, "~~~\n" * 20_000])
def test_no_body_keeps_everybody_waiting(body: str) -> None:
    import time

    begun = time.perf_counter()
    make_with(page(body), photos=PHOTOS)
    assert time.perf_counter() - begun < 5
