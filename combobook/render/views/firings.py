"""Glaze firings: what the witness cones said on each shelf, and what came out, worst first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from combobook.entries import Firing, KilnShelf, Unknown
from combobook.render.views.desk import Desk
from combobook.render.views.firing_plot import legend
from combobook.render.views.firing_term import term_views
from combobook.render.views.kiln_before import kiln_read
from combobook.render.views.page import Page
from combobook.render.views.pieces import Fact, known
from combobook.render.views.tiles import tile_table
from combobook.verdicts import FiringVerdict, ShelfFire
from combobook.wording import number

ROOT = "../"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfView:
    """A kiln shelf and what its witness cone said."""

    shelf: str
    cone: str
    fired: str
    key: str
    """`hot`, `cool` or `meant`."""
    table: str
    """That cone's end point at the firing's rate, or that the table has none; empty where the firing has no rate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FiringLine:
    """A firing in the list of them all."""

    href: str
    name: str
    date: str
    cone: str
    kiln: str
    said: str
    tiles: str


def pages(desk: Desk) -> Iterator[Page]:
    """The list, newest first, then one page a firing."""
    verdicts = sorted(desk.edition.judged.firings.values(), key=_newest_first)
    lines = tuple(_line(desk, verdict) for verdict in verdicts)
    title = desk.text("firings.title")
    view: dict[str, object] = {"firings": lines, "terms": term_views(desk), "legend": legend(desk)}
    yield Page(path="firings.html", template="firings.html", title=title, view=view, nav="firings")
    for verdict in verdicts:
        title = desk.text("firings.one", firing=verdict.firing.id)
        view = _view(desk, verdict)
        yield Page(
            path=f"firings/{verdict.firing.id}.html", template="firing.html", title=title, view=view, nav="firings"
        )


def _newest_first(verdict: FiringVerdict) -> tuple[int, str]:
    date = verdict.firing.date.value
    return (1 if isinstance(date, Unknown) else -date.toordinal(), verdict.firing.id)


def _line(desk: Desk, verdict: FiringVerdict) -> FiringLine:
    firing = verdict.firing
    return FiringLine(
        href=f"firings/{firing.id}.html",
        name=firing.id,
        date=known(firing.date, desk),
        cone=str(firing.cone.value),
        kiln=known(firing.kiln, desk),
        said=_said(desk, verdict),
        tiles=desk.words.counted("tiles", len({tile.tile.value for tile in verdict.tiles})),
    )


def _said(desk: Desk, verdict: FiringVerdict) -> str:
    """What the witness cones say of the whole firing, in a few words."""
    if not verdict.shelves:
        return desk.text("firings.no_cone")
    said = [_against_aim(desk, verdict, fired) for fired in ("hot", "cool", "as meant")]
    read = {shelf.shelf for shelf in verdict.shelves}
    unread = [shelf for shelf in KilnShelf if shelf not in read]
    if unread:
        said.append(desk.text("firings.unread", shelves=_shelves(desk, unread)))
    return " ".join(text for text in said if text)


def _against_aim(desk: Desk, verdict: FiringVerdict, fired: str) -> str:
    """The kiln shelves that were hot, cool or as meant; empty where none was."""
    shelves = [shelf.shelf for shelf in verdict.shelves if shelf.fired == fired]
    key = fired.replace(" ", "_")
    if len(shelves) == len(KilnShelf):
        return desk.text("firings.as_meant" if key == "as_meant" else f"firings.all_{key}")
    return desk.text(f"firings.some_{key}", shelves=_shelves(desk, shelves)) if shelves else ""


def _shelves(desk: Desk, shelves: Sequence[KilnShelf]) -> str:
    return desk.words.listed([desk.text("firings.shelf", shelf=shelf.value) for shelf in shelves])


def _view(desk: Desk, verdict: FiringVerdict) -> dict[str, object]:
    firing = verdict.firing
    label = desk.text("firings.load_label", firing=firing.id)
    return {
        "said": _said(desk, verdict),
        "facts": _facts(desk, firing),
        "shelves": tuple(_shelf(desk, shelf, firing.rate.value) for shelf in verdict.shelves),
        "no_cone": desk.text("firings.no_cone_means") if not verdict.shelves else "",
        "kiln_read": kiln_read(desk, verdict),
        "tables": any(shelf.table_c is not None for shelf in verdict.shelves),
        "temperature": _temperature(desk, verdict),
        "peak": _peak(desk, verdict),
        "odd_peak": not verdict.peak_fits,
        "prose": desk.prose(firing.body, ROOT, under=2),
        "table": tile_table(desk, verdict.tiles, ROOT, label, "firing"),
    }


def _facts(desk: Desk, firing: Firing) -> tuple[Fact, ...]:
    values: dict[str, str | Markup] = {
        "date": known(firing.date, desk),
        "cone": str(firing.cone.value),
        "kiln": known(firing.kiln, desk),
        "rate": _measured(desk, "per_hour", firing.rate.value),
        "peak": _measured(desk, "degrees", firing.peak.value),
        "hold": _measured(desk, "minutes", firing.hold.value),
        "cooling": known(firing.cooling, desk),
    }
    return tuple(Fact(name=desk.text(f"firings.facts.{key}"), value=value) for key, value in values.items())


def _measured(desk: Desk, key: str, value: Fraction | Unknown) -> str:
    return desk.words("not_known") if isinstance(value, Unknown) else desk.text(f"firings.{key}", n=number(value))


def _shelf(desk: Desk, shelf: ShelfFire, rate: Fraction | Unknown) -> ShelfView:
    key = "meant" if shelf.fired == "as meant" else shelf.fired
    half = abs(shelf.off_by_halves)
    off = desk.text("firings.off_none") if not half else _off(desk, shelf, half)
    return ShelfView(
        shelf=desk.text("firings.shelf", shelf=shelf.shelf.value),
        cone=desk.text("tiles.reached", cone=shelf.witness),
        fired=off if key == "meant" else f"{desk.text(f'tiles.fired_{key}').capitalize()}: {off}",
        key=key,
        table=_end_point(desk, shelf.table_c, rate),
    )


def _end_point(desk: Desk, table_c: Fraction | None, rate: Fraction | Unknown) -> str:
    """`1222 °C at 60 °C an hour`: never without the rate."""
    if table_c is None or isinstance(rate, Unknown):
        return "" if isinstance(rate, Unknown) else desk.text("firings.no_end_point")
    return desk.text("firings.end_point", c=round(table_c), rate=number(rate))


def _off(desk: Desk, shelf: ShelfFire, half: int) -> str:
    whole, rest = divmod(half, 2)
    size = f"{whole} 1/2" if whole and rest else "1/2" if rest else str(whole)
    cones = desk.text(f"firings.cones.{'one' if half <= 2 else 'many'}", n=size)
    return desk.text("firings.off_hotter" if shelf.off_by_halves > 0 else "firings.off_cooler", cones=cones)


def _temperature(desk: Desk, verdict: FiringVerdict) -> str:
    """The aim's published end point, never without its rate; what it lacks is said."""
    firing, rate = verdict.firing, verdict.firing.rate.value
    cone = firing.cone.value
    if not isinstance(rate, Fraction):
        return desk.text("firings.no_rate")
    if verdict.table_c is None:
        return desk.text("firings.outside_table", cone=cone, rate=number(rate))
    return desk.text("firings.table", cone=cone, c=round(verdict.table_c), rate=number(rate))


def _peak(desk: Desk, verdict: FiringVerdict) -> str:
    """The thermometer against the nearest cone, or why the two cannot be compared."""
    firing, off, by = verdict.firing, verdict.peak_off_c, verdict.peak_by
    if isinstance(firing.peak.value, Unknown):
        return ""
    if off is None or by is None:
        return desk.text("firings.peak.hold") if not isinstance(firing.hold.value, Unknown) else ""
    facts = {"apart": round(abs(off)), "shelf": by.shelf.value, "cone": by.witness}
    side = "same" if not facts["apart"] else "hotter" if off > 0 else "cooler"
    said = desk.text(f"firings.peak.{side}", **facts)
    return said if verdict.peak_fits else f"{said} {desk.text('firings.peak.odd')}"
