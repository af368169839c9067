"""The substitute's sheet: one page, from the same view as the page on the site; read back by Poppler."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from combobook.entries import FoodRule
from combobook.measures import Paper
from combobook.render.sheets.substitute import PATH, substitute
from combobook.render.views.desk import desk
from combobook.render.views.today import allowed_glazes, allowed_layerings, today_view
from tests.chart.editions import edition
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import made, read, same_twice, sound

SIXTY = tuple(f"{first} {second}" for first in ("Amber", "Birch", "Cedar", "Dune", "Elm", "Fern", "Gorse", "Heath",
              "Iris", "Juniper") for second in ("Gate", "Pier", "Mill", "Lark", "Harbour", "Cellar"))  # fmt: skip


def plain(text: str) -> str:
    """Without what divides lines and columns."""
    return re.sub(r"\s+", " ", text)


def test_one_page_says_what_the_site_says() -> None:
    (page,) = sound(made(substitute)[PATH])
    at = desk(demo_edition())
    today, words = today_view(at), set(page.text.split())
    assert today.rule in plain(page.text)
    for text in (*today.jobs, *today.teacher, *today.house, *(each.why for each in today.waiting)):
        assert set(text.split()) <= words, text
    for verdict in allowed_glazes(at):
        assert f"{verdict.glaze.mark.value} {verdict.glaze.name.value}:" in plain(page.text)
    for layering in allowed_layerings(at):
        assert layering.coats is not None
        assert f"then {layering.coats.top} {layering.top.name.value};" in plain(page.text)
    for jar in (jar for each in today.waiting for jar in each.glazes):
        assert f"{jar.mark} {jar.name}" in plain(page.text)
    assert "It goes on" not in page.text


def test_a_pair_with_a_caution_is_not_for_food_and_one_tried_on_one_clay_names_it() -> None:
    (page,) = read(made(substitute)[PATH])
    food, other = plain(page.text).split("May be brushed where food goes")[1].split("Only on pieces that never hold food")
    assert "2 coats Bramble Ink, then 1 Snow Pantry; Leave 13 mm, only on Weir Buff" in food
    for pair in ("2 coats Bramble Ink, then 1 Kettle Rust;", "2 coats Kettle Rust, then 1 Bramble Ink;"):
        assert pair not in food and pair in other


def test_whom_to_call_is_left_blank() -> None:
    (page,) = read(made(substitute)[PATH])
    rows = {word.text: word for word in page.words if word.text in ("Teacher", "Office")}
    below = [w.text for w in page.words if rows["Office"].y1 < w.y0 < rows["Office"].y1 + 20]
    assert set(rows) == {"Teacher", "Office"} and below == []


@pytest.mark.parametrize("name", ["letter", "A4"])
def test_sixty_glazes_still_fit_one_page_and_it_says_how_many_pairs_do_not(name: str) -> None:
    pairs = tuple((base, (base + step) % 60) for base in range(60) for step in (1, 2, 3))
    large = demo_with(edition(pairs, names=SIXTY, photo=False), paper=PAPERS[name])
    files, problems = substitute(large)
    assert problems == ()
    (page,) = sound(files[PATH], furniture=False)
    text, listed = plain(page.text), len(allowed_layerings(desk(large)))
    assert all(f"{glaze}:" in text for glaze in SIXTY)
    gone = re.search(r"It goes on: (\d+) layerings had no room here", text)
    assert gone is not None and listed == 90
    assert int(gone[1]) == listed - len(re.findall(r"coats [A-Z]\w+ \w+, then \d", text))


def test_a_house_that_makes_nothing_for_food_has_one_list_and_says_so() -> None:
    files, problems = substitute(demo_with(food_rule=FoodRule.NEVER))
    assert problems == ()
    (page,) = sound(files[PATH])
    assert "House rule: nothing made here is for food" in page.text
    assert "May be brushed where food goes" not in page.text and "Glazes and pairs for today" in page.text


def test_a_paper_too_small_for_the_rule_is_a_problem_at_the_paper() -> None:
    files, problems = substitute(demo_with(paper=Paper("5 x 7 in", Fraction(127), Fraction("177.8"))))
    assert files == {}
    assert [problem.code for problem in problems] == ["paper-too-small"]


def test_equal_editions_give_equal_sheets() -> None:
    same_twice(substitute)
