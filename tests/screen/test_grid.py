"""The grid of all pairs, walked over with arrow keys, pointed at, touched and made smaller."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page

from combobook.verdicts import EvidenceLevel
from combobook.wording import evidence_words, food_lines, to_do_words, upper_first
from tests.published_demo import demo_edition
from tests.screen.person import SIZES, Person, axe_finds, is_as_wide_as_its_window, small_targets


def marks() -> list[str]:
    """The glazes' marks in the order of the grid: by name."""
    return [g.mark.value for g in sorted(demo_edition().book.glazes.values(), key=lambda g: g.name.value.casefold())]


def bar(page: Page) -> str:
    return " ".join(page.locator(".grid-bar").inner_text().split())


def square(page: Page, base: str, top: str) -> Locator:
    row, column = marks().index(base), marks().index(top)
    return page.locator(f".grid tbody tr:nth-child({row + 1}) td:nth-child({column + 2})")


def shown_marks(page: Page) -> set[str]:
    """Which drawings are to be seen in the first row that has some of each kind."""
    uses = page.locator(".grid tbody tr:nth-child(2) use:visible").all()
    return {str(use.get_attribute("href")).removeprefix("#mark-") for use in uses}


def test_arrow_keys_move_over_squares_the_bar_says_them_and_enter_opens(person: Person) -> None:
    page = person.open("grid.html")
    assert bar(page).startswith("Bramble Ink over Barley Attic")
    page.get_by_role("radio", name="Food").focus()
    stops = 0
    while not page.evaluate("document.activeElement.closest('.grid') !== null"):
        page.keyboard.press("Tab")
        stops += 1
    assert stops == 4, "the three buttons for the size, then the one square that the keyboard stops at"
    for key in ("ArrowDown", "ArrowDown", "ArrowRight", "ArrowLeft", "ArrowUp", "ArrowRight", "ArrowRight"):
        page.keyboard.press(key)
    assert bar(page).startswith("Candle Weir over Bramble Ink")
    assert page.url.endswith("#at=BI-CW")
    heads = page.locator(".grid th.chosen").all_inner_texts()
    assert [" ".join(head.split()) for head in heads] == ["CW", "BI Bramble Ink"]
    page.keyboard.press("End")
    assert page.url.endswith(f"#at=BI-{marks()[-1]}")
    page.keyboard.press("Home")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    page.wait_for_url("**/combinations/candle-weir-over-bramble-ink.html")
    page.go_back()
    assert bar(page).startswith("Candle Weir over Bramble Ink"), "the square that was left is still the chosen one"


def test_an_untested_square_opens_its_pair(person: Person) -> None:
    page = person.open("grid.html#at=CG-DH")
    assert "Untested" in bar(page)
    page.keyboard.press("Enter")
    page.wait_for_url("**/pair.html#first=clear-gallery&top=dusk-heron")
    assert page.locator("#side-this").inner_text() == "Dusk Heron over Clear Gallery"


def test_the_bar_says_of_every_pair_what_the_program_judged(person: Person) -> None:
    page, edition = person.open("grid.html"), demo_edition()
    by_pair = {(v.base.mark.value, v.top.mark.value): v for v in edition.pairs.values()}
    for base, top in (("BI", "HF"), ("BI", "CW"), ("CG", "DH"), ("EL", "SP"), ("SP", "EL"), ("MC", "BA")):
        judged = by_pair[base, top]
        page.goto(person.address(f"grid.html#at={base}-{top}"))
        said = bar(page)
        assert said.startswith(f"{judged.top.name.value} over {judged.base.name.value}")
        assert " ".join(food_lines(judged.food, False, edition.words)) in said
        assert to_do_words(judged.movement, edition.words) in said
        assert ("on a catch plate" in said) is judged.movement.catch_plate
        untested = judged.evidence.level is EvidenceLevel.UNTESTED
        assert ("Untested" if untested else upper_first(evidence_words(judged.evidence, edition.words))) in said


def test_the_bar_says_the_square_that_a_mouse_points_at_and_then_the_cursors_again(person: Person) -> None:
    page = person.open("grid.html")
    square(page, "BI", "HF").hover(force=True)
    assert bar(page).startswith("Harbour Fog over Bramble Ink")
    page.get_by_role("heading", level=1).hover()
    assert bar(page).startswith("Bramble Ink over Barley Attic")


def test_squares_show_what_one_chooses_with_or_without_scripts(person: Person) -> None:
    for page in (person.open("grid.html"), person.open("grid.html", java_script_enabled=False)):
        assert shown_marks(page) <= {"keep-off", "not-known", "labels-allow", "lab-report"}
        assert not page.locator(".grid-legend.show-running, .grid-legend.show-evidence").first.is_visible()
        page.get_by_role("radio", name="What to do about running").check(force=True)
        assert shown_marks(page) <= {"stable", "moves", "runny"}
        assert page.locator(".grid-legend.show-running").is_visible()
        page.get_by_role("radio", name="How far to trust it").check(force=True)
        assert shown_marks(page) <= {"seen-once", "repeated", "steady", "disagrees", "old"}
        assert shown_marks(page)
        assert not page.locator(".grid-legend.show-food").is_visible()
    again = person.open("grid.html#show=evidence&at=BI-HF")
    assert again.get_by_role("radio", name="How far to trust it").is_checked()


def test_untested_squares_are_the_map_of_what_to_try(person: Person) -> None:
    page, edition = person.open("grid.html"), demo_edition()
    assert edition.plan is not None
    planned = {tile.candidate.pair for tile in edition.plan.tiles}
    new = {pair for pair in planned if edition.pairs[pair].evidence.level is EvidenceLevel.UNTESTED}
    assert page.locator(".grid td.planned").count() == len(new)
    first = next(tile for tile in edition.plan.tiles if tile.candidate.pair in new)
    page.goto(person.address(f"grid.html#at={first.candidate.base.mark.value}-{first.candidate.top.mark.value}"))
    assert f"Untested, and on the plan: tile {first.mark}" in bar(page)
    page.goto(person.address("grid.html#at=MC-BA"))
    assert "not to be tried now: Moss Cellar is out" in bar(page)


def test_smaller_squares_show_more_and_touching_one_only_chooses_it(person: Person) -> None:
    page = person.open("grid.html", "phone", has_touch=True)
    page.get_by_text("What squares show, and how large").tap()
    before = page.locator(".grid").bounding_box()
    page.get_by_role("button", name="Smaller squares").tap()
    page.get_by_role("button", name="Smaller squares").tap()
    after = page.locator(".grid").bounding_box()
    assert before is not None and after is not None
    assert after["width"] < before["width"] / 2
    assert page.get_by_role("button", name="Smaller squares").get_attribute("aria-disabled") == "true"
    square(page, "BI", "CW").tap()
    assert bar(page).startswith("Candle Weir over Bramble Ink")
    assert "grid.html#size=1&at=BI-CW" in page.url
    page.get_by_role("link", name="Open its page").tap()
    page.wait_for_url("**/combinations/candle-weir-over-bramble-ink.html")


def test_fit_the_window_shows_every_column(person: Person) -> None:
    page = person.open("grid.html#size=5", "laptop")
    page.get_by_role("button", name="Fit the window").click()
    assert page.evaluate("(b => b.scrollWidth <= b.clientWidth)(document.querySelector('.grid-box'))")
    assert page.locator(".grid").get_attribute("data-zoom") == "3"


def test_without_scripts_every_square_still_says_its_words_and_leads_to_its_page(person: Person) -> None:
    page = person.open("grid.html", java_script_enabled=False)
    assert not page.locator(".grid-bar").is_visible()
    assert not page.locator(".zoom").is_visible()
    page.get_by_role("link", name="Candle Weir over Bramble Ink").click()
    page.wait_for_url("**/combinations/candle-weir-over-bramble-ink.html")


@pytest.mark.parametrize("size", SIZES)
def test_at_every_size_it_fits_and_can_be_touched_and_axe_finds_nothing(size: str, person: Person) -> None:
    page = person.open("grid.html#at=BI-HF", size, bypass_csp=True)
    assert is_as_wide_as_its_window(page)
    assert small_targets(page, "main") == []
    assert axe_finds(page) == []


def test_the_cursor_is_never_hidden_behind_the_bar_or_the_heads(person: Person) -> None:
    """WCAG 2.2, 2.4.11 Focus Not Obscured."""
    page = person.open("grid.html#at=BA-BI")
    for key in ("ArrowDown", "ArrowRight"):
        for _ in marks()[2:]:
            page.keyboard.press(key)
            assert page.evaluate(
                """() => { const box = document.activeElement.getBoundingClientRect();
                    const there = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                    return there?.closest('td, th') === document.activeElement.closest('td, th'); }"""
            ), (key, page.url)


def test_in_forced_colours_the_cursor_and_the_choice_are_outlined(person: Person) -> None:
    page = person.open("grid.html#at=BI-HF", forced_colors="active")
    outline = "e => getComputedStyle(e).outlineStyle"
    assert page.eval_on_selector(".grid td.chosen", outline) == "solid"
    assert page.eval_on_selector(".choose input:checked + span", outline) == "solid"


def test_on_a_phone_the_controls_are_folded_and_most_of_the_window_is_squares(person: Person) -> None:
    page = person.open("grid.html#at=BI-HF")
    assert page.get_by_role("button", name="Fit the window").is_visible()
    assert page.locator(".grid-fold summary").is_hidden(), "a wide window has room for them"
    page = person.open("grid.html#at=BI-HF", "phone")
    assert page.get_by_role("button", name="Fit the window").is_hidden()
    page.set_viewport_size({"width": 390, "height": 844})
    grid, bar_box = page.locator(".grid-box").bounding_box(), page.locator(".grid-bar").bounding_box()
    assert grid is not None and bar_box is not None
    assert grid["y"] < 340 and bar_box["height"] < 90
    page.get_by_text("What squares show, and how large").click()
    page.get_by_role("radio", name="How far to trust it").check(force=True)
    assert shown_marks(page) <= {"seen-once", "repeated", "steady", "disagrees", "old"}
    assert is_as_wide_as_its_window(page) and small_targets(page, ".grid-fold, .grid-bar") == []


def test_without_scripts_the_choices_of_the_grid_stand_open_on_a_phone(person: Person) -> None:
    page = person.open("grid.html", "phone", java_script_enabled=False)
    assert page.get_by_role("radio", name="How far to trust it").is_visible()


def test_the_bar_begins_its_words_with_a_capital_letter(person: Person) -> None:
    page = person.open("grid.html#at=BI-HF")
    assert all(words[0].isupper() for words in page.locator(".grid-bar .sign-words").all_inner_texts())
