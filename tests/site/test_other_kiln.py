"""A glaze whose label does not take the studio's cone: no page, card or account tells how to brush it."""

from __future__ import annotations

import re

import pytest

from combobook.render.book.views import Files, glaze_entry
from combobook.render.sheets.shelf_cards import PATH, shelf_cards
from combobook.render.views.desk import desk
from tests.published_demo import demo_edition, demo_files
from tests.sheets.boxes import cards
from tests.sheets.reading import made, read
from tests.site.editions import pages_of, text_of
from tests.studios import glaze
from tests.why.asking import account, part
from tests.why.test_account import FR, pond_lantern

GLAZE, PAIR = "glazes/ferry-rust.html", "combinations/pond-lantern-over-ferry-rust.html"
SAYS = "The label of Ferry Rust says cone 06 to 04; this studio fires to cone 6. Do not brush it here, and do not load it."
TO_DO = re.compile(r"Leave \d|Top \d|Top third|Catch plate")


def ferry_rust(cone: str) -> dict[str, str]:
    """The first glaze of the good studio, for another cone."""
    return {FR: glaze("Ferry Rust", "FR", f"cone: {cone}", "food label: yes", "flow: runny", "coats: 2 to 3")}


LOW = {**ferry_rust("06 to 04"), **pond_lantern("cone: 06 to 04")}


def demo_text(path: str) -> str:
    return text_of(demo_files()[f"site/{path}"].decode())


def test_its_page_says_before_all_else_that_it_is_not_brushed_or_loaded_here() -> None:
    text = text_of(pages_of(LOW)[GLAZE])
    assert text.index(SAYS) < text.index("Not known: keep off food until it is")
    assert "Not in a cone 6 kiln the label says another cone" in text
    assert TO_DO.search(text[: text.index("What the label says")]) is None


def test_its_page_shows_no_place_on_any_form() -> None:
    text = text_of(pages_of(LOW)[GLAZE])
    places = text[text.index("Where it may go") :]
    assert "It goes into no kiln that is fired to cone 6." in places
    assert "bare foot" not in places.partition("bare foot")[2]  # The legend names it once.
    assert "down to" not in places


def test_a_label_of_one_cone_is_not_said_as_a_range() -> None:
    text = text_of(pages_of({**ferry_rust("04"), **pond_lantern("cone: 04")})[GLAZE])
    assert "The label of Ferry Rust says cone 04; this studio" in text


def test_a_pair_that_shares_a_cone_which_is_not_ours_is_stopped_as_one_glaze_is() -> None:
    page = pages_of(LOW)[PAIR]
    text, brushing = text_of(page), 'class="steps order"'
    assert SAYS in text
    assert SAYS.replace("Ferry Rust", "Pond Lantern") in text
    assert brushing not in page
    assert brushing in pages_of()[PAIR]
    assert TO_DO.search(text[: text.index("Why it says this")]) is None


@pytest.mark.parametrize("cone", ["6", "5 to 6", "6 to 10"])
def test_a_label_that_takes_our_cone_at_either_end_stops_nothing(cone: str) -> None:
    text = text_of(pages_of(ferry_rust(cone))[GLAZE])
    assert "Not in a cone 6 kiln" not in text
    assert TO_DO.search(text) is not None


def test_a_cone_that_nobody_knows_stops_nothing_and_asks_to_be_asked_about() -> None:
    text = text_of(pages_of(ferry_rust("?"))[GLAZE])
    assert "Nobody has written down the cone on the label of Ferry Rust: ask your teacher before it goes into a kiln." in text
    assert TO_DO.search(text) is not None


def test_the_account_has_no_step_and_no_plate_for_it_but_every_reason() -> None:
    told = account(LOW, base="ferry-rust", top="ferry-rust")
    assert told.notices == (SAYS,)
    running = part(told, "running")
    assert running.verdict == "Not in a cone 6 kiln"
    assert TO_DO.search(" ".join(running.under)) is None
    assert [point.says for point in running.points] == ["The label of Ferry Rust says that it runs."]
    for point in part(told, "places").points:
        assert "It goes into no kiln that is fired to cone 6." in point.says


def test_the_other_way_round_says_it_too() -> None:
    assert "Not in a cone 6 kiln" in account(LOW).other_way


def test_the_demos_shelf_its_lists_and_its_slides_say_it() -> None:
    start, slide = demo_text("index.html"), demo_text("projector/cherry-sluice.html")
    assert start.count("Not in a cone 6 kiln") == 1
    assert "Not in a cone 6 kiln" in slide
    assert TO_DO.search(slide) is None
    assert "Not at cone 6" in demo_text("layerings.html")


def test_the_scripts_data_show_no_margin_for_any_pair_with_it() -> None:
    data = demo_files()["site/script/pairs.js"].decode()
    assert '"no_kiln","no-kiln"' in data
    assert "Not in a cone 6 kiln" in data


def test_its_entry_in_the_book_shows_no_place() -> None:
    entry = glaze_entry(desk(demo_edition()), demo_edition().judged.glazes["cherry-sluice"], Files())
    assert (entry.to_do, entry.movement) == ("Not in a cone 6 kiln", "m-no-kiln")
    assert TO_DO.search(entry.steps) is None
    assert {note.says.partition(".")[0] for note in entry.places.notes} == {"Outside: no useful place, so keep it off"}


def test_its_shelf_card_asks_for_no_margin() -> None:
    said = [card for page in read(made(shelf_cards)[PATH])[1:] for card in cards(page)]
    (card,) = (each for each in said if "Cherry Sluice" in each.splitlines()[:2])
    assert "Not in a cone 6 kiln" in card
    assert "the label says another cone" in card
    assert TO_DO.search(card) is None
