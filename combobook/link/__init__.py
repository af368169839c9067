"""The link stage: names become objects, rows of one tile become one. Reports what only shows when entries meet."""

from __future__ import annotations

from dataclasses import replace

from combobook.book import Book
from combobook.entries import NOT_KNOWN, Entries, Studio, Written
from combobook.link.checks import CHECKS, Seen, dated
from combobook.link.combinations import Linking, combinations, reports
from combobook.link.markdown_links import links
from combobook.link.names import Names, said_twice, warning
from combobook.link.tiles import by_layers, tiles
from combobook.link.withdrawn import photos_of, without_withdrawn
from combobook.problems import Problem


def link(entries: Entries, photos: tuple[str, ...]) -> tuple[Book | None, tuple[Problem, ...]]:
    """The book, and every problem that needs more than one entry to see; no book without a usable studio.yaml."""
    entries, gone = without_withdrawn(entries)
    linking = linking_of(entries, photos)
    linking.withdrawn_rows, linking.withdrawn_photos = gone, photos_of(gone)
    linking.doubled = _doubled(linking)
    _earlier_names(linking)
    layerings = combinations(linking)
    its_reports = reports(linking)
    its_tiles = tiles(linking)
    its_links = links(linking, layerings)
    if entries.studio is None:
        return None, tuple(linking.problems)
    studio = _dated_studio(linking, entries.studio)
    seen = Seen(linking, studio, layerings, its_tiles)
    linking.problems.extend(problem for check in CHECKS for problem in check(seen))
    book = Book(
        studio=studio,
        glazes={g.id: g for g in sorted(entries.glazes, key=lambda g: g.id)},
        combinations=layerings,
        clays={c.id: c for c in sorted(entries.clays, key=lambda c: c.id)},
        forms={f.id: f for f in sorted(entries.forms, key=lambda f: f.id)},
        firings={f.id: f for f in sorted(entries.firings, key=lambda f: f.id)},
        reports=its_reports,
        pages={p.id: p for p in sorted(entries.pages, key=lambda p: p.id)},
        tiles=its_tiles,
        tiles_of=by_layers(its_tiles),
        links=its_links,
        photos=tuple(sorted(set(photos) - linking.withdrawn_photos)),
        editions=entries.editions,
        withdrawn=entries.withdrawn,
    )
    return book, tuple(linking.problems)


def linking_of(entries: Entries, photos: tuple[str, ...]) -> Linking:
    """What these entries' names are looked up in, nothing looked up yet."""
    glazes = Names("glaze", "glazes", entries.glazes, {g.id: (g.name.value, g.mark.value) for g in entries.glazes})
    clays = Names(
        "clay",
        "clays",
        entries.clays,
        {c.id: tuple(w.value for w in (c.name, c.mark) if isinstance(w.value, str)) for c in entries.clays},
    )
    firings = Names("firing", "firings", entries.firings, {})
    return Linking(entries, tuple(sorted(photos)), glazes, clays, firings)


def _doubled(linking: Linking) -> frozenset[str]:
    """Reports doubled names and marks; the words, so that references to them are not reported again."""
    entries, problems = linking.entries, linking.problems
    marks = [(c.id, _stated(c.mark)) for c in entries.clays]
    return frozenset().union(
        said_twice("name", "doubled-name", [(g.id, g.name) for g in entries.glazes], problems),
        said_twice("mark", "doubled-mark", [(g.id, g.mark) for g in entries.glazes], problems),
        said_twice("name", "doubled-name", [(c.id, c.name) for c in entries.clays], problems),
        said_twice("mark", "doubled-mark", [(i, m) for i, m in marks if m is not None], problems),
        said_twice("name", "doubled-name", [(f.id, f.name) for f in entries.forms], problems),
    )


def _earlier_names(linking: Linking) -> None:
    """An earlier file name leads to one glaze's page: an error where two had it, a warning where one has it now."""
    earlier = [(glaze.id, was) for glaze in linking.entries.glazes if (was := _stated(glaze.was)) is not None]
    said_twice("earlier file name", "doubled-name", earlier, linking.problems)
    there = {glaze.id for glaze in linking.entries.glazes}
    for _, was in earlier:
        if was.value in there:
            message = f"glazes/{was.value}.md is there now: its address stays that glaze's own"
            fix = "write the name that this entry's file had before, or take the line out"
            linking.problems.append(warning(was.place, "earlier-name-taken", message, fix, len(was.value)))


def _stated(word: Written[object]) -> Written[str] | None:
    if not isinstance(word.value, str):
        return None
    return Written(value=word.value, place=word.place, field_line=word.field_line)


def _dated_studio(linking: Linking, studio: Studio) -> Studio:
    """The studio with a date: its own, else the newest in the content, with a warning."""
    if studio.date.value is not NOT_KNOWN:
        return studio
    written = [w.value for _, w in dated(linking, studio)]
    newest = max((day for day in written if day is not NOT_KNOWN), default=None)
    said = f"{newest}, the newest date in the content, stands for it" if newest else "ages cannot be counted"
    fix = f"write `date: {newest or '2026-10-14'}` with the day this edition is made"
    if ("studio.yaml", "date") not in linking.entries.refused:
        linking.problems.append(warning(studio.date.place, "no-edition-date", f"this edition has no date: {said}", fix))
    if newest is None:
        return studio
    date = Written(value=newest, place=studio.date.place, field_line=studio.date.field_line, stated=False)
    return replace(studio, date=date)
