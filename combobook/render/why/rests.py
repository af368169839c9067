"""What a reason rests on: whose label, which tile, which report, or what the studio wrote."""

from __future__ import annotations

from collections.abc import Iterable

from combobook.book import LabReport, TestTile
from combobook.entries import NOT_KNOWN
from combobook.render.cards import tile_words
from combobook.render.why.view import Asked, Point
from combobook.verdicts import Reason
from combobook.wording import Words, sentence

OF_THE_PAIR = frozenset(
    {"untested_upright", "no_tile_within_labels", "not_looked_over", "nothing_looked_over", "over_most_coats"}
)
"""Reasons about a pair as such. Where it has no entry they point at the first glaze's file, and rest on no label."""


def points(asked: Asked, reasons: Iterable[Reason]) -> tuple[Point, ...]:
    """Each reason with what it rests on, in the order given."""
    words = asked.words
    return tuple(
        Point(says=sentence(each, words), rests_on=rests_on(asked, each), at=each.place.at, rule=each.rule)
        for each in reasons
    )


def rests_on(asked: Asked, reason: Reason) -> str:
    """In words; empty where nothing can be said beyond the place."""
    words, path = asked.words, reason.place.path
    folder = path.partition("/")[0]
    if folder == "logs":
        tile = _tile(asked, reason)
        return tile_said(asked, tile) if tile else ""
    if folder == "lab":
        return next((report_words(each, words) for each in asked.book.reports if each.path == path), "")
    if folder == "combinations":
        return words("why.rests.entry")
    if reason.wording in OF_THE_PAIR:
        return words("why.rests.no_entry")
    facts = dict(reason.facts)
    if reason.wording == "label_conditional":
        quoted = next((each for each in asked.glazes if each.name.value == facts["glaze"]), None)
        if quoted is not None and quoted.label_says.value is not NOT_KNOWN:
            return words("why.quoted", glaze=facts["glaze"], words=quoted.label_says.value)
    return words("why.rests.label", glaze=facts["glaze"]) if "glaze" in facts else ""


def report_words(report: LabReport, words: Words) -> str:
    """Which report: its ware, limits and laboratory, as far as it names one."""
    name = words("site.lab.name", ware=report.ware.value, limits=report.limits.value)
    lab = report.lab.value
    return name if lab is NOT_KNOWN else words("why.rests.report", report=name, lab=lab)


def tile_said(asked: Asked, tile: TestTile) -> str:
    """Which tile: its coats, clay, firing and kiln shelf, and whether it was fired hot or cool."""
    return tile_words(tile, asked.words, asked.judged.tile_fire.get(tile.place)).rstrip(".")


def came_out_at(tile: TestTile) -> str:
    """The row in which what came out of the kiln was written; where nothing was, the tile's first."""
    if tile.looked_over:
        return tile.faults.at.at
    return tile.place.at if tile.ran.value is NOT_KNOWN else tile.ran.at.at


def _tile(asked: Asked, reason: Reason) -> TestTile | None:
    """The tile whose row, or whose cell, stands at the reason's place."""
    mark, at = dict(reason.facts).get("tile"), reason.place.at
    alone = [tile for glaze in asked.glazes for tile in asked.book.tiles_of.get((glaze.id,), ())]
    named = [tile for tile in (*asked.verdict.tiles, *alone) if tile.tile.value == mark]
    return next((tile for tile in named if at in (tile.faults.at.at, tile.ran.at.at, tile.place.at)), None)
