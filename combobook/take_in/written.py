"""What take-in writes into the studio's folder: a new log, and an entry for each layering that has none."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence

from combobook.book import Book
from combobook.entries import Entries
from combobook.past import slug
from combobook.sources import Content
from combobook.spelling import folded
from combobook.take_in.cells import LOG_COLUMNS
from combobook.take_in.tiles import NewRow


def log_path(edition: str, content: Content, taken: Iterable[str] = ()) -> str:
    """`logs/<edition-slug>-<n>.csv` with the next n that no log of the edition has; a gap is not filled."""
    stem = slug(edition)
    paths = [source.path for source in (*content.sources, *content.unread)] + list(taken)
    numbers = [int(match[1]) for path in paths if (match := re.fullmatch(rf"logs/{re.escape(stem)}-(\d+)\.csv", path))]
    return f"logs/{stem}-{max(numbers, default=0) + 1}.csv"


def log_text(rows: Sequence[NewRow]) -> str:
    """The rows as a log: commas, columns named and ordered as the entry format has them, a row a line from line 2."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(LOG_COLUMNS)
    writer.writerows([row.cells.get(name, "") for name in LOG_COLUMNS] for row in rows)
    return out.getvalue()


def entries_due(rows: Iterable[NewRow], book: Book, entries: Entries, content: Content) -> Mapping[str, str]:
    """Text by path of an entry for each new layering that has none; a file that is there is never written over."""
    there = {source.path for source in (*content.sources, *content.unread)}
    withheld = {(folded(base), folded(top)) for base, top in entries.withheld_layerings}
    made: dict[str, str] = {}
    for row in rows:
        if len(row.layers) < 2:
            continue
        base, top = row.layers
        if f"{top}-over-{base}" in book.combinations or (base, top) in withheld:
            continue
        path = f"combinations/{top}-over-{base}.md"
        number = 2
        while path in there:
            path, number = f"combinations/{top}-over-{base}-{number}.md", number + 1
        made.setdefault(path, entry_text(base, top, row.tile))
    return made


def entry_text(base: str, top: str, tile: str) -> str:
    """A layering's entry that says no more than is known, with the rest to fill in."""
    return "\n".join([
        "---",
        f"# Written when tile {tile} was taken in. Fill in what has a `?`; to put it on the wall chart, write yes.",
        f"base: {base}",
        f"top: {top}",
        "on chart: no",
        "# The coats that the book should suggest, the first glaze's, then the top's: 2 + 1",
        "coats: ?",
        "# A few words: blue-grey, breaks brown on edges",
        "looks: ?",
        "# Take away the # where these hold:",
        "# name: a nickname",
        "# keep off food: the reason",
        "---",
        "",
    ])  # fmt: skip
