"""What the studio's folder would say with new files in it, asked before anything is written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath

from combobook.entries import Glaze
from combobook.link import link
from combobook.parse import parse
from combobook.problems import Problem, in_order
from combobook.sources import Content, Source
from combobook.validate import validate


def errors_with(content: Content, texts: Mapping[str, str], photos: Iterable[str]) -> tuple[Problem, ...]:
    """Every error of the content with these texts (by path) and photographs (names in photos/) beside what it has."""
    added = [
        Source(path=path, folder=path.rpartition("/")[0], stem=PurePosixPath(path).stem, text=text)
        for path, text in texts.items()
    ]
    whole = Content(
        sources=tuple(sorted((*content.sources, *added), key=lambda source: source.path)),
        photos=tuple(sorted({*content.photos, *photos})),
        unread=content.unread,
    )
    raw, unparsed = parse(whole)
    entries, refused = validate(raw)
    _, unlinked = link(entries, whole.photos)
    return tuple(problem for problem in in_order((*unparsed, *refused, *unlinked)) if problem.is_error)


def glaze_of(path: str, text: str) -> Glaze | None:
    """What an entry for a glaze says, read as the folder's own are; None where its name or mark cannot be read."""
    source = Source(path=path, folder="glazes", stem=PurePosixPath(path).stem, text=text)
    raw, _ = parse(Content(sources=(source,), photos=(), unread=()))
    entries, _ = validate(raw)
    return entries.glazes[0] if entries.glazes else None
