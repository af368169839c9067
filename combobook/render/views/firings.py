"""Glaze firings: what the witness cones said on each shelf, and what came out, worst first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from combobook.cones import temperature
from combobook.entries import Firing, Unknown
from combobook.render.views.desk import Desk
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
    yield Page(path="firings.html", template="firings.html", title=title, view={"firings": lines}, nav="firings")
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
    said = [_off_aim(desk, verdict, fired) for fired in ("hot", "cool")]
    return " ".join(text for text in said if text) or desk.text("firings.as_meant")


def _off_aim(desk: Desk, verdict: FiringVerdict, fired: str) -> str:
    """The kiln shelves that were hot, or cool; empty where none was."""
    shelves = [shelf for shelf in verdict.shelves if shelf.fired == fired]
    if not shelves:
        return ""
    if len(shelves) == len(verdict.shelves) > 1:
        return desk.text(f"firings.all_{fired}")
    named = [desk.text("firings.shelf", shelf=shelf.shelf.value) for shelf in shelves]
    return desk.text(f"firings.some_{fired}", shelves=desk.words.listed(named))


def _view(desk: Desk, verdict: FiringVerdict) -> dict[str, object]:
    firing = verdict.firing
    label = desk.text("firings.load_label", firing=firing.id)
    return {
        "said": _said(desk, verdict),
        "facts": _facts(desk, firing),
        "shelves": tuple(_shelf(desk, shelf) for shelf in verdict.shelves),
        "no_cone": desk.text("firings.no_cone_means") if not verdict.shelves else "",
        "temperature": _temperature(desk, verdict),
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


def _shelf(desk: Desk, shelf: ShelfFire) -> ShelfView:
    key = "meant" if shelf.fired == "as meant" else shelf.fired
    half = abs(shelf.off_by_halves)
    off = desk.text("firings.off_none") if not half else _off(desk, shelf, half)
    return ShelfView(
        shelf=desk.text("firings.shelf", shelf=shelf.shelf.value),
        cone=desk.text("tiles.reached", cone=shelf.witness),
        fired=off if key == "meant" else f"{desk.text(f'tiles.fired_{key}').capitalize()}: {off}",
        key=key,
    )


def _off(desk: Desk, shelf: ShelfFire, half: int) -> str:
    whole, rest = divmod(half, 2)
    size = f"{whole} 1/2" if whole and rest else "1/2" if rest else str(whole)
    cones = desk.text(f"firings.cones.{'one' if half <= 2 else 'many'}", n=size)
    return desk.text("firings.off_hotter" if shelf.off_by_halves > 0 else "firings.off_cooler", cones=cones)


def _temperature(desk: Desk, verdict: FiringVerdict) -> str:
    """The cone's published end point, never without its rate; what it lacks is said."""
    firing, rate = verdict.firing, verdict.firing.rate.value
    cone = firing.cone.value
    if not isinstance(rate, Fraction):
        return desk.text("firings.no_rate")
    value = temperature(cone, rate)
    if value is None:
        return desk.text("firings.outside_table", cone=cone, rate=number(rate))
    said = desk.text("firings.table", cone=cone, c=round(value), rate=number(rate))
    off = verdict.peak_off_c
    return said if off is None else f"{said} {_peak(desk, off)}"


def _peak(desk: Desk, off: Fraction) -> str:
    apart = round(abs(off))
    if not apart:
        return desk.text("firings.peak_same")
    return desk.text("firings.peak_hotter" if off > 0 else "firings.peak_cooler", apart=apart)
