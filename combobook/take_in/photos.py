"""Photographs of tiles: each to its tile by the tag in the picture, else by its name; copied without metadata."""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from combobook.picture.copied import Copied, copied
from combobook.picture.found import found
from combobook.pictures import DRAWING_PREFIX, MOST_BYTES
from combobook.problems import Problem
from combobook.read import PHOTO_ENDINGS
from combobook.take_in.cells import tile_key
from combobook.take_in.tiles import NewRow, Tiles

_WORKERS = 2
_IN_NAME = re.compile(r"(?<![A-Za-z0-9])([A-Za-z]{1,4})[\s_-]*(\d{1,5})(?![A-Za-z0-9])")


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmatched:
    """A picture that is nobody's, and why; `thumb` is b"" where it could not be opened."""

    name: str
    why: str
    thumb: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Photos:
    """What became of a folder of pictures."""

    copies: Mapping[str, bytes]
    """New files by name in photos/."""
    shown: Mapping[str, str]
    """The picture of each tile that had none: name in photos/, by the tile's mark."""
    by_tag: int
    by_name: int
    known: int
    """Pictures of which photos/ has the copy already."""
    beside: tuple[tuple[str, str], ...]
    """(file, tile) of copies that no row shows, because their tile has a picture already."""
    unmatched: tuple[Unmatched, ...]


def names_in(folder: Path) -> tuple[str, ...]:
    """The pictures in a folder, by name; not those in folders of it. Raises OSError."""
    files = (item.name for item in folder.iterdir() if not item.name.startswith("."))
    return tuple(sorted(name for name in files if name.lower().endswith(PHOTO_ENDINGS)))


def photos(
    folder: Path, names: Sequence[str], tiles: Tiles, named: Mapping[str, str], studio: Path, there: Iterable[str]
) -> Photos:
    """Match the pictures of `folder`; `named` are those that log rows name, by tile; `there` the names in photos/."""
    run = _Matching(tiles, named, studio, there)
    folder = folder.resolve()
    with warnings.catch_warnings(), ThreadPoolExecutor(_WORKERS) as workers:
        # Pillow warns of broken EXIF; what matters of a picture is said in its own words.
        warnings.simplefilter("ignore")
        for name, made in zip(names, workers.map(lambda each: _copied(folder, each), names), strict=True):
            run.picture(name, made)
    return Photos(
        copies=run.copies, shown=run.shown, by_tag=run.by_tag, by_name=run.by_name, known=run.known,
        beside=tuple(run.beside), unmatched=tuple(run.unmatched),
    )  # fmt: skip


def _copied(folder: Path, name: str) -> Copied | str:
    """The copy, or in words why there is none."""
    path = found(folder, name)
    if isinstance(path, Problem):
        return path.message
    try:
        if path.stat().st_size > MOST_BYTES:
            return f"the file has more than {MOST_BYTES // 1_000_000} MB"
        made = copied(name, path.read_bytes())
    except OSError as error:
        return f"it cannot be read: {(error.strerror or 'no reason given').lower()}"
    return made.message if isinstance(made, Problem) else made


class _Matching:
    """Takes the pictures one after another."""

    def __init__(self, tiles: Tiles, named: Mapping[str, str], studio: Path, there: Iterable[str]) -> None:
        self.tiles, self.studio = tiles, studio
        self.by_row = {name.casefold(): tile for tile, name in named.items()}
        self.taken = {name.casefold(): name for name in there}
        self.copies: dict[str, bytes] = {}
        self.shown: dict[str, str] = {}
        self.by_tag = self.by_name = self.known = 0
        self.beside: list[tuple[str, str]] = []
        self.unmatched: list[Unmatched] = []

    def picture(self, name: str, made: Copied | str) -> None:
        """One picture to its tile, or to the unmatched."""
        if isinstance(made, str):
            self.unmatched.append(Unmatched(name=name, why=made, thumb=b""))
            return
        mark, why = self._by_tag(made.mark) if made.mark else self._by_name(name)
        if not mark:
            self.unmatched.append(Unmatched(name=name, why=why, thumb=made.thumb))
            return
        if made.mark:
            self.by_tag += 1
        else:
            self.by_name += 1
        self._keep(name, mark, made.jpeg)

    def _by_tag(self, said: str) -> tuple[str, str]:
        if self.tiles.is_withdrawn(said):
            return "", f"its tag says {said}, a tile that was withdrawn"
        mark = self.tiles.marks().get(tile_key(said), "")
        return mark, f"its tag says {said}, and no log has that tile"

    def _by_name(self, name: str) -> tuple[str, str]:
        if mark := self.by_row.get(name.casefold()):
            return mark, ""
        codes = dict.fromkeys(tile_key(f"{m[1]}{m[2]}") for m in _IN_NAME.finditer(name.rpartition(".")[0]))
        if gone := next((code for code in codes if self.tiles.is_withdrawn(code)), None):
            return "", f"its name says {gone}, a tile that was withdrawn"
        known = [self.tiles.marks()[code] for code in codes if code in self.tiles.marks()]
        if len(known) == 1:
            return known[0], ""
        if known:
            return "", f"no tag can be read in it, and its name fits {' and '.join(known)}"
        return "", "no tag can be read in it, and its name holds no tile's mark"

    def _keep(self, name: str, mark: str, jpeg: bytes) -> None:
        """Copy it under the tile's name, unless the same copy is there; show it where the tile shows none."""
        has_one = any(isinstance(tile.photo.value, str) for tile in self.tiles.made(mark)) or mark in self.shown
        for file in _names_for(mark, drawing=name.startswith(DRAWING_PREFIX)):
            own = self.copies.get(file)
            if file.casefold() not in self.taken and own is None:
                self.copies[file] = jpeg
                if has_one:
                    self.beside.append((file, mark))
                break
            if own == jpeg or (own is None and self._bytes(self.taken[file.casefold()]) == jpeg):
                self.known += 1
                break
        if not has_one:
            self.shown[mark] = file

    def _bytes(self, name: str) -> bytes:
        try:
            return (self.studio / "photos" / name).read_bytes()
        except OSError:
            return b""


def _names_for(mark: str, *, drawing: bool) -> Iterator[str]:
    """`b117.jpg`, `b117-2.jpg` …; a drawing stays marked as one."""
    stem = f"{DRAWING_PREFIX if drawing else ''}{mark.lower()}"
    yield f"{stem}.jpg"
    number = 2
    while True:
        yield f"{stem}-{number}.jpg"
        number += 1


def with_photos(rows: Sequence[NewRow], shown: Mapping[str, str], tiles: Tiles) -> tuple[NewRow, ...]:
    """The rows with their tiles' new pictures; a row of its own for a tile that this file has no row of."""
    left = {(mark.upper(), coats): file for mark, file in shown.items() for coats in _coats(tiles, mark)}
    out = []
    for row in rows:
        key = (row.tile.upper(), (row.cells["base coats"], row.cells["top coats"]))
        file = left.pop(key, None)
        out.append(row if file is None else NewRow(
            line=row.line, cells={**row.cells, "photo": file}, tile=row.tile, layers=row.layers
        ))  # fmt: skip
    for mark, file in shown.items():
        for tile in tiles.made(mark):
            coats = (str(tile.base_coats.value), str(tile.top_coats.value) if tile.top_coats else "")
            if (mark.upper(), coats) in left:
                cells = {
                    "tile": tile.tile.value, "base": tile.base.id, "base coats": coats[0],
                    "top": tile.top.id if tile.top else "", "top coats": coats[1], "photo": file,
                }  # fmt: skip
                out.append(NewRow(line=0, cells=cells, tile=tile.tile.value, layers=tile.layers))
    return tuple(out)


def _coats(tiles: Tiles, mark: str) -> list[tuple[str, str]]:
    return [
        (str(tile.base_coats.value), str(tile.top_coats.value) if tile.top_coats else "") for tile in tiles.made(mark)
    ]
