"""Every verdict of a book: each glaze alone, each layering, each firing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import partial

from combobook.book import Book, Combination, Layers, TestTile
from combobook.entries import Glaze, Unknown
from combobook.judge.age import why_old
from combobook.judge.bands import bands, useful_somewhere
from combobook.judge.evidence import evidence
from combobook.judge.fire import firing_verdict, peak_problem
from combobook.judge.headline import counts_named, counts_of_label, deciding_clays, headline, surfaces
from combobook.judge.lab import findings
from combobook.judge.lab_counts import counted
from combobook.judge.load import worst_first
from combobook.judge.movement import Alone, movement
from combobook.judge.rows import Fires, Row, rows
from combobook.judge.surface import Layering
from combobook.kept import Kept
from combobook.measures import Coats
from combobook.problems import Problem, in_order
from combobook.verdicts import (
    FiringVerdict,
    GlazeVerdict,
    Judged,
    LabFinding,
    LayeringVerdict,
    MovementVerdict,
    ToDo,
)

_KEPT: Kept[LayeringVerdict] = Kept()
"""Each pair's verdict, while all that it is judged from is the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """A book laid out for judging: reports measured, entries by pair; what is worked out once is kept."""

    book: Book
    reports: Mapping[Layers, tuple[LabFinding, ...]]
    entries: Mapping[tuple[str, str], Combination]
    fires: Fires = field(default_factory=dict)
    rows_of: dict[Layers, tuple[Row, ...]] = field(default_factory=dict)
    glazes: dict[str, GlazeVerdict] = field(default_factory=dict)

    def rows(self, layers: Layers) -> tuple[Row, ...]:
        found = self.rows_of.get(layers)
        if found is None:
            found = self.rows_of[layers] = rows(self.book.tiles_of.get(layers, ()), self.fires)
        return found

    def alone(self, glaze: Glaze) -> GlazeVerdict:
        found = self.glazes.get(glaze.id)
        if found is None:
            found = self.glazes[glaze.id] = _judge_alone(self, glaze)
        return found


def judge(book: Book) -> tuple[Judged, tuple[Problem, ...]]:
    """All verdicts, ordered by id, and a warning for each peak that does not fit its witness cones."""
    bench = _lay_out(book)
    glazes = {id_: bench.alone(glaze) for id_, glaze in sorted(book.glazes.items())}
    written = set(bench.entries)
    pairs = written | {(top, base) for base, top in written} | {each for each in book.tiles_of if len(each) == 2}
    pairs |= {(r.layers[0].id, r.layers[1].id) for r in book.reports if len(r.layers) == 2}
    layerings = {(base, top): _judge_layering(bench, base, top) for base, top in sorted(pairs)}
    firings = _firings(book)
    problems = in_order(problem for verdict in firings.values() for problem in peak_problem(verdict))
    old = {row.tile.place: why_old(row.tile) for row in _fired(bench) if row.old}
    fires = {row.tile.place: row.fire for row in _fired(bench) if row.fire is not None}
    judged = Judged(glazes=glazes, layerings=layerings, firings=firings, tile_fire=fires, old=old)
    return judged, problems


def judge_pair(book: Book, base_id: str, top_id: str) -> LayeringVerdict:
    """The verdict of `base_id` under `top_id`, with an entry or without. Raises KeyError for a glaze the book lacks.

    For many pairs without an entry use `judge_pairs`: it lays the book out once.
    """
    return _judge_layering(_lay_out(book), base_id, top_id)


def judge_pairs(book: Book, pairs: tuple[tuple[str, str], ...]) -> Mapping[tuple[str, str], LayeringVerdict]:
    """The verdicts of these ordered pairs (base id, top id), as `judge_pair` gives them."""
    bench = _lay_out(book)
    return {pair: _judge_layering(bench, *pair) for pair in pairs}


def judge_every_pair(book: Book) -> tuple[Mapping[tuple[str, str], LayeringVerdict], tuple[Problem, ...]]:
    """The verdicts of all ordered pairs of the book's glazes, on the shelf or not; finds no problems of its own."""
    return judge_pairs(book, tuple((base, top) for base in book.glazes for top in book.glazes if base != top)), ()


def _lay_out(book: Book) -> _Bench:
    entries = {(entry.base.id, entry.top.id): entry for entry in book.combinations.values()}
    return _Bench(book=book, reports=findings(book), entries=entries)


def _judge_alone(bench: _Bench, glaze: Glaze) -> GlazeVerdict:
    """One glaze, used as its label says: the worst of every count its label allows."""
    book, layers = bench.book, (glaze.id,)
    layering = Layering(
        studio=book.studio,
        layers=(glaze,),
        entry=None,
        findings=bench.reports.get(layers, ()),
        rows=bench.rows(layers),
    )
    counts = counts_of_label(layering)
    food = headline(layering, counts)
    moves = movement(layering, None, (Alone(glaze=glaze, rows=layering.rows),))
    forms = tuple(book.forms.values())
    return GlazeVerdict(
        glaze=glaze,
        food=food,
        movement=_placed(layering, moves, book),
        evidence=evidence(layering.rows),
        bands=bands(layering, food.food_ware, moves, forms, {}),
        surfaces=surfaces(layering, None),
        tiles=tuple(row.tile for row in layering.rows),
        findings=counted(layering, counts, food),
    )


def _judge_layering(bench: _Bench, base_id: str, top_id: str) -> LayeringVerdict:
    """As `_judged` gives it; as it was given before where the studio, forms, glazes, entry, reports and tiles are."""
    book, layers = bench.book, ((base_id, top_id), (base_id,), (top_id,))
    given = (
        book.studio,
        tuple(book.forms.values()),
        book.glazes[base_id],
        book.glazes[top_id],
        bench.entries.get((base_id, top_id)),
        *((bench.reports.get(each), book.tiles_of.get(each)) for each in layers),
    )
    return _KEPT((base_id, top_id), given, partial(_judged, bench, base_id, top_id))


def _judged(bench: _Bench, base_id: str, top_id: str) -> LayeringVerdict:
    book, layers = bench.book, (base_id, top_id)
    base, top, entry = book.glazes[base_id], book.glazes[top_id], bench.entries.get((base_id, top_id))
    layering = Layering(
        studio=book.studio,
        layers=(base, top),
        entry=entry,
        findings=bench.reports.get(layers, ()),
        rows=bench.rows(layers),
    )
    coats = _coats(book, entry)
    judged = (coats.base, coats.top) if coats else None
    counts = (judged,) if judged else counts_named(layering.rows)
    food = headline(layering, counts)
    moves = movement(layering, judged, tuple(Alone(glaze=each, rows=bench.rows((each.id,))) for each in (base, top)))
    base_bands = {band.form.id: band for band in bench.alone(base).bands}
    return LayeringVerdict(
        id=f"{top_id}-over-{base_id}",
        base=base,
        top=top,
        entry=entry,
        coats=coats,
        food=food,
        movement=_placed(layering, moves, book),
        evidence=evidence(layering.rows),
        bands=bands(layering, food.food_ware, moves, book.forms.values(), base_bands),
        surfaces=surfaces(layering, judged),
        deciding_clays=deciding_clays(layering, food),
        tiles=tuple(row.tile for row in layering.rows),
        findings=counted(layering, counts, food),
    )


def _coats(book: Book, entry: Combination | None) -> Coats | None:
    """The coats judged: the entry's, else the house's usual; None where neither is written."""
    suggested = entry.coats.value if entry else None
    if isinstance(suggested, Coats):
        return suggested
    usual = book.studio.usual_coats.value
    return None if isinstance(usual, Unknown) else usual


def _placed(layering: Layering, moves: MovementVerdict, book: Book) -> MovementVerdict:
    """The instruction `not on walls` where no form of the studio has room, whatever food says."""
    if moves.to_do is ToDo.NOT_ON_WALLS or useful_somewhere(moves, book.forms.values()):
        return moves
    return replace(moves, to_do=ToDo.NOT_ON_WALLS, to_do_mm=None)


def _firings(book: Book) -> dict[str, FiringVerdict]:
    tiles: dict[str, list[TestTile]] = {}
    for tile in book.tiles:
        if tile.firing is not None:
            tiles.setdefault(tile.firing.id, []).append(tile)
    return {
        id_: firing_verdict(firing, sorted(tiles.get(id_, ()), key=worst_first))
        for id_, firing in sorted(book.firings.items())
    }


def _fired(bench: _Bench) -> Iterator[Row]:
    """The fired rows of the whole book, by their layers."""
    return (row for layers in bench.book.tiles_of for row in bench.rows(layers) if row.fired)
