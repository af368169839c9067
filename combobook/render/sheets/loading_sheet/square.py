"""A square of the look-up, and the key to what stands in one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.entries import Units
from combobook.render.letters import Run, wrapped
from combobook.render.our_kiln import refused, unread
from combobook.render.said import Verdict
from combobook.render.sheets.loading_sheet.asks import Asks, asks
from combobook.render.sheets.shelf import every_pair_on_the_shelf, on_the_shelf
from combobook.wording import Words, inch_fraction, number

NAME = 2.8
"""mm: letters of names and key, which are for close by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """What is asked of one glaze over another: a figure, and letters under it."""

    kind: str
    """`pair`, `same` (the glaze alone) or `no` (into no kiln of this cone)."""
    figure: str
    letters: str


def square(edition: Edition, verdict: Verdict | None, *, same: bool) -> Square:
    """Of a pair that nobody has judged there is nothing to look up: ask."""
    words = edition.words
    if verdict is None:
        return Square(kind="pair", figure=words("loading_sheet.table.ask"), letters="")
    if refused(verdict, edition.book):
        return Square(kind="no", figure=words("loading_sheet.table.no"), letters="")
    asked, kind = asks(verdict), "same" if same else "pair"
    letters = (("plate", asked.plate), ("third", asked.third), ("band", asked.reach_mm is not None))
    return Square(
        kind=kind,
        figure=_figure(words, asked.margin_mm) if asked.margin_mm else words("loading_sheet.table.flat"),
        letters="".join(words(f"loading_sheet.table.{name}") for name, there in letters if there),
    )


def _figure(words: Words, margin_mm: int) -> str:
    """The bare clay in the studio's unit, which the key names."""
    return number(margin_mm) if words.units is Units.MM else inch_fraction(margin_mm, "up")


def look_up_key(edition: Edition, squares: Sequence[Square], room: float) -> tuple[str, ...]:
    """What squares mean, of what stands in them only, folded to `room` mm."""
    words = edition.words
    asked = tuple(_asked(edition))
    lengths = ", ".join(words.length(each, "up") for each in sorted({a.margin_mm for a in asked if a.margin_mm}))
    said = (
        words("loading_sheet.table.how"),
        " ".join(_meanings(edition, squares, asked)),
        words("posted.lengths", lengths=lengths) if lengths else "",
    )
    lines = (line for text in said if text for line in wrapped((Run(text),), NAME, room))
    return tuple("".join(run.text for run in line) for line in lines)


def _asked(edition: Edition) -> Iterator[Asks]:
    """Of everything on the shelf that may go into the studio's kiln."""
    for pair in every_pair_on_the_shelf(edition):
        if not refused(pair, edition.book):
            yield asks(pair)
    for alone in on_the_shelf(edition):
        if not refused(alone, edition.book):
            yield asks(alone)


def _meanings(edition: Edition, squares: Sequence[Square], asked: Sequence[Asks]) -> Iterator[str]:
    words, table = edition.words, "loading_sheet.table"
    letters, figures = {each for s in squares for each in s.letters}, {s.figure for s in squares}
    reaches = sorted({each.reach_mm for each in asked if each.reach_mm is not None})
    yield words(f"{table}.means_figure", unit=words(f"{table}.unit.{words.units.value}"))
    for name in ("plate", "third"):
        if words(f"{table}.{name}") in letters:
            yield words(f"{table}.means_{name}")
    if reaches:
        yield words(f"{table}.means_band{'s' if len(reaches) > 1 else ''}", reach_down_mm=reaches[0])
    if words(f"{table}.flat") in figures:
        yield words(f"{table}.means_flat")
    if any(square.kind == "no" for square in squares):
        yield words(f"{table}.means_no", cone=edition.book.studio.cone.value)
    if any(unread(verdict.glaze) for verdict in on_the_shelf(edition)):
        yield words(f"{table}.means_unread")
