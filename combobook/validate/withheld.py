"""What is known of files and rows that could not be typed, so that nobody reports their absence a second time."""

from __future__ import annotations

import re
from collections.abc import Iterable

from combobook.raw import RawEntry, RawLog, RawRow, RawText
from combobook.sources import Source
from combobook.spelling import folded

_PHOTO = re.compile(r"[\w.() -]+?\.(?:jpe?g|png|webp|heic)\b", re.IGNORECASE)
_NAMED = ("name", "mark")


class Withheld:
    """Gathers the names by which others may speak of what was withheld."""

    def __init__(self) -> None:
        self._words: set[tuple[str, str]] = set()
        self._layerings: list[tuple[str, str]] = []

    def entry(self, raw: RawEntry) -> None:
        """An entry whose fields did not make a typed one."""
        said = {n: f.value.text for n, f in raw.fields.items() if isinstance(f.value, RawText)}
        self._known_by(raw.folder, raw.stem, (said.get(name, "") for name in _NAMED))
        self._photos(" ".join(said.values()) + raw.body.text)
        if raw.folder == "combinations":
            self._layering(said.get("base", ""), said.get("top", ""), raw.stem)

    def row(self, row: RawRow, tile: str) -> None:
        """A row that could not be read."""
        if tile:
            self._words.add(("tiles", tile.casefold()))
        self.cells(row)

    def cells(self, row: RawRow) -> None:
        self._photos(*(cell.text for cell in row.cells))

    def log(self, raw: RawLog) -> None:
        """A log whose columns could not be told."""
        for row in raw.rows:
            self.cells(row)

    def words(self, broken: Iterable[Source]) -> frozenset[tuple[str, str]]:
        """(folder, word) of all, with what can be made out of files that could not be parsed."""
        for source in broken:
            if source.folder == "photos":
                self._words.add(("photos", source.path.rpartition("/")[2].casefold()))
            elif source.folder and source.folder != "logs":
                self._known_by(source.folder, source.stem, (_said(source, name) for name in _NAMED))
            self._photos(source.text)
        return frozenset(self._words)

    def layerings(self, broken: Iterable[Source]) -> tuple[tuple[str, str], ...]:
        """(base, top) of withheld combinations, as written or by their file's name."""
        for source in broken:
            if source.folder == "combinations":
                self._layering(_said(source, "base"), _said(source, "top"), source.stem)
        return tuple(self._layerings)

    def _known_by(self, folder: str, stem: str, names: Iterable[str]) -> None:
        # A name is often the file's stem with spaces: the best guess where the name itself is what cannot be read.
        for word in (stem, stem.replace("-", " "), *names):
            if word:
                self._words.add((folder, folded(word)))

    def _layering(self, base: str, top: str, stem: str) -> None:
        by_top, over, by_base = stem.partition("-over-")
        base, top = base or by_base, top or (by_top if over else "")
        if base and top:
            self._layerings.append((base, top))

    def _photos(self, *texts: str) -> None:
        for text in texts:
            if "." in text:
                self._words.update(("photos", match[0].strip().casefold()) for match in _PHOTO.finditer(text))


def _said(source: Source, field: str) -> str:
    """What a file that YAML could not read seems to say in a field."""
    match = re.search(rf"(?m)^{field}:[ \t]*(.+?)[ \t]*$", source.text)
    return match[1].strip("'\"") if match else ""
