"""What is read from a studio's folder: texts with their paths, and the names of photographs. Leaf module."""

from __future__ import annotations

from dataclasses import dataclass

LONGEST_LINE = 5_000
"""Characters of a line of fields or of a log: more is no entry of a person's, and would only keep everybody waiting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One text file. `path` is POSIX from the content folder, `folder` its first part ("" for studio.yaml).

    `text` has no byte-order mark and `\\n` line ends, so that `lines` and every line and column agree.
    """

    path: str
    folder: str
    stem: str
    text: str

    @property
    def lines(self) -> tuple[str, ...]:
        """The author's lines, without their ends; line 1 is `lines[0]`."""
        return tuple(self.text.split("\n"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """Everything a folder holds that is ours, in order of path."""

    sources: tuple[Source, ...]
    photos: tuple[str, ...]
    """File names in photos/, sorted."""
    unread: tuple[Source, ...] = ()
    """Files of ours that could not be read (a problem said why); `text` is what could be made out, for guesses only."""
