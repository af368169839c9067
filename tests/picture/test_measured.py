"""The glaze is found on its table and measured off its edges, its foot, its hole and the lamp's reflection."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from combobook.colours import Lab, TileColour, difference
from combobook.picture.measure import measured
from combobook.picture.tile import edges, glazed
from tests.picture.photographs import coded, developed, one, plain
from tests.picture.scenes import HIGH_MM, TILE_MM, WIDE_MM, LabTriple, Scene, camera, photograph

BLUE, AMBER, WHITE = (38, -2, -30), (62, 18, 52), (91, 0, 4)


def colour(tmp_path: Path, scene: Scene) -> TileColour:
    made = one(tmp_path, "tile.jpg", photograph(scene))
    assert made.colour is not None
    return made.colour


@pytest.mark.parametrize("glaze", [BLUE, AMBER, WHITE, (12, 0, 0), (30, 40, 20)])
@pytest.mark.parametrize("table", [(62, 1, 4), (92, 0, 2), (20, 2, 4), (55, 14, 30)], ids=["grey", "white", "black", "wooden"])
def test_the_tile_is_told_from_its_table(tmp_path: Path, glaze: LabTriple, table: LabTriple) -> None:
    """Truth and measure under the same lamp (0.9 of white), as photographed: within 4."""
    found = colour(tmp_path, Scene(glaze=glaze, table=table, tag=""))
    assert difference(found.main, Lab(*glaze)) < 4
    assert found.breaking is None


@pytest.mark.parametrize("tagged", ["", "B117"])
def test_what_is_measured_lies_inside_the_tile_and_in_its_upper_half(tagged: str) -> None:
    image = camera(Scene(glaze=BLUE, base=AMBER, tag=tagged))
    outline = ((0.1, 0.75), (0.58, 0.75), (0.58, 0.95), (0.1, 0.95)) if tagged else ()
    found = edges(image, outline)
    left, top, right, low = glazed(found)
    x, y, wide, high = TILE_MM
    assert x / WIDE_MM < left < right < (x + wide) / WIDE_MM
    assert y / HIGH_MM < top < low < (y + high / 2) / HIGH_MM
    truth = (x / WIDE_MM, y / HIGH_MM, (x + wide) / WIDE_MM, (y + high) / HIGH_MM)
    assert found is not None
    assert all(abs(edge - true) < 0.02 for edge, true in zip(found, truth, strict=True))


def test_the_lower_half_with_one_glaze_alone_is_not_taken_for_the_layering(tmp_path: Path) -> None:
    found = colour(tmp_path, Scene(glaze=BLUE, base=AMBER, tag=""))
    assert difference(found.main, Lab(*BLUE)) < 4
    assert found.breaking is None


def test_what_the_glaze_breaks_to_is_found(tmp_path: Path) -> None:
    found = colour(tmp_path, Scene(glaze=BLUE, spots=AMBER, tag=""))
    assert difference(found.main, Lab(*BLUE)) < 5
    assert found.breaking is not None
    assert difference(found.breaking, Lab(*AMBER)) < 12


@pytest.mark.parametrize("glaze", [BLUE, (12, 0, 0), (30, 40, 20)])
def test_a_lamps_reflection_is_no_second_colour(tmp_path: Path, glaze: LabTriple) -> None:
    found = colour(tmp_path, Scene(glaze=glaze, shine=True, tag=""))
    assert difference(found.main, Lab(*glaze)) < 4
    assert found.breaking is None


def test_a_tile_that_fills_the_picture_is_measured_in_its_middle(tmp_path: Path) -> None:
    close_up = camera(Scene(glaze=BLUE, tag="")).crop((165, 110, 350, 320))
    made = one(tmp_path, "tile.png", coded(close_up, "PNG"))
    assert made.colour is not None and difference(made.colour.main, Lab(*BLUE)) < 4


def test_a_picture_with_nothing_on_it_is_its_own_colour(tmp_path: Path) -> None:
    made = one(tmp_path, "tile.png", coded(plain((100, 120, 140)), "PNG"))
    assert made.colour is not None
    assert difference(made.colour.main, Lab(49.5, -2.2, -12.9)) < 1.5
    assert made.colour.breaking is None


@pytest.mark.parametrize("size", [(1, 1), (15, 300), (5000, 1)])
def test_of_a_few_pixels_nothing_is_measured(tmp_path: Path, size: tuple[int, int]) -> None:
    pictures, problems = developed(tmp_path, {"a.png": coded(plain((100, 120, 140), size=size), "PNG")})
    assert pictures["a.png"].colour is None
    assert [p.code for p in problems] == ["photo-small"]


def test_the_same_pixels_measure_the_same_whatever_file_they_came_in(tmp_path: Path) -> None:
    image = camera(Scene(glaze=AMBER, spots=(35, 30, 25), tag=""))
    files = {"a.png": coded(image, "PNG"), "b.webp": coded(image, "WEBP", lossless=True)}
    pictures, problems = developed(tmp_path, files)
    assert problems == ()
    assert pictures["a.png"].colour == pictures["b.webp"].colour != None  # noqa: E711 - both, and there is one


def test_half_and_half_is_two_colours_the_larger_first() -> None:
    part = Image.new("RGB", (100, 100), (40, 70, 110))
    part.paste((190, 140, 60), (0, 0, 100, 40))
    found = measured(part, balanced=False)
    assert found is not None and found.breaking is not None
    assert (found.main.b < 0, found.breaking.b > 0) == (True, True)
