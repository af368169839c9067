"""The teacher's page: what waits to be looked at, what the evidence leaves open, and the sheets to print."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Sized
from dataclasses import dataclass, replace

from combobook.book import TestTile
from combobook.entries import NOT_KNOWN
from combobook.render.views import changes, labels, retest
from combobook.render.views.desk import Desk
from combobook.render.views.differ import DifferView, differ_view
from combobook.render.views.left_open import left_open
from combobook.render.views.page import Page
from combobook.render.views.pieces import Way, upper_first
from combobook.render.views.tiles import TileRow, TileTable, tile_table

PATH = "teacher.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class HubLine:
    """One thing to see to: how much of it there is, and where."""

    href: str
    """Relative to site/."""
    words: str
    count: str
    nothing: bool
    """There is none of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """Tiles that wait for somebody."""

    id: str
    title: str
    lead: str
    table: TileTable


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """One layering whose tiles disagree, side by side."""

    href: str
    name: str
    views: tuple[DifferView, ...]


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    view: dict[str, object] = {
        "hub": hub(desk),
        "apart": apart(desk),
        "waiting": tuple(_waiting(desk, key, tiles(desk)) for key, tiles in TILES.items()),
        "open": left_open(desk),
        "sheets": tuple(_sheet(desk, path) for path in desk.edition.sheets if path.endswith(".pdf")),
    }
    yield Page(path=PATH, template="teacher.html", title=desk.text("teacher.title"), view=view, nav="teacher")


def apart(desk: Desk) -> tuple[Apart, ...]:
    """What disagrees, each with its tiles side by side."""
    return tuple(
        Apart(
            href=retest.page_of(verdict),
            name=retest.name_of(desk, verdict),
            views=tuple(differ_view(desk, d, retest.page_of(verdict)) for d in verdict.evidence.disagreements),
        )
        for verdict in retest.disagreeing(desk)
    )


def not_looked_over(desk: Desk) -> tuple[TestTile, ...]:
    """Fired, and nobody wrote down whether there are faults."""
    return tuple(tile for tile in desk.book.tiles if tile.fired and not tile.looked_over)


def firing_forgotten(desk: Desk) -> tuple[TestTile, ...]:
    """A run or faults are written down, and no firing: it counts against its glazes and for nothing."""
    return tuple(tile for tile in desk.book.tiles if not tile.fired and _came_out(tile))


def not_fired(desk: Desk) -> tuple[TestTile, ...]:
    """Brushed, and nothing more is written down."""
    return tuple(tile for tile in desk.book.tiles if not tile.fired and not _came_out(tile))


def _came_out(tile: TestTile) -> bool:
    return tile.ran.value is not NOT_KNOWN or tile.looked_over


TILES: Mapping[str, Callable[[Desk], tuple[TestTile, ...]]] = {
    "forgotten": firing_forgotten,
    "unseen": not_looked_over,
    "waiting": not_fired,
}
"""Tiles that wait for somebody, by kind (words at `site.teacher.<kind>`)."""
_LEFT_OUT = {
    "forgotten": "firing fired shelf stood looks",
    "unseen": "stood faults looks",
    "waiting": "firing fired shelf stood ran faults looks",
}
"""Columns that would be empty or say nothing there."""


HUB: tuple[tuple[str, str, Callable[[Desk], str]], ...] = (
    ("forgotten", "#forgotten", lambda desk: _marks(desk, firing_forgotten(desk))),
    ("unseen", "#unseen", lambda desk: _marks(desk, not_looked_over(desk))),
    ("waiting", "#waiting", lambda desk: _marks(desk, not_fired(desk))),
    ("apart", "#apart", lambda desk: _kinds(desk, retest.disagreeing(desk))),
    (
        "plan",
        "../print/plan.pdf",
        lambda desk: _counted(desk, "tiles", desk.edition.plan.tiles if desk.edition.plan else ()),
    ),
    ("retest", retest.PATH, lambda desk: _counted(desk, "glazes", retest.glazes_again(desk))),
    ("labels", labels.PATH, lambda desk: _counted(desk, "glazes", labels.to_read(desk))),
    ("changes", changes.PATH, lambda desk: _kinds_changed(desk)),
    ("firings", "firings.html", lambda desk: _counted(desk, "firings", desk.book.firings)),
)
"""What there is to see to, most pressing first: name (words at `site.teacher.hub`), where, how much; empty for none."""


def _kinds_changed(desk: Desk) -> str:
    found = changes.changes_since(desk.edition)
    return desk.words.counted("changed", len(found.verdicts)) if found and found.verdicts else ""


def hub(desk: Desk) -> tuple[HubLine, ...]:
    """What there is to see to, counted; a sheet only where it was made."""
    sheets = {f"../{path}" for path in desk.edition.sheets}
    lines = (line for line in HUB if not line[1].startswith("../") or line[1] in sheets)
    return tuple(_hub_line(desk, *line) for line in lines)


def _hub_line(desk: Desk, key: str, href: str, count: Callable[[Desk], str]) -> HubLine:
    counted = count(desk)
    words = desk.text(f"teacher.hub.{key}")
    return HubLine(href=href, words=words, count=counted or desk.text("teacher.hub.nothing"), nothing=not counted)


def _sheet(desk: Desk, path: str) -> Way:
    """A sheet by its words at `site.teacher.sheets`, or by its file's name where the theme has none."""
    name = path.rpartition("/")[2].removesuffix(".pdf")
    key = f"site.teacher.sheets.{name.replace('-', '_')}"
    words = desk.words(key) if desk.words.has(key) else upper_first(name.replace("-", " "))
    return Way(href=f"../{path}", words=words)


def _counted(desk: Desk, key: str, some: Sized) -> str:
    return desk.words.counted(key, len(some)) if some else ""


def _marks(desk: Desk, tiles: Iterable[TestTile]) -> str:
    return _counted(desk, "tiles", {tile.tile.value for tile in tiles})


def _kinds(desk: Desk, some: Sequence[retest.Verdict]) -> str:
    return retest.counted_kinds(desk, some) if some else ""


def _waiting(desk: Desk, key: str, tiles: tuple[TestTile, ...]) -> Waiting:
    label, none = desk.text(f"teacher.{key}.table"), desk.text(f"teacher.{key}.none")
    table = tile_table(desk, tiles, "", label, _LEFT_OUT[key])
    if key == "forgotten":
        table = replace(table, rows=tuple(_good_news_out(desk, row) for row in table.rows))
    return Waiting(
        id=key,
        title=desk.text(f"teacher.{key}.title"),
        lead=desk.text(f"teacher.{key}.lead"),
        table=replace(table, empty=none),
    )


def _good_news_out(desk: Desk, row: TileRow) -> TileRow:
    """Without a firing only bad news counts: that no fault was seen is said so."""
    none, instead = desk.text("tiles.none_seen"), desk.text("teacher.forgotten.no_fault")
    return replace(row, cells=tuple(instead if cell == none else cell for cell in row.cells))
