"""Tiles beside each other: put together from layerings' pages, at one scale, in an address that can be sent on."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from combobook import book
from combobook.wording import food_lines
from tests.published_demo import demo_edition
from tests.screen.person import SIZES, Person, axe_finds, is_as_wide_as_its_window, small_targets


def tiles(page: Page) -> list[str]:
    """The marks of the tiles that stand there, left to right."""
    return [mark.removeprefix("tile ") for mark in page.locator("[data-part=tiles] [data-part=mark]").all_inner_texts()]


def tile(mark: str) -> book.TestTile:
    return next(each for each in demo_edition().book.tiles if each.tile.value == mark)


def test_tiles_are_put_beside_each_other_from_layerings_pages(person: Person) -> None:
    page = person.open("combinations/candle-weir-over-bramble-ink.html")
    page.get_by_role("link", name="Put beside others").click()
    first = tiles(page)
    assert len(first) == 1
    page.goto(person.address("combinations/harbour-fog-over-bramble-ink.html"))
    page.get_by_role("link", name="Put beside others").click()
    both = tiles(page)
    assert both[:1] == first
    assert len(both) == 2
    assert page.url.endswith(f"#tiles={both[0]}+{both[1]}")
    again = person.open(f"compare.html#{page.url.partition('#')[2]}")
    assert tiles(again) == both, "the address alone says what stands there"


def test_a_tile_is_found_by_its_glazes_or_mark_added_and_taken_away_again(person: Person) -> None:
    page = person.open("compare.html")
    assert page.get_by_role("status").inner_text().startswith("No tile is here yet")
    page.get_by_label("Another tile").fill("candle bramble")
    found = page.locator("[data-part=found] button").all_inner_texts()
    assert found
    assert all("Candle Weir over Bramble Ink" in each for each in found)
    page.locator("[data-part=found] button").first.click()
    first = tiles(page)
    page.get_by_label("Another tile").fill("b117")
    page.locator("[data-part=found] button").first.click()
    assert tiles(page) == [*first, "B117"]
    page.get_by_role("button", name=f"Take tile {first[0]} away").click()
    assert tiles(page) == ["B117"]
    page.go_back()
    assert tiles(page) == [*first, "B117"]
    page.get_by_label("Another tile").fill("no such glaze")
    assert page.locator("[data-part=title]").inner_text() == "No fired tile with a picture is called so."


def test_four_tiles_are_the_most(person: Person) -> None:
    page = person.open("compare.html#tiles=A101+A102+A104+A105+A106")
    assert tiles(page) == ["A101", "A102", "A104", "A105"]
    assert page.get_by_role("status").inner_text() == "Four tiles are here. Take one away before another can come."
    assert page.locator("[data-part=found] button").count() == 0


def test_a_mark_that_no_tile_has_is_passed_over(person: Person) -> None:
    assert tiles(person.open("compare.html#tiles=A101+ZZ99+A101")) == ["A101"]


def test_tiles_stand_at_one_scale(person: Person) -> None:
    """Demo tiles are drawn on a canvas 72 mm wide: each picture is as many pixels wide for each of these."""
    page = person.open("compare.html#tiles=A101+A102+B117")
    widths = page.eval_on_selector_all(".compare-tile image", "all => all.map(e => e.getBoundingClientRect().width)")
    assert len(widths) == 3
    windows = page.eval_on_selector_all(
        ".compare-tile svg.shot-box", "all => all.map(e => e.getBoundingClientRect().width)"
    )
    for width, window in zip(widths, windows, strict=True):
        assert width / 72 == pytest.approx(window / 52, rel=0.01)
        assert width == pytest.approx(widths[0], rel=0.001)


def test_each_tile_says_what_is_judged_of_its_own_coats_and_clay(person: Person) -> None:
    page, edition = person.open("compare.html#tiles=D118+J191+B117"), demo_edition()
    for n, mark in enumerate(("D118", "J191", "B117")):
        one = tile(mark)
        verdict = (
            edition.judged.layerings[one.base.id, one.top.id]
            if one.top is not None
            else edition.judged.glazes[one.base.id]
        )
        (surface,) = [s for s in verdict.surfaces if s.coats == one.coats and s.clay is one.clay]
        words = " ".join(food_lines(surface.food, False, edition.words, one.top is None))
        assert page.locator(".compare-tile [data-part=food] .sign-words").nth(n).inner_text() == words
        assert one.clay is not None
        assert f"on {one.clay.name.value}" in page.locator(".compare-tile dl").nth(n).inner_text()
    assert "Your own piece decides" in page.locator("main").inner_text()
    assert page.locator(".compare-tile [data-part=note]").all_inner_texts() == ["Drawing."] * 3


def test_large_shows_the_tiles_alone_and_escape_goes_back(person: Person) -> None:
    page = person.open("compare.html#tiles=A102+A104", "projector")
    usual = page.locator(".shot-box").first.bounding_box()
    page.get_by_role("button", name="Large").click()
    large = page.locator(".shot-box").first.bounding_box()
    assert usual is not None and large is not None
    assert large["height"] > 1.5 * usual["height"]
    assert not page.locator("header").is_visible()
    assert "Your own piece decides" in page.locator("main").inner_text()
    assert page.url.endswith("&large=yes")
    assert page.evaluate("getComputedStyle(document.documentElement).colorScheme") == "dark"
    page.keyboard.press("Escape")
    assert page.locator("header").is_visible()


def test_without_scripts_the_page_leads_to_sheets_of_tiles(person: Person) -> None:
    page = person.open("compare.html#tiles=A102", java_script_enabled=False)
    assert not page.get_by_label("Another tile").is_visible()
    page.get_by_role("link", name="Sheets of tiles, by firing or by glaze").click()
    page.wait_for_url("**/contact.html")


@pytest.mark.parametrize("size", SIZES)
def test_at_every_size_it_fits_and_can_be_touched_and_axe_finds_nothing(size: str, person: Person) -> None:
    page = person.open("compare.html#tiles=A101+A102+D118+J191", size, bypass_csp=True)
    assert is_as_wide_as_its_window(page)
    assert small_targets(page, "main") == []
    assert axe_finds(page) == []
