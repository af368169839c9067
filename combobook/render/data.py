"""The book as data for other programs: data/book.json and data/combinations.csv, in the contract's own words."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Mapping
from enum import Enum

from combobook.book import Book
from combobook.cones import ConeRange
from combobook.edition import Edition
from combobook.entries import Glaze
from combobook.measures import plain_number
from combobook.problems import Problem, in_order
from combobook.verdicts import Band, EvidenceLevel, FoodLevel, LayeringVerdict, MoveClass, Reason
from combobook.wording import Words, no_band_sentence, sentence

Json = Mapping[str, object]

# The contract's words, whatever the edition's language: programs read them.
FOOD = {
    FoodLevel.KEEP_OFF: "keep off",
    FoodLevel.NOT_KNOWN: "not known",
    FoodLevel.LABELS_ALLOW: "labels allow",
    FoodLevel.LAB_REPORT: "lab report",
}
CLASSES = {MoveClass.STABLE: "stable", MoveClass.MOVES: "moves", MoveClass.RUNNY: "runny"}
EVIDENCE = {
    EvidenceLevel.UNTESTED: "untested",
    EvidenceLevel.OLD: "old",
    EvidenceLevel.DISAGREES: "disagrees",
    EvidenceLevel.SEEN_ONCE: "seen once",
    EvidenceLevel.REPEATED: "repeated",
    EvidenceLevel.STEADY: "steady",
}
COLUMNS = (
    "id", "base", "top", "base coats", "top coats", "food level", "food ware", "class", "worst run mm", "margin mm",
    "reach mm", "catch plate", "tiles", "firings", "evidence", "page",
)  # fmt: skip
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def data(edition: Edition) -> tuple[Mapping[str, bytes], tuple[Problem, ...]]:
    """book.json and combinations.csv, by their paths under build/. The same book gives the same bytes."""
    book = book_json(edition)
    text = json.dumps(book, ensure_ascii=False, indent=2, sort_keys=True, allow_nan=False) + "\n"
    files = {
        "data/book.json": text.encode(),
        "data/combinations.csv": combinations_csv(edition),
    }
    return files, ()


def book_json(edition: Edition) -> Json:
    """The whole of book.json as plain values; what nobody knows is `not known` where a word is due, else null."""
    book, studio = edition.book, edition.book.studio
    return {
        "studio": studio.name.value,
        "edition": studio.edition.value,
        "cone": str(studio.cone.value),
        "glazes": [_glaze(glaze, book) for _, glaze in sorted(book.glazes.items())],
        "combinations": [_combination(verdict, book, edition.words) for verdict in _entered(edition)],
        "problems": [_problem(problem) for problem in in_order(edition.problems)],
    }


def combinations_csv(edition: Edition) -> bytes:
    """combinations.csv: one row an entry, by id; blank where nobody knows. UTF-8 with byte-order mark, CRLF."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for verdict in _entered(edition):
        writer.writerow([_defused(cell) for cell in _row(verdict)])
    return out.getvalue().encode("utf-8-sig")


def _entered(edition: Edition) -> list[LayeringVerdict]:
    """The verdicts of the layerings that have an entry, by id."""
    entries = sorted(edition.book.combinations.items())
    return [edition.judged.layerings[entry.base.id, entry.top.id] for _, entry in entries]


def _glaze(glaze: Glaze, book: Book) -> Json:
    cone = glaze.cone.value
    entries = sorted(book.combinations.items())
    return {
        "id": glaze.id,
        "name": glaze.name.value,
        "mark": glaze.mark.value,
        "cone": [str(cone.low), str(cone.high)] if isinstance(cone, ConeRange) else None,
        "food_label": _word(glaze.food_label.value),
        "flow": _word(glaze.flow.value),
        "status": _word(glaze.status.value),
        "as_base": [id_ for id_, entry in entries if entry.base.id == glaze.id],
        "as_top": [id_ for id_, entry in entries if entry.top.id == glaze.id],
        "page": f"glazes/{glaze.id}.html",
    }


def _combination(verdict: LayeringVerdict, book: Book, words: Words) -> Json:
    food, movement, evidence = verdict.food, verdict.movement, verdict.evidence
    reverse = f"{verdict.base.id}-over-{verdict.top.id}"
    return {
        "id": verdict.id,
        "base": verdict.base.id,
        "top": verdict.top.id,
        "coats": [verdict.coats.base, verdict.coats.top] if verdict.coats else None,
        "page": _page(verdict),
        "reverse": reverse if reverse in book.combinations else None,
        "food": {
            "level": FOOD[food.level],
            "food_ware": food.food_ware,
            "reasons": [_reason(reason, words) for reason in food.reasons],
        },
        "movement": {
            "class": CLASSES[movement.cls],
            "worst_run_mm": _worst_run(verdict),
            "off_the_tile": movement.off_the_tile,
            "margin_mm": movement.margin_mm,
            "reach_mm": movement.reach_mm,
            "catch_plate": movement.catch_plate,
            "reasons": [_reason(reason, words) for reason in movement.reasons],
        },
        "evidence": {"tiles": evidence.tiles, "firings": evidence.firings, "level": EVIDENCE[evidence.level]},
        "places": [_place(band, words) for band in sorted(verdict.bands, key=lambda band: band.form.id)],
    }


def _place(band: Band, words: Words) -> Json:
    useful = not band.none
    return {
        "form": band.form.id,
        "inside": band.inside,
        "from_rim_mm": band.from_mm if useful else None,
        "to_rim_mm": band.to_mm if useful else None,
        "none": None if useful else " ".join(no_band_sentence(why, words) for why in band.none),
    }


def _reason(reason: Reason, words: Words) -> Json:
    return {"rule": reason.rule, "says": sentence(reason, words), "at": reason.place.at}


def _problem(problem: Problem) -> Json:
    place = problem.place
    return {
        "at": f"{place.path}:{place.line}:{place.column}",
        "severity": problem.severity.value,
        "code": problem.code,
        "message": problem.message,
    }


def _row(verdict: LayeringVerdict) -> tuple[object, ...]:
    """The cells of one layering in the order of COLUMNS; None is written blank."""
    food, movement, evidence = verdict.food, verdict.movement, verdict.evidence
    return (
        verdict.id,
        verdict.base.id,
        verdict.top.id,
        verdict.coats.base if verdict.coats else None,
        verdict.coats.top if verdict.coats else None,
        FOOD[food.level],
        _yes_no(food.food_ware),
        CLASSES[movement.cls],
        _worst_run(verdict),
        movement.margin_mm,
        movement.reach_mm,
        _yes_no(movement.catch_plate),
        evidence.tiles,
        evidence.firings,
        EVIDENCE[evidence.level],
        _page(verdict),
    )


def _defused(cell: object) -> object:
    """Text that a spreadsheet would run as a formula gets an apostrophe before it; numbers stay numbers."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_FORMULA_STARTS) else cell


def _worst_run(verdict: LayeringVerdict) -> int | float | None:
    worst = verdict.movement.worst_run
    return None if worst is None else plain_number(worst)


def _page(verdict: LayeringVerdict) -> str:
    return f"combinations/{verdict.id}.html"


def _yes_no(value: bool) -> str:
    return "yes" if value else "no"


def _word(value: Enum) -> str:
    return str(value.value)
