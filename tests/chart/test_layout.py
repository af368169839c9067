"""Wall charts of invented studios on many papers, read back with Poppler and pdfminer.six."""

from __future__ import annotations

import csv
import re
import subprocess
from itertools import combinations
from pathlib import Path

import outloud  # type: ignore[import-untyped]
import pytest

from combobook.problems import Problem
from combobook.render.chart import wall_chart
from combobook.render.letters import capital_height
from tests.chart.editions import NAMES, edition, ring
from tests.chart.reading import POINTS, Piece, pages, pieces

PUBLISHED = Path(__file__).parents[1] / "published"
ARCMIN_16 = {
    row["standard"]: {1500: float(row["mm_at_1.5_m"]), 2000: float(row["mm_at_2_m"])}
    for row in csv.DictReader((PUBLISHED / "legibility.csv").read_text(encoding="utf-8").splitlines())
    if row["arcmin"] == "16"
}
PAPERS = {
    row["name"]: (float(row["width_mm"]), float(row["height_mm"]))
    for row in csv.DictReader((PUBLISHED / "paper_sizes.csv").read_text(encoding="utf-8").splitlines())
}
LARGE = (
    "Labels allow,", "not lab tested", "Not known:", "keep off food", "Keep off food",
    "first", "then",
)  # fmt: skip
KEY = (
    "Each label allows food; this layering",
    "Lab report: within the limits", "Not known: keep off food until it is",
    "bare clay above the shelf", "from the rim down, no lower", "not on upright pots", "under the pot",
)  # fmt: skip


def chart(made: tuple[dict[str, bytes], tuple[Problem, ...]]) -> bytes:
    """The PDF, with nothing reported."""
    files, problems = made
    assert problems == ()
    return files["print/wall-chart.pdf"]


def sheets(*studio: str, bases: int = 4, tops: int = 3) -> bytes:
    return chart(wall_chart(edition(ring(bases, tops), *studio)))  # type: ignore[arg-type]


def text(pdf: bytes) -> str:
    done = subprocess.run(["pdftotext", "-", "-"], input=pdf, capture_output=True, check=True)
    return " ".join(done.stdout.decode().split())


def all_pieces(pdf: bytes) -> list[Piece]:
    return [piece for page in pages(pdf) for piece in pieces(page)]


@pytest.mark.parametrize("distance", [1.5, 2, 3])
@pytest.mark.parametrize("paper", ["24 x 36 in", "A1"])
def test_names_food_words_instructions_and_key_fill_16_minutes_of_arc(distance: float, paper: str) -> None:
    """ISO 9241-3:1992, 5.4, as tabled in tests/published/legibility.csv; at 3 m by its formula."""
    found = all_pieces(sheets(f"chart paper: {paper}", f"read from: {distance} m"))
    least = ARCMIN_16["ISO 9241-3"].get(int(distance * 1000), capital_height(distance * 1000, 16))
    for words in (*LARGE, *KEY, *NAMES[:7]):
        heights = [p.capital for p in found if p.text == words or (words in KEY and words in p.text)]
        assert heights, words
        assert min(heights) >= least - 0.005, (words, min(heights))
    done = [p.capital for p in found if re.fullmatch(r"(Leave|Top) \d+ mm|Top third|Not on walls", p.text)]
    assert len(done) == 12
    assert min(done) >= least - 0.005


def test_small_print_is_never_smaller_than_16_minutes_at_arms_length() -> None:
    """ISO 9241-3:1992 by its formula, at 0.8 m."""
    found = all_pieces(sheets("read from: 2 m"))
    assert min(p.capital for p in found) >= capital_height(800, 16) - 0.005


@pytest.mark.parametrize(
    ("paper", "bases", "tops", "count"),
    [("24 x 36 in", 10, 3, 30), ("A1", 4, 5, 20), ("18 x 24 in", 3, 4, 12), ("36 x 48 in", 12, 5, 60)],
)
def test_a_sheet_holds_what_it_should_at_two_metres(paper: str, bases: int, tops: int, count: int) -> None:
    """24 × 36 in with two heads a column, as every paper here but the smallest."""
    pdf = sheets(f"chart paper: {paper}", bases=bases, tops=tops)
    assert len(re.findall(r"\bthen [A-Z]", text(pdf))) == count
    assert "sheet 1 of 1" in text(pdf)


@pytest.mark.parametrize("paper", ["A4", "A3", "A2", "A1", "A0", "letter", "legal", "tabloid", "600 x 900 mm"])
def test_on_any_paper_every_word_is_on_its_sheet_and_on_no_other_word(paper: str) -> None:
    """Paper sizes as in tests/published/paper_sizes.csv: ISO 216, ASME Y14.1, US office."""
    pdf = sheets(f"chart paper: {paper}", "read from: 0.7 m", bases=3)
    due = sorted(PAPERS.get(paper, PAPERS.get(paper.title(), (600, 900))))
    for page in pages(pdf):
        assert sorted((page.width / POINTS, page.height / POINTS)) == pytest.approx(due, abs=0.1)
        found = pieces(page)
        for piece in found:
            assert piece.x0 >= 6 * POINTS and piece.x1 <= page.width - 6 * POINTS, piece
            assert piece.foot >= 5 * POINTS and piece.top <= page.height - 5 * POINTS, piece
        for one, other in combinations(found, 2):
            apart = one.x1 <= other.x0 + 0.5 or other.x1 <= one.x0 + 0.5
            assert apart or one.top <= other.foot + 0.1 or other.top <= one.foot + 0.1, (one, other)


def test_every_sheet_carries_edition_number_key_and_cautions() -> None:
    pdf = sheets("chart paper: A3", "read from: 1.5 m")
    count = len(pages(pdf))
    assert count > 1
    for n in range(1, count + 1):
        done = subprocess.run(
            ["pdftotext", "-f", str(n), "-l", str(n), "-", "-"], input=pdf, capture_output=True, check=True
        )
        said = " ".join(done.stdout.decode().split())
        for words in (
            "Reed Lane Clay Room", "2026 Autumn", "2 November 2026", f"sheet {n} of {count}", "Replaces earlier editions",
            "Pictures are drawings", "Your own piece decides", "the stricter wins", "no laboratory's finding",
            "never dry-sweep", "fitted respirator", "goggles, mask", "Kilns are the technician's", "Only codes",
        ):  # fmt: skip
            assert words in said, (n, words)


def test_a_group_that_goes_on_in_another_column_has_its_head_again() -> None:
    said = text(sheets("chart paper: 24 x 36 in", bases=1, tops=9))
    assert said.count("Amber Gate first") == 2
    assert said.count("A0 · continued") == 1


def test_a_chart_groups_by_the_first_glazes_mark_then_the_tops() -> None:
    pairs = ((2, 0), (1, 2), (1, 0))
    said = text(chart(wall_chart(edition(pairs))))  # type: ignore[arg-type]
    order = [
        said.index(words) for words in ("Birch Pier first", "then Amber Gate", "then Clover Mill", "Clover Mill first")
    ]
    assert order == sorted(order)


def test_only_what_is_on_the_chart_is_on_it() -> None:
    said = text(chart(wall_chart(edition(((0, 1),), extra=("on chart: no",)))))  # type: ignore[arg-type]
    assert "then" not in said.split("Before you glaze")[0]
    assert "No layering is on the chart yet." in said
    assert "sheet 1 of 1" in said


def test_where_nothing_is_for_food_the_house_rule_replaces_every_food_word() -> None:
    said = text(sheets("food rule: never", bases=2))
    assert said.count("House rule: not for food") == 6
    assert "House rule: nothing made here is for food" in said
    for words in ("Labels allow", "Lab report", "Each label allows food", "Not known: keep off"):
        assert words not in said


def test_a_label_that_says_no_is_a_black_plate_with_its_reason() -> None:
    made = edition(((0, 1), (1, 2)), glaze={0: ("food label: no", "flow: stable")})
    said = text(chart(wall_chart(made)))  # type: ignore[arg-type]
    assert "Keep off food label of Amber Gate says no" in said


def test_both_units_are_printed_the_studios_first_and_large() -> None:
    metric, inches = sheets(bases=2), sheets("units: in", bases=2)
    assert re.search(r"\bTop third\b|Leave \d+ mm 1/2 in", text(metric))
    assert not re.search(r"(Leave|Top) \d+ mm", text(inches))
    wide = edition(((0, 1),), "units: in", "read from: 1 m")
    assert "then Birch Pier" in text(chart(wall_chart(wide)))  # type: ignore[arg-type]


def test_coats_are_told_in_words_base_first_and_never_as_a_sum() -> None:
    said = text(sheets(bases=2))
    assert "2 coats Amber Gate, then 1" in said
    assert "2 + 1" not in said


def test_a_layering_without_a_picture_has_a_place_for_one() -> None:
    said = text(chart(wall_chart(edition(((0, 1), (0, 2)), photo=False))))  # type: ignore[arg-type]
    assert said.count("No picture yet") == 2
    assert "drawings" not in said


def test_a_long_name_folds_and_is_never_cut_off() -> None:
    names = ("Slow Copper Evening Over The Harbour", "Wintergreenpebblestonewash", *NAMES[2:])
    pdf = chart(wall_chart(edition(((0, 1), (2, 0), (3, 2)), names=names)))  # type: ignore[arg-type]
    assert "Slow Copper Evening Over The Harbour first" in text(pdf)
    assert "Wintergreen" in text(pdf)
    (page,) = pages(pdf)
    assert all(piece.x1 <= page.width - 6 * POINTS for piece in pieces(page))


def test_letters_that_the_face_lacks_are_told_at_the_name() -> None:
    files, problems = wall_chart(edition(((0, 1),), names=("Kiln 青磁", *NAMES[1:])))
    assert files
    assert [(p.place.at, p.code, p.is_error) for p in problems] == [
        ("glazes/g0.md:2", "letters-not-in-the-face", False)
    ]
    assert "青磁" in problems[0].message


def test_paper_too_small_for_its_distance_is_an_error_that_names_what_would_do() -> None:
    files, problems = wall_chart(edition(ring(2, 2), "chart paper: letter", "read from: 2 m"))
    assert files == {}
    (problem,) = problems
    assert problem.is_error
    assert (problem.place.at, problem.code) == ("studio.yaml:6", "chart-paper-too-small")
    assert problem.message == "no card and its key fit on Letter in letters that can be read from 2 m"
    paper, distance = re.findall(r"`chart paper: (\S+)` or write `read from: ([\d.]+) m`", problem.help)[0]
    assert wall_chart(edition(ring(2, 2), f"chart paper: {paper}", "read from: 2 m"))[1] == ()
    assert wall_chart(edition(ring(2, 2), "chart paper: letter", f"read from: {distance} m"))[1] == ()
    farther = round(float(distance) + 0.1, 1)
    assert wall_chart(edition(ring(2, 2), "chart paper: letter", f"read from: {farther} m"))[0] == {}


def test_the_chart_is_tagged_and_outloud_finds_no_error(tmp_path: Path) -> None:
    file = tmp_path / "chart.pdf"
    file.write_bytes(sheets(bases=3))
    result = outloud.check(file)
    assert result.errors == 0
    info = subprocess.run(["pdfinfo", file], capture_output=True, check=True, text=True).stdout
    assert re.search(r"Tagged: +yes", info)
    assert "Glaze layerings, cone 6 · Reed Lane Clay Room · 2026 Autumn" in info


def test_two_renders_of_one_edition_are_the_same_bytes() -> None:
    assert sheets(bases=2) == sheets(bases=2)
