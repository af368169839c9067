"""The change sheet: what to cross out on last term's chart, read back by Poppler."""

from __future__ import annotations

from dataclasses import replace

from combobook.render.chart.content import on_chart
from combobook.render.sheets.change_sheet import PATH, change_sheet
from combobook.render.views.changes import changes_since
from tests.published_demo import demo_edition
from tests.sheets.reading import made, read, same_twice, sound


def test_every_changed_card_of_the_chart_is_named_and_stricter_ones_have_words_to_paste() -> None:
    edition = demo_edition()
    found = changes_since(edition)
    assert found is not None
    text = " ".join(page.text for page in sound(made(change_sheet)[PATH]))
    hanging = [each for each in found.verdicts if (v := edition.judged.layerings.get((each.now.base, each.now.top))) and on_chart(v)]
    assert len(hanging) > 10
    for each in hanging:
        base, top = edition.book.glazes[each.now.base], edition.book.glazes[each.now.top]
        where = f"{base.name.value} first ({base.mark.value}), then {top.name.value} ({top.mark.value})"
        assert text.count(where) == (2 if each.stricter else 1), where


def test_of_a_first_edition_it_says_that_there_is_no_earlier_chart() -> None:
    edition = demo_edition()
    first = replace(edition, book=replace(edition.book, editions=()))
    files, problems = change_sheet(first)
    assert problems == ()
    (page,) = read(files[PATH])
    assert "This is the first edition" in page.text
    assert "Before you glaze" in page.text


def test_it_is_the_same_twice() -> None:
    same_twice(change_sheet)
