"""Claims of food safety are found, cautions stand."""

from __future__ import annotations

import pytest

from combobook.claims import claims


@pytest.mark.parametrize(
    "text",
    ["food safe", "Food-Safe", "foodsafe", "food **safe**", "dinnerware safe", "safe for food", "safe to drink from", "lead free",
     "lead-free", "non-toxic", "nontoxic", "It is\nfood safe.", "Not tested. Food safe.", "food safe, not for microwaves", "Note: food safe",
     "a knot of blue, food safe", "- not for bowls\n- food safe"],
)  # fmt: skip
def test_a_claim_is_found(text: str) -> None:
    assert len(claims(text)) == 1


@pytest.mark.parametrize(
    "text",
    ["not food safe", "never food-safe", "no food safe glaze", "This is not, whatever they say, food safe.", "NOT\nlead free", "food safety",
     "a safe place for tiles", "unsafe", "dishwasher safe", "blue where thick, free of pinholes", "It isn't food safe."],
)  # fmt: skip
def test_a_caution_or_another_word_stands(text: str) -> None:
    assert claims(text) == ()


def test_a_claim_knows_where_its_words_are() -> None:
    (claim,) = claims("glossy, food  safe")
    assert (claim.words, claim.start) == ("food  safe", 8)
