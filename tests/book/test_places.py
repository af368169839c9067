"""The row of forms: each drawn on one foot, its name under it however long, its words in the tags."""

from __future__ import annotations

import re
import subprocess

import pytest

from combobook.render.book import PATH, book
from combobook.render.book.places import Places, place_mm, places
from combobook.render.shapes import outline, thinned
from combobook.render.views.desk import desk
from tests.book.forms import with_forms
from tests.sheets.reading import MM, Word, sound

SHORT = (("Mug", "95"), ("Bowl", "70"), ("Tall vase", "180"))
LONG = (("Mug", "95"), ("Bowl with a lid and two handles that one can carry by", "70"), ("Tall vase", "180"),
        ("Soup cup", "80"))  # fmt: skip

GUESSES = ("PAG-001", "FIG-012")
"""The second counts letters: it takes `Mug: Outside: from 20 mm (13/16 in) to 82 mm (3 3/16 in) …` for no language."""


def row(*forms: tuple[str, str]) -> tuple[Places, dict[str, bytes]]:
    laid_out = desk(with_forms(*forms))
    verdict, *_ = laid_out.edition.judged.layerings.values()
    drawings: dict[str, bytes] = {}
    return places(laid_out, verdict.bands, verdict.movement, drawings), drawings


def line_of(words: tuple[Word, ...], text: str) -> list[Word]:
    """The line of the first word like this."""
    first = next(word for word in words if word.text == text)
    return [word for word in words if abs(word.y0 - first.y0) < 0.5]


def test_every_drawing_of_a_row_is_as_large_as_the_next() -> None:
    _, drawings = row(*SHORT)
    sizes = {re.search(rb'width="([\d.]+)mm" height="([\d.]+)mm"', drawing)[0] for drawing in drawings.values()}  # type: ignore[index]
    assert len(drawings) == 3
    assert len(sizes) == 1


def test_a_form_that_is_not_drawn_has_its_name_after_those_that_are() -> None:
    made, drawings = row(("Cup", ""), *SHORT)
    assert [cell.name for cell in made.cells if not cell.src] == ["Cup"]
    assert made.cells[-1].name == "Cup"
    assert made.names[0].endswith("\tCup")
    assert len(drawings) == 3


@pytest.mark.parametrize("forms", [SHORT, LONG], ids=["short names", "a name wider than its room"])
def test_each_name_stands_under_its_own_drawing(forms: tuple[tuple[str, str], ...]) -> None:
    laid_out = desk(with_forms(*forms))
    wide = place_mm(laid_out) * MM
    files, problems = book(laid_out.edition)
    assert problems == ()
    seen = 0
    for page in sound(files[PATH], furniture=False, guesses=GUESSES):
        if any(word.text == "vase" for word in page.words):
            line = {word.text: word.x0 - 18 * MM for word in line_of(page.words, "Mug")}
            for word in ("Mug", "Tall"):
                cell = line[word] / wide
                assert cell == pytest.approx(round(cell), abs=0.04), (word, cell)
            seen += 1
    assert seen > 0


def test_names_that_fit_stand_in_one_text_and_are_read_apart() -> None:
    made, _ = row(*SHORT)
    assert len(made.names) == 1
    long, _ = row(*LONG)
    assert long.names == tuple(cell.name for cell in long.cells)
    pdf = book(with_forms(*SHORT))[0][PATH]
    told = subprocess.run(["pdfinfo", "-struct-text", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    names = " ".join(cell.name for cell in made.cells)
    assert f'"{names}"' in told


def test_every_drawing_has_the_words_of_its_form() -> None:
    made, _ = row(*SHORT)
    pdf = book(with_forms(*SHORT))[0][PATH]
    told = subprocess.run(["pdfinfo", "-struct", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    figures = re.findall(r"\bFigure\b", told)
    assert len(figures) % len(made.cells) == 0
    assert len(figures) >= len(made.cells)
    for cell in made.cells:
        assert cell.alt.startswith(f"{cell.name}: ")


@pytest.mark.parametrize("kind", ["mug", "bowl", "plate", "vase", "jug", "tile"])
def test_a_line_with_fewer_points_runs_nowhere_beside_its_own(kind: str) -> None:
    whole = outline(kind, 100)
    few = thinned(whole, 0.1)
    assert few[0] == whole[0] and few[-1] == whole[-1]
    assert len(few) < len(whole)
    assert [point for point in whole if point in few] == list(few)
    for r, h in whole:
        assert min(off(r, h, *few[n], *few[n + 1]) for n in range(len(few) - 1)) <= 0.1 + 1e-9


def off(r: float, h: float, r0: float, h0: float, r1: float, h1: float) -> float:
    """How far a point lies from a stretch: the nearest of many points on it, and of its foot."""
    along = ((r - r0) * (r1 - r0) + (h - h0) * (h1 - h0)) / ((r1 - r0) ** 2 + (h1 - h0) ** 2)
    t = min(1.0, max(0.0, along))
    return float(((r - r0 - t * (r1 - r0)) ** 2 + (h - h0 - t * (h1 - h0)) ** 2) ** 0.5)
