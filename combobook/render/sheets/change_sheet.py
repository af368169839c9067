"""The change sheet: what to cross out on last term's chart, and the new words to paste over it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from combobook.edition import Edition
from combobook.past import Changed, Changes, Way
from combobook.problems import Problem
from combobook.render.cards import card, food_classes
from combobook.render.chart.content import mark_order, on_chart
from combobook.render.chart.lengths import mm
from combobook.render.chart.sizes import sizes_for
from combobook.render.letters import width
from combobook.render.sheets.change_words import Said, said
from combobook.render.sheets.frame import Frame, frame, printed
from combobook.render.views.changed import WAYS
from combobook.render.views.changes import ChangesView, changes_since, changes_view
from combobook.verdicts import LayeringVerdict

PATH = "print/change-sheet.pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossOut:
    """One card of the chart: where it hangs, what it says there, what it must say."""

    where: str
    lines: tuple[str, ...]
    beside: tuple[str, ...]
    """What changed with it that no card says."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Cards of which something went the same way: what their words must be, or that the words stay."""

    title: str
    lead: str
    """Where to look up what no card says, or why it can wait; else empty."""
    cards: tuple[CrossOut, ...]
    names: str = ""
    """Of glazes alone, which hang on other sheets than the chart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PasteOver:
    """New words for a card, to be cut out, as large as the chart's."""

    where: str
    food: str
    """The class of the frame and its mark."""
    food_lines: tuple[str, ...]
    to_do: str
    plate: str
    movement: str
    style: str


def change_sheet(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """What changed on the chart since the last closed edition; of a first edition, that there is nothing to compare."""
    found, view = changes_since(edition), changes_view(edition)
    words, paper = edition.words, edition.book.studio.paper.value
    if found is None or view is None:
        first = frame(edition, words("editions.title"), paper, key=("food",))
        return _sheet(edition, first, words("change_sheet.first"))
    hanging = tuple(_hanging(edition, found.verdicts))
    stricter = [(each, verdict) for each, verdict in hanging if _said(edition, each, verdict, Way.STRICTER).on_chart]
    return _sheet(
        edition,
        frame(edition, words("change_sheet.title", edition=view.since), paper, key=("food",)),
        words("change_sheet.lead" if hanging else "change_sheet.nothing", edition=view.since),
        parts=tuple(_every_part(edition, found, hanging)),
        lists=_lists(view),
        pastes=tuple(_paste_over(edition, verdict) for _, verdict in stricter),
    )


def _sheet(
    edition: Edition,
    furnished: Frame,
    lead: str,
    *,
    parts: tuple[Part, ...] = (),
    lists: tuple[tuple[str, str], ...] = (),
    pastes: tuple[PasteOver, ...] = (),
) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    return printed(
        edition,
        "print/change-sheet.html",
        path=PATH,
        furnished=furnished,
        styles=("print-change-sheet.css",),
        lead=lead,
        parts=parts,
        lists=lists,
        pastes=pastes,
    )


def _hanging(edition: Edition, verdicts: tuple[Changed, ...]) -> Iterator[tuple[Changed, LayeringVerdict]]:
    """The changed layerings that are on the chart, by the first glaze's mark, then the top's."""
    by_id = {verdict.id: verdict for verdict in edition.judged.layerings.values() if on_chart(verdict)}
    shown = [(each, by_id[each.now.id]) for each in verdicts if each.now.id in by_id]
    yield from sorted(shown, key=lambda pair: (mark_order(pair[1].base), mark_order(pair[1].top)))


def _where(edition: Edition, verdict: LayeringVerdict) -> str:
    base, top = verdict.base, verdict.top
    return edition.words(
        "change_sheet.where",
        base=base.name.value, base_mark=base.mark.value, top=top.name.value, top_mark=top.mark.value,
    )  # fmt: skip


def _every_part(
    edition: Edition, found: Changes, hanging: tuple[tuple[Changed, LayeringVerdict], ...]
) -> Iterator[Part]:
    """Whatever is stricter first: of the chart, then of single glazes."""
    alone = [each.now.name for each in found.verdicts if each.stricter and not each.now.top]
    for way in WAYS:
        yield from _parts(edition, hanging, way)
        if way is Way.STRICTER and alone:
            title = edition.words("change_sheet.alone", n=len(alone))
            yield Part(title=title, lead="", cards=(), names="; ".join(alone))


def _parts(edition: Edition, hanging: tuple[tuple[Changed, LayeringVerdict], ...], way: Way) -> Iterator[Part]:
    """What went this way: first what the chart says otherwise now, then what it cannot say."""
    words, key = edition.words, WAYS[way]
    found = [(verdict, _said(edition, each, verdict, way)) for each, verdict in hanging]
    shown = tuple(_cross_out(edition, verdict, some) for verdict, some in found if some.on_chart)
    stays = tuple(
        _cross_out(edition, verdict, some) for verdict, some in found if some.beside and not some.on_chart
    )
    if shown:
        lead = words("change_sheet.kinder_lead") if way is Way.KINDER else ""
        yield Part(title=words(f"change_sheet.{key}"), lead=lead, cards=shown)
    if stays:
        yield Part(title=words(f"change_sheet.{key}_stays"), lead=words("change_sheet.stays"), cards=stays)


def _said(edition: Edition, each: Changed, verdict: LayeringVerdict, way: Way) -> Said:
    return said(edition, each, card(edition, verdict), way)


def _cross_out(edition: Edition, verdict: LayeringVerdict, some: Said) -> CrossOut:
    return CrossOut(where=_where(edition, verdict), lines=some.on_chart, beside=some.beside)


def _lists(view: ChangesView) -> tuple[tuple[str, str], ...]:
    """The other changes that touch the chart, a title and the names."""
    kept = ("new", "retired", "renamed", "gone")
    return tuple((some.title, "; ".join(item.name for item in some.items)) for some in view.lists if some.id in kept)


def _paste_over(edition: Edition, verdict: LayeringVerdict) -> PasteOver:
    """At the chart's own size, and no wider than the room for it on a card."""
    made = card(edition, verdict)
    size = sizes_for(edition.book.studio.read_from.value).large
    widest = max(width(line, size, True) for line in (*made.food_lines, made.to_do))
    return PasteOver(
        where=_where(edition, verdict),
        food=food_classes(made.food_key, edition.words),
        food_lines=made.food_lines,
        to_do=made.to_do,
        plate=made.catch_plate,
        movement=f"m-{made.movement_mark}",
        style=f"font-size:{mm(size)};width:{mm(widest + 2.2 * size)}",
    )
