"""Laws of packing cards into columns, over drawn groups."""

from __future__ import annotations

from math import ceil

from hypothesis import given, settings
from hypothesis import strategies as st

from combobook.render.chart.pack import Group, height, packed

HEIGHTS = st.lists(st.sampled_from((60.0, 75.0, 90.0)), min_size=1, max_size=9).map(tuple)
GROUPS = st.lists(st.builds(Group, head=st.sampled_from((16.0, 30.0)), cards=HEIGHTS), max_size=12).map(tuple)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(groups=GROUPS, room=st.sampled_from((125.0, 300.0, 500.0)), columns=st.integers(1, 6))
def test_every_card_stands_once_in_order_and_no_column_overflows(
    groups: tuple[Group, ...], room: float, columns: int
) -> None:
    found = packed(groups, room, columns)
    assert found is not None
    cards = [(s.group, card) for column in found for s in column for card in range(s.start, s.stop)]
    assert cards == [(g, card) for g, group in enumerate(groups) for card in range(len(group.cards))]
    assert all(height(column, groups) <= room + 1e-6 for column in found)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(groups=GROUPS, room=st.sampled_from((125.0, 300.0, 500.0)), columns=st.integers(1, 6))
def test_avoiding_lone_cards_never_costs_a_sheet(groups: tuple[Group, ...], room: float, columns: int) -> None:
    found = packed(groups, room, columns)
    assert found is not None
    assert ceil(len(found) / columns) == ceil(_greedy(groups, room) / columns)


def _greedy(groups: tuple[Group, ...], room: float) -> int:
    """Columns when each is filled as far as it goes: the fewest there can be, since order is kept."""
    count, used = 0, room + 1
    for group in groups:
        for n, card in enumerate(group.cards):
            step = card + (group.head if n == 0 else 0.0)
            if used + step > room + 1e-6:
                count, used = count + 1, group.head + card
            else:
                used += step
    return count


def test_a_head_is_not_left_with_one_card_where_another_way_takes_no_more_sheets() -> None:
    groups = (Group(head=20, cards=(70.0,) * 2), Group(head=20, cards=(70.0,) * 3))
    found = packed(groups, 260.0, 2)
    assert found is not None
    assert [[(s.group, s.stop - s.start) for s in column] for column in found] == [[(0, 2)], [(1, 3)]]


def test_a_card_higher_than_the_room_fits_nowhere() -> None:
    assert packed((Group(head=20, cards=(90.0,)),), 100.0, 3) is None
