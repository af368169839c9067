"""What to test again: what a new lot or a re-test date made old, glaze by glaze, and what disagrees."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from combobook.book import Layers, TestTile
from combobook.entries import Glaze, Status
from combobook.render.cards import off_shelf
from combobook.render.views.desk import Desk
from combobook.render.views.page import Page
from combobook.render.views.pieces import Signed
from combobook.render.views.surfaces import trust_sign
from combobook.verdicts import EvidenceLevel, GlazeVerdict, LayeringVerdict, OldBecause

PATH = "retest.html"
Verdict = GlazeVerdict | LayeringVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class AgainLine:
    """A layering, or a glaze alone, with how much of what is known of it is old."""

    href: str
    """Relative to site/."""
    name: str
    how_many: str
    """`Test first: all 3 tiles are old`, `Old: 2 of 5 tiles`."""
    all_old: bool
    tiles: str
    trust: Signed
    shelf: str
    """That a glaze of it is out or retired; else empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlazeAgain:
    """A glaze that changed, what changed, and what rests on what was before."""

    id: str
    href: str
    mark: str
    name: str
    changed: tuple[str, ...]
    counts: str
    shelf: str
    lines: tuple[AgainLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DisagreeLine:
    """What disagrees, with a link to its tiles side by side."""

    href: str
    name: str
    about: tuple[str, ...]
    trust: Signed


@dataclass(frozen=True, slots=True)
class _Old:
    """One old tile, and what about this glaze made it old."""

    tile: TestTile
    why: OldBecause


def pages(desk: Desk) -> Iterator[Page]:
    """The one page."""
    view: dict[str, object] = {"lead": answer(desk), "glazes": glazes_again(desk), "disagree": disagree_lines(desk)}
    yield Page(path=PATH, template="retest.html", title=desk.text("retest.title"), view=view, nav="teacher")


def answer(desk: Desk) -> str:
    """How many layerings rest on old tiles alone, and how many in part."""
    old = [v for v in verdicts(desk) if any(tile.place in desk.edition.judged.old for tile in v.tiles)]
    if not old:
        return desk.text("retest.nothing_old")
    alone = [verdict for verdict in old if verdict.evidence.level is EvidenceLevel.OLD]
    return desk.text(
        "retest.answer", all=counted_kinds(desk, alone), some=counted_kinds(desk, [v for v in old if v not in alone])
    )


def glazes_again(desk: Desk) -> tuple[GlazeAgain, ...]:
    """Each glaze with old tiles: those with most layerings on them first, then those with most rows."""
    found: dict[str, list[_Old]] = {}
    for tile in desk.book.tiles:
        for why in desk.edition.judged.old.get(tile.place, ()):
            found.setdefault(why.glaze.id, []).append(_Old(tile, why))
    order = sorted(found, key=lambda id_: (-len({o.tile.layers for o in found[id_]}), -len(found[id_]), id_))
    return tuple(_glaze(desk, desk.book.glazes[id_], found[id_]) for id_ in order)


def disagreeing(desk: Desk) -> tuple[Verdict, ...]:
    """Every layering and glaze alone that has a disagreement, those with most tiles first."""
    found = [verdict for verdict in verdicts(desk) if verdict.evidence.disagreements]
    return tuple(sorted(found, key=lambda verdict: (-verdict.evidence.tiles, name_of(desk, verdict))))


def disagree_lines(desk: Desk) -> tuple[DisagreeLine, ...]:
    """The same, a line each."""
    return tuple(
        DisagreeLine(
            href=f"{page_of(verdict)}#differ",
            name=name_of(desk, verdict),
            about=tuple(dict.fromkeys(desk.text(f"retest.about_{d.about}") for d in verdict.evidence.disagreements)),
            trust=trust_sign(desk, verdict.evidence),
        )
        for verdict in disagreeing(desk)
    )


def name_of(desk: Desk, verdict: Verdict) -> str:
    """`Pond Lantern over Ferry Rust`; `Ferry Rust alone`."""
    if isinstance(verdict, GlazeVerdict):
        return desk.text("retest.alone", glaze=verdict.glaze.name.value)
    return desk.words("coats.over", base=verdict.base.name.value, top=verdict.top.name.value)


def counted_kinds(desk: Desk, some: Sequence[Verdict]) -> str:
    """`3 layerings`, `1 glaze alone`, `2 layerings and 1 glaze alone`."""
    alone = sum(isinstance(verdict, GlazeVerdict) for verdict in some)
    said = [desk.words.counted("layerings", len(some) - alone)] if len(some) > alone or not some else []
    return desk.words.listed([*said, desk.words.counted("alone", alone)] if alone else said)


def page_of(verdict: Verdict) -> str:
    """Its page, relative to site/."""
    if isinstance(verdict, GlazeVerdict):
        return f"glazes/{verdict.glaze.id}.html"
    return f"combinations/{verdict.id}.html"


def verdicts(desk: Desk) -> tuple[Verdict, ...]:
    """Every layering, then every glaze alone."""
    return (*desk.edition.judged.layerings.values(), *desk.edition.judged.glazes.values())


def _glaze(desk: Desk, glaze: Glaze, old: Sequence[_Old]) -> GlazeAgain:
    by_layers: dict[Layers, list[TestTile]] = {}
    for each in old:
        by_layers.setdefault(each.tile.layers, []).append(each.tile)
    layerings = sum(len(layers) == 2 for layers in by_layers)
    counts = {
        "tiles": desk.words.counted("tiles", len({each.tile.tile.value for each in old})),
        "layerings": desk.words.counted("layerings", layerings),
    }
    gone = glaze.status.value in (Status.OUT, Status.RETIRED)
    return GlazeAgain(
        id=f"again-{glaze.id}",
        href=f"glazes/{glaze.id}.html",
        mark=glaze.mark.value,
        name=glaze.name.value,
        changed=_changed(desk, glaze, old),
        counts=desk.text("retest.counts", **counts),
        shelf=desk.words("shelf.off", glaze=glaze.name.value, status=glaze.status.value) if gone else "",
        lines=_lines(desk, by_layers),
    )


def _changed(desk: Desk, glaze: Glaze, old: Sequence[_Old]) -> tuple[str, ...]:
    """From which lot to which, and since which day, each with how many tiles that makes old."""
    said = []
    lots: dict[str, set[str]] = {}
    for each in old:
        if each.why.lot is not None:
            lots.setdefault(each.why.lot.strip(), set()).add(each.tile.tile.value)
    for lot, tiles in sorted(lots.items()):
        facts = {"was": lot, "now": glaze.lot.value, "tiles": desk.words.counted("tiles", len(tiles))}
        said.append(desk.text("retest.lot", **facts))
    before = [(each.tile, each.tile.firing) for each in old if each.why.before and each.tile.firing is not None]
    for key, dated in (("since", True), ("undated", False)):
        some = [(tile, firing) for tile, firing in before if isinstance(firing.date.value, dt.date) is dated]
        if some:
            counted = desk.words.counted("tiles", len({tile.tile.value for tile, _ in some}))
            named = desk.words.listed(sorted({firing.id for _, firing in some}))
            said.append(desk.text(f"retest.{key}", date=glaze.retest_since.value, tiles=counted, firings=named))
    return tuple(said)


def _lines(desk: Desk, by_layers: Mapping[Layers, Sequence[TestTile]]) -> tuple[AgainLine, ...]:
    """Those that rest on old tiles alone first, then those with most old rows."""
    of = {layers: _verdict(desk, layers) for layers in by_layers}

    def first(layers: Layers) -> tuple[bool, int, str]:
        old = of[layers].evidence.level is EvidenceLevel.OLD
        return (not old, -len(by_layers[layers]), name_of(desk, of[layers]))

    return tuple(_line(desk, of[layers], by_layers[layers]) for layers in sorted(by_layers, key=first))


def _verdict(desk: Desk, layers: Layers) -> Verdict:
    judged = desk.edition.judged
    return judged.layerings[layers[0], layers[1]] if len(layers) == 2 else judged.glazes[layers[0]]


def _line(desk: Desk, verdict: Verdict, old: Sequence[TestTile]) -> AgainLine:
    marks = list(dict.fromkeys(tile.tile.value for tile in old))
    whole = verdict.evidence.level is EvidenceLevel.OLD
    counts = {"n": len(marks), "tiles": desk.words.counted("tiles", verdict.evidence.tiles)}
    return AgainLine(
        href=page_of(verdict),
        name=name_of(desk, verdict),
        how_many=desk.text(f"retest.{'some' if not whole else 'only' if len(marks) == 1 else 'all'}_old", **counts),
        all_old=whole,
        tiles=", ".join(marks),
        trust=trust_sign(desk, verdict.evidence),
        shelf=off_shelf(verdict, desk.words) if isinstance(verdict, LayeringVerdict) else "",
    )
