"""Editions with pictures of which a test says what they show: small JPEGs, with the colours that it gives them."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from PIL import Image

from combobook.colours import Lab, TileColour
from combobook.edition import Edition
from combobook.judge import judge
from combobook.pictures import DRAWING_PREFIX, SIZES, Picture, PictureFile
from combobook.theme import load_theme
from combobook.wording import Words
from tests.studios import entry, log, make_with

TEAL = Lab(30.0, -20.0, -6.0)
AMBER = Lab(62.0, 18.0, 60.0)


def shows(main: Lab, breaking: Lab | None = None, *, balanced: bool = False) -> TileColour:
    """What a picture is said to show."""
    return TileColour(main=main, breaking=breaking, balanced=balanced)


def edition(
    rows: tuple[str, ...], pictures: Mapping[str, TileColour | None], changed: Mapping[str, str] | None = None
) -> Edition:
    """The good studio with a dark clay beside its light one, these log rows and no others, and these pictures."""
    files = {
        "clays/coal.md": entry("name: Coal", "cone: 5 to 7", "tone: dark"),
        "logs/autumn.csv": log(*rows),
        **(changed or {}),
    }
    book, found = make_with(files, photos=tuple(sorted(pictures)))
    assert [p for p in found if p.is_error] == []
    own = book.studio
    theme, unknown = load_theme(own.theme.value, own.language.value, own.theme.place, own.language.place)
    assert theme is not None and unknown == ()
    return Edition(
        book=book,
        judged=judge(book)[0],
        pictures={name: _picture(name, colour) for name, colour in pictures.items()},
        theme=theme,
        words=Words(theme.table, own.units.value),
        problems=(),
    )


def _picture(name: str, colour: TileColour | None) -> Picture:
    stem = Path(name).stem
    sizes = {
        size: PictureFile(path=f"pictures/{stem}-{longest}.jpg", width=360, height=480, stored=_jpeg())
        for size, longest in SIZES.items()
    }
    return Picture(name=name, drawing=name.startswith(DRAWING_PREFIX), colour=colour, sizes=sizes)


@cache
def _jpeg() -> Path:
    file = Path(tempfile.mkdtemp()) / "tile.jpg"
    Image.new("RGB", (360, 480), "#39607a").save(file, "JPEG", quality=80)
    return file
