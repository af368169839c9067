"""The lists of the loading sheet: what goes into no kiln of ours, then every pair and each glaze alone, worst first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from combobook.edition import Edition
from combobook.entries import Clay, Glaze, Unknown
from combobook.render import said
from combobook.render.chart.content import mark_order
from combobook.render.our_kiln import MARK, misses, refused, unread
from combobook.render.sheets.loading_sheet.asks import Asks, asks, marked
from combobook.render.sheets.shelf import every_pair_on_the_shelf, on_the_shelf
from combobook.wording import Words, upper_first


@dataclass(frozen=True, slots=True, kw_only=True)
class RefuseLine:
    """A glaze that goes into no kiln of this cone, or into none before somebody has read its label."""

    mark: str
    name: str
    kiln: str
    """The class of the mark of what goes into no kiln of ours, or empty."""
    what: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadLine:
    """A first glaze with the tops over it that ask for the same."""

    mark: str
    first: str
    then: str
    """The tops' marks; empty for one glaze alone."""
    plate: str
    plate_mark: str
    """The class of the catch-plate mark, or empty."""
    bare: str
    refuse: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadGroup:
    """Lines under one heading, and whether they name two glazes."""

    title: str
    pairs: bool
    lines: tuple[LoadLine, ...]


def clay_lines(edition: Edition) -> Iterator[str]:
    """On which clays a piece may be, which ones melt, and which ones nobody knows; nothing of a book without clays."""
    words, cone = edition.words, edition.book.studio.cone.value
    kinds: dict[str, list[str]] = {"clays": [], "clays_melt": [], "clays_not_known": []}
    for clay in sorted(edition.book.clays.values(), key=lambda clay: (clay.name.value.casefold(), clay.id)):
        span = clay.cone.value
        kind = "clays_not_known" if isinstance(span, Unknown) else "clays" if cone in span else "clays_melt"
        kinds[kind].append(_named(clay, words))
    if edition.book.clays and not kinds["clays"]:
        yield words("loading_sheet.no_clay", cone=cone)
    for kind, names in kinds.items():
        if names:
            yield words(f"loading_sheet.{kind}", clays=words.listed(names), cone=cone)


def _named(clay: Clay, words: Words) -> str:
    mark = clay.mark.value
    if isinstance(mark, Unknown):
        return clay.name.value
    return words("loading_sheet.clay", clay=clay.name.value, mark=mark)


def refuse_lines(edition: Edition) -> tuple[RefuseLine, ...]:
    """Glazes of the shelf whose label does not take the studio's cone, then those whose cone nobody knows."""
    words, glazes = edition.words, [verdict.glaze for verdict in on_the_shelf(edition)]
    out = [_refuse(words, glaze, "out") for glaze in glazes if misses(glaze, edition.book)]
    return (*out, *(_refuse(words, glaze, "ask") for glaze in glazes if unread(glaze)))


def _refuse(words: Words, glaze: Glaze, key: str) -> RefuseLine:
    return RefuseLine(
        mark=marked(glaze, words),
        name=glaze.name.value,
        kiln=f"m-{MARK}" if key == "out" else "",
        what=words(f"loading_sheet.{key}.what"),
        why=words(f"loading_sheet.{key}.why", cones=said.cones(glaze.cone.value, words)),
    )


def load_groups(edition: Edition) -> tuple[LoadGroup, ...]:
    """Everything that may go into the studio's kiln, worst first: pairs, then one glaze alone."""
    return (*_pairs(edition), *_alone(edition))


def _pairs(edition: Edition) -> Iterator[LoadGroup]:
    fit = (verdict for verdict in every_pair_on_the_shelf(edition) if not refused(verdict, edition.book))
    shown = sorted(fit, key=lambda v: (*asks(v).order, mark_order(v.base)))
    for group, verdicts in groupby(shown, key=lambda v: asks(v).group):
        lines = [
            _line(edition.words, asked, base, tuple(verdict.top for verdict in some))
            for (asked, base), some in groupby(verdicts, key=lambda v: (asks(v), v.base))
        ]
        yield LoadGroup(title=edition.words(f"loading_sheet.groups.{group}"), pairs=True, lines=tuple(lines))


def _alone(edition: Edition) -> tuple[LoadGroup, ...]:
    fit = (verdict for verdict in on_the_shelf(edition) if not refused(verdict, edition.book))
    shown = sorted(fit, key=lambda v: (*asks(v).order, mark_order(v.glaze)))
    lines = tuple(_line(edition.words, asks(verdict), verdict.glaze, ()) for verdict in shown)
    return (LoadGroup(title=edition.words("loading_sheet.groups.alone"), pairs=False, lines=lines),) if lines else ()


def _line(words: Words, asked: Asks, first: Glaze, tops: tuple[Glaze, ...]) -> LoadLine:
    return LoadLine(
        mark=marked(first, words),
        first=first.name.value,
        then=", ".join(marked(top, words) for top in sorted(tops, key=mark_order)),
        plate=words("loading_sheet.plate" if asked.plate else "loading_sheet.no_plate"),
        plate_mark="m-catch-plate" if asked.plate else "",
        bare=words.length(asked.margin_mm, "up") if asked.margin_mm else words("loading_sheet.flat"),
        refuse=words("loading_sheet.refuse.whole", causes=upper_first(_either(words, _causes(words, asked)))),
    )


def _causes(words: Words, asked: Asks) -> Iterable[str]:
    """Every cause to leave the piece out of the kiln."""
    yield words("loading_sheet.refuse.margin" if asked.margin_mm else "loading_sheet.refuse.upright")
    if asked.plate:
        yield words("loading_sheet.refuse.plate")
    if asked.reach_mm is not None:
        yield words("loading_sheet.refuse.reach", reach_down_mm=asked.reach_mm)
    if asked.third:
        yield words("loading_sheet.refuse.third")


def _either(words: Words, causes: Iterable[str]) -> str:
    *most, last = causes
    return words("loading_sheet.refuse.or", most=", ".join(most), last=last) if most else last
