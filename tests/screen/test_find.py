"""Finding a layering: typed, chosen, shared, stepped back, with the keyboard alone, and with no script at all."""

from __future__ import annotations

from collections import Counter

import pytest
from playwright.sync_api import Page

from combobook.colours import family
from combobook.entries import Status
from combobook.render.cards import best_picture
from combobook.render.views.desk import has_page
from combobook.verdicts import EvidenceLevel, FoodLevel, LayeringVerdict, ToDo
from tests.published_demo import demo_edition
from tests.screen.person import SIZES, Person, axe_finds, is_as_wide_as_its_window, small_targets


def layerings() -> list[LayeringVerdict]:
    return [verdict for verdict in demo_edition().judged.layerings.values() if has_page(verdict)]


def over(verdict: LayeringVerdict) -> str:
    return f"{verdict.top.name.value} over {verdict.base.name.value}"


def names(page: Page) -> list[str]:
    """The names of the results, all of them asked for."""
    while page.get_by_role("button", name="Show").is_visible():
        page.get_by_role("button", name="Show").click()
    return page.locator("[data-part=results] h3").all_inner_texts()


def count_beside(page: Page, words: str, question: str) -> int:
    group = page.get_by_role("group", name=question)
    return int(group.locator("label", has_text=words).locator(".count").inner_text())


def test_a_person_types_a_glaze_and_sees_it_and_what_it_is_in(person: Person) -> None:
    page = person.open("find.html")
    page.get_by_label("Name, mark or look").fill("harbour")
    glazes = page.locator(".find-glazes a.find-glaze-name").all_inner_texts()
    assert glazes[0] == "Harbour Fog"
    wanted = {over(v) for v in layerings() if "harbour-fog" in (v.base.id, v.top.id)}
    nicknamed = {n for n in names(page) if "Harbour Fog" not in n}
    assert wanted <= set(names(page))
    assert len(nicknamed) < 5
    assert page.url.endswith("#words=harbour")


@pytest.mark.parametrize(
    ("typed", "found"),
    [("HF", "Harbour Fog"), ("hf", "Harbour Fog"), ("floats white", "Harbour Fog"), ("BLÜE-grey floats", "Harbour Fog")],
)
def test_a_glaze_is_found_by_mark_and_by_look_in_any_case_and_with_accents(
    typed: str, found: str, person: Person
) -> None:
    page = person.open("find.html")
    page.get_by_label("Name, mark or look").fill(typed)
    assert page.locator(".find-glazes a.find-glaze-name").first.inner_text() == found


def test_a_tile_in_the_hand_is_found_by_its_mark(person: Person) -> None:
    tile = next(t for v in layerings() for t in v.tiles)
    page = person.open("find.html")
    page.get_by_label("Name, mark or look").fill(tile.tile.value.lower())
    wanted = [over(v) for v in layerings() if any(t.tile.value == tile.tile.value for t in v.tiles)]
    assert sorted(names(page)) == sorted(wanted)


def test_choices_narrow_and_each_count_says_what_its_choice_would_leave(person: Person) -> None:
    page = person.open("find.html")
    page.get_by_label("First").select_option("bramble-ink")
    chosen = [v for v in layerings() if v.base.id == "bramble-ink"]
    assert sorted(names(page)) == sorted(map(over, chosen))
    by_food = Counter(v.food.level for v in chosen)
    for words, level in (("Keep off food", FoodLevel.KEEP_OFF), ("Not known:", FoodLevel.NOT_KNOWN),
                         ("Labels allow,", FoodLevel.LABELS_ALLOW), ("Lab report", FoodLevel.LAB_REPORT)):  # fmt: skip
        said = page.get_by_role("group", name="May it touch food?").locator("label", has_text=words)
        exact = said.filter(has_not_text="Not known") if words == "Keep off food" else said
        assert int(exact.locator(".count").inner_text()) == by_food[level], words
    by_to_do = Counter(v.movement.to_do for v in chosen)
    assert count_beside(page, "Leave bare clay", "What to do about running") == by_to_do[ToDo.LEAVE]
    assert count_beside(page, "Top third", "What to do about running") == by_to_do[ToDo.TOP_THIRD]
    steady = sum(v.evidence.level is EvidenceLevel.STEADY for v in chosen)
    assert count_beside(page, "Steady", "How far to trust it") == steady
    page.get_by_label("Steady").check()
    assert len(names(page)) == steady
    assert count_beside(page, "Repeated", "How far to trust it") == sum(
        v.evidence.level is EvidenceLevel.REPEATED for v in chosen
    )


def test_clay_colour_and_shelf_are_choices_too(person: Person) -> None:
    page = person.open("find.html#clay=hod-speckle")
    on = [v for v in layerings() if any(t.fired and t.clay and t.clay.id == "hod-speckle" for t in v.tiles)]
    assert sorted(names(page)) == sorted(map(over, on))
    page.get_by_role("button", name="Begin again").click()
    page.get_by_label("Colour family").select_option("blue_green")
    shown = [(v, best_picture(demo_edition(), v)) for v in layerings()]
    green = [v for v, p in shown if p and p.picture.colour and family(p.picture.colour.main) == "blue_green"]
    assert sorted(names(page)) == sorted(map(over, green))
    page = person.open("find.html")
    page.get_by_label("Only what is on the shelf now").check()
    gone = (Status.OUT, Status.RETIRED)
    now = [v for v in layerings() if v.base.status.value not in gone and v.top.status.value not in gone]
    assert sorted(names(page)) == sorted(map(over, now))


def test_the_address_can_be_shared_and_back_takes_back_one_choice(person: Person) -> None:
    page = person.open("find.html")
    everything = page.get_by_role("status").inner_text()
    page.get_by_label("then", exact=True).select_option("harbour-fog")
    with_top = page.get_by_role("status").inner_text()
    page.get_by_label("Labels allow, not lab tested").check()
    narrowed = page.get_by_role("status").inner_text()
    assert page.url.endswith("#top=harbour-fog&food=labels_allow")
    assert person.open(f"find.html#{page.url.partition('#')[2]}").get_by_role("status").inner_text() == narrowed
    page.go_back()
    assert page.get_by_role("status").inner_text() == with_top
    assert page.locator("[name=food][value='']").is_checked()
    page.go_back()
    assert page.get_by_role("status").inner_text() == everything
    page.go_forward()
    assert page.get_by_label("then", exact=True).input_value() == "harbour-fog"


def test_back_from_a_layering_shows_what_was_found_before(person: Person) -> None:
    page = person.open("find.html#first=bramble-ink")
    found = page.get_by_role("status").inner_text()
    page.locator("[data-part=results] a").first.click()
    page.wait_for_url("**/combinations/*")
    page.go_back()
    assert page.get_by_role("status").inner_text() == found


def test_results_are_pictures_with_words_and_shapes_a_few_at_a_time(person: Person) -> None:
    page = person.open("find.html")
    cards = page.locator("[data-part=results] > li")
    assert cards.count() == 24
    for n in range(3):
        card = cards.nth(n)
        assert card.locator("img").evaluate("e => e.width > 0 && e.height > 0 && e.alt.length > 5")
        signs = [s for s in card.locator(".sign").all() if s.is_visible()]
        assert len(signs) >= 3
        for sign in signs:
            mark = sign.locator("use").get_attribute("href") or ""
            assert page.locator(mark).count() == 1
            assert sign.locator(".sign-words").inner_text()
    page.get_by_role("button", name="Show 24 more").click()
    assert cards.count() == 48
    assert cards.nth(24).locator("a").evaluate("e => e === document.activeElement")


def test_the_keyboard_alone_finds_and_opens(person: Person) -> None:
    page = person.open("find.html")
    page.get_by_label("Name, mark or look").focus()
    page.keyboard.type("millpond snow")
    page.keyboard.press("Enter")
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.closest('[data-part=results]') !== null"):
            break
    first = page.evaluate("document.activeElement.textContent")
    page.keyboard.press("Enter")
    page.wait_for_url("**/combinations/*")
    assert page.locator("h1").inner_text().split("\n")[0].split(" over ")[0] in first


def test_where_nothing_fits_the_page_says_so_and_one_button_begins_again(person: Person) -> None:
    page = person.open("find.html#first=bramble-ink&top=bramble-ink")
    assert page.get_by_role("status").inner_text() == "No layering fits. Take back a choice, or ask for any pair."
    page.get_by_role("button", name="Begin again").click()
    assert page.get_by_role("status").inner_text() == f"{len(layerings())} layerings"
    assert "#" not in page.url


def test_an_address_from_another_book_asks_for_nothing_that_this_one_does_not_have(person: Person) -> None:
    page = person.open("find.html#first=no-such-glaze&food=perhaps&colour=plaid&nonsense=1")
    assert page.get_by_label("First").input_value() == ""
    assert page.get_by_role("status").inner_text() == f"{len(layerings())} layerings"
    page = person.open("pair.html#first=no-such-glaze&top=harbour-fog&form=teapot")
    assert page.get_by_role("status").inner_text().startswith("Choose the glaze that goes on first")


def test_two_glazes_chosen_lead_to_their_pair(person: Person) -> None:
    page = person.open("find.html#first=rook-lane&top=plum-gutter")
    page.get_by_role("link", name="Rook Lane first, then Plum Gutter: both orders").click()
    page.wait_for_url("**/pair.html#first=rook-lane&top=plum-gutter")
    assert page.locator("#side-this").inner_text() == "Plum Gutter over Rook Lane"


def test_the_skip_link_leaves_the_choices_as_they_are(person: Person) -> None:
    page = person.open("find.html#first=bramble-ink")
    found = page.get_by_role("status").inner_text()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.get_by_role("status").inner_text() == found
    assert page.get_by_label("First").input_value() == "bramble-ink"


def test_the_first_screen_of_the_first_page_leads_here(person: Person) -> None:
    page = person.open("index.html")
    link = page.locator("main").get_by_role("link", name="Find a layering")
    box = link.bounding_box()
    assert box is not None and box["y"] + box["height"] < SIZES["laptop"][1]
    link.click()
    page.wait_for_url("**/find.html")


def test_without_scripts_the_page_leads_to_every_layering_by_first_glaze(person: Person) -> None:
    page = person.open("find.html", java_script_enabled=False)
    assert not page.locator(".live").is_visible()
    firsts = {v.base.id for v in layerings()}
    assert page.locator(".find-plain a").count() == len(firsts)
    page.locator(".find-plain a", has_text="Bramble Ink first").click()
    page.wait_for_url("**/layerings.html#then-bramble-ink")


@pytest.mark.parametrize("address", ["find.html", "find.html#words=blue&food=not_known"])
def test_at_every_size_it_fits_and_can_be_touched_and_axe_finds_nothing(address: str, person: Person) -> None:
    page = person.open(address, bypass_csp=True)
    page.locator("details.find-more").evaluate("e => { e.open = true }")
    assert axe_finds(page) == []
    for width, height in SIZES.values():
        page.set_viewport_size({"width": width, "height": height})
        assert is_as_wide_as_its_window(page)
        assert small_targets(page, "main") == []
