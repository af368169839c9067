"""The table of laws and the tests of laws name each other."""

from __future__ import annotations

import re
from pathlib import Path

import tests.laws

NOT_OF_THE_RULES = {"test_every_reason_has_a_sentence_without_a_claim_or_a_code", "test_the_table_and_the_tests_agree"}


def test_the_table_and_the_tests_agree() -> None:
    told = re.findall(r"\btest_\w+", tests.laws.__doc__ or "")
    files = Path(__file__).parent.glob("test_*.py")
    written = {name for file in files for name in re.findall(r"^def (test_\w+)", file.read_text("utf-8"), re.MULTILINE)}
    assert set(told) == written - NOT_OF_THE_RULES
    assert len(told) == len(set(told))
