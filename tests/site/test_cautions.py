"""What is said right under a verdict on food, where the rules lower nothing and a reader could take more from it."""

from __future__ import annotations

import pytest

from tests.site.editions import pages_of, text_of
from tests.studios import entry, glaze, log
from tests.why.asking import account, part
from tests.why.test_account import ENTRY, FR, GOOD_ROW, LOG, pond_lantern

PAGE = "combinations/pond-lantern-over-ferry-rust.html"
BROWN = {"clays/hod-brown.md": "---\nname: Hod Brown\ncone: 5 to 7\n---\n"}
LOW = {"clays/hod-brown.md": "---\nname: Hod Brown\ncone: 06 to 04\n---\n"}
READINGS = ", ".join(["0.01 mg/L"] * 6)
TOO_FEW = "Pond Lantern has only 1 coat here and its label names 2 to 3: the label does not speak of so few."
ONE_CLAY = "Seen with these coats only on Quarry White. On another clay nobody knows: keep it off food there."


def one_coat_is_enough(**more: str) -> dict[str, str]:
    """The good studio, its top's label asking for one coat or more."""
    return {**pond_lantern("coats: 1 to 3"), **more}


def beside(changed: dict[str, str], base: str = "ferry-rust", top: str = "pond-lantern") -> tuple[str, ...]:
    return part(account(changed, base=base, top=top), "food").beside


def test_a_verdict_that_says_it_all_has_nothing_beside_it() -> None:
    assert beside(one_coat_is_enough()) == ()


def test_fewer_coats_than_a_label_names_are_said_though_they_lower_nothing() -> None:
    food = part(account(pond_lantern("coats: 2 to 3")), "food")
    assert food.verdict == "Each label allows food; this layering has not been lab tested"
    assert food.beside == (TOO_FEW,)


def test_a_clay_that_nobody_tried_is_not_spoken_of() -> None:
    assert beside({**one_coat_is_enough(), **BROWN}) == (ONE_CLAY,)


def test_a_clay_that_melts_at_the_studios_cone_asks_for_nothing() -> None:
    assert beside({**one_coat_is_enough(), **LOW}) == ()


def test_a_kinder_clay_counts_for_nothing_where_the_worse_one_keeps_it_off() -> None:
    rows = log("B1,FR,2,,,Quarry White,f01,middle,upright,no,none", "B2,FR,2,,,Hod Brown,f01,middle,upright,no,crazing")
    changed = {**BROWN, LOG: rows}
    assert beside(changed, top="ferry-rust") == (
        "The tiles on Quarry White show less against it. The worse answer counts, on every clay.",
    )


def test_a_clay_whose_tiles_show_too_little_is_named() -> None:
    cool = "firings/f02.md"
    changed = {
        **one_coat_is_enough(), **BROWN,
        cool: "---\ncone: 6\ndate: 2026-10-20\nwitness:\n  middle: 04\n---\n",
        LOG: log(GOOD_ROW, "B2,FR,2,PL,1,Hod Brown,f02,middle,upright,no,none"),
    }  # fmt: skip
    assert beside(changed) == ("On Hod Brown the tiles do not show enough: keep it off food there.",)


def test_a_layer_kept_off_by_its_own_tile_is_a_warning_beside_the_layering() -> None:
    rows = log(GOOD_ROW, "B2,FR,2,,,Quarry White,f01,middle,upright,no,crazing")
    assert beside(one_coat_is_enough(**{LOG: rows})) == (
        "By itself Ferry Rust is kept off food here (crazing on the only tile). Over or under another glaze that does "
        "not count against it, but it is a warning: ask your teacher first.",
    )


def test_a_report_speaks_of_its_ware_clay_and_cone_only() -> None:
    report = entry(
        "base: FR", "top: PL", "ware: cup or mug", "limits: FDA", "coats: 2 + 1", "clay: quarry-white", "cone: 6",
        f"lead: [{READINGS}]", f"cadmium: [{READINGS}]",
    )  # fmt: skip
    food = part(account(one_coat_is_enough(**{"lab/r1.md": report})), "food")
    assert food.verdict == "Lab report: within the FDA limits for cup or mug"
    assert food.beside == (
        "The report measured one kind of ware: cup or mug, on Quarry White, fired to cone 6. Of other ware, another clay "
        "or another firing it says nothing.",
    )


def test_old_tiles_alone_are_said_beside_a_verdict_that_lets_it_go() -> None:
    changed = {**pond_lantern("coats: 1 to 3", "lot: L2"), LOG: log(f"{GOOD_ROW},,,,L1")}
    assert beside(changed) == (
        "Seen only with an earlier jar, or from before the re-test date: nobody has tried what is in the jars now.",
    )


def test_two_labels_without_a_common_cone_are_said_before_all_else() -> None:
    low = {**pond_lantern("cone: 06 to 04"), ENTRY: entry("base: FR", "top: PL", "coats: 2 + 1", "on chart: no")}
    never = "No kiln heat suits both labels: do not fire Ferry Rust and Pond Lantern together here."
    told = account(low)
    assert told.notices[0] == never and part(told, "food").beside == ()
    said = text_of(pages_of(low)[PAGE])
    assert said.count(never) == 1 and said.index(never) < said.index("The label of Pond Lantern")


@pytest.mark.parametrize("label", ["no", "conditional", "not stated"])
def test_what_is_kept_off_food_anyway_needs_no_warning_of_coats_or_clays(label: str) -> None:
    assert beside({**pond_lantern(f"food label: {label}"), **BROWN}) == ()


def test_a_house_that_makes_nothing_for_food_has_no_cautions_about_food() -> None:
    studio = "studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\nfood rule: never\n"
    assert beside({**pond_lantern(), **BROWN, "studio.yaml": studio}) == ()


def test_the_page_says_the_same_right_under_the_verdict() -> None:
    said = text_of(pages_of({**pond_lantern(), **BROWN})[PAGE])
    verdict = said.index("Each label allows food; this layering has not been lab tested")
    assert verdict < said.index(TOO_FEW) < said.index(ONE_CLAY) < said.index("The label of Ferry Rust allows food.")


def test_a_label_that_names_one_number_of_coats_is_quoted_with_it() -> None:
    label = {
        FR: glaze("Ferry Rust", "FR", "food label: yes", "flow: stable", "coats: 3"),
        **pond_lantern("coats: 1 to 3"),
    }
    assert beside(label) == (
        "Ferry Rust has only 2 coats here and its label names 3: the label does not speak of so few.",
    )


def test_the_mug_page_sends_to_the_teacher_what_a_layer_or_its_coats_make_doubtful() -> None:
    studio = "studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\nfood rule: labels\n"
    rows = log(GOOD_ROW, "B2,FR,2,,,Quarry White,f01,middle,upright,no,crazing")
    said = text_of(pages_of({**pond_lantern(), LOG: rows, "studio.yaml": studio})["drink.html"])
    assert (
        "2 coats Ferry Rust, then 1 Pond Lantern. By itself Ferry Rust is kept off food: ask your teacher first. "
        "Fewer coats of Pond Lantern than its label names: ask your teacher first"
    ) in said
