"""The judge against the second reading of rules.md in tests/reference, over generated studios."""

from __future__ import annotations

from typing import Any

from hypothesis import assume, given, settings

from combobook.book import Book
from combobook.judge import judge
from combobook.measures import plain_number
from combobook.verdicts import LayeringVerdict
from tests.laws.sketches import Sketch, sketches
from tests.laws.test_laws import law
from tests.reference.second_reading import Reading

LEVELS = ("keep off", "not known", "labels allow", "lab report")


def as_read(found: LayeringVerdict) -> dict[str, Any]:
    """A verdict in the second reading's own shape."""
    moves = found.movement
    return {
        "id": found.id,
        "coats": [found.coats.base, found.coats.top] if found.coats else None,
        "food": {
            "level": LEVELS[found.food.level],
            "food_ware": found.food.food_ware,
            "codes": sorted({each.rule for each in found.food.reasons}),
        },
        "movement": {
            "class": moves.cls.name.lower(),
            "worst_run_mm": None if moves.worst_run is None else plain_number(moves.worst_run),
            "off_the_tile": moves.off_the_tile,
            "margin_mm": moves.margin_mm,
            "reach_mm": moves.reach_mm,
            "catch_plate": moves.catch_plate,
        },
        "evidence": {
            "tiles": found.evidence.tiles,
            "firings": found.evidence.firings,
            "level": found.evidence.level.name.lower().replace("_", " "),
        },
        "places": [
            {
                "form": band.form.id,
                "inside": band.inside,
                "from_rim_mm": band.from_mm,
                "to_rim_mm": band.to_mm,
                "none": bool(band.none),
            }
            for band in found.bands
        ],
    }


def one_unit_a_metal(book: Book) -> bool:
    """A report that mixes units for one metal is read apart: see tests/judge/test_lab.py."""
    written = [metal.value for each in book.reports for metal in (each.lead, each.cadmium)]
    return all(len({piece.unit for piece in pieces}) < 2 for pieces in written)


@settings(law, max_examples=300)
@given(sketches())
def test_two_readings_of_the_rules_agree(sketch: Sketch) -> None:
    book = sketch.made()
    assume(one_unit_a_metal(book))
    judged, _ = judge(book)
    entries = sorted(book.combinations.values(), key=lambda each: each.id)
    assert [as_read(judged.layerings[each.base.id, each.top.id]) for each in entries] == Reading(book).all()
