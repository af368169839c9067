"""The glaze chart: one line a glaze, read back by Poppler and pdfminer.six."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LAParams, LTChar, LTTextLine

from combobook.entries import FoodRule
from combobook.measures import Paper
from combobook.render.sheets.glaze_chart import PATH, glaze_chart
from combobook.render.sheets.shelf import on_the_shelf
from tests.chart.editions import NAMES
from tests.chart.editions import edition as small_edition
from tests.chart.test_read_back import CAPITAL, least, lines
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import MM, SheetPage, every_word_on_its_page_and_on_no_other, made, read, same_twice, sound

LARGE = re.compile(r"^(Not at cone 6$|The label allows food|Keep off food|Not known: keep off food|Leave \d|Top \d|Top third|Not on walls)")


def test_every_glaze_on_the_shelf_has_its_line_on_tabloid_paper_across() -> None:
    pages = sound(made(glaze_chart)[PATH])
    assert {(round(page.width / MM, 1), round(page.height / MM, 1)) for page in pages} == {(431.8, 279.4)}
    text = " ".join(page.text for page in pages)
    for verdict in on_the_shelf(demo_edition()):
        assert verdict.glaze.mark.value in text.split()
        assert verdict.glaze.name.value in text
    assert len(re.findall(r"Leave \d+ mm|Top \d+ mm|Top third|Not on walls|Not at cone 6(?!:)", text)) == 20
    assert text.count("catch plate") == sum(v.movement.catch_plate for v in on_the_shelf(demo_edition()))
    assert text.count("In the book, not on the shelf: BS Brick Swallow, CL Cinder Lark") == len(pages)
    assert text.count("6 mm (1/4 in), 13 mm (1/2 in)") == len(pages)


def test_names_food_words_what_to_do_and_their_key_are_legible_from_two_metres() -> None:
    names = [v.glaze.name.value for v in on_the_shelf(demo_edition())]
    found: list[str] = []
    for line in text_lines(made(glaze_chart)[PATH]):
        text = "".join(c.get_text() for c in line).strip()
        for name in names:
            if text.endswith(name):
                found.append(name)
                assert capital(line[-len(name) :]) >= least(2000, 16) - 0.005, text
        if (large := LARGE.match(text)) and "bare clay" not in text and "rim down" not in text:
            found.append(text)
            assert capital(line[: large.end()]) >= least(2000, 16) - 0.005, text
    assert set(names) <= set(found)
    assert "Not known: keep off food until it is" in found
    assert len(found) > 45


def text_lines(pdf: bytes) -> Iterator[list[LTChar]]:
    """The letters of each line, without what stands before its first letter."""
    for page in extract_pages(BytesIO(pdf), laparams=LAParams(char_margin=1.2)):  # No column with the next.
        stack = list(page)
        while stack:
            item = stack.pop()
            if isinstance(item, LTTextLine):
                yield [c for c in item if isinstance(c, LTChar)]
            elif hasattr(item, "__iter__"):
                stack.extend(item)


def row(page: SheetPage, name: str) -> str:
    """The chart's line of the glaze whose name begins so, by where its words stand."""
    named = next(word for word in page.words if word.text == name)
    inside = [w for w in page.words if named.y0 + 3 < (w.y0 + w.y1) / 2 < named.y1 - 3]
    return " ".join(word.text for word in sorted(inside, key=lambda w: (round(w.x0 / 20), w.y0)))


def capital(letters: list[LTChar]) -> float:
    """The height in mm of the smallest one's capitals."""
    return min(letter.size for letter in letters) * CAPITAL / MM


def test_a_glaze_for_another_cone_asks_for_no_margin_but_says_that_it_goes_into_no_kiln_of_ours() -> None:
    pages = read(made(glaze_chart)[PATH])
    assert row(pages[0], "Cherry") == "CS Cherry Sluice Not known: keep off food Not at cone 6"
    for page in pages:
        assert "Not at cone 6: the label says another cone. Do not brush it; it goes into no kiln of ours" in page.text


def test_a_glaze_whose_cone_nobody_knows_asks_to_be_asked_about() -> None:
    page = read(made(glaze_chart)[PATH])[1]
    assert row(page, "Otter") == "OS Otter Slate Not known: keep off food Leave 13 mm ask first"
    assert "Ask first: nobody has written down the cone on the label of OS Otter Slate." in page.text


def test_nothing_touches_the_catch_plate() -> None:
    """Its words stand right under it; the instruction before it ends well before them."""
    for page in read(made(glaze_chart)[PATH]):
        plates = [word for word in page.words if word.text == "catch" and word.x0 > 0.9 * page.width]
        assert plates
        for plate in plates:
            before = max(w.x1 for w in page.words if w.x0 < plate.x0 - 5 and w.y0 < plate.y0 < w.y1)
            assert plate.x0 - before > 3.5 * MM


def test_what_is_kept_off_food_has_its_reason_beside_it() -> None:
    text = " ".join(page.text for page in read(made(glaze_chart)[PATH]))
    assert "Keep off food the label says no" in text
    assert "Keep off food faults on 1 of 3 tiles" in text


def test_the_key_has_every_food_mark_on_the_chart_and_every_mark_of_running() -> None:
    for page in read(made(glaze_chart)[PATH]):
        key = page.text[page.text.index("Keep off food The label allows food Not known: keep off food until it is") :]
        assert "Stable: no run over 1 mm Moves: under 5 mm Runny: 5 mm and over, or nobody knows" in key
        assert "Catch plate: under the pot" in key


def test_a_chart_of_one_food_word_that_says_it_all_needs_no_key_to_it() -> None:
    files, _ = glaze_chart(small_edition((), names=NAMES[:3]))
    assert read(files[PATH])[0].text.count("The label allows food") == 3


def test_fourteen_lines_fit_on_a_tabloid_sheet() -> None:
    files, problems = glaze_chart(small_edition((), names=NAMES[:14]))
    assert problems == ()
    assert len(read(files[PATH])) == 1
    files, _ = glaze_chart(small_edition((), names=NAMES))
    assert len(read(files[PATH])) == 2


def test_a_studio_that_prints_on_a_sizes_gets_a3() -> None:
    files, problems = glaze_chart(demo_with(paper=PAPERS["A4"]))
    assert problems == ()
    pages = read(files[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert {(round(page.width / MM), round(page.height / MM)) for page in pages} == {(420, 297)}


@pytest.mark.parametrize(("metres", "wide"), [(1, 431.8), (4, 914.4)])
def test_farther_away_the_chart_takes_the_chart_paper_before_it_shrinks(metres: int, wide: float) -> None:
    files, problems = glaze_chart(demo_with(read_from=Fraction(1000 * metres)))
    assert problems == ()
    assert round(read(files[PATH])[0].width / MM, 1) == wide
    heights = [h for page in extract_pages(BytesIO(files[PATH])) for t, h in lines(page) if t == "The label allows food"]
    assert heights
    assert min(heights) >= least(1000 * metres, 16) - 0.005


def test_where_no_paper_holds_a_line_there_is_no_chart_and_a_warning_says_so() -> None:
    small = Paper("A4", Fraction(210), Fraction(297))
    files, problems = glaze_chart(demo_with(read_from=Fraction(9000), chart_paper=small))
    assert files == {}
    assert [(p.place.at, p.code, p.is_error) for p in problems] == [("studio.yaml:19", "not-legible", False)]


def test_where_nothing_is_for_food_each_line_and_the_key_say_so() -> None:
    files, problems = glaze_chart(demo_with(food_rule=FoodRule.NEVER))
    assert problems == ()
    text = " ".join(page.text for page in read(files[PATH]))
    assert text.count("House rule: not for food") == 20
    assert "House rule: nothing made here is for food" in text
    assert "allows food" not in text


def test_equal_editions_give_equal_charts() -> None:
    same_twice(glaze_chart)
