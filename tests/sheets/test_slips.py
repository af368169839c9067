"""Slips for finished ware, read back by Poppler."""

from __future__ import annotations

import re

from combobook.edition import Edition
from combobook.entries import FoodRule
from combobook.render.cautions import cautions
from combobook.render.chart.content import on_chart
from combobook.render.sheets.shelf import on_the_shelf, pairs_on_the_shelf
from combobook.render.sheets.slips import PATH, slips
from combobook.verdicts import LayeringVerdict
from tests.chart.editions import edition as edition_of
from tests.published_demo import demo_edition
from tests.sheets.boxes import box
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import MM, SheetPage, every_word_on_its_page_and_on_no_other, made, read, same_twice, sound

NOT_FOR_FOOD = "Not for food use. May poison food. For decorative purposes only."
"""Modelled on 21 CFR 109.16 (from memory): the words for ornamental and decorative ware."""
NEVER_SAID = ("safe", "certified", "approved", "guaranteed", "complies")


def each(pdf: bytes) -> dict[str, str]:
    """The words of each slip by its heading: two columns, cut into rows where `Code on the piece:` ends a slip."""
    found = {}
    for page in read(pdf)[1:]:
        for left, right in ((0.0, page.width / 2), (page.width / 2, page.width)):
            for text in _slips(page, left, right):
                heading = re.split(r"\n(?=\d|$)", text)[0].split("\n")[0]
                found[heading] = " ".join(text.split())
    return found


def _slips(page: SheetPage, left: float, right: float) -> list[str]:
    """A column's text, slip by slip: each begins with a large heading."""
    tops = sorted(
        {round(w.y0, 1) for w in page.words if left <= w.x0 < right and w.y1 - w.y0 > 4.7 * MM and w.y0 > 22 * MM}
    )
    return [
        box(page, left, top - 1, right, (*tops, page.height)[n + 1] - 1 if n + 1 < len(tops) else top + 66 * MM)
        for n, top in enumerate(tops)
    ]


def wanted(edition: Edition) -> dict[str, bool]:
    """Each slip's heading, and whether what it speaks of may go where food goes."""
    pairs = [verdict for verdict in pairs_on_the_shelf(edition) if on_chart(verdict)]
    alone = {f"{v.glaze.mark.value} {v.glaze.name.value}, alone": v.food.food_ware for v in on_the_shelf(edition)}
    return alone | {
        f"{v.base.mark.value} {v.base.name.value} first, then {v.top.mark.value} {v.top.name.value}": v.food.food_ware
        for v in pairs
    }


def test_each_glaze_and_layering_on_the_shelf_has_one_slip_with_verdict_care_and_edition() -> None:
    pdf = made(slips)[PATH]
    sound(pdf)
    found, expected = each(pdf), wanted(demo_edition())
    assert found.keys() == expected.keys()
    for heading, text in found.items():
        assert (NOT_FOR_FOOD in text) is not expected[heading], heading
        for words in ("Your own piece decides: look it over.", "Care: wash by hand;", "Code on the piece:",
                      "Weir Street Clay Room · Edition 2026 Autumn, 20 November 2026"):  # fmt: skip
            assert words in text, (heading, words)


def test_a_slip_says_its_coats_and_the_reason_that_decides() -> None:
    found = each(made(slips)[PATH])
    text = found["BA Barley Attic first, then CF Copper Ferry"]
    assert "2 coats Barley Attic, then 1 Copper Ferry" in text
    assert "Keep off food The label of Copper Ferry says no food." in text


def test_a_slip_says_every_caution_of_its_page_in_short() -> None:
    text = each(made(slips)[PATH])["CG Clear Gallery first, then HF Harbour Fog"]
    assert (
        "By itself Clear Gallery is kept off food: ask your teacher first. Fewer coats of Harbour Fog than its label "
        "names: ask your teacher first. Seen only on Weir Buff: on another clay keep it off food."
    ) in text
    text = each(made(slips)[PATH])["BI Bramble Ink first, then SP Snow Pantry"]
    assert "The report speaks only of cup or mug, on Weir Buff, at cone 6." in text


def test_a_slip_has_as_many_cautions_as_its_page_and_none_where_the_page_has_none() -> None:
    edition, found = demo_edition(), each(made(slips)[PATH])
    pairs = [verdict for verdict in pairs_on_the_shelf(edition) if on_chart(verdict)]
    assert any(_on_page(edition, verdict) for verdict in pairs) and not all(_on_page(edition, v) for v in pairs)
    for verdict in pairs:
        base, top = verdict.base, verdict.top
        text = found[f"{base.mark.value} {base.name.value} first, then {top.mark.value} {top.name.value}"]
        said = re.findall(r"By itself|Fewer coats of|The report speaks|Seen only|On [\w ]+: keep|Kinder on|Not for this", text)
        assert len(said) == len(_on_page(edition, verdict)), text


def _on_page(edition: Edition, verdict: LayeringVerdict) -> tuple[str, ...]:
    return cautions(verdict, edition.book, edition.judged, edition.words)


def test_slips_stand_by_the_first_glazes_mark() -> None:
    pages = [page.text for page in read(made(slips)[PATH])[1:]]
    alone = [f"{v.glaze.mark.value} {v.glaze.name.value}, alone" for v in on_the_shelf(demo_edition())]
    stand = [[n for n, text in enumerate(pages) if heading in text] for heading in alone]
    assert [len(found) for found in stand] == [1] * len(alone)
    assert stand == sorted(stand) and stand[0] == [0]


def test_the_program_itself_never_says_that_anything_is_safe() -> None:
    text = " ".join(page.text for page in read(made(slips)[PATH])).casefold()
    assert [word for word in NEVER_SAID if re.search(rf"\b{word}\b", text)] == []
    assert "21 cfr 109.16, as we remember it" in text


def test_a_house_that_makes_nothing_for_food_says_so_on_every_slip() -> None:
    edition = demo_with(food_rule=FoodRule.NEVER)
    files, problems = slips(edition)
    assert problems == ()
    found = each(files[PATH])
    assert len(found) == len(wanted(edition))
    assert not any("Seen only on" in text or "Fewer coats" in text for text in found.values())
    assert all("House rule: nothing made here is for food" in text for text in found.values())


def test_on_a4_every_word_has_its_room() -> None:
    files, problems = slips(demo_with(paper=PAPERS["A4"]))
    assert problems == ()
    every_word_on_its_page_and_on_no_other(read(files[PATH]))
    assert each(files[PATH]).keys() == wanted(demo_edition()).keys()


def test_long_names_leave_room_for_the_reason() -> None:
    names = ("Wintermorning Salzgittersteinfeldblue", "Grandmother Kitchen Windowsill Green Number Seven")
    files, problems = slips(edition_of([(0, 1), (1, 0)], names=names, photo=False))
    assert problems == ()
    pages = read(files[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert pages[1].text.count("Code on the piece:") == 4
    assert (
        len(
            re.findall(
                r"allows food\.|has been fired to a cone|looked over|Why: see its page|By this studio's rule",
                pages[1].text,
            )
        )
        >= 4
    )


def test_equal_editions_give_equal_slips() -> None:
    same_twice(slips)
