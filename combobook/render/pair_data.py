"""What the script shows of any ordered pair, tested or not: every verdict in words, and where the top may go.

Judged once, by the program; each sentence, sign and drawing's figures stand in the file once, and pairs hold numbers.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from combobook.entries import NOT_KNOWN
from combobook.kept import Kept
from combobook.render import said
from combobook.render.cautions import cautions
from combobook.render.our_kiln import shown, to_do, to_do_key
from combobook.render.profiles import LETTERS, placed_labels, pot_of, scale_of, zones_of
from combobook.render.search_data import glazes_by_name
from combobook.render.tables import Once, script, table
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.pieces import upper_first
from combobook.render.views.places import first_says
from combobook.render.views.running import catch_words, steps, under_words
from combobook.render.views.trust import trust_words
from combobook.render.views.verdict import judged_words
from combobook.verdicts import Band, EvidenceLevel, LayeringVerdict, SurfaceVerdict
from combobook.wording import (
    EVIDENCE_KEYS,
    Words,
    evidence_words,
    food_in_full,
    food_key,
    food_lines,
    no_band_sentence,
    sentence,
)

PATH = "script/pairs.js"
_PAIR = "base top coats notice food running trust surfaces places page"

Coded = tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tables:
    """What pairs share."""

    desk: Desk
    scale: float
    says: Once[str] = field(default_factory=Once)
    food: Once[Coded] = field(default_factory=Once)
    running: Once[Coded] = field(default_factory=Once)
    trust: Once[Coded] = field(default_factory=Once)
    surfaces: Once[Coded] = field(default_factory=Once)
    places: Once[Coded] = field(default_factory=Once)
    drawings: Once[Coded] = field(default_factory=Once)

    @property
    def words(self) -> Words:
        return self.desk.words

    def each(self, sentences: Iterable[str]) -> tuple[int, ...]:
        return tuple(self.says(text) for text in sentences)


class _RunningTold(NamedTuple):
    key: str
    says: tuple[str, ...]
    steps: tuple[str, ...]


class _TrustTold(NamedTuple):
    key: str
    says: tuple[str, ...]


class _SurfaceTold(NamedTuple):
    coats: str
    clay: str
    food: str
    mark: str
    food_says: str
    trust: str
    trust_says: str


class _DrawingTold(NamedTuple):
    zones: tuple[tuple[str, float, float, float, tuple[str, ...]], ...]
    tall: float
    inside: int
    bar: tuple[int, int]


class _PlaceTold(NamedTuple):
    drawing: _DrawingTold | None
    says: tuple[str, ...]


class _Told(NamedTuple):
    """What the file says of a pair by its own verdict alone, before sentences have numbers."""

    coats: str
    notice: str
    running: _RunningTold
    trust: _TrustTold
    surfaces: tuple[_SurfaceTold, ...]
    places: tuple[_PlaceTold, ...]


_KEPT: Kept[_Told] = Kept()


def pairs_data(desk: Desk) -> tuple[str, str]:
    """Path under site/ and text of the data file."""
    tables = _Tables(desk=desk, scale=scale_of(desk.book.forms.values()))
    number = {glaze.id: n for n, glaze in enumerate(glazes_by_name(desk))}
    pairs = every_pair(desk)
    rows = [_pair(tables, pairs[pair], number) for pair in sorted(pairs, key=lambda p: (number[p[0]], number[p[1]]))]
    told: dict[str, object] = {
        "pairs": table(_PAIR, rows),
        "food": tables.food.listed,
        "running": tables.running.listed,
        "trust": tables.trust.listed,
        "surfaces": tables.surfaces.listed,
        "places": tables.places.listed,
        "drawings": tables.drawings.listed,
        "says": tables.says.listed,
    }
    return PATH, script("pairs", told)


def every_pair(desk: Desk) -> Mapping[tuple[str, str], LayeringVerdict]:
    """All that was judged, by base and top: every pair where the edition has them, else those of its layerings."""
    return desk.edition.pairs or desk.edition.judged.layerings


def _pair(tables: _Tables, verdict: LayeringVerdict, number: Mapping[str, int]) -> Coded:
    desk = tables.desk
    given = (verdict, desk.words, desk.never, tables.scale, desk.book.studio.cone.value)
    told = _KEPT(verdict.id, given, lambda: _told(desk, verdict, tables.scale))
    return (
        number[verdict.base.id],
        number[verdict.top.id],
        tables.says(told.coats),
        tables.says(told.notice),
        tables.food(_food(tables, verdict)),
        tables.running(_running(tables, told.running)),
        tables.trust(_trust(tables, told.trust)),
        [tables.surfaces(_surface(tables, each)) for each in told.surfaces],
        [tables.places(_place(tables, each)) for each in told.places],
        int(has_page(verdict)),
    )


def _told(desk: Desk, verdict: LayeringVerdict, scale: float) -> _Told:
    coats = (verdict.coats.base, verdict.coats.top) if verdict.coats else None
    return _Told(
        coats=_coats(desk.words, coats),
        notice=_notice(desk, verdict),
        running=_running_told(desk, verdict),
        trust=_trust_told(desk, verdict),
        surfaces=tuple(_surface_told(desk, each) for each in verdict.surfaces if each.clay and each.tiles),
        places=tuple(_place_told(desk, verdict, band, scale) for band in shown(verdict, desk.book).bands),
    )


def _coats(words: Words, coats: tuple[int, ...] | None) -> str:
    """The coats in words, as a pattern that takes the two names."""
    if coats is None:
        return words("coats.not_said", base="{base}", top="{top}")
    return words("coats.layering", first=words.counted("coats", coats[0]), base="{base}", n=coats[1], top="{top}")


def _notice(desk: Desk, verdict: LayeringVerdict) -> str:
    """What an untested pair is known from; empty where a tile was fired."""
    if verdict.evidence.level is not EvidenceLevel.UNTESTED:
        return ""
    if verdict.tiles:
        return desk.text("tiles.not_fired_yet")
    return desk.text("pair.report_alone" if verdict.findings else "pair.labels_alone")


def _food(tables: _Tables, verdict: LayeringVerdict) -> Coded:
    desk, key = tables.desk, food_key(verdict.food, tables.desk.never)
    beside = cautions(verdict, desk.book, desk.edition.judged, tables.words)
    return (
        key,
        tables.words(f"food.{key}.mark"),
        tables.says(food_in_full(verdict.food, desk.never, tables.words)),
        tables.says(judged_words(desk, verdict, "{coats}" if verdict.coats else "")),
        tables.each((*beside, *(sentence(reason, tables.words) for reason in verdict.food.reasons))),
    )


def _running_told(desk: Desk, verdict: LayeringVerdict) -> _RunningTold:
    words = desk.words
    told = to_do(verdict, desk.book, words), under_words(desk, verdict), catch_words(desk, verdict)
    key, _ = to_do_key(verdict, desk.book)
    return _RunningTold(key=key, says=(*told, said.runs(verdict, words)), steps=steps(desk, verdict))


def _running(tables: _Tables, told: _RunningTold) -> Coded:
    return told.key, told.key.replace("_", "-"), *tables.each(told.says), tables.each(told.steps)


def _trust_told(desk: Desk, verdict: LayeringVerdict) -> _TrustTold:
    words, counts = trust_words(desk, verdict.evidence)
    means = f"{said.trust_means(verdict.evidence, desk.words)} {said.looked_over(verdict.evidence, desk.words)}"
    return _TrustTold(key=EVIDENCE_KEYS[verdict.evidence.level], says=(words, " · ".join(counts), means.strip()))


def _trust(tables: _Tables, told: _TrustTold) -> Coded:
    return told.key, told.key.replace("_", "-"), *tables.each(told.says)


def _surface_told(desk: Desk, each: SurfaceVerdict) -> _SurfaceTold:
    words, food = desk.words, food_key(each.food, desk.never)
    return _SurfaceTold(
        coats=_coats(words, each.coats),
        clay=words("tile.clay", clay=each.clay.name.value) if each.clay else "",
        food=food,
        mark=words(f"food.{food}.mark"),
        food_says=" ".join(food_lines(each.food, desk.never, words)),
        trust=EVIDENCE_KEYS[each.evidence.level],
        trust_says=upper_first(evidence_words(each.evidence, words)),
    )


def _surface(tables: _Tables, told: _SurfaceTold) -> Coded:
    """One coat count on one clay: coats, clay, food and trust, each with its mark."""
    return (
        tables.says(told.coats),
        tables.says(told.clay),
        (told.food, told.mark, tables.says(told.food_says)),
        (told.trust, told.trust.replace("_", "-"), tables.says(told.trust_says)),
    )


def _place_told(desk: Desk, verdict: LayeringVerdict, band: Band, scale: float) -> _PlaceTold:
    words = desk.words
    first = first_says(desk, band, verdict.base.name.value)
    inside = said.inside_of(band, verdict.movement, words)
    sentences = [said.outside(band, words), *(no_band_sentence(found, words) for found in band.none)]
    return _PlaceTold(
        drawing=None if band.form.height.value is NOT_KNOWN else _drawing_told(band, words, scale),
        says=(" ".join(sentences), " ".join(inside), *((first,) if first else ())),
    )


def _place(tables: _Tables, told: _PlaceTold) -> Coded:
    drawing = -1 if told.drawing is None else tables.drawings(_drawing(tables, told.drawing))
    return drawing, tables.each(told.says)


def _drawing_told(band: Band, words: Words, scale: float) -> _DrawingTold:
    zones = zones_of(band, band.form, words)
    labels, tall = placed_labels(pot_of(band.form, scale), zones, LETTERS)
    bar = band.base_to_mm is not None and band.base_to_mm > band.base_from_mm
    return _DrawingTold(
        zones=tuple((z.kind, z.start, z.end, round(y, 1), z.label) for z, y in labels),
        tall=round(tall, 1),
        inside=(band.inside_to_mm or 1) if band.inside else 0,
        bar=(band.base_from_mm, band.base_to_mm or 0) if bar else (0, 0),
    )


def _drawing(tables: _Tables, told: _DrawingTold) -> Coded:
    """Each zone with its ends in mm, its label's lines and where they stand; then the inside and the first glaze's bar.

    The inside is 0 (nothing there), 1 (all of it) or how far down in mm; the bar is its two ends in mm, or 0 and 0.
    """
    coded = tuple((kind, start, end, y, tables.each(label)) for kind, start, end, y, label in told.zones)
    return coded, told.tall, told.inside, *told.bar
