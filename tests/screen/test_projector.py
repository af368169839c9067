"""Large, before a class: a part fills the window, keys and clickers go on and back, a slow round can be stopped."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from combobook.wording import food_lines, to_do_words
from tests.published_demo import demo_edition
from tests.screen.person import SIZES, Person, axe_finds, is_as_wide_as_its_window, small_targets

FIRST = "projector/bramble-ink.html"


def in_view(page: Page) -> str:
    """The id of the part whose top is at the window's."""
    page.wait_for_function(
        "[...document.querySelectorAll('.slide')].some(s => Math.abs(s.getBoundingClientRect().top) < 2)"
    )
    found: str = page.evaluate(
        "[...document.querySelectorAll('.slide')].find(s => Math.abs(s.getBoundingClientRect().top) < 2).id"
    )
    return found


def ids(page: Page) -> list[str]:
    found: list[str] = page.evaluate("[...document.querySelectorAll('.slide')].map(s => s.id)")
    return found


@pytest.mark.parametrize(
    ("on", "back"), [("PageDown", "PageUp"), ("ArrowRight", "ArrowLeft"), ("ArrowDown", "ArrowUp")]
)
def test_keys_and_clickers_go_on_and_back(on: str, back: str, person: Person) -> None:
    page = person.open(FIRST, "projector")
    every = ids(page)
    assert in_view(page) == every[0]
    page.keyboard.press(on)
    page.keyboard.press(on)
    assert in_view(page) == every[2]
    assert page.url.endswith(f"#{every[2]}")
    page.keyboard.press(back)
    assert in_view(page) == every[1]


def test_after_the_last_part_comes_the_next_glaze_and_back_again(person: Person) -> None:
    page = person.open(FIRST, "projector")
    last = ids(page)[-1]
    page.goto(person.address(f"{FIRST}#{last}"))
    assert in_view(page) == last
    page.keyboard.press("PageDown")
    page.wait_for_url("**/projector/brick-swallow.html")
    page.keyboard.press("PageUp")
    page.wait_for_url(f"**/{FIRST}#{last}")
    assert in_view(page) == last


def test_a_slow_round_goes_on_by_itself_over_glazes_until_it_is_paused(person: Person) -> None:
    page = person.open(FIRST, "projector")
    every = ids(page)
    page.clock.install()
    page.reload()
    page.locator(".slide").first.get_by_role("button", name="Slow round").click()
    page.clock.run_for(20_000)
    assert in_view(page) == every[1]
    page.keyboard.press("Escape")
    page.clock.run_for(60_000)
    assert in_view(page) == every[1], "paused"
    page.goto(person.address(FIRST).replace(".html", f".html?round#{every[-1]}"))
    assert page.locator(f"#{every[-1]}").get_by_role("button", name="Pause").is_visible()
    page.clock.run_for(20_000)
    page.wait_for_url("**/projector/brick-swallow.html?round")


@pytest.mark.parametrize("size", ["laptop", "projector"])
def test_every_part_of_every_glaze_fits_its_window(size: str, person: Person) -> None:
    page = person.open("projector.html", size)
    links = page.eval_on_selector_all(".rounds a", "all => all.map(a => a.href)")
    assert len(links) == len(
        {v.base.id for v in demo_edition().judged.layerings.values() if v.entry or v.tiles or v.findings}
    )
    cut = """() => [...document.querySelectorAll('.slide')].flatMap(slide => {
        const box = slide.getBoundingClientRect();
        return [...slide.querySelectorAll('p, h2, li, .verdict, svg, a, button')].filter(e => e.checkVisibility())
            .map(e => [e, e.getBoundingClientRect()])
            .filter(([, b]) => b.width && (b.right > box.right + 1 || b.bottom > box.bottom + 1 || b.left < box.left - 1))
            .map(([e]) => `${slide.id}: ${e.textContent.trim().slice(0, 40)}`);
    })"""
    over = """() => [...document.querySelectorAll('.slide')].filter(slide => {
        const foot = slide.querySelector('.slide-ways').getBoundingClientRect();
        const facts = [...slide.querySelectorAll('.slide-fact, .slide-pot svg, .slide-about li')].filter(e => e.checkVisibility());
        return facts.some(e => e.getBoundingClientRect().bottom > foot.top + 1);
    }).map(slide => slide.id)"""
    for link in links:
        page.goto(link)
        assert page.evaluate(cut) == [], link
        assert page.evaluate(over) == [], link


def test_a_part_says_what_was_judged_with_the_words_of_the_chart(person: Person) -> None:
    page, edition = person.open(FIRST, "projector"), demo_edition()
    for verdict in edition.judged.layerings.values():
        if verdict.base.id == "bramble-ink" and (verdict.entry is not None or verdict.tiles):
            slide = page.locator(f"#{verdict.top.id}")
            said = " ".join(slide.inner_text().split())
            assert said.startswith(f"{verdict.top.name.value} over Bramble Ink")
            assert " ".join(food_lines(verdict.food, False, edition.words)) in said
            assert to_do_words(verdict.movement, edition.words) in said
            assert "Your own piece decides" in said
            assert "label and the school's or local rules come first" in said
            assert ("On a catch plate" in said) is verdict.movement.catch_plate


def test_letters_are_as_large_as_the_look_asks_at_1920_by_1080(person: Person) -> None:
    page = person.open(f"{FIRST}#candle-weir", "projector")
    size = "(e => parseFloat(getComputedStyle(e).fontSize))"
    due = {".slide-name": 112, ".slide-over": 62, ".verdict-words": 70, ".slide-fact": 52, ".slide-fact .slide-small": 36,
           ".slide-foot": 26}  # fmt: skip
    for what, least in due.items():
        assert page.eval_on_selector(f"#candle-weir {what}", size) >= least - 0.1, what
    tile = page.locator("#candle-weir .slide-tile").bounding_box()
    assert tile is not None and tile["height"] > 900


def test_comparisons_show_two_tiles_with_both_verdicts(person: Person) -> None:
    page = person.open(f"{FIRST}#clear-gallery-1", "projector")
    slide = page.locator("#clear-gallery-1")
    assert slide.locator(".slide-side").count() == 2
    assert slide.locator(".sign-food").count() == 2
    assert slide.inner_text().count("Drawing.") == 2


def test_a_page_begun_at_and_a_layerings_own_page_lead_there(person: Person) -> None:
    page = person.open("combinations/candle-weir-over-bramble-ink.html", "projector")
    page.get_by_role("link", name="Show it large").click()
    page.wait_for_url(f"**/{FIRST}#candle-weir")
    page.locator("#candle-weir").get_by_role("link", name="Close").click()
    page.get_by_role("link", name="Begin a slow round").click()
    page.wait_for_url("**/projector/barley-attic.html?round")


def test_without_scripts_parts_follow_each_other_and_each_leads_on(person: Person) -> None:
    page = person.open(FIRST, "projector", java_script_enabled=False)
    first, second = (page.locator(".slide").nth(n).get_attribute("id") for n in (0, 1))
    page.locator(f"#{first}").get_by_role("link", name="Next").click()
    page.wait_for_url(f"**/{FIRST}#{second}")
    box = page.locator(f"#{second}").bounding_box()
    assert box is not None and abs(box["y"]) < 2
    assert page.locator("[data-part=round]:visible").count() == 0


def test_nothing_moves_smoothly_for_those_who_asked_for_less_motion(person: Person) -> None:
    page = person.open(FIRST, "projector", reduced_motion="reduce")
    assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
    assert page.evaluate("document.getAnimations().length") == 0


@pytest.mark.parametrize("size", SIZES)
def test_at_every_size_it_fits_and_can_be_touched_and_axe_finds_nothing(size: str, person: Person) -> None:
    page = person.open("projector/brick-swallow.html", size, bypass_csp=True)
    assert is_as_wide_as_its_window(page)
    assert small_targets(page, "main") == []
    assert axe_finds(page) == []


def test_the_page_to_begin_at_has_nothing_that_axe_finds(person: Person) -> None:
    page = person.open("projector.html", "phone", bypass_csp=True)
    assert is_as_wide_as_its_window(page)
    assert axe_finds(page) == []


@pytest.mark.parametrize("size", ["laptop", "projector"])
def test_up_to_three_cautions_leave_the_pot_its_place(size: str, person: Person) -> None:
    """Clear Gallery first has a layering with three, Thistle Barge first one with two."""
    for first, top, count in (("clear-gallery", "harbour-fog", 3), ("thistle-barge", "barley-attic", 2)):
        page = person.open(f"projector/{first}.html#{top}", size)
        slide = page.locator(f"#{top}")
        assert slide.locator(".slide-care").count() == count
        pot, ways = slide.locator(".slide-pot .pot").bounding_box(), slide.locator(".slide-ways").bounding_box()
        assert pot is not None and ways is not None
        assert pot["height"] > 0 and pot["y"] + pot["height"] <= ways["y"] + 1


def test_no_button_is_named_by_a_word_of_what_to_do(person: Person) -> None:
    page = person.open("projector/clear-gallery.html")
    assert page.locator(".slide-ways").get_by_text("Leave").count() == 0
    assert page.locator(".slide-ways").first.get_by_role("link", name="Close").is_visible()
