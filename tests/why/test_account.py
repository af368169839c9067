"""The account of a verdict: what a student reads, from the order said back to what would change it."""

from __future__ import annotations

import pytest

from tests.studios import entry, glaze, log
from tests.why.asking import account, chain, part

ENTRY = "combinations/pond-lantern-over-ferry-rust.md"
PL = "glazes/pond-lantern.md"
FR = "glazes/ferry-rust.md"
LOG = "logs/autumn.csv"
GOOD_ROW = "B1,FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none"


def pond_lantern(*lines: str) -> dict[str, str]:
    """Pond Lantern's label: food in line 6, flow in 7, coats in 8, unless `lines` say them."""
    given = {"food label": "yes", "flow": "moves", "coats": "2 to 3"}
    given |= dict(line.split(": ", 1) for line in lines)
    return {PL: glaze("Pond Lantern", "PL", *(f"{name}: {value}" for name, value in given.items()))}


def test_the_order_is_said_back_in_words_first() -> None:
    told = account()
    assert told.order == "Ferry Rust first, then Pond Lantern."
    assert told.coats.startswith("2 coats Ferry Rust, then 1 Pond Lantern. ")
    assert "which its entry suggests" in told.coats
    assert (told.untested, told.notices) == ("", ())


def test_a_label_is_named_with_its_line_and_its_rule() -> None:
    food = part(account(pond_lantern("food label: no")), "food")
    assert food.verdict == "Keep off food"
    assert chain(food.points) == [(
        "F1", "The label of Pond Lantern says no food. Putting another glaze over or under it does not seal it in.",
        "The label of Pond Lantern", f"{PL}:6",
    )]  # fmt: skip


def test_a_fault_names_its_tile_with_coats_clay_firing_and_shelf() -> None:
    rows = log(GOOD_ROW.replace("none", "pinholes"))
    food = part(account({LOG: rows}), "food")
    assert [(rule, rests, at) for rule, _, rests, at in chain(food.points)] == [(
        "F2", "Tile B1: 2 coats Ferry Rust, then 1 Pond Lantern, on Quarry White, firing f01, middle shelf", f"{LOG}:2",
    )]  # fmt: skip


def test_a_lab_report_is_named_with_its_laboratory() -> None:
    report = entry(
        "base: FR", "top: PL", "ware: cup or mug", "limits: FDA", "lead: [9 mg/L]", "cadmium: [0.1 mg/L]", "lab: Quay Lab"
    )  # fmt: skip
    food = part(account({"lab/r1.md": report}), "food")
    assert [(rule, rests, at) for rule, _, rests, at in chain(food.points)] == [
        ("F3", "Report on cup or mug against the FDA limits, from Quay Lab", "lab/r1.md:6")
    ]
    assert food.notes == ()


def test_a_report_that_decides_nothing_is_told_beside_the_reasons() -> None:
    pieces = "[0.01 mg/L, 0.01 mg/L, 0.01 mg/L, 0.01 mg/L, 0.01 mg/L, 0.01 mg/L]"
    report = entry(
        "base: FR", "top: PL", "ware: cup or mug", "limits: FDA", "coats: 3 + 1", "clay: quarry-white", "cone: 6",
        f"lead: {pieces}", f"cadmium: {pieces}",
    )  # fmt: skip
    food = part(account({"lab/r1.md": report}), "food")
    assert food.verdict == "Each label allows food; this layering has not been lab tested"
    assert food.notes == (
        "Report on cup or mug against the FDA limits: Within the FDA limits for lead and cadmium. (lab/r1.md:2)",
        "It speaks for its own coats, clay and cone only, so it lifts nothing here.",
    )


@pytest.mark.parametrize(
    ("rule", "says", "ware"),
    [
        ("labels", "only what every label allows and none of our tiles shows a fault in", "lets it go"),
        ("lab reports only", "only what a lab report speaks for", "keeps it away from"),
        ("one glaze alone", "a layering only with a lab report", "keeps it away from"),
    ],
)
def test_where_labels_allow_the_house_rule_says_why_it_may_or_may_not_touch_food(rule: str, says: str, ware: str) -> None:
    studio = f"studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\nfood rule: {rule}\n"
    food = part(account({"studio.yaml": studio}), "food")
    house = [each for each in chain(food.points) if each[0] == "house"]
    assert len(house) == 1 and says in house[0][1] and house[0][3] == "studio.yaml:6"
    assert food.under[0].startswith(f"This studio {ware}")


def test_a_house_that_makes_nothing_for_food_says_so_whatever_labels_say() -> None:
    studio = "studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\nfood rule: never\n"
    told = account({"studio.yaml": studio})
    assert part(told, "food").verdict == "House rule: nothing made here is for food"
    assert [rule for rule, *_ in chain(part(told, "food").points)] == ["house", "label", "label"]
    assert part(told, "change").notes[0].startswith("Food: nothing. The house rule stands")


def test_a_pair_nobody_tried_is_judged_from_labels_and_says_that_it_is() -> None:
    told = account(base="pond-lantern", top="ferry-rust")
    assert told.untested.startswith("Nobody has tried this pair on a tile.")
    assert told.notices == ("Nobody has written an entry for this pair.",)
    food = part(told, "food")
    assert food.verdict == "Not known: keep off food until it is"
    assert [(rule, rests, at) for rule, _, rests, at in chain(food.points)] == [
        ("F7", "Nothing is written about this pair; only the first glaze's file can be named", f"{PL}:2"),
        ("F8", "Nothing is written about this pair; only the first glaze's file can be named", f"{PL}:2"),
    ]
    assert [each.key for each in told.parts] == ["food", "running", "places", "trust", "fire", "change", "words"]


def test_a_tile_brushed_and_not_fired_is_said_and_shown_as_due() -> None:
    told = account({LOG: log("B1,FR,2,PL,1,Quarry White,,,,,")})
    assert told.untested.startswith("A tile of this pair has been brushed, and none is fired yet.")
    assert [(each.says, each.rests_on) for each in part(told, "tiles").points] == [(
        "Tile B1 is brushed and not fired yet.",
        "2 coats Ferry Rust, then 1 Pond Lantern, on Quarry White, not fired yet",
    )]  # fmt: skip


def test_without_suggested_coats_it_says_what_is_judged_instead() -> None:
    bare = {ENTRY: entry("base: FR", "top: PL")}
    assert account(bare).coats == (
        "No number of coats is suggested, so the worst of those that were tried decides, at cone 6."
    )
    assert account(bare, without=(LOG,)).coats == (
        "No number of coats is suggested, and none has been tried. Judged at cone 6."
    )


def test_a_glaze_over_itself_is_that_glaze_alone() -> None:
    told = account(base="ferry-rust", top="ferry-rust")
    assert told.order == "Ferry Rust over itself is Ferry Rust alone: no layering, only more coats of it."
    assert part(told, "food").verdict == "The label allows food"
    assert told.other_way == ""


@pytest.mark.parametrize(
    ("status", "says"),
    [("out", "Pond Lantern is out: the jar is empty."), ("retired", "Pond Lantern is retired: it is no longer used here.")],
)
def test_a_glaze_that_is_off_the_shelf_is_said_before_all_else(status: str, says: str) -> None:
    assert account(pond_lantern(f"status: {status}")).notices == (says,)


def test_the_other_order_is_told_in_one_line() -> None:
    assert account().other_way == (
        "The other way round is another layering. Pond Lantern first, then Ferry Rust: "
        "Not known: keep off food until it is. Top 25 mm; untested."
    )


def test_each_form_says_outside_inside_and_why_not() -> None:
    doubtful = "studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\ndoubtful glazes on food ware: never\n"
    assert chain(part(account({"studio.yaml": doubtful}), "places").points) == [(
        "P5",
        "Mug. Outside: no useful place, so keep it off. House rule: what is doubtful on food does not go on ware that holds food. "
        "Inside: keep it out.",
        "", "forms/mug.md:3",
    )]  # fmt: skip


def test_tiles_that_disagree_are_each_told_and_what_tells_them_apart() -> None:
    rows = log(GOOD_ROW.replace("2 mm", "no"), "B2,FR,2,PL,1,Quarry White,f01,upper,upright,9 mm,none")
    trust = part(account({LOG: rows}), "trust")
    assert trust.verdict == "Disagrees: 2 tiles, 1 firing"
    assert [each.says for each in trust.points] == ["Tile B1, how far it ran: no run.", "Tile B2, how far it ran: 9 mm (3/8 in)."]
    assert trust.notes[-1].endswith("Both results are true, so count on the worse.")
    assert "kiln shelf" in trust.notes[0]


def test_what_made_every_tile_old_is_told_with_its_line() -> None:
    told = account({**pond_lantern("lot: L2"), LOG: log(f"{GOOD_ROW},,,,L1")})
    trust = part(told, "trust")
    assert trust.verdict == "Old: 1 tile, 1 firing"
    assert chain(trust.points) == [("", "The jar of Pond Lantern in use now is lot L2.", "", f"{PL}:9")]
    assert part(told, "tiles").points[0].rests_on.endswith("Pond Lantern from lot L1")


def test_several_tiles_each_seen_once_are_called_so() -> None:
    rows = log(GOOD_ROW, "B2,FR,3,PL,1,Quarry White,f01,middle,upright,no,none")
    assert part(account({LOG: rows}), "trust").verdict == "Seen once each: 2 tiles, 1 firing"
    assert part(account(), "trust").verdict == "Seen once: 1 tile, 1 firing"


FOOD_CHANGES = [
    (("food label: no",), ["no tile changes this, as long as the label of Pond Lantern says no."]),
    (("food label: conditional",), ["no tile and no lab report changes this, as long as the label of Pond Lantern sets conditions."]),
    (("food label: ?",), ["somebody reads the label of Pond Lantern and writes down what it says about food, whatever that is."]),
    (("coats: ?",), ["somebody reads the label of Pond Lantern and writes down how many coats it asks for."]),
    (("cone: 7 to 8",), ["no tile changes this, as long as this studio fires to cone 6 and the label of Pond Lantern says otherwise."]),
]


@pytest.mark.parametrize(("lines", "expected"), FOOD_CHANGES, ids=[lines[0] for lines, _ in FOOD_CHANGES])
def test_what_would_change_the_food_verdict_is_only_what_the_rules_say(lines: tuple[str, ...], expected: list[str]) -> None:
    label = pond_lantern(*lines)
    told = account({**label, ENTRY: entry("base: FR", "top: PL", "coats: 2 + 1", "on chart: no")})
    assert [note for note in part(told, "change").notes if note.startswith("Food")] == [f"Food: {each}" for each in expected]


def test_a_label_that_no_tile_can_answer_asks_for_no_tile() -> None:
    """Another tile would be made for nothing: the conditional label stays, tile or no tile."""
    told = account(pond_lantern("food label: conditional"), without=(LOG,))
    assert [rule for rule, *_ in chain(part(told, "food").points)] == ["F5", "F7", "F8"]
    assert not [note for note in part(told, "change").notes if note.startswith("Food: a tile")]


def test_two_labels_without_a_cone_in_common_ask_for_no_upright_tile() -> None:
    """Firing a cone 04 glaze to cone 6, to see whether it runs, would take the shelf with it."""
    low = {**pond_lantern("cone: 06 to 04"), ENTRY: entry("base: FR", "top: PL", "coats: 2 + 1", "on chart: no")}
    told = account(low, without=(LOG,))
    running = [note for note in part(told, "change").notes if note.startswith("Running")]
    assert running == ["Running: no tile gives it a place on walls, because of what its labels say or leave open."]
    assert not [note for note in part(account(low), "change").notes if note.startswith("Trust")]
    assert part(told, "fire").notes == ("The labels of Ferry Rust and Pond Lantern have no cone in common.",)


def test_an_untested_pair_asks_for_one_upright_tile_of_its_coats_half_a_cone_under_at_most() -> None:
    told = account(without=(LOG,))
    running = [note for note in part(told, "change").notes if note.startswith("Running")]
    assert "at least these coats, fired no cooler than cone 5 1/2" in running[0]


def test_the_cautions_end_every_account() -> None:
    own, label = account().cautions
    assert own.startswith("Your own piece decides: look it over.")
    assert label.startswith("The label and the school's or local rules come first.")


def notes_on_running(changed: dict[str, str]) -> tuple[str, ...]:
    return part(account(changed), "running").notes[1:]


def test_the_bare_margin_is_reckoned_aloud() -> None:
    assert notes_on_running({LOG: log(GOOD_ROW.replace("2 mm", "8 mm"))}) [0] == (
        "The worst run was 8 mm (5/16 in); twice that is 16 mm (5/8 in) of bare clay, and never under 13 mm (1/2 in): the "
        "house's rule, so that the next piece has room to run further."
    )


def test_where_nothing_ran_the_least_margin_is_named_as_the_houses() -> None:
    assert notes_on_running({LOG: log(GOOD_ROW.replace("2 mm", "no"))}) == (
        "13 mm (1/2 in) is the least bare clay that this house leaves under such a glaze, run or no run.",
    )


def test_a_worst_run_at_other_coats_is_said_to_be_one() -> None:
    rows = log(GOOD_ROW, "B2,FR,2,PL,2,Quarry White,f01,middle,upright,4 mm,none")
    assert notes_on_running({LOG: rows})[1:] == (
        "Tile B2 had other coats than are judged here: 2 coats Ferry Rust, then 2 Pond Lantern. The worst run counts at "
        "any coats, clay and cone.",
    )


def test_a_glaze_that_ran_further_by_itself_asks_for_more_bare_clay_in_words() -> None:
    rows = log(GOOD_ROW, "B2,PL,2,,,Quarry White,f01,middle,upright,17 mm,none")
    said = notes_on_running({LOG: rows})
    assert [note for note in said if "Tiles of Pond Lantern alone ran further" in note and "leave more" in note] == [said[1]]


@pytest.mark.parametrize(("ran", "says"), [("no", "Leave 13 mm; no catch plate is asked for"), ("8 mm", "Top 25 mm, on a catch plate")])
def test_whether_a_catch_plate_is_asked_for_is_said_either_way(ran: str, says: str) -> None:
    assert part(account({LOG: log(GOOD_ROW.replace("2 mm", ran))}), "running").verdict == says


def test_what_came_out_is_cited_by_the_row_that_says_so() -> None:
    """Brushed in one file, unloaded in another: a brushing log knows nothing of faults."""
    brushed = log("B1,FR,2,PL,1,Quarry White,f01,middle,upright,,")
    unloaded = log("B1,FR,2,PL,1,,,,,2 mm,none")
    told = account({LOG: brushed, "logs/unloading.csv": unloaded})
    assert [each.at for each in part(told, "tiles").points] == ["logs/unloading.csv:2"]


def test_a_conditional_label_is_quoted() -> None:
    told = account(pond_lantern("food label: conditional", "label says: Only when fired to cone 6"))
    assert [each.rests_on for each in part(told, "food").points if each.rule == "F5"] == [
        "The label of Pond Lantern, in its own words: “Only when fired to cone 6”"
    ]


def test_what_ran_off_a_tile_is_better_on_no_wall_inside_either() -> None:
    vase = {"forms/vase.md": "---\nname: Vase\nheight: 180 mm\nholds food: no\n---\n"}
    told = account({**vase, LOG: log(GOOD_ROW.replace("2 mm", "off the tile"))})
    said = {each.at: each.says for each in part(told, "places").points}
    assert said["forms/vase.md:3"].endswith("Better not on a wall inside either: it ran off an upright tile.")


def test_where_the_whole_outside_is_closed_nothing_sounds_as_if_below_the_lip_were_open() -> None:
    studio = "studio: R\nedition: E\ncone: 6\ndate: 2026-11-02\nlabels read: 2026-09-01\ndoubtful glazes on food ware: "
    assert part(account({"studio.yaml": f"{studio}never\n"}), "places").notes == ()
    assert len(part(account({"studio.yaml": f"{studio}below the lip\n"}), "places").notes) == 1


def test_steady_tiles_of_what_is_kept_off_food_say_nothing_about_food() -> None:
    rows = log(GOOD_ROW, "B2,FR,2,PL,1,Quarry White,f01,upper,upright,2 mm,none")
    of_food = "That speaks of look and running; it says nothing about food."
    assert of_food in part(account({**pond_lantern("food label: no"), LOG: rows}), "trust").under
    assert of_food not in part(account({**pond_lantern(), LOG: rows}), "trust").under
