"""A name that nobody's jar has: what may have been meant is offered, and only where nothing else was found."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from tests.screen.person import Person, axe_finds, is_as_wide_as_its_window, small_targets


def typed(person: Person, words: str, *, size: str = "laptop", state: str = "") -> Page:
    page = person.open(f"find.html{state}", size)
    page.get_by_label("Name, mark or look").fill(words)
    return page


@pytest.mark.parametrize(
    ("wrong", "meant"),
    [
        ("brambel inck", "Bramble Ink"),
        ("bramble inck", "bramble Ink"),
        ("harber", "Harbour"),
        ("Barly Attick", "Barley Attic"),
        ("snwo pantri", "Snow Pantry"),
    ],
)
def test_a_misspelt_name_is_answered_with_the_nearest_of_this_studio(wrong: str, meant: str, person: Person) -> None:
    page = typed(person, wrong)
    assert page.locator("[data-part=count]").inner_text() == "Nothing here is called that or looks like that."
    assert page.get_by_role("link", name=f"Did you mean {meant}?", exact=True).is_visible()


def test_taking_what_was_meant_finds_it_and_going_back_gives_what_was_typed(person: Person) -> None:
    page = typed(person, "brambel inck")
    page.get_by_role("link", name="Did you mean Bramble Ink?").click()
    assert page.get_by_label("Name, mark or look").input_value() == "Bramble Ink"
    assert page.locator(".find-glazes a.find-glaze-name").first.inner_text() == "Bramble Ink"
    assert page.locator("[data-part=meant]").is_hidden()
    page.go_back()
    assert page.get_by_label("Name, mark or look").input_value() == "brambel inck"


def test_the_other_choices_stay_when_what_was_meant_is_taken(person: Person) -> None:
    page = typed(person, "brambel", state="#first=harbour-fog")
    assert "Take back a choice" in page.locator("[data-part=count]").inner_text()
    page.get_by_role("link", name="Did you mean Bramble?").click()
    assert page.url.endswith("#words=Bramble&first=harbour-fog")


@pytest.mark.parametrize("words", ["harbour", "blue", "zzxq", "", "bramble zzxq"])
def test_nothing_is_guessed_where_something_is_found_or_nothing_is_near(words: str, person: Person) -> None:
    page = typed(person, words)
    assert page.locator("[data-part=meant]").is_hidden()


def test_choices_alone_that_fit_nothing_are_told_apart_from_a_wrong_name(person: Person) -> None:
    page = person.open("find.html#first=bramble-ink&top=bramble-ink")
    assert page.locator("[data-part=count]").inner_text().startswith("No layering fits. Take back a choice")
    assert page.locator("[data-part=meant]").is_hidden()


def test_the_offer_can_be_hit_on_a_phone_and_reads_well_to_a_screen_reader(person: Person) -> None:
    page = typed(person, "brambel inck", size="phone")
    box = page.locator("[data-part=meant]").bounding_box()
    assert box is not None and box["height"] >= 44
    assert is_as_wide_as_its_window(page) and small_targets(page, ".find-found") == [] and axe_finds(page) == []
