"""The head of every sheet: what this is, whose, which edition, which sheet of how many."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from combobook.edition import Edition
from combobook.render.chart.content import ChartGroup
from combobook.render.chart.sizes import Sizes
from combobook.render.letters import Line, Run, line_width, width, wrapped


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """Title at the left; the edition at the right, or below where there is no room."""

    title: tuple[str, ...]
    title_size: float
    told: tuple[Line, ...]
    """Lines at the caution size; the sheet's number is filled in for each sheet."""
    beside: bool
    height: float


_WIDEST_NUMBER = "888"
_STANDING_IN = ("\N{SYMBOL FOR START OF TEXT}", "\N{SYMBOL FOR END OF TEXT}")
"""For the sheet's number and their count, while the words are put into CSS."""


def counted(edition: Edition, of: int | None = None) -> Markup:
    """A rule of CSS by which `.sheet-number` says which sheet this is, of how many: of all there are, or `of`."""
    words = edition.words("edition.sheet", n=_STANDING_IN[0], m=_STANDING_IN[1]).replace("\\", "").replace('"', "")
    count = '" counter(pages) "' if of is None else str(of)
    content = f'"{words}"'.replace(_STANDING_IN[0], '" counter(page) "').replace(_STANDING_IN[1], count)
    return Markup(f".sheet-number::after{{content:{content}}}")


def head(edition: Edition, groups: tuple[ChartGroup, ...], sizes: Sizes, room: float) -> Head:
    """The head in `room` mm across, laid out for the widest sheet number."""
    title = edition.words("chart.title", cone=str(edition.book.studio.cone.value))
    told = tuple(told_lines(edition, groups, _WIDEST_NUMBER, _WIDEST_NUMBER))
    right = max(line_width(line, sizes.caution) for line in told)
    for size in (sizes.name_most, sizes.large):
        if width(title, size, True) + right + sizes.of(12) <= room:
            height = max(size, len(told) * sizes.caution_line) + sizes.of(1.8)
            return Head(title=(title,), title_size=size, told=told, beside=True, height=height)
    titles = tuple(line[0].text for line in wrapped((Run(title, True),), sizes.large, room))
    folded = tuple(part for line in told for part in wrapped(line, sizes.caution, room))
    height = len(titles) * sizes.large + len(folded) * sizes.caution_line + sizes.of(2)
    return Head(title=titles, title_size=sizes.large, told=folded, beside=False, height=height)


def told_lines(edition: Edition, groups: tuple[ChartGroup, ...], sheet: str, of: str) -> tuple[Line, ...]:
    """Studio, edition and date; then the sheet and what holds for all of it."""
    words, studio = edition.words, edition.book.studio
    line = words(
        "edition.line",
        studio=studio.name.value,
        edition=studio.edition.value,
        date=words.date(studio.date.value),
    )
    rest = " · ".join(("", words("edition.replaces"), *_drawings(edition, groups)))
    return (Run(line),), (Run(words("edition.sheet", n=sheet, m=of), True), Run(rest))


def _drawings(edition: Edition, groups: tuple[ChartGroup, ...]) -> tuple[str, ...]:
    shown = [c.card.picture.picture.drawing for g in groups for c in g.cards if c.card.picture is not None]
    if not any(shown):
        return ()
    return (edition.words("edition.drawings" if all(shown) else "edition.some_drawings"),)
