"""Any pair: what the page shows is what the program judged, in both orders, on a form that one may choose."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page

from combobook.render.cautions import cautions
from combobook.verdicts import Band, EvidenceLevel, LayeringVerdict
from combobook.wording import coats_words, food_in_full, no_band_sentence, sentence, to_do_words
from tests.published_demo import demo_edition
from tests.screen.person import SIZES, Person, axe_finds, is_as_wide_as_its_window, small_targets

PAIRS = (
    ("bramble-ink", "harbour-fog"), ("rook-lane", "plum-gutter"), ("snow-pantry", "ember-loft"),
    ("clear-gallery", "candle-weir"), ("cinder-lark", "salt-gull"), ("kettle-rust", "moss-cellar"),
)  # fmt: skip
"""Steady, untested, kept off, a rim-only top, two that nobody laid together, one with an old label."""


def verdict(base: str, top: str) -> LayeringVerdict:
    return demo_edition().pairs[base, top]


def side(page: Page, name: str) -> Locator:
    return page.locator(f"[data-side={name}]")


def text(of: Locator) -> str:
    return " ".join(of.inner_text().split())


def band(judged: LayeringVerdict, form: str) -> Band:
    return next(each for each in judged.bands if each.form.id == form)


@pytest.mark.parametrize(("base", "top"), PAIRS)
def test_both_orders_say_what_the_program_judged(base: str, top: str, person: Person) -> None:
    page = person.open(f"pair.html#first={base}&top={top}&form=bowl")
    words = demo_edition().words
    for name, judged in (("this", verdict(base, top)), ("other", verdict(top, base))):
        shown, told = side(page, name), text(side(page, name))
        names = judged.base.name.value, judged.top.name.value
        assert text(shown.locator("h2")) == f"{names[1]} over {names[0]}"
        assert coats_words(*names, judged.coats, words) in told
        assert text(shown.locator(".verdict-words")) == food_in_full(judged.food, False, words)
        beside = cautions(judged, demo_edition().book, demo_edition().judged, words)
        reasons = [sentence(reason, words) for reason in judged.food.reasons]
        assert shown.locator(".whys li").all_inner_texts() == [*beside, *reasons]
        assert text(shown.locator("[data-part=running] .big")) == to_do_words(judged.movement, words)
        assert ("On a catch plate" in told) is judged.movement.catch_plate
        untested = judged.evidence.level is EvidenceLevel.UNTESTED
        assert ("No tile of this has been made" in told) is (untested and not judged.tiles)
        assert shown.locator("[data-part=page]").is_visible() is (judged.entry is not None or bool(judged.tiles))
        for why in band(judged, "bowl").none:
            assert no_band_sentence(why, words) in told
    assert "Your own piece decides" in text(page.locator("main"))


@pytest.mark.parametrize(("base", "top"), PAIRS[:4])
def test_the_drawing_shows_the_figures_judged_for_the_chosen_form(base: str, top: str, person: Person) -> None:
    page = person.open(f"pair.html#first={base}&top={top}")
    for form in ("mug", "bowl", "vase", "wall-tile", "planter"):
        page.get_by_label("on this form:").select_option(form)
        for name, judged in (("this", verdict(base, top)), ("other", verdict(top, base))):
            assert side(page, name).locator("[data-form]:visible").count() == 1
            _is_drawn(side(page, name).locator(f"[data-form={form}]:visible"), band(judged, form))


def _is_drawn(place: Locator, found: Band) -> None:
    """The band stands where it was judged: its ends in mm, read back from the drawing."""
    start, scale = (float(place.get_attribute(f"data-{key}") or 0) for key in ("top", "scale"))
    drawn = [[float(r.get_attribute(key) or 0) for key in ("y", "height")] for r in place.locator("rect.here").all()]
    if found.from_mm is None or found.to_mm is None:
        assert drawn == []
    else:
        ((y, height),) = drawn
        assert (y - start) / scale == pytest.approx(found.from_mm, abs=0.01)
        assert height / scale == pytest.approx(found.to_mm - found.from_mm, abs=0.01)
    for lining in place.locator(".inside-line").all():
        assert (lining.get_attribute("visibility") == "visible") is bool(found.inside)


def test_a_plate_is_answered_for_its_inside_seen_from_above(person: Person) -> None:
    page = person.open("pair.html#first=bramble-ink&top=harbour-fog&form=plate")
    for name, pair in (("this", ("bramble-ink", "harbour-fog")), ("other", ("harbour-fog", "bramble-ink"))):
        seen = side(page, name).locator(".profile-above:visible")
        assert seen.count() == 1
        assert ("not inside" in seen.inner_text()) is not bool(band(verdict(*pair), "plate").inside)


def test_every_ordered_pair_of_the_book_is_there(person: Person) -> None:
    page = person.open("pair.html")
    keys = page.evaluate(
        "records(book.pairs.pairs).map(p => [p.base, p.top].map(n => book.layerings.glazes.rows[n][0]))"
    )
    assert sorted(map(tuple, keys)) == sorted(demo_edition().pairs)


def test_it_begins_by_asking_and_turns_the_order_round(person: Person) -> None:
    page = person.open("pair.html")
    assert page.get_by_role("status").inner_text().startswith("Choose the glaze that goes on first")
    assert not page.locator(".sides").is_visible()
    page.get_by_label("First").select_option("rook-lane")
    page.get_by_label("then", exact=True).select_option("rook-lane")
    assert "One glaze over itself" in page.get_by_role("status").inner_text()
    page.get_by_label("then", exact=True).select_option("snow-pantry")
    assert page.locator("#side-this").inner_text() == "Snow Pantry over Rook Lane"
    page.get_by_role("button", name="Turn the order round").click()
    assert page.locator("#side-this").inner_text() == "Rook Lane over Snow Pantry"
    assert re.search(r"#first=snow-pantry&top=rook-lane&form=\w+$", page.url)
    page.go_back()
    assert page.locator("#side-this").inner_text() == "Snow Pantry over Rook Lane"
    page.locator("[data-side=this] [data-part=page]").click()
    page.wait_for_url("**/combinations/snow-pantry-over-rook-lane.html")


def test_the_same_page_shows_one_pair_after_another_without_a_trace_of_the_last(person: Person) -> None:
    page = person.open("pair.html#first=snow-pantry&top=ember-loft")
    assert page.locator("[data-side=this] .verdict").get_attribute("class") == "verdict verdict-keep_off"
    page.get_by_label("First").select_option("bramble-ink")
    page.get_by_label("then", exact=True).select_option("harbour-fog")
    after = page.locator("main").inner_html()
    assert page.locator("[data-side=this] .verdict").get_attribute("class") == "verdict verdict-labels_allow"
    fresh = person.open(f"pair.html#{page.url.partition('#')[2]}")
    assert text(fresh.locator("main")) == text(page.locator("main"))
    assert after.count('class="here"') == fresh.locator("main").inner_html().count('class="here"')


def test_without_scripts_the_page_leads_to_the_grid_and_the_lists(person: Person) -> None:
    page = person.open("pair.html", java_script_enabled=False)
    assert not page.locator(".live").is_visible()
    assert [a.get_attribute("href") for a in page.locator(".plain a").all()] == [
        "grid.html", "layerings.html", "index.html#shelf",
    ]  # fmt: skip


@pytest.mark.parametrize("form", ["mug", "plate"])
def test_at_every_size_it_fits_and_can_be_touched_and_axe_finds_nothing(form: str, person: Person) -> None:
    page = person.open(f"pair.html#first=bramble-ink&top=harbour-fog&form={form}", bypass_csp=True)
    assert axe_finds(page) == []
    for width, height in SIZES.values():
        page.set_viewport_size({"width": width, "height": height})
        assert is_as_wide_as_its_window(page)
        assert small_targets(page, "main") == []


def test_in_forced_colours_the_plate_stays_filled(person: Person) -> None:
    page = person.open("pair.html#first=snow-pantry&top=ember-loft", forced_colors="active")
    colours = "e => [getComputedStyle(e).backgroundColor, getComputedStyle(e).color]"
    plate = page.eval_on_selector("[data-side=this] .verdict", colours)
    assert plate == list(reversed(page.eval_on_selector("html", colours)))
