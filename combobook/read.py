"""The read stage: a studio's folder to texts. Knows which files are ours, and nothing of what they say."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterator
from pathlib import Path

from combobook.problems import Place, Problem, Severity
from combobook.sources import Content, Source
from combobook.spelling import did_you_mean

STUDIO = "studio.yaml"
ENTRY_FOLDERS = ("glazes", "combinations", "clays", "forms", "firings", "lab", "pages")
FOLDERS = (*ENTRY_FOLDERS, "logs", "photos", "editions")
MUST_EXIST = ("glazes", "combinations")
PHOTO_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".heic")
MOST_BYTES = 1_000_000
"""A text of ours is a page or a class's log; a larger file is something else, and would only slow everybody down."""

MOST_BYTES_EDITION = 50_000_000
"""A closed edition of a very large shelf has about two kilobytes a layering."""

# What no text of ours can hold: the control characters, and marks that only belong at the start of a file.
_UNREADABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufeff\ufffe\uffff]")


def read(folder: Path) -> tuple[Content, tuple[Problem, ...]]:
    """Every text of the folder in order of path, the names of its photographs, and what is wrong with its files.

    A missing folder gives an empty content with a problem. Links that lead out of the folder are not followed and
    special files are not opened.
    """
    reading = _Reading(folder)
    reading.everything()
    content = Content(
        sources=tuple(sorted(reading.sources, key=lambda s: s.path)),
        photos=tuple(sorted(reading.photos)),
        unread=tuple(sorted(reading.unread, key=lambda s: s.path)),
    )
    return content, tuple(reading.problems)


class _Reading:
    """One walk over the folder: gathers sources, photographs and problems."""

    def __init__(self, folder: Path) -> None:
        self.root = Path(os.path.realpath(folder))
        self.sources: list[Source] = []
        self.unread: list[Source] = []
        self.photos: list[str] = []
        self.problems: list[Problem] = []

    def everything(self) -> None:
        present = set()
        for item in self._listed(self.root, "."):
            present.add(item.name)
            if item.name == STUDIO:
                self._text(item.path, STUDIO, "")
            elif item.name in FOLDERS:
                self._folder(item)
            else:
                self._stray(item.name, did_you_mean(item.name, (STUDIO, *FOLDERS)))
        self._missing(present)

    def _missing(self, present: set[str]) -> None:
        if STUDIO not in present:
            fix = "make studio.yaml with the lines\nstudio: the studio's name\nedition: this term\ncone: 6"
            self._problem(STUDIO, code="missing-part", message="there is no studio.yaml", help=fix)
        for name in MUST_EXIST:
            if name not in present:
                message = f"there is no folder {name}"
                self._problem(
                    name, code="missing-part", message=message, help=f"make a folder {name} beside studio.yaml"
                )

    def _folder(self, item: os.DirEntry[str]) -> None:
        if not self._leads_inside(item.path, item.name):
            return
        if not os.path.isdir(item.path):
            message = f"{item.name} is a file where a folder is due"
            self._problem(
                item.name, code="missing-part", message=message, help="move the file away and make the folder"
            )
            return
        for inner in self._listed(item.path, item.name):
            path = f"{item.name}/{inner.name}"
            if not self._leads_inside(inner.path, path):
                self._known_only_by_name(path, item.name)
                continue
            # Not `inner.is_dir()`: that raises for a link to itself.
            if os.path.isdir(inner.path):
                self._stray(path, f"files are read from {item.name}/ itself, not from folders in it: move them up")
            elif item.name == "photos":
                self._photo(inner, path)
            elif not self._known(item.name, inner.name):
                self._stray(path, self._ending_due(item.name))
            elif inner.name != "columns.yaml":
                self._text(inner.path, path, item.name)

    def _listed(self, folder: str | Path, path: str) -> Iterator[os.DirEntry[str]]:
        """What lies in a folder, in order, without what programs leave behind."""
        try:
            with os.scandir(folder) as found:
                items = sorted(found, key=lambda item: item.name)
        except OSError as error:
            self._problem(
                path,
                code="unreadable",
                message=f"this folder cannot be read: {_why(error)}",
                help="see that the folder is there and that you may read it",
            )
            return
        for item in items:
            if not item.name.startswith((".", "~$")) and item.name.casefold() != "thumbs.db":
                yield item

    @staticmethod
    def _known(folder: str, name: str) -> bool:
        if folder == "logs":
            return name.endswith(".csv") or name == "columns.yaml"
        if folder == "editions":
            return name.endswith(".json") or name == "withdrawn.csv"
        return name.endswith(".md")

    @staticmethod
    def _ending_due(folder: str) -> str:
        if folder == "logs":
            return "a log's name ends in .csv: save it as CSV (UTF-8), or move the file out of the studio's folder"
        if folder == "editions":
            return "editions/ is written by the program: move the file out of the studio's folder"
        return "an entry's name ends in .md: rename the file, or move it out of the studio's folder"

    def _photo(self, item: os.DirEntry[str], path: str) -> None:
        if not item.name.lower().endswith(PHOTO_ENDINGS):
            endings = ", ".join(PHOTO_ENDINGS)
            self._stray(path, f"photos are files that end in {endings}: save it as one, or move it away")
        elif not _is_text(item.name):
            self._stray(path, "give the file a name of plain letters, digits and hyphens")
        elif os.path.isfile(item.path):
            self.photos.append(item.name)
        else:
            self._special(path)
            self._known_only_by_name(path, "photos")

    def _known_only_by_name(self, path: str, folder: str) -> None:
        """Keeps the name of a file of ours that stays closed: others may speak of it."""
        stem = path.rpartition("/")[2].rpartition(".")[0]
        self.unread.append(Source(path=_shown(path), folder=folder, stem=_shown(stem), text=""))

    def _text(self, file: str, path: str, folder: str) -> None:
        if not self._leads_inside(file, path):
            self._known_only_by_name(path, folder)
            return
        most = MOST_BYTES_EDITION if folder == "editions" else MOST_BYTES
        try:
            data = _bytes_of(os.path.realpath(file), most)
        except OSError as error:
            self._problem(
                path,
                code="unreadable",
                message=f"this file cannot be read: {_why(error)}",
                help="see that the file is there and that you may read it",
            )
            data = b""
            bad = True
        else:
            bad = data is None or self._is_bad(data, path, most)
            if data is None:
                self._special(path)
        stem = path.rpartition("/")[2].rpartition(".")[0]
        text = (
            "" if not data or len(data) > most else _with_plain_ends(data.decode("utf-8-sig", errors="replace"))
        )
        source = Source(path=_shown(path), folder=folder, stem=_shown(stem), text=text)
        (self.unread if bad else self.sources).append(source)

    def _is_bad(self, data: bytes, path: str, most: int) -> bool:
        """True, with the problem reported, where these bytes are no text of ours."""
        if len(data) > most:
            message = f"this file has more than {most // 1_000_000} MB, the most a text of ours may have"
            self._problem(
                path,
                code="too-large",
                message=message,
                help="divide a long log over several files; move anything else out of the studio's folder",
            )
            return True
        try:
            text = _with_plain_ends(data.decode("utf-8-sig"))
        except UnicodeDecodeError as error:
            before = _with_plain_ends(data[: error.start].decode("utf-8-sig", errors="replace"))
            line, column = _position(before, len(before))
            message = f"this file is not UTF-8: byte {error.start + 1}, in line {line}, is 0x{data[error.start]:02x}"
            self._problem(
                path,
                line=line,
                column=column,
                code="not-utf8",
                message=message,
                help="save the file again with the encoding UTF-8 (in a spreadsheet: CSV UTF-8)",
            )
            return True
        if match := _UNREADABLE.search(text):
            line, column = _position(text, match.start())
            message = f"a character that is no text: U+{ord(match[0]):04X}"
            self._problem(
                path,
                line=line,
                column=column,
                code="bad-character",
                message=message,
                help="delete the character, or save the file again as plain text in UTF-8",
            )
            return True
        return False

    def _leads_inside(self, file: str, path: str) -> bool:
        """False, with a problem, where a link leads out of the folder or nowhere."""
        if not os.path.islink(file):
            return True
        target = Path(os.path.realpath(file))
        if target.is_relative_to(self.root) and target.exists():
            return True
        where = "nowhere" if not target.exists() and target.is_relative_to(self.root) else "out of the studio's folder"
        self._problem(
            path,
            code="leads-outside",
            message=f"a link that leads {where} is not followed",
            help="put the file itself here instead of a link to it",
        )
        return False

    def _special(self, path: str) -> None:
        self._problem(
            path,
            code="unreadable",
            message="this is neither a file nor a folder, and is not opened",
            help="move it out of the studio's folder",
        )

    def _stray(self, path: str, fix: str) -> None:
        message = "this is none of the studio's files, and nothing reads it"
        self._problem(
            path, Severity.WARNING, code="stray-file", message=message, help=fix or "move it out of the studio's folder"
        )

    def _problem(
        self,
        path: str,
        severity: Severity = Severity.ERROR,
        *,
        code: str,
        message: str,
        help: str,
        line: int = 1,
        column: int = 1,
    ) -> None:
        place = Place(path=_shown(path), line=line, column=column)
        self.problems.append(Problem(place=place, severity=severity, code=code, message=message, help=help))


def _bytes_of(file: str, most: int) -> bytes | None:
    """The first bytes of an ordinary file (one more than the most allowed), None for anything else."""
    # A pipe must not hang the reading, and no link may be swapped in after it was looked at.
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
    handle = os.open(file, flags)
    with os.fdopen(handle, "rb") as stream:
        return stream.read(most + 1) if stat.S_ISREG(os.fstat(handle).st_mode) else None


def _with_plain_ends(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def _position(text: str, offset: int) -> tuple[int, int]:
    start = text.rfind("\n", 0, offset) + 1
    return text.count("\n", 0, offset) + 1, offset - start + 1


def _is_text(name: str) -> bool:
    return _shown(name) == name and not _UNREADABLE.search(name) and "\n" not in name


def _shown(path: str) -> str:
    """A path that can be printed: a name that is no UTF-8 shows its bytes."""
    return path.encode("utf-8", errors="backslashreplace").decode("utf-8")


def _why(error: OSError) -> str:
    return (error.strerror or "no reason given").lower()
