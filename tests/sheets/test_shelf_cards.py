"""Shelf cards: one for each jar, read back by Poppler and zbar."""

from __future__ import annotations

import re
import subprocess
from fractions import Fraction
from functools import cache
from io import BytesIO

import pytest
from PIL import Image
from pyzbar.pyzbar import decode  # type: ignore[import-untyped]

from combobook.entries import NOT_KNOWN, FoodRule
from combobook.measures import Paper
from combobook.render.qr import numbered_pages, numbers
from combobook.render.sheets.shelf import on_the_shelf
from combobook.render.sheets.shelf_cards import PATH, shelf_cards
from tests.chart.editions import edition as small_edition
from tests.published_demo import demo_edition
from tests.sheets.boxes import cards
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import every_word_on_its_page_and_on_no_other, made, read, same_twice, sound


@cache
def demo_cards() -> tuple[str, ...]:
    """What stands on each card of the demo, one after another."""
    return tuple(card for page in read(made(shelf_cards)[PATH])[1:] for card in cards(page) if card)


def card_of(name: str) -> str:
    return next(card for card in demo_cards() if card.splitlines()[0] == name)


def partners_of(name: str) -> list[str]:
    """The lines below the head of the layerings, down to the foot of the card."""
    return card_of(name).split("With another glaze, on the clays that the layering's page names\n")[1].splitlines()


def test_the_first_sheet_has_key_and_cautions_and_the_others_say_which_they_are() -> None:
    pages = sound(made(shelf_cards)[PATH], cautions=False)
    for words in ("Cut along the lines", "Each label allows food; this layering has not been lab tested",
                  "Not known: keep off food until it is", "the stricter wins", "Kilns are the technician's"):  # fmt: skip
        assert words in pages[0].text


def test_every_jar_on_the_shelf_has_its_card_by_mark() -> None:
    jars = [v.glaze for v in on_the_shelf(demo_edition())]
    assert len(jars) == 20
    assert [card.splitlines()[0] for card in demo_cards()] == [jar.name.value for jar in jars]
    for jar, card in zip(jars, demo_cards(), strict=True):
        assert re.search(rf"^{jar.mark.value}\b", card, re.MULTILINE), card


def test_a_card_says_cone_coats_food_where_it_goes_and_when_its_label_was_read() -> None:
    card = card_of("Candle Weir")
    for words in ("cone 5 to 6 · 1 to 2 coats", "The label allows food", "alone; a layering has its own verdict",
                  "Top 25 mm 1 in", "goes on: rims only, in the top 25 mm (1 in)", "on a catch plate",
                  "Label read: 8 September 2026"):  # fmt: skip
        assert words in card, words


def test_three_partners_are_the_kindest_on_food_then_those_with_most_tiles() -> None:
    assert partners_of("Bramble Ink")[:3] == [
        "then Snow Pantry Lab report: FDA limits, cup or mug Leave 13 mm",
        "then Harbour Fog Labels allow, not lab tested Leave 16 mm",
        "then Millpond Labels allow, not lab tested Top 25 mm",
    ]


def test_no_card_names_a_layering_as_kind_whose_layer_is_kept_off_food_by_itself() -> None:
    for card in demo_cards():
        for line in card.splitlines():
            assert not re.match(r"(then|over) Clear Gallery Lab", line), card
    assert partners_of("Clear Gallery")[:2] == [
        "over Ember Loft Not known: keep off food Leave 13 mm",
        "then Otter Slate Not known: keep off food Leave 13 mm",
    ]


def test_a_layering_with_fewer_coats_than_a_label_names_says_ask_first_and_stands_after_those_without() -> None:
    assert partners_of("Barley Attic")[:4] == [
        "over Kettle Rust Labels allow, not lab tested Leave 13 mm",
        "over Rook Lane Labels allow, not lab tested Leave 13 mm",
        "over Snow Pantry Lab report: Canada limits, small Leave 13 mm",
        "hollowware; ask first",
    ]


def test_a_house_that_makes_nothing_for_food_sends_nobody_to_ask_about_it() -> None:
    files, problems = shelf_cards(demo_with(food_rule=FoodRule.NEVER))
    assert problems == ()
    assert not any("ask first" in page.text for page in read(files[PATH])[1:])


def test_a_glaze_that_is_out_is_nobodys_partner_and_one_without_a_layering_says_so() -> None:
    assert not any("Moss Cellar" in card or "Brick Swallow" in card for card in demo_cards())
    assert "No layering of it is on the chart yet." in card_of("Cherry Sluice")


def test_codes_lead_to_the_glazes_pages_and_each_has_its_number_beside_it() -> None:
    picture = subprocess.run(
        ["pdftoppm", "-r", "200", "-gray", "-png", "-f", "2", "-l", "2"],
        input=made(shelf_cards)[PATH], capture_output=True, check=True,
    ).stdout  # fmt: skip
    jars = [v.glaze for v in on_the_shelf(demo_edition())][:8]
    assert {found.data.decode() for found in decode(Image.open(BytesIO(picture)))} == {
        f"https://glaze.example/glazes/{jar.id}.html" for jar in jars
    }
    known = numbers(numbered_pages(demo_edition()))
    assert all(
        f"No. {known[f'glazes/{jar.id}.html']}" in card for jar, card in zip(jars, demo_cards(), strict=False)
    )  # fmt: skip


def test_without_an_address_there_is_no_code_and_no_number() -> None:
    files, problems = shelf_cards(demo_with(address=NOT_KNOWN))
    assert problems == ()
    pages = read(files[PATH])
    assert "Harbour Fog" in pages[2].text
    assert not any("No. " in page.text for page in pages)


@pytest.mark.parametrize(("name", "a_sheet"), [("A4", 8), ("tabloid", 16)])
def test_as_many_cards_as_the_paper_holds_and_nothing_over_its_edge(name: str, a_sheet: int) -> None:
    files, problems = shelf_cards(demo_with(paper=PAPERS[name]))
    assert problems == ()
    pages = read(files[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert [len([card for card in cards(page) if card]) for page in pages[1:]] == [
        min(a_sheet, 20 - start) for start in range(0, 20, a_sheet)
    ]


def test_where_nothing_is_for_food_every_card_says_so_and_no_label_is_said_to_allow_it() -> None:
    files, problems = shelf_cards(demo_with(food_rule=FoodRule.NEVER))
    assert problems == ()
    for page in read(files[PATH])[1:]:
        for card in cards(page):
            assert not card or "House rule: not for food" in card
            assert "allows food" not in card


def test_long_names_and_four_letters_of_mark_stay_on_their_cards() -> None:
    names = ("Wintergreen Saltmarsh Harbour Twilight", "Ochreandumberstreakedriverbank", "Elm")
    files, problems = shelf_cards(small_edition(((0, 1), (1, 0), (1, 2)), names=names))
    assert problems == ()
    pages = read(files[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert "Wintergreen" in cards(pages[1])[0]


def test_paper_that_holds_no_card_is_said() -> None:
    files, problems = shelf_cards(demo_with(paper=Paper("90 x 60 mm", Fraction(90), Fraction(60))))
    assert files == {}
    assert [(p.place.at, p.code, p.message) for p in problems] == [
        ("studio.yaml:21", "paper-too-small", "`shelf-cards.pdf` is not made: 90 x 60 mm is too small for it")
    ]


def test_equal_editions_give_equal_cards() -> None:
    same_twice(shelf_cards)
