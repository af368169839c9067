"""The change sheet: what to cross out on last term's chart, read back by Poppler."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from combobook.past import Changed, Way
from combobook.render.chart.content import chart_groups, on_chart
from combobook.render.sheets.change_sheet import PATH, change_sheet
from combobook.render.views.changes import changes_since
from tests.published_demo import demo_edition
from tests.sheets.reading import made, read, same_twice, sound

STRICTER, STAYS = "Stricter now: cross these out first", "Stricter now, though the chart's words stay"
KINDER, ALONE = "Kinder now: these can wait", "Stricter by itself (3)"
NAME = r"[A-Z]\w+(?: [A-Z]\w+)?"
WHERE = re.compile(rf"{NAME} first \([A-Z]+\), then {NAME} \([A-Z]+\)")


@cache
def parts() -> Mapping[str, str]:
    """What stands under each heading of the demo's sheet."""
    text = " ".join(" ".join(_body(page.text)) for page in read(made(change_sheet)[PATH]))
    found = re.split(f"({'|'.join(map(re.escape, (STRICTER, STAYS, KINDER, ALONE, 'To paste over')))})", text)
    return dict(zip(found[1::2], found[2::2], strict=True))


def _body(text: str) -> list[str]:
    """A page without its head and its foot."""
    return re.sub(r"^.*?Replaces earlier editions|Before you glaze.*$", "", text).split()


def under(heading: str) -> dict[str, str]:
    """What stands under a heading about each card, by where it hangs."""
    text = parts()[heading]
    spots = [(found.group(), found.end(), found.start()) for found in WHERE.finditer(text)]
    ends = [start for _, _, start in spots[1:]] + [len(text)]
    return {where: text[begin:end].strip() for (where, begin, _), end in zip(spots, ends, strict=True)}


def where(each: Changed) -> str:
    base, top = demo_edition().book.glazes[each.now.base], demo_edition().book.glazes[each.now.top]
    return f"{base.name.value} first ({base.mark.value}), then {top.name.value} ({top.mark.value})"


def hanging() -> list[Changed]:
    edition = demo_edition()
    found = changes_since(edition)
    assert found is not None
    layerings = edition.judged.layerings
    return [each for each in found.verdicts if (v := layerings.get((each.now.base, each.now.top))) and on_chart(v)]


def test_it_is_sound() -> None:
    sound(made(change_sheet)[PATH])


def test_every_changed_card_of_the_chart_is_named_under_the_way_its_verdict_went() -> None:
    stricter, kinder = {**under(STRICTER), **under(STAYS)}, under(KINDER)
    assert len(hanging()) > 10
    for each in hanging():
        ways = {part.way for part in (each.food, each.movement) if part is not None}
        assert (where(each) in stricter) is (Way.STRICTER in ways), where(each)
        assert (where(each) in kinder) is (Way.KINDER in ways), where(each)


def test_a_card_that_is_stricter_about_one_thing_and_kinder_about_the_other_has_each_under_its_own_heading() -> None:
    lichen = "Rook Lane first (RL), then Lichen Wall (LW)"
    assert under(STRICTER)[lichen] == "Food: cross out “Not known: keep off food”, write “Keep off food”."
    assert under(KINDER)[lichen] == (
        "Running: cross out “Top third”, write “Leave 13 mm”. Catch plate: cross out “on a catch plate”."
    )


def test_no_line_has_the_same_words_before_and_after() -> None:
    pairs = re.findall(r"cross out “([^”]*)”, write “([^”]*)”", " ".join(parts().values()))
    assert len(pairs) > 20
    assert [pair for pair in pairs if pair[0] == pair[1]] == []


def test_what_is_to_be_written_are_the_words_of_today_s_cards() -> None:
    cards = [told.card for group in chart_groups(demo_edition()) for told in group.cards]
    words = {" ".join(card.food_lines) for card in cards} | {card.to_do for card in cards}
    written = set(re.findall(r", write “([^”]*)”", " ".join(parts().values())))
    assert written and written <= words


def test_a_margin_that_no_card_says_is_told_apart_with_nothing_to_cross_out() -> None:
    told = under(STAYS)["Bramble Ink first (BI), then Dusk Heron (DH)"]
    assert told == "Bare clay above the kiln shelf: was 16 mm (5/8 in), now 22 mm (7/8 in)."
    assert not any("cross out" in each for each in under(STAYS).values())


def test_a_mark_that_is_another_under_the_same_words_is_told() -> None:
    assert under(KINDER)["Kettle Rust first (KR), then Salt Gull (SG)"] == (
        "The mark beside it: it was that of “Runny”, it is that of “Moves”. Catch plate: cross out “on a catch plate”."
    )


def test_words_to_paste_are_there_for_each_card_that_says_something_stricter_and_for_no_other() -> None:
    assert under("To paste over").keys() == under(STRICTER).keys()


def test_glazes_that_are_stricter_by_themselves_are_named_for_the_other_sheets_before_what_can_wait() -> None:
    assert "Clear Gallery; Dusk Heron; Millpond" in parts()[ALONE]
    assert list(parts()) == [STRICTER, STAYS, ALONE, KINDER, "To paste over"]


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
