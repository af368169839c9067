"""Runs read, parse and validate over texts, for the tests of those stages."""

from __future__ import annotations

from collections.abc import Mapping

from combobook.entries import Entries
from combobook.parse import parse
from combobook.problems import Problem, in_order
from combobook.sources import Content, Source
from combobook.validate import validate


def content_of(files: Mapping[str, str]) -> Content:
    """The content of these files, as `read` gives it."""
    sources = tuple(
        Source(
            path=path,
            folder=path.rpartition("/")[0],
            stem=path.rpartition("/")[2].rpartition(".")[0],
            text=text,
        )
        for path, text in sorted(files.items())
    )
    return Content(sources=sources, photos=())


def entries_of(files: Mapping[str, str]) -> tuple[Entries, tuple[Problem, ...]]:
    """The typed entries of these files, and all problems in order."""
    raw, problems = parse(content_of(files))
    entries, more = validate(raw)
    return entries, in_order((*problems, *more))


def codes(problems: tuple[Problem, ...]) -> list[str]:
    return [problem.code for problem in problems]


def glaze(*fields: str) -> str:
    """A glaze's file with these fields beside its name and mark."""
    return "\n".join(["---", "name: Ferry Rust", "mark: FR", *fields, "---", ""])
