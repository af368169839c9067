"""Printed sheets: made side by side on the machine's cores, or taken as they lie where nothing they tell has changed.

A sheet is made from the folder's texts, its photographs, the theme and the program, and from nothing else. A digest of
all these is written down with each edition, and what its sheets were; while they hold, the files that lie in the
edition are what would be made again. Nothing is kept twice, and a withdrawn picture is in no store of sheets.
"""

from __future__ import annotations

import hashlib
import json
import multiprocessing
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import asdict
from functools import cache, partial
from importlib import metadata
from pathlib import Path
from typing import Any

from combobook import machine, records
from combobook.edition import Edition
from combobook.problems import Place, Problem, Severity
from combobook.sources import Content

Made = tuple[Mapping[str, bytes], Sequence[Problem]]
Sheet = Callable[[Edition], Made]
Waiting = tuple[str, Callable[[], Made]]
"""The name of a sheet, and what waits until it is made."""

_MOST_WORKERS = 4
"""Each may need 400 MB."""
_DRAWN_WITH = ("weasyprint", "pydyf", "fonttools", "pypdf", "Pillow", "segno", "coloraide", "Jinja2", "Markdown", "nh3")


def made_from(content: Content, edition: Edition) -> str:
    """One digest of all that the edition's sheets are made from."""
    digest = hashlib.sha256(_program().encode())
    theme = edition.theme
    digest.update(repr((theme.language, [_folder(folder) for folder in theme.folders])).encode())
    digest.update(repr([(s.path, s.text) for s in (*content.sources, *content.unread)]).encode())
    pictures = sorted(edition.pictures.items())
    # A picture's public path follows from what is in the photograph and how it was made ready.
    digest.update(repr([(name, [f.path for f in picture.sizes.values()]) for name, picture in pictures]).encode())
    digest.update(repr(content.photos).encode())
    return digest.hexdigest()


def lying(to: Path, cache_folder: Path, digest: str) -> tuple[Waiting, ...]:
    """The sheets that lie in the edition at `to`, if they were made from just this; else none. Never raises."""
    try:
        record: Any = json.loads(_record(to, cache_folder).read_bytes())
        if record["made_from"] != digest:
            return ()
        return tuple((str(each["name"]), partial(_same, _read_again(to, each))) for each in record["sheets"])
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return ()


def note(to: Path, cache_folder: Path, digest: str, made: Iterable[tuple[str, Made]]) -> None:
    """Write down what the sheets at `to` were made from. A cache that cannot be written only costs time later."""
    sheets = [
        {
            "name": name,
            "files": {path: hashlib.sha256(data).hexdigest() for path, data in files.items()},
            "problems": [{**asdict(p), "severity": p.severity.value} for p in problems],
        }
        for name, (files, problems) in made
    ]
    text = json.dumps({"made_from": digest, "sheets": sheets}, indent=0)
    try:
        records.replace(_record(to, cache_folder), text.encode())
    except OSError:
        pass


@contextmanager
def side_by_side(
    sheets: Sequence[Sheet], edition: Edition, kept: tuple[Waiting, ...] = ()
) -> Iterator[tuple[Waiting, ...]]:
    """Every sheet in the making, in order, in processes of their own (threads would share one core); or those kept."""
    if kept:
        yield kept
        return
    cores = min(len(sheets), os.cpu_count() or 1, _MOST_WORKERS)
    if cores < 2:
        yield tuple((_name(sheet), partial(sheet, edition)) for sheet in sheets)
        return
    fresh = multiprocessing.get_context("spawn")  # A fork would copy whatever our threads were about.
    with ProcessPoolExecutor(cores, mp_context=fresh, initializer=_begin, initargs=(edition,)) as workers:
        begun: list[tuple[str, Future[Made]]] = [(_name(sheet), workers.submit(_make, sheet)) for sheet in sheets]
        try:
            yield tuple((name, future.result) for name, future in begun)
        finally:
            for _, future in begun:
                future.cancel()


_edition: Edition | None = None
"""In a worker: what all its sheets are made from, handed over once."""


def _begin(edition: Edition) -> None:
    global _edition
    _edition = edition


def _make(sheet: Sheet) -> Made:
    assert _edition is not None, "a worker begins with its edition"
    return sheet(_edition)


def _name(sheet: Sheet) -> str:
    return getattr(sheet, "__name__", "sheet").replace("_", " ")


def _same(made: Made) -> Made:
    return made


def _read_again(to: Path, sheet: Mapping[str, Any]) -> Made:
    """Raises ValueError where a file is not as it was made, OSError where it is gone."""
    files = {}
    for path, sha256 in sheet["files"].items():
        data = (to / path).read_bytes()
        if hashlib.sha256(data).hexdigest() != sha256:
            raise ValueError(path)
        files[path] = data
    return files, tuple(_problem(each) for each in sheet["problems"])


def _problem(said: dict[str, Any]) -> Problem:
    return Problem(**{**said, "place": Place(**said["place"]), "severity": Severity(said["severity"])})


def _record(to: Path, cache_folder: Path) -> Path:
    """Each edition beside which the cache lies has a record of its own."""
    return cache_folder / "sheets" / f"{to.name}.json"


@cache
def _program() -> str:
    """What this program is: its own files, and the libraries that its sheets are drawn with."""
    versions = [(name, _version(name)) for name in _DRAWN_WITH]
    return repr((_folder(Path(__file__).resolve().parent), versions, machine.sheets_drawn_by()))


def _version(distribution: str) -> str:
    try:
        return metadata.version(distribution)
    except metadata.PackageNotFoundError:
        return ""


def _folder(folder: Path) -> str:
    """A digest of a folder's files, by name and contents; what Python compiles beside them is no part of it."""
    digest = hashlib.sha256()
    for path in sorted(p for p in folder.rglob("*") if p.is_file() and p.suffix != ".pyc"):
        digest.update(f"{path.relative_to(folder).as_posix()}\0{path.stat().st_size}\0".encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()
