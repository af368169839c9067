"""What every page is made from: the edition, and what is worked out once for all of them."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from combobook.book import Book, TestTile
from combobook.edition import Edition
from combobook.render.cards import is_house_never, tile_words
from combobook.render.markdown import Prose
from combobook.verdicts import LayeringVerdict
from combobook.wording import Words, picture_note

Pair = tuple[str, str]
"""Base id, top id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """The edition with its indexes. Layerings here are those that have a page (`has_page`)."""

    edition: Edition
    prose: Prose
    never: bool
    """House rule: nothing made here is for food."""
    on: Mapping[str, tuple[LayeringVerdict, ...]]
    """By first glaze, those with most tiles first."""
    over: Mapping[str, tuple[LayeringVerdict, ...]]
    """By top glaze, likewise."""
    kept: dict[tuple[str, Hashable], Any] = field(default_factory=dict)
    """Finished pieces that several pages show."""

    @property
    def book(self) -> Book:
        return self.edition.book

    @property
    def words(self) -> Words:
        return self.edition.words

    def text(self, key: str, **facts: object) -> str:
        """The site's own words at `site.<key>`."""
        return self.edition.words(f"site.{key}", **facts)


def desk(edition: Edition) -> Desk:
    """The edition laid out: indexes by base and top, captions by photo."""
    shown = [v for v in edition.judged.layerings.values() if has_page(v)]
    captions = {t.photo.value: _caption(edition, t) for t in edition.book.tiles if isinstance(t.photo.value, str)}
    return Desk(
        edition=edition,
        prose=Prose(edition.book.links, edition.pictures, captions, edition.words),
        never=is_house_never(edition),
        on=_index((v.base.id, v) for v in shown),
        over=_index((v.top.id, v) for v in shown),
    )


def has_page(verdict: LayeringVerdict) -> bool:
    """A layering that somebody wrote an entry for, brushed on a tile, or paid a laboratory for."""
    return verdict.entry is not None or bool(verdict.tiles) or bool(verdict.findings)


def _index(pairs: Iterable[tuple[str, LayeringVerdict]]) -> Mapping[str, tuple[LayeringVerdict, ...]]:
    found: dict[str, list[LayeringVerdict]] = {}
    for glaze, verdict in pairs:
        found.setdefault(glaze, []).append(verdict)
    return {glaze: tuple(sorted(some, key=lambda v: (-v.evidence.tiles, v.id))) for glaze, some in found.items()}


def _caption(edition: Edition, tile: TestTile) -> str:
    picture = edition.pictures.get(str(tile.photo.value))
    note = picture_note(picture, edition.words) if picture is not None else ""
    return f"{tile_words(tile, edition.words, edition.judged.tile_fire.get(tile.place))} {note}".strip()
