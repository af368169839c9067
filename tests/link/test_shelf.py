"""Cones outside a range, forms nobody knows about, and photos."""

from __future__ import annotations

import pytest

from tests.studios import GOOD_FILES, entry, glaze, log, make_with, said

PL, FORM = "glazes/pond-lantern.md", "forms/mug.md"


@pytest.mark.parametrize("cone", ["06 to 04", "5 to 5 1/2", "6 1/2 to 8"])
def test_the_studios_cone_outside_a_label_is_a_warning_at_the_label(cone: str) -> None:
    off = {"combinations/pond-lantern-over-ferry-rust.md": entry("base: FR", "top: PL", "on chart: no")}
    _, problems = make_with({**off, PL: glaze("Pond Lantern", "PL", f"cone: {cone}")})
    assert said(problems) == [f"{PL}:5:7 warning cone-outside-label"]


@pytest.mark.parametrize("cone", ["6", "6 to 10", "04 to 6", "?"])
def test_the_ends_of_a_label_are_in_it(cone: str) -> None:
    assert make_with({PL: glaze("Pond Lantern", "PL", f"cone: {cone}")})[1] == ()


@pytest.mark.parametrize("cone", ["06 to 04", "8 to 10"])
def test_a_clay_whose_range_does_not_reach_the_studios_cone_is_a_warning(cone: str) -> None:
    _, problems = make_with({"clays/brick.md": entry("name: Brick", f"cone: {cone}")})
    assert said(problems) == ["clays/brick.md:3:7 warning clay-cone"]


@pytest.mark.parametrize(("line", "at"), [("holds food: ?", "4:13"), ("holds food: not known", "4:13"), ("area: 350 cm2", "2:1")])
def test_a_form_nobody_knows_to_hold_food_or_not_is_a_warning(line: str, at: str) -> None:
    _, problems = make_with({FORM: entry("name: Mug", "height: 95 mm", line)})
    assert said(problems) == [f"{FORM}:{at} warning holds-food-not-known"]


def test_a_holds_food_that_could_not_be_read_is_one_problem() -> None:
    _, problems = make_with({FORM: entry("name: Mug", "height: 95 mm", "holds food: soup")})
    assert said(problems) == [f"{FORM}:4:13 error not-one-of"]


def test_a_photo_nobody_uses_is_a_warning_at_the_photo() -> None:
    book, problems = make_with(photos=["a.jpg"])
    assert said(problems) == ["photos/a.jpg:1:1 warning unused-photo"]
    assert book.photos == ("a.jpg",)


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("logs/autumn.csv", log("B1,FR,2,PL,1,,,,,,,,a.jpg")),
        ("combinations/pond-lantern-over-ferry-rust.md", entry("base: FR", "top: PL", "photo: a.jpg")),
        ("pages/how.md", entry("title: How", body="\n![a tile](../photos/a.jpg)\n")),
        (PL, GOOD_FILES[PL] + "\n[one](photos/a.jpg)\n"),
    ],
)
def test_a_photo_is_used_by_a_row_an_entry_a_picture_or_a_link(path: str, text: str) -> None:
    assert make_with({path: text}, photos=["a.jpg"])[1] == ()


def test_a_photo_in_a_row_that_could_not_be_read_is_used() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2-Sep,PL,1,,,,,,,,a.jpg")}, photos=["a.jpg"])
    assert said(problems) == ["logs/autumn.csv:2:7 error mangled-cell"]


def test_a_photo_in_a_row_with_an_unknown_glaze_is_used() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,Yak,1,,,,,,,,a.jpg")}, photos=["a.jpg"])
    assert said(problems) == ["logs/autumn.csv:2:9 error unknown-glaze"]


def test_a_photo_that_is_not_there_is_an_error_at_its_name_with_the_nearest() -> None:
    _, problems = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,,,,,,,,b117.jpeg")}, photos=["b117.jpg"])
    assert said(problems) == ["logs/autumn.csv:2:21 error unknown-photo", "photos/b117.jpg:1:1 warning unused-photo"]
    assert "did you mean `b117.jpg`?" in problems[0].help


def test_a_photo_that_is_not_there_is_no_photo_of_the_tile() -> None:
    book, _ = make_with({"logs/autumn.csv": log("B1,FR,2,PL,1,,,,,,,,b117.jpg")})
    assert [tile.photo.value for tile in book.tiles if isinstance(tile.photo.value, str)] == []
