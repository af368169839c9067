"""Every reason that a generated studio can give has its sentence, and none says what this book never says."""

from __future__ import annotations

import re

from hypothesis import given

from combobook.judge import judge
from combobook.theme import load_theme
from combobook.wording import Words, no_band_sentence, sentence
from tests.judge.building import book
from tests.laws.sketches import Sketch, sketches
from tests.laws.test_laws import law

_STUDIO = book().studio
_THEME, _ = load_theme("daylight", "en", _STUDIO.theme.place, _STUDIO.language.place)
assert _THEME is not None
WORDS = Words(_THEME.table, _STUDIO.units.value)
NEVER_SAID = re.compile(
    r"\b(?:safe|certified|approved|guaranteed|complies|[FMP][1-9])\b|[{}]|NOT_KNOWN|Fraction", re.IGNORECASE
)


@law
@given(sketches())
def test_every_reason_has_a_sentence_without_a_claim_or_a_code(sketch: Sketch) -> None:
    found, _ = judge(sketch.made())
    for verdict in (*found.glazes.values(), *found.layerings.values()):
        said = [sentence(each, WORDS) for each in (*verdict.food.reasons, *verdict.movement.reasons)]
        said += [no_band_sentence(each, WORDS) for band in verdict.bands for each in band.none]
        said += [WORDS(f"lab.{each.wording}", **dict(each.facts)) for each in verdict.findings]
        assert verdict.food.reasons and verdict.movement.reasons
        for each in said:
            assert each[0].isupper() and each.endswith("."), each
            assert not NEVER_SAID.search(each.replace("Amber", "")), each


@law
@given(sketches())
def test_reasons_are_listed_worst_first_then_by_rule_then_by_place_and_once(sketch: Sketch) -> None:
    found, _ = judge(sketch.made())
    for verdict in (*found.glazes.values(), *found.layerings.values()):
        for reasons in (verdict.food.reasons, verdict.movement.reasons):
            assert [each.sort_key for each in reasons] == sorted(each.sort_key for each in reasons)
            assert len({(each.rule, each.wording, each.place) for each in reasons}) == len(reasons)
        assert verdict.food.level == min(each.severity for each in verdict.food.reasons)
