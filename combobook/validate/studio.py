"""studio.yaml: the studio, this edition, the house rules, every default of the contract filled in."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from combobook.entries import NOT_KNOWN, DoubtfulRule, FoodRule, Studio, Units
from combobook.measures import MM_PER_INCH, Paper, Sides, Span
from combobook.plans import USUAL_CLASS
from combobook.raw import RawEntry
from combobook.validate.class_size import count
from combobook.validate.entry import Fields, claims_in_fields
from combobook.validate.heat import cone
from combobook.validate.label_sheets import sides, tag_size
from combobook.validate.quantities import coats_in_all, distance, layering_coats, length, number, span
from combobook.validate.refusal import Refusal
from combobook.validate.words import address, choice, date, paper, text

_FOOD_RULE, _DOUBTFUL, _UNITS = choice(FoodRule), choice(DoubtfulRule), choice(Units)
SMALLEST_LIP = Fraction(20)
"""mm: the lip the contract lets no studio go under."""
CHART_PAPER = Paper("24 x 36 in", 24 * MM_PER_INCH, 36 * MM_PER_INCH)


def lip(text: str) -> Fraction | Refusal:
    """How much of the outside touches the mouth, in mm; under 20 mm is refused."""
    found = length(text)
    if isinstance(found, Fraction) and found < SMALLEST_LIP:
        return Refusal(
            code="lip-too-small",
            message=f"a lip of `{text}` is less than a mouth covers: at least 20 mm",
            help="write `lip: 20 mm`, or more",
        )
    return found


def studio(raw: RawEntry, fields: Fields) -> Studio | None:
    """The studio; None, with problems, without a name, an edition and a cone."""
    name = fields.required("studio", text, "Reed Lane Clay Room")
    edition = fields.required("edition", text, "2026 Autumn")
    its_cone = fields.required("cone", cone, "6")
    claims_in_fields(fields, (), ("studio", "edition", "house rules"))
    us_letter = paper("letter")
    assert isinstance(us_letter, Paper)
    rest: dict[str, Any] = {
        "date": fields.default("date", date, NOT_KNOWN),
        "food_rule": fields.default("food rule", _FOOD_RULE, FoodRule.ONE_GLAZE_ALONE),
        "doubtful": fields.default("doubtful glazes on food ware", _DOUBTFUL, DoubtfulRule.BELOW_THE_LIP),
        "most_coats": fields.default("most coats", coats_in_all, 3),
        "usual_coats": fields.default("usual coats", layering_coats, NOT_KNOWN),
        "rim_band": fields.default("rim band", span, Span(Fraction(13), Fraction(25))),
        "lip": fields.default("lip", lip, SMALLEST_LIP),
        "foot_margin": fields.default("foot margin", span, Span(Fraction(6), Fraction(13))),
        "run_factor": fields.default("run factor", number, Fraction(2)),
        "labels_read": fields.default("labels read", date, NOT_KNOWN),
        "read_from": fields.default("read from", distance, Fraction(2000)),
        "chart_paper": fields.default("chart paper", paper, CHART_PAPER),
        "paper": fields.default("paper", paper, us_letter),
        "units": fields.default("units", _UNITS, Units.MM),
        "address": fields.default("address", address, NOT_KNOWN),
        "students": fields.default("students", count, USUAL_CLASS.students),
        "tiles_each": fields.default("tiles each", count, USUAL_CLASS.tiles),
        "seats": fields.default("seats at a table", count, USUAL_CLASS.table),
        "tag_size": fields.default("tag size", tag_size, NOT_KNOWN),
        "tag_margins": fields.default("tag margins", sides, NOT_KNOWN),
        "tag_gaps": fields.default("tag gaps", sides, Sides(Fraction(0), Fraction(0))),
        "theme": fields.default("theme", text, "daylight"),
        "language": fields.default("language", text, "en"),
    }
    house_rules = fields.several("house rules", text)
    if name is None or edition is None or its_cone is None:
        return None
    return Studio(name=name, edition=edition, cone=its_cone, house_rules=house_rules, **rest)
