"""A studio with six glazes, tables for it, and take-in run on them."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from pathlib import Path

from combobook.pipeline import check
from combobook.problems import Problem
from combobook.progress import Silent
from combobook.take_in import TakenIn, take_in
from tests.studios import glaze, studio_folder

GLAZES = {"FR": "Ferry Rust", "PL": "Pond Lantern", "AM": "Attic Moth", "KS": "Kettle Smoke", "OB": "Orchard Bell",
          "WL": "Wicker Lane"}  # fmt: skip
IDS = {mark: name.lower().replace(" ", "-") for mark, name in GLAZES.items()}
STATED = ("food label: yes", "flow: stable", "coats: 2 to 3")


def studio(tmp_path: Path, **files: str) -> Path:
    """The gallery's good studio (tile B1 in its log) with four more glazes, and these files."""
    more = {f"glazes__{IDS[m].replace('-', '_')}": glaze(GLAZES[m], m, *STATED) for m in ("AM", "KS", "OB", "WL")}
    return studio_folder(tmp_path, **{**more, **files})


def outside(tmp_path: Path, text: str | bytes, name: str = "class.csv") -> Path:
    """A table as it came, outside the studio's folder."""
    file = tmp_path / name
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return file


def taken(tmp_path: Path, text: str | bytes, name: str = "class.csv", **files: str) -> tuple[TakenIn, Path]:
    """A table taken into a new studio; what it came to, and the studio's folder."""
    folder = studio(tmp_path, **files)
    return take_in(outside(tmp_path, text, name), folder, None), folder


def rows_of(path: Path) -> list[dict[str, str]]:
    """A table's rows by column, blank cells left out, read with the standard library."""
    text = path.read_bytes().decode("utf-8-sig")
    first = text.split("\n", 1)[0]
    delimiter = max(",;\t", key=first.count)
    rows = csv.DictReader(io.StringIO(text, newline=""), delimiter=delimiter)
    return [{name: cell for name, cell in row.items() if name and cell} for row in rows]


def said(done: TakenIn) -> list[str]:
    """Each problem as `line:column code`."""
    return [f"{p.place.line}:{p.place.column} {p.code}" for p in done.problems]


def contents(folder: Path) -> Mapping[str, bytes]:
    """Every file of the folder that anybody reads, by path: what begins with a dot is passed over everywhere."""
    files = (path for path in folder.rglob("*") if path.is_file())
    paths = {path.relative_to(folder).as_posix(): path for path in files if not path.name.startswith(".")}
    return {name: path.read_bytes() for name, path in sorted(paths.items()) if not name.startswith(".")}


def errors(folder: Path) -> list[Problem]:
    """What `check` calls an error in the folder."""
    return [problem for problem in check(folder, Silent()).problems if problem.is_error]
