"""Editions for the wall chart: invented glazes as text through the real stages, with one small drawing for a picture."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path

from PIL import Image, ImageDraw

from combobook.edition import Edition
from combobook.judge import judge
from combobook.pictures import SIZES, Picture, PictureFile
from combobook.theme import load_theme
from combobook.wording import Words
from tests.studios import entry, log, make

PHOTO = "drawing-x1.jpg"
NAMES = (
    "Amber Gate", "Birch Pier", "Clover Mill", "Dune Lark", "Elm Harbour", "Fern Cellar", "Gorse Loft", "Heath Barge",
    "Iris Quay", "Juniper Row", "Kelp Wharf", "Larch Vale", "Moss Ferry", "Nettle Yard", "Oat Steeple", "Pear Tannery",
)  # fmt: skip
"""Glaze names of a usual length; the mark is the first letter and a number."""

Pair = tuple[int, int]
"""Numbers of base and top in the list of names."""


def ring(bases: int, tops_each: int) -> tuple[Pair, ...]:
    """Each of the first `bases` glazes under the `tops_each` after it."""
    return tuple((base, (base + step) % len(NAMES)) for base in range(bases) for step in range(1, tops_each + 1))


def edition(
    pairs: Iterable[Pair],
    *studio: str,
    names: tuple[str, ...] = NAMES,
    glaze: Mapping[int, tuple[str, ...]] | None = None,
    photo: bool = True,
    extra: tuple[str, ...] = (),
) -> Edition:
    """An edition with these layerings on its chart; every second one has a clean, upright tile.

    `studio` are further lines of studio.yaml, `glaze` further lines of single glazes, `extra` of every combination.
    """
    files = {"studio.yaml": "\n".join(("studio: Reed Lane Clay Room", "edition: 2026 Autumn", "cone: 6",
                                       "date: 2026-11-02", "labels read: 2026-09-01", *studio, ""))}  # fmt: skip
    for n, name in enumerate(names):
        more = (glaze or {}).get(n, ("food label: yes", "flow: stable"))
        files[f"glazes/g{n}.md"] = entry(
            f"name: {name}", f"mark: {chr(65 + n % 26)}{n}", "cone: 5 to 6", "coats: 2 to 3", "data sheet: 2026-09-01", *more
        )
    shown = (f"photo: {PHOTO}",) if photo else ()
    pairs = tuple(pairs)
    files["firings/f01.md"] = entry("cone: 6", "date: 2026-10-14")
    files["logs/a.csv"] = log(
        *(f"X{n},g{base},2,g{top},1,,f01,,upright,no,none" for n, (base, top) in enumerate(pairs) if n % 2)
    )
    for base, top in pairs:
        files[f"combinations/g{top}-over-g{base}.md"] = entry(
            f"base: g{base}", f"top: g{top}", "coats: 2 + 1", *shown, *extra
        )
    book, problems = make(files, (PHOTO,) if photo else ())
    assert [p for p in problems if p.is_error] == []
    own = book.studio
    theme, unknown = load_theme(own.theme.value, own.language.value, own.theme.place, own.language.place)
    assert theme is not None and unknown == ()
    return Edition(
        book=book,
        judged=judge(book)[0],
        pictures={PHOTO: _drawing()} if photo else {},
        theme=theme,
        words=Words(theme.table, own.units.value),
        problems=(),
    )


@cache
def _drawing() -> Picture:
    """A plain tile of 50 × 84 on a canvas of 72 × 96, 5 pixels a mm, as the demo's drawings lie on theirs."""
    image = Image.new("RGB", (360, 480), "#cfccc6")
    pen = ImageDraw.Draw(image)
    pen.rectangle((55, 30, 305, 450), fill="#7a5a3c")
    pen.rectangle((55, 30, 305, 230), fill="#39607a")
    file = Path(tempfile.mkdtemp()) / "tile.jpg"
    image.save(file, "JPEG", quality=80)
    sizes = {name: PictureFile(path="pictures/x1-480.jpg", width=360, height=480, stored=file) for name in SIZES}
    return Picture(name=PHOTO, drawing=True, sizes=sizes)
