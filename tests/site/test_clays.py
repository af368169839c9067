"""A clay's page: what was fired on that clay, and nothing that only other clays show."""

from __future__ import annotations

import re

from tests.published_demo import demo_edition, demo_files
from tests.site.editions import pages_of, text_of
from tests.studios import entry, log

LOG = "logs/autumn.csv"
DARK = {"clays/bank-brown.md": entry("name: Bank Brown", "cone: 5 to 7")}
WHITE, BROWN = "clays/quarry-white.html", "clays/bank-brown.html"


def tile(mark: str, clay: str, *, coats: str = "2,PL,1", faults: str = "none", firing: str = "f01") -> str:
    """A log row of Pond Lantern over Ferry Rust."""
    return f"{mark},FR,{coats},{clay},{firing},middle,upright,no,{faults}"


def fired_on(page: str) -> str:
    """The section of layerings fired on the clay, in words."""
    return text_of(page).partition("Layerings fired on it")[2].partition("Its fired tiles")[0]


def test_a_clays_page_shows_food_words_and_trust_of_that_clay_alone() -> None:
    rows = log(tile("A1", "Quarry White"), tile("A2", "Quarry White"), tile("A3", "Bank Brown"))
    pages = pages_of({**DARK, LOG: rows})
    assert "Repeated: 2 tiles, 1 firing" in fired_on(pages[WHITE])
    assert "Seen once: 1 tile, 1 firing" in fired_on(pages[BROWN])


def test_each_coat_count_on_a_clay_has_its_own_card_with_its_coats() -> None:
    rows = log(tile("A1", "Bank Brown"), tile("A2", "Bank Brown", coats="2,PL,2"), tile("A3", "Quarry White"))
    pages = pages_of({**DARK, LOG: rows})
    said = fired_on(pages[BROWN])
    assert "2 coats Ferry Rust, then 1 Pond Lantern" in said and "2 coats Ferry Rust, then 2 Pond Lantern" in said
    assert "then 2 Pond Lantern" not in fired_on(pages[WHITE])


def test_a_clay_that_came_out_kinder_shows_the_worse_answer_and_says_its_own_beside_it() -> None:
    rows = log(tile("A1", "Quarry White"), tile("A2", "Bank Brown", faults="pinholes"))
    said = fired_on(pages_of({**DARK, LOG: rows})[WHITE])
    assert "Keep off food" in said.partition("On Quarry White alone")[0]
    assert "On Quarry White alone: Labels allow, not lab tested. The worse answer counts, on every clay." in said


def test_a_tile_that_waits_for_the_kiln_stands_apart_and_is_no_layering_fired_on_the_clay() -> None:
    rows = log(tile("A1", "Quarry White"), tile("A2", "Bank Brown", firing="", faults=""))
    pages = pages_of({**DARK, LOG: rows})
    said = text_of(pages[BROWN])
    assert "Layerings fired on it" not in said
    waiting, fired = said.index("Brushed on it, waiting for the kiln"), said.index("Its fired tiles")
    assert waiting < said.index("A2") < fired
    assert "No tile" in said[fired:]


def test_a_clay_counts_its_fired_tiles_and_names_those_that_wait() -> None:
    rows = log(tile("A1", "Bank Brown"), tile("A2", "Bank Brown", firing="", faults=""))
    pages = pages_of({**DARK, LOG: rows})
    assert "1 tile + 1 waiting for the kiln" in text_of(pages["clays.html"])
    assert "1 tile + 1 waiting for the kiln" in text_of(pages["index.html"])


def test_the_demos_clays_add_up_to_the_tiles_that_the_first_page_counts() -> None:
    files = demo_files()
    pattern = r"(\d+) tiles?(?: \+ (\d+) waiting for the kiln)?"
    rows = re.findall(pattern, text_of(files["site/clays.html"].decode()))
    first = re.search(pattern, text_of(files["site/index.html"].decode()))
    assert first is not None
    together = tuple(sum(int(row[at] or 0) for row in rows) for at in (0, 1))
    assert together == tuple(int(count or 0) for count in first.groups())


def test_every_picture_of_a_layering_on_a_clays_page_is_of_a_tile_on_that_clay() -> None:
    edition = demo_edition()
    on = {tile.tile.value: tile.clay.id for tile in edition.book.tiles if tile.clay is not None}
    for clay in edition.book.clays:
        page = demo_files()[f"site/clays/{clay}.html"].decode()
        shown = re.findall(r'class="card-tile.*?alt="[^"]*?[Tt]ile ([A-Z]\d+)', page, re.DOTALL)
        assert [mark for mark in shown if on[mark] != clay] == []
        assert shown or 'class="card"' not in page
