"""The grid on the wall, read back by Poppler and pdfminer.six."""

from __future__ import annotations

from fractions import Fraction
from io import BytesIO

from pdfminer.high_level import extract_pages

from combobook.measures import Paper
from combobook.render.sheets.grid_sheet import PATH, grid_sheet
from combobook.render.sheets.shelf import on_the_shelf
from combobook.verdicts import EvidenceLevel
from tests.chart.editions import NAMES, ring
from tests.chart.editions import edition as small_edition
from tests.chart.test_read_back import least, lines
from tests.published_demo import demo_edition
from tests.sheets.papers import PAPERS, demo_with
from tests.sheets.reading import every_word_on_its_page_and_on_no_other, made, read, same_twice, sound


def test_every_pair_of_the_shelf_has_its_square_and_what_is_not_tested_says_so() -> None:
    (page,) = sound(made(grid_sheet)[PATH])
    jars = [v.glaze for v in on_the_shelf(demo_edition())]
    bases = [jar for jar in jars if not jar.rim_only]
    assert all(jar.name.value in page.text for jar in bases)
    pairs = [(base.id, top.id) for base in bases for top in jars if base.id != top.id]
    tested = [
        v for pair in pairs if (v := demo_edition().judged.layerings.get(pair)) is not None
        and v.evidence.level is not EvidenceLevel.UNTESTED
    ]  # fmt: skip
    squares = [word.text for word in page.words if word.text == "untested"]
    assert len(squares) == len(pairs) - len(tested)
    assert page.text.count("one glaze") == len(bases)
    assert page.text.count("FDA limits,") == sum(
        v.food.lab is not None and v.food.lab.limits.value.value == "FDA" for v in tested
    )  # fmt: skip


def test_an_untested_pair_with_a_label_that_says_no_is_kept_off_food_all_the_same() -> None:
    glazes = {0: ("food label: no", "flow: stable")}
    files, problems = grid_sheet(small_edition(ring(1, 2), names=NAMES[:3], glaze=glazes))
    assert problems == ()
    assert read(files[PATH])[0].text.count("Keep off food") == 4 + 1


def test_names_marks_and_the_key_are_legible_from_two_metres_and_squares_from_the_hand() -> None:
    names = {v.glaze.name.value for v in on_the_shelf(demo_edition()) if not v.glaze.rim_only}
    seen = set()
    for page in extract_pages(BytesIO(made(grid_sheet)[PATH])):
        for text, height in lines(page):
            assert height >= least(400, 16) - 0.005, (text, height)
            for name in names:
                if text.endswith(name) or text.startswith("Each label"):
                    seen.add(name)
                    assert height >= least(2000, 16) - 0.005, (text, height)
    assert seen == names


def test_on_smaller_paper_the_grid_goes_on_on_further_sheets_and_loses_no_square() -> None:
    files, problems = grid_sheet(demo_with(chart_paper=PAPERS["tabloid"], read_from=Fraction(1000)))
    assert problems == ()
    pages = read(files[PATH])
    every_word_on_its_page_and_on_no_other(pages)
    assert len(pages) > 1
    assert sum(page.text.count("one glaze") for page in pages) == 18


def test_where_the_paper_holds_no_square_there_is_no_grid_and_a_warning_says_so() -> None:
    files, problems = grid_sheet(demo_with(chart_paper=Paper("A5", Fraction(148), Fraction(210))))
    assert files == {}
    assert [(p.place.at, p.code, p.message) for p in problems] == [
        (
            "studio.yaml:19",
            "not-legible",
            "`grid.pdf` is not made: no paper of this studio holds it in letters that can be read from there",
        )
    ]


def test_equal_editions_give_equal_grids() -> None:
    same_twice(grid_sheet)
