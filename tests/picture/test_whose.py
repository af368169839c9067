"""A photograph whose tag is another tile's stands beside the wrong words, and its row is named."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.book import Book
from combobook.picture import another_tile, picture
from combobook.pictures import Picture, TagSeen
from combobook.problems import printed
from tests.picture.photographs import studio
from tests.picture.scenes import Scene, photograph
from tests.studios import log, make_with

ROW = "{tile},Ferry Rust,2,Pond Lantern,1,,,,,,,,{photo},,"


def book_of(*rows: tuple[str, str]) -> Book:
    text = log(*(ROW.format(tile=tile, photo=photo) for tile, photo in rows))
    book, _ = make_with({"logs/class.csv": text}, photos=[photo for _, photo in rows])
    return book


def shot(name: str, tag: str | None) -> dict[str, Picture]:
    return {name: Picture(name=name, drawing=False, sizes={}, tag=TagSeen(mark=tag, pixels_per_mm=5.0) if tag else None)}


def test_the_row_of_another_tiles_photo_is_named_with_both_tiles() -> None:
    problems = another_tile(book_of(("X117", "one.jpg"), ("X118", "two.jpg")), shot("one.jpg", "X118"))
    assert [printed(p, {}) for p in problems] == [
        "logs/class.csv:2:41: warning: this is the row of tile `X117`, but the tag in its photo says `X118`"
        "  [photo-of-another-tile]\n"
        "help: write the photo of `X117` here, and `one.jpg` in the row of `X118`"
    ]


@pytest.mark.parametrize(
    ("rows", "tag"),
    [
        ([("X117", "one.jpg")], "X117"),
        ([("x117", "one.jpg")], "X117"),
        ([("X117", "one.jpg")], None),
        ([("X117", "one.jpg"), ("X118", "one.jpg")], "X118"),
        ([("X117", "another.jpg")], "X200"),
    ],
    ids=["its own", "its own in small letters", "no tag", "one of two tiles in it", "a photo no row names"],
)
def test_a_photo_that_shows_the_right_tag_or_none_is_passed_over(rows: list[tuple[str, str]], tag: str | None) -> None:
    assert another_tile(book_of(*rows), shot("one.jpg", tag)) == ()


def test_the_tag_is_read_in_the_photograph_itself(tmp_path: Path) -> None:
    data = photograph(Scene(glaze=(40, 0, -20), tag="X118"))
    pictures, problems = picture(studio(tmp_path, {"one.jpg": data}), ["one.jpg"], tmp_path / "cache")
    assert problems == ()
    assert [p.code for p in another_tile(book_of(("X117", "one.jpg")), pictures)] == ["photo-of-another-tile"]
