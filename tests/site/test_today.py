"""What a substitute's lists say of pairs that touch food: with the teacher away, a caution means no."""

from __future__ import annotations

import re

import pytest

from tests.site.editions import pages_of, text_of
from tests.site.test_cautions import BROWN, LOW, one_coat_is_enough
from tests.studios import entry, glaze, log
from tests.why.test_account import ENTRY, FR, LOG, pond_lantern

STUDIO = {
    "studio.yaml": "studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\nfood rule: labels\n",
    ENTRY: entry("base: FR", "top: PL", "coats: 2 + 1"),
    FR: glaze("Ferry Rust", "FR", "food label: yes", "flow: stable", "coats: 2 to 3", "status: in use"),
}
STABLE = ("flow: stable", "status: in use")
CALM_ROW = "B1,FR,2,PL,1,Quarry White,f01,middle,upright,no,none"
PAIR = "Ferry Rust first, then Pond Lantern"
FOOD, OTHER = "May be brushed where food goes", "Only on pieces that never hold food"
AWAY = "Not for food while the teacher is away: a caution on its page sends to the teacher first."


def lists(**changed: str) -> tuple[str, str]:
    """The list of what may go where food goes, and that of what may not, as the page says them."""
    said = text_of(pages_of({**STUDIO, LOG: log(CALM_ROW), **changed})["today.html"])
    found = re.search(f"{FOOD}(.*){OTHER}(.*?)(These jars wait|Before you glaze)", said)
    if found is not None:
        return found[1], found[2]
    only = re.search(f"({FOOD}|{OTHER})(.*?)(These jars wait|Before you glaze)", said)
    assert only is not None
    return (only[2], "") if only[1] == FOOD else ("", only[2])


def test_a_pair_without_a_caution_may_go_where_food_goes_and_names_no_clay() -> None:
    food, other = lists(**one_coat_is_enough(**pond_lantern("coats: 1 to 3", *STABLE)))
    assert PAIR in food and PAIR not in other
    assert "only on" not in food.split(PAIR)[1] and AWAY not in food


def test_fewer_coats_than_a_label_names_keep_a_pair_off_food_while_the_teacher_is_away() -> None:
    food, other = lists(**pond_lantern("coats: 2 to 3", *STABLE))
    assert PAIR not in food
    assert AWAY in other.split(PAIR)[1]


def test_a_layer_kept_off_by_its_own_tile_keeps_a_pair_off_food_while_the_teacher_is_away() -> None:
    rows = log(CALM_ROW, "B2,FR,2,,,Quarry White,f01,middle,upright,no,crazing")
    food, other = lists(**pond_lantern("coats: 1 to 3", *STABLE), **{LOG: rows})
    assert PAIR not in food
    assert AWAY in other.split(PAIR)[1]


def test_a_pair_seen_on_some_clays_names_them() -> None:
    food, _ = lists(**pond_lantern("coats: 1 to 3", *STABLE), **BROWN)
    assert "only on Quarry White" in food.split(PAIR)[1]


def test_a_clay_that_melts_here_is_not_one_that_a_pair_has_to_be_tried_on() -> None:
    food, _ = lists(**pond_lantern("coats: 1 to 3", *STABLE), **LOW)
    assert "only on" not in food.split(PAIR)[1]


def test_a_pair_whose_tiles_name_no_clay_is_not_for_food_while_the_teacher_is_away() -> None:
    food, other = lists(**pond_lantern("coats: 1 to 3", *STABLE), **{LOG: log(CALM_ROW.replace("Quarry White", ""))})
    assert PAIR not in food and PAIR in other


@pytest.mark.parametrize("label", ["no", "conditional"])
def test_a_pair_that_is_kept_off_food_anyway_is_not_said_to_wait_for_the_teacher(label: str) -> None:
    food, other = lists(**pond_lantern("coats: 2 to 3", f"food label: {label}", *STABLE))
    assert PAIR not in food and PAIR in other and AWAY not in other
