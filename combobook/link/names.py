"""References: which entry a word names, and the problem where it names none or two."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Protocol, TypeVar

from combobook.entries import Entries, Written
from combobook.problems import Place, Problem, Severity
from combobook.spelling import did_you_mean, folded, nearest


class Named(Protocol):
    """An entry with a file name."""

    @property
    def id(self) -> str: ...


E = TypeVar("E", bound=Named)
N = TypeVar("N")


class Names:
    """Finds entries of one kind by file name, `name` or `mark`, in any letter case."""

    def __init__(self, kind: str, folder: str, entries: Iterable[E], said: Mapping[str, tuple[str, ...]]) -> None:
        """`said` gives the name and mark of each id; `folder` is the kind's in the content folder."""
        self.kind, self.folder = kind, folder
        self._near: dict[str, str] = {}
        self._ids: dict[str, list[str]] = {}
        for entry in sorted(entries, key=lambda e: e.id):
            for word in (entry.id, *said.get(entry.id, ())):
                ids = self._ids.setdefault(folded(word), [])
                if entry.id not in ids:
                    ids.append(entry.id)
        self._words = sorted(
            {word for words in said.values() for word in words}
            | {entry_id for ids in self._ids.values() for entry_id in ids}
        )

    def ids(self, word: str) -> tuple[str, ...]:
        """Every id that the word fits."""
        return tuple(self._ids.get(folded(word), ()))

    def nearly(self, word: str) -> tuple[str, ...]:
        """Every id that the word fits, or that it was likely meant to fit: for guesses only."""
        return self.ids(word) or self.ids(nearest(word, self._words) or "")

    def refusal(self, word: str) -> str:
        """Why a word that somebody typed names no entry, or several, with what would do; empty where it names one."""
        ids = self.ids(word)
        if not ids:
            return f"no {self.kind} called `{word}`: {self._meant(word) or self._some()}"
        files = " and ".join(f"{self.folder}/{id_}.md" for id_ in ids)
        return f"`{word}` fits {files}: write the file's name, as `{ids[0]}`" if len(ids) > 1 else ""

    def _some(self) -> str:
        """A few of the file names, so that somebody who knows none finds the rest."""
        ids = sorted({id_ for ids in self._ids.values() for id_ in ids})
        if not ids:
            return f"there is none in {self.folder}/ yet"
        return f"write a file name from {self.folder}/, a name or a mark, as `{ids[0]}`"

    def find(
        self, word: Written[str], entries: Entries, doubled: frozenset[str], problems: list[Problem]
    ) -> str | None:
        """The id a word names, or None with a problem (without one where the entry is withheld).

        A word in `doubled` has had its problem where it was doubled: it names the first that has it.
        """
        ids = self.ids(word.value)
        if len(ids) == 1 or (ids and folded(word.value) in doubled):
            return ids[0]
        if not ids and self._may_be_withheld(word.value, entries):
            return None
        problems.append(self._ambiguous(word, ids) if ids else self._unknown(word))
        return None

    def _may_be_withheld(self, word: str, entries: Entries) -> bool:
        """True where a withheld entry goes by this word, or may: its mark may be what could not be read."""
        if (self.folder, folded(word)) in entries.withheld:
            return True
        return any(folder == self.folder for folder, _ in entries.withheld) and not self._meant(word)

    def _ambiguous(self, word: Written[str], ids: tuple[str, ...]) -> Problem:
        files = " and ".join(f"{self.folder}/{i}.md" for i in ids)
        return error(
            word.place, "ambiguous-reference", f"`{word.value}` fits {files}", f"write the file's name: {ids[0]}",
            len(word.value),
        )  # fmt: skip

    def _unknown(self, word: Written[str]) -> Problem:
        message = f"no {self.kind} called `{word.value}`"
        fix = self._meant(word.value) or f"write {self.folder}/<{self.kind}>.md first, or mend the name"
        return error(word.place, f"unknown-{self.kind}", message, fix, len(word.value))

    def _meant(self, word: str) -> str:
        """`did you mean …?`, looked for once: a log writes the same slip in many rows."""
        if word not in self._near:
            self._near[word] = did_you_mean(word, self._words)
        return self._near[word]


def error(place: Place, code: str, message: str, fix: str, width: int = 1) -> Problem:
    """An error; `width` is how many characters the caret covers."""
    return Problem(place=place, severity=Severity.ERROR, code=code, message=message, help=fix, width=max(width, 1))


def warning(place: Place, code: str, message: str, fix: str, width: int = 1) -> Problem:
    """A warning; `width` is how many characters the caret covers."""
    return Problem(place=place, severity=Severity.WARNING, code=code, message=message, help=fix, width=max(width, 1))


def place_order(place: Place) -> tuple[str, int, int]:
    """Earlier and later: by path, then line, then column."""
    return (place.path, place.line, place.column)


def said_twice(
    what: str, code: str, written: Iterable[tuple[str, Written[str]]], problems: list[Problem]
) -> frozenset[str]:
    """The folded words that two entries share; each later one gets a problem that names the earliest.

    `written` gives each entry's id and its word.
    """
    first: dict[str, Written[str]] = {}
    doubled = set()
    for _, word in sorted(written, key=lambda pair: place_order(pair[1].place)):
        earlier = first.setdefault(folded(word.value), word)
        if earlier is word:
            continue
        doubled.add(folded(word.value))
        message = f"the {what} `{word.value}` is already that of {earlier.at.at}"
        problems.append(error(word.place, code, message, f"give one of them another {what}", len(word.value)))
    return frozenset(doubled)
