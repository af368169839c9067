"""Small studios as text, run through the real stages in memory: what a test changes lies beside what it expects."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from combobook.book import Book
from combobook.link import link
from combobook.parse import parse
from combobook.problems import Problem, in_order
from combobook.read import read
from combobook.sources import Content, Source
from combobook.validate import validate
from tests.gallery.cases import GOOD

Made = tuple[Book, tuple[Problem, ...]]
"""The linked book, and every problem of read, parse, validate and link in order."""

GOOD_FILES: Mapping[str, str] = {
    path.relative_to(GOOD).as_posix(): path.read_text(encoding="utf-8") for path in sorted(GOOD.rglob("*.*"))
}
"""The gallery's good studio: two glazes (Ferry Rust FR, Pond Lantern PL), their layering, a clay, a form, a firing, a tile."""


def files_with(changed: Mapping[str, str] | None = None, without: Iterable[str] = ()) -> dict[str, str]:
    """The good studio's files, less those in `without`, with those in `changed` over them."""
    left = {path: text for path, text in GOOD_FILES.items() if path not in set(without)}
    return {**left, **(changed or {})}


def content_of(files: Mapping[str, str], photos: Iterable[str] = ()) -> Content:
    """What `read` gives of these files, in the order in which they stand here."""
    sources = (
        Source(path=path, folder=path.rpartition("/")[0], stem=Path(path).stem, text=text)
        for path, text in files.items()
    )
    return Content(sources=tuple(sources), photos=tuple(photos))


def make(files: Mapping[str, str], photos: Iterable[str] = ()) -> Made:
    """Parses, validates and links these files (paths from the content folder), and no others."""
    return _linked(content_of(files, photos), ())


def make_with(changed: Mapping[str, str] | None = None, without: Iterable[str] = (), photos: Iterable[str] = ()) -> Made:
    """The good studio with these changes."""
    return make(files_with(changed, without), photos)


def studio_folder(to: Path, **files: str) -> Path:
    """Writes the good studio under `to`, with changes: `glazes__ferry_rust="…"` stands for glazes/ferry-rust.md."""
    folder = to / "content"
    changed = {_path(name): text for name, text in files.items()}
    for path, text in files_with(changed).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    return folder


def loaded(folder: Path) -> Made:
    """Reads, parses, validates and links a folder."""
    content, problems = read(folder)
    return _linked(content, problems)


def said(problems: Iterable[Problem]) -> list[str]:
    """Each problem as `path:line:column severity code`."""
    return [f"{p.place.at}:{p.place.column} {p.severity.value} {p.code}" for p in problems]


def entry(*lines: str, body: str = "") -> str:
    """An entry's text: these lines as its fields, then the body."""
    return "\n".join(["---", *lines, "---", body])


def glaze(name: str, mark: str, *lines: str) -> str:
    """A glaze's text, its name in line 2, its mark in line 3, cone and data sheet in 4 and 5, `lines` from 6 on.

    A line of `lines` about cone or data sheet stands instead of that one.
    """
    own = {line.partition(":")[0] for line in lines}
    given = [line for line in ("cone: 5 to 6", "data sheet: 2026-09-01") if line.partition(":")[0] not in own]
    return entry(f"name: {name}", f"mark: {mark}", *given, *lines)


HEADER = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults,looks,photo,base lot,top lot"


def log(*rows: str) -> str:
    """A log's text; the first row is line 2. Cells left off at the end of a row are blank."""
    due = HEADER.count(",")
    return "\n".join([HEADER, *(row + "," * (due - row.count(",")) for row in rows), ""])


def _linked(content: Content, problems: tuple[Problem, ...]) -> Made:
    raw, unparsed = parse(content)
    entries, refused = validate(raw)
    book, unlinked = link(entries, content.photos)
    assert book is not None, "these files have no usable studio.yaml"
    return book, in_order((*problems, *unparsed, *refused, *unlinked))


def _path(name: str) -> str:
    folder, _, stem = name.rpartition("__")
    stem = stem.replace("_", "-")
    if not folder:
        return "studio.yaml"
    return f"{folder}/{stem}.csv" if folder == "logs" else f"{folder}/{stem}.md"
