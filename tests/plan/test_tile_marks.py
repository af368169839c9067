"""New marks go on from the highest, are never used twice, and never read as dates."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from combobook.tile_marks import after

MARKS = st.from_regex(r"[A-Z]{1,2}-?[0-9]{1,5}", fullmatch=True)


@pytest.mark.parametrize(
    ("used", "then"),
    [
        ([], ["T101", "T102"]),
        (["B117", "B98", "A200"], ["B118", "B119"]),
        (["B-07", "B-08"], ["B-09", "B-10"]),
        (["B99999"], ["C00001", "C00002"]),
        (["Z99999"], ["AA00001", "AA00002"]),
        (["K1", "K2", "SEP-4"], ["K3", "K4"]),
        (["MAR-3"], ["MAS-1", "MAS-2"]),
        (["k8", "K-9"], ["K-10", "K-11"]),
    ],
)
def test_marks_after(used: list[str], then: list[str]) -> None:
    assert list(islice(after(used), 2)) == then


@given(st.lists(MARKS, max_size=8))
def test_a_mark_is_never_given_twice_whatever_the_logs_hold(used: list[str]) -> None:
    taken = {mark.upper().replace("-", "") for mark in used}
    new = [mark.replace("-", "") for mark in islice(after(used), 12)]
    assert len(set(new)) == 12
    assert taken & set(new) == set()
