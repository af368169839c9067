"""Photographed tiles name tile, clay, coats and firing wherever they are shown; drawings say that they are drawings."""

from __future__ import annotations

import re
from functools import cache

import pytest

from combobook.edition import Edition
from combobook.render.chart import wall_chart
from combobook.render.site import site
from tests.chart.reading import pages as pdf_pages
from tests.chart.reading import pieces
from tests.contact.editions import AMBER, TEAL, edition, shows
from tests.site.editions import text_of

ROWS = (
    "B1,FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none,,{}b1.jpg",
    "B2,FR,2,,,Coal,f01,upper,upright,no,none,,{}b2.jpg",
    "B3,PL,3,,,Coal,f01,upper,upright,6 mm,none,,{}b3.jpg",
)
TOLD = {
    "b1": ("B1", "2 coats Ferry Rust, then 1 Pond Lantern", "Quarry White", "f01"),
    "b2": ("B2", "2 coats Ferry Rust", "Coal", "f01"),
    "b3": ("B3", "3 coats Pond Lantern", "Coal", "f01"),
}


def studio(prefix: str) -> Edition:
    colours = {f"{prefix}{name}.jpg": shows(TEAL, AMBER) for name in TOLD}
    return edition(tuple(row.format(prefix) for row in ROWS), colours)


@cache
def shown_on(prefix: str) -> dict[str, tuple[str, set[str]]]:
    """Every page that shows a picture: its words (hidden ones too), and which pictures."""
    files, problems = site(studio(prefix))
    assert problems == ()
    found = {}
    for path, data in files.items():
        pictures = set(re.findall(rf'<(?:img|image)[^>]*="[^"]*pictures/{prefix}(b\d)-', data.decode())) if path.endswith(".html") else set()
        if pictures:
            found[path] = (text_of(data.decode()), pictures)
    return found


def test_every_kind_of_page_with_pictures_is_looked_at() -> None:
    folders = {path.split("/")[1].removesuffix(".html") for path in shown_on("")}
    assert {"index", "glazes", "combinations", "grid", "firings", "clays", "contact", "colours", "ran"} <= folders


def test_a_photograph_names_tile_coats_clay_and_firing_on_every_page() -> None:
    missing = [
        (path, name, word)
        for path, (text, pictures) in shown_on("").items()
        for name in sorted(pictures)
        for word in TOLD[name]
        if word not in text
    ]
    assert missing == []


def test_a_drawing_says_so_on_every_page() -> None:
    assert [path for path, (text, _) in shown_on("drawing-").items() if "rawing" not in text] == []


def test_a_photograph_is_never_called_a_drawing() -> None:
    silent = {path for path in shown_on("") if path.startswith(("site/contact", "site/colours"))}
    assert [path for path, (text, _) in shown_on("").items() if re.search(r"Drawing\.|are drawings", text)] == []
    assert silent


@pytest.mark.parametrize(
    ("prefix", "words"),
    [("", ("tile B1, on Quarry White, firing f01, middle shelf",)), ("drawing-", ("Pictures are drawings",))],
)
def test_the_wall_chart_names_a_photographs_tile_and_says_what_is_drawn(prefix: str, words: tuple[str, ...]) -> None:
    files, problems = wall_chart(studio(prefix))
    assert problems == ()
    said = " ".join(piece.text for page in pdf_pages(files["print/wall-chart.pdf"]) for piece in pieces(page))
    for part in words:
        assert part in re.sub(r"\s+", " ", said)


def test_colour_words_stand_in_the_alternative_text_with_how_they_were_measured() -> None:
    files, _ = site(studio(""))
    page = files["site/combinations/pond-lantern-over-ferry-rust.html"].decode()
    assert "Colour: dark blue-green, breaks amber (as photographed)." in page


def test_where_some_are_drawn_the_grid_and_the_chart_say_which() -> None:
    mixed = edition(
        ("B1,FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none,,b1.jpg",
         "B2,FR,2,,,Coal,f01,upper,upright,no,none,,drawing-b2.jpg"),
        {"b1.jpg": shows(TEAL), "drawing-b2.jpg": shows(AMBER)},
    )  # fmt: skip
    files, _ = site(mixed)
    assert "Some pictures are drawings." in text_of(files["site/grid.html"].decode())
