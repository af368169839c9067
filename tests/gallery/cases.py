"""Lays a gallery case out in a folder and runs the check over it."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

GALLERY = Path(__file__).parent
GOOD = GALLERY / "_good" / "content"


def case_names() -> tuple[str, ...]:
    """Every case, in order."""
    return tuple(sorted(p.name for p in GALLERY.iterdir() if p.is_dir() and not p.name.startswith(("_", "."))))


def lay_out(case: str, to: Path) -> Path:
    """The case's folder, made under `to`: the good studio, less what it deletes, under what it brings."""
    folder, home = to / "content", GALLERY / case
    shutil.copytree(GOOD, folder)
    for line in _lines(home / "_delete"):
        target = folder / line
        shutil.rmtree(target) if target.is_dir() else target.unlink()
    if (home / "content").is_dir():
        shutil.copytree(home / "content", folder, dirs_exist_ok=True)
    for line in _lines(home / "_make"):
        _make(folder, line.split())
    return folder


def found(folder: Path) -> str:
    """Every problem of the folder, printed as `check` prints it, with paths from the folder."""
    # Imported here: the gallery is read by tools that run no stage.
    from combobook.judge import judge
    from combobook.link import link
    from combobook.parse import parse
    from combobook.problems import in_order, printed
    from combobook.read import read
    from combobook.theme import load_theme
    from combobook.validate import validate

    content, problems = read(folder)
    raw, more = parse(content)
    problems += more
    entries, more = validate(raw)
    problems += more
    book, more = link(entries, content.photos)
    problems += more
    if book is not None:
        studio = book.studio
        problems += load_theme(studio.theme.value, studio.language.value, studio.theme.place, studio.language.place)[1]
        problems += judge(book)[1]
    lines = {source.path: source.lines for source in (*content.sources, *content.unread)}
    return "".join(printed(problem, lines) + "\n" for problem in in_order(problems))


def expected(case: str) -> str:
    return (GALLERY / case / "expected.txt").read_text(encoding="utf-8")


def _lines(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").split("\n")[:-1] if path.is_file() else []


def _make(folder: Path, words: list[str]) -> None:
    what, path = words[0], folder / words[1]
    path.parent.mkdir(parents=True, exist_ok=True)
    if what == "link":
        path.symlink_to(words[2])
    elif what == "large":
        path.write_bytes(b"x" * int(words[2]))
    elif what == "pipe":
        os.mkfifo(path)
    else:
        raise ValueError(f"_make knows link, large and pipe, not {what}")
