"""`python3 -m tests.drawing [TILE …]` draws the demo's tiles into content/photos/: all of them, or those named.

The committed JPEGs are what everybody uses; this is for when a log row, a recipe or the drawing itself changed.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from combobook.book import Book
from combobook.judge import judge
from combobook.link import link
from combobook.parse import parse
from combobook.read import read
from combobook.validate import validate
from combobook.verdicts import Judged
from tests.drawing.demo import drawings
from tests.drawing.tile import picture

CONTENT = Path(__file__).resolve().parents[2] / "content"


def main(marks: Iterable[str]) -> None:
    """Draws on every core."""
    todo = drawings(*_studio(), marks)
    photos = CONTENT / "photos"
    photos.mkdir(exist_ok=True)
    with ProcessPoolExecutor() as pool:
        for name, data in zip(todo, pool.map(picture, todo.values(), chunksize=2), strict=True):
            (photos / name).write_bytes(data)
    print(f"{len(todo)} tiles drawn into {photos}")


def _studio() -> tuple[Book, Judged]:
    """The demo, whether or not its pictures are there yet."""
    content, _ = read(CONTENT)
    book, problems = link(validate(parse(content)[0])[0], content.photos)
    wrong = [p for p in problems if p.is_error and p.code != "unknown-photo"]
    if book is None or wrong:
        raise SystemExit("mend content/ first: python3 -m combobook check")
    return book, judge(book)[0]


if __name__ == "__main__":
    main(sys.argv[1:])
