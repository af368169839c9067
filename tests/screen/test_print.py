"""A page printed from the browser: what is looked up at the screen stays there, unless somebody opened it."""

from __future__ import annotations

from tests.screen.person import Person

LAYERING = "combinations/harbour-fog-over-bramble-ink.html"


def test_a_printed_layering_has_its_verdicts_and_forms_and_not_the_account_that_nobody_opened(person: Person) -> None:
    page = person.open(LAYERING)
    page.emulate_media(media="print")
    for words in ("Each label allows food", "On another clay nobody knows", "Where it may go", "Your own piece decides"):
        assert page.get_by_text(words).first.is_visible(), words
    assert page.locator("#why").is_hidden()
    assert page.locator(".neighbours").first.is_hidden()
    page.emulate_media(media="screen")
    assert page.locator(".neighbours").first.is_visible()
    page.locator("#why summary").click()
    page.emulate_media(media="print")
    assert page.locator("#why .chain").first.is_visible()


def test_a_layering_of_one_clay_and_coat_count_is_printed_on_four_sheets_at_most(person: Person) -> None:
    page = person.open("combinations/candle-weir-over-snow-pantry.html")
    pdf = page.pdf(prefer_css_page_size=True)
    assert 0 < pdf.count(b"/Type /Page\n") <= 4
