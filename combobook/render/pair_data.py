"""What the script shows of any ordered pair, tested or not: every verdict in words, and where the top may go.

Judged once, by the program; each sentence, sign and drawing's figures stand in the file once, and pairs hold numbers.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from combobook.entries import NOT_KNOWN
from combobook.render import said
from combobook.render.cautions import cautions
from combobook.render.profiles import LETTERS, placed_labels, pot_of, scale_of, zones_of
from combobook.render.search_data import glazes_by_name
from combobook.render.tables import Once, script, table
from combobook.render.views.desk import Desk, has_page
from combobook.render.views.pieces import upper_first
from combobook.render.views.places import first_says
from combobook.render.views.running import under_words
from combobook.render.views.trust import trust_words
from combobook.render.views.verdict import judged_words
from combobook.verdicts import Band, EvidenceLevel, LayeringVerdict, SurfaceVerdict
from combobook.wording import (
    EVIDENCE_KEYS,
    MOVE_KEYS,
    Words,
    evidence_words,
    food_in_full,
    food_key,
    food_lines,
    no_band_sentence,
    sentence,
    to_do_words,
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
    return (
        number[verdict.base.id],
        number[verdict.top.id],
        tables.says(_coats(tables.words, (verdict.coats.base, verdict.coats.top) if verdict.coats else None)),
        tables.says(_notice(tables.desk, verdict)),
        tables.food(_food(tables, verdict)),
        tables.running(_running(tables, verdict)),
        tables.trust(_trust(tables, verdict)),
        [tables.surfaces(_surface(tables, each)) for each in verdict.surfaces if each.clay and each.tiles],
        [tables.places(_place(tables, verdict, band)) for band in verdict.bands],
        int(has_page(verdict)),
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


def _running(tables: _Tables, verdict: LayeringVerdict) -> Coded:
    moves, words, key = verdict.movement, tables.words, MOVE_KEYS[verdict.movement.cls]
    return (
        key,
        key,
        tables.says(to_do_words(moves, words)),
        tables.says(under_words(tables.desk, moves)),
        tables.says(upper_first(words("to_do.catch_plate")) if moves.catch_plate else ""),
        tables.says(said.runs(verdict, words)),
        tables.each(said.steps(moves, verdict.top.name.value, words)),
    )


def _trust(tables: _Tables, verdict: LayeringVerdict) -> Coded:
    key = EVIDENCE_KEYS[verdict.evidence.level]
    words, counts = trust_words(tables.desk, verdict.evidence)
    means = f"{said.trust_means(verdict.evidence, tables.words)} {said.looked_over(verdict.evidence, tables.words)}"
    return key, key.replace("_", "-"), tables.says(words), tables.says(" · ".join(counts)), tables.says(means.strip())


def _surface(tables: _Tables, each: SurfaceVerdict) -> Coded:
    """One coat count on one clay: coats, clay, food and trust, each with its mark."""
    words, desk = tables.words, tables.desk
    food, trust = food_key(each.food, desk.never), EVIDENCE_KEYS[each.evidence.level]
    return (
        tables.says(_coats(words, each.coats)),
        tables.says(words("tile.clay", clay=each.clay.name.value) if each.clay else ""),
        (food, words(f"food.{food}.mark"), tables.says(" ".join(food_lines(each.food, desk.never, words)))),
        (trust, trust.replace("_", "-"), tables.says(upper_first(evidence_words(each.evidence, words)))),
    )


def _place(tables: _Tables, verdict: LayeringVerdict, band: Band) -> Coded:
    words = tables.words
    first = first_says(tables.desk, band, verdict.base.name.value)
    sentences = [said.outside(band, words), *(no_band_sentence(found, words) for found in band.none)]
    drawing = -1 if band.form.height.value is NOT_KNOWN else tables.drawings(_drawing(tables, band))
    return drawing, tables.each((" ".join(sentences), said.inside(band, words), *((first,) if first else ())))


def _drawing(tables: _Tables, band: Band) -> Coded:
    """Each zone with its ends in mm, its label's lines and where they stand; then the inside and the first glaze's bar.

    The inside is 0 (nothing there), 1 (all of it) or how far down in mm; the bar is its two ends in mm, or 0 and 0.
    """
    zones = zones_of(band, band.form, tables.words)
    labels, tall = placed_labels(pot_of(band.form, tables.scale), zones, LETTERS)
    coded = tuple((z.kind, z.start, z.end, round(y, 1), tables.each(z.label)) for z, y in labels)
    inside = (band.inside_to_mm or 1) if band.inside else 0
    bar = band.base_to_mm is not None and band.base_to_mm > band.base_from_mm
    return coded, round(tall, 1), inside, band.base_from_mm if bar else 0, band.base_to_mm if bar else 0
