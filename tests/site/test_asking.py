"""The pages of questions, read as a reader would: what ran, what is kept off food, what the mug page and the rest say."""

from __future__ import annotations

import re

import html5lib
import pytest

from combobook.render.views.desk import has_page
from tests.published_demo import demo_edition, demo_files
from tests.site.editions import pages_of, text_of
from tests.studios import entry, glaze, log

PIECE = "Your own piece decides: look it over."
QUESTIONS = ("drink.html", "keep-off.html", "liners.html", "ran.html", "today.html", "labels.html")
LOG = "logs/autumn.csv"
FERRY, POND = "glazes/ferry-rust.md", "glazes/pond-lantern.md"
PAIR = "combinations/pond-lantern-over-ferry-rust.md"
STABLE = ("food label: yes", "flow: stable", "coats: 2 to 3")


def house(*lines: str) -> dict[str, str]:
    """The good studio's studio.yaml with these lines."""
    good = ("studio: Reed Lane Clay Room", "edition: 2026 Autumn", "cone: 6", "date: 2026-11-02")
    return {"studio.yaml": "\n".join([*good, *lines, ""])}


def tile(mark: str, *, ran: str = "no", faults: str = "none", stood: str = "upright", firing: str = "f01") -> str:
    """A log row of Ferry Rust under Pond Lantern."""
    return f"{mark},FR,2,PL,1,Quarry White,{firing},middle,{stood},{ran},{faults}"


def alone(mark: str, *, ran: str = "no", faults: str = "none", clay: str = "Quarry White", coats: int = 2) -> str:
    """A log row of Ferry Rust by itself."""
    return f"{mark},FR,{coats},,,{clay},f01,middle,upright,{ran},{faults}"


def in_order(text: str, *parts: str) -> bool:
    """Every part stands in the text, each after the one before."""
    at = [text.find(part) for part in parts]
    return -1 not in at and at == sorted(at)


def asked(changed: dict[str, str], page: str, without: tuple[str, ...] = ()) -> str:
    return text_of(pages_of(changed, without)[page])


# What ran


def test_what_ran_comes_worst_first_with_firing_shelf_cone_tile_and_layering() -> None:
    rows = log(tile("B1", ran="2 mm"), tile("B2", ran="off the tile"), tile("B3", ran="12 mm"), alone("B4", ran="7 mm"))
    text = asked({LOG: rows}, "ran.html")
    assert "4 tiles ran while standing upright, 1 of them off the foot." in text
    assert in_order(
        text,
        "5 mm and over, or off",
        "Tile B2:",
        "12 mm",
        "Tile B3:",
        "Tile B4:",
        "More than 1 mm and under",
        "Tile B1:",
    )
    assert "Pond Lantern over Ferry Rust Tile B2: 2 coats Ferry Rust, then 1 Pond Lantern, on Quarry White" in text
    assert "Ferry Rust by itself Tile B4: 2 coats Ferry Rust, on Quarry White" in text
    assert "Firing f01, middle shelf, cone 6 by the controller, no cone" in text


def test_a_run_of_1_mm_is_none_and_a_tile_lying_flat_is_named_but_not_counted() -> None:
    text = asked({LOG: log(tile("B1", ran="1 mm"), tile("B2", ran="9 mm", stood="flat"))}, "ran.html")
    assert "No upright tile has run more than 1 mm." in text
    assert "Glaze also moved on B2, not known to have stood upright" in text
    assert "Tile B1" not in text and "Tile B2" not in text


def test_a_run_whose_firing_was_forgotten_is_listed_all_the_same() -> None:
    text = asked({LOG: log(tile("B1", ran="8 mm", firing=""))}, "ran.html")
    assert "8 mm (5/16 in) Pond Lantern over Ferry Rust" in text
    assert "Nobody wrote down its firing; it counts all the same" in text


def test_runs_are_found_by_each_glaze_that_was_in_them() -> None:
    text = asked({LOG: log(tile("B2", ran="off the tile"), alone("B4", ran="7 mm"))}, "ran.html").partition(
        "Each glaze that ran by itself"
    )[2]
    assert in_order(
        text, "Ferry Rust 2 tiles", "Off the tile: Pond Lantern over Ferry Rust, tile B2", "Ferry Rust by itself, tile B4",
        "Pond Lantern 1 tile",
    )  # fmt: skip


def test_every_run_of_the_demo_that_a_verdict_rests_on_is_listed_once() -> None:
    judged = demo_edition().judged
    worst = {v.id for v in judged.layerings.values() if v.movement.off_the_tile or (v.movement.worst_run or 0) > 1}
    page = demo_files()["site/ran.html"].decode()
    root = html5lib.parse(page, namespaceHTMLElements=False)
    listed = [str(a.get("href")) for a in root.findall(".//ol/li//h3/a")]
    assert {link for link in listed if link.startswith("combinations/")} == {
        f"combinations/{id_}.html" for id_ in worst
    }
    tiles = re.findall(r"<p>Tile ([A-Z0-9-]+): ([^<]*)</p>", page)
    assert len(tiles) == len(set(tiles)) == len(listed)


# What is kept off food


def test_what_is_kept_off_food_stands_under_the_kind_of_its_reason_with_the_sentence() -> None:
    no = {POND: glaze("Pond Lantern", "PL", "food label: no", "flow: moves", "coats: 2 to 3")}
    text = asked(no, "keep-off.html")
    assert "1 glaze and 1 layering, each with the reason that decides." in text
    assert in_order(
        text,
        "Something says no Keep off food",
        "The label of Pond Lantern says no food. PL Pond Lantern by itself",
        "Putting another glaze over or under it does not seal it in. Ferry Rust first, then Pond Lantern",
        "A pair that is nowhere in this book is kept off food as well",
    )
    assert "Ferry Rust by itself" not in text


def test_what_is_not_known_is_kept_off_food_and_says_what_is_missing() -> None:
    text = asked({POND: glaze("Pond Lantern", "PL", "flow: moves", "coats: 2 to 3")}, "keep-off.html")
    assert in_order(text, "Something is not known Not known: keep off food until it is", "A label does not say yes")
    assert "Nobody has written down what the label of Pond Lantern says about food. PL Pond Lantern by itself" in text


def test_what_only_the_house_rule_keeps_off_food_is_said_to_be_the_houses() -> None:
    """`one glaze alone` is the default: the layering's labels allow it."""
    text = asked({}, "keep-off.html")
    assert "0 glazes and 1 layering" in text
    assert in_order(text, "Labels allow it, this studio does not", "Ferry Rust first, then Pond Lantern")
    assert "Something says no" not in text
    assert "Nothing in this book is kept off food" in asked(house("food rule: labels"), "keep-off.html")


def test_every_glaze_and_layering_of_the_demo_that_may_not_touch_food_is_on_the_page_once() -> None:
    judged = demo_edition().judged
    due = [f"combinations/{v.id}.html" for v in judged.layerings.values() if has_page(v) and not v.food.food_ware]
    due += [f"glazes/{v.glaze.id}.html" for v in judged.glazes.values() if not v.food.food_ware]
    root = html5lib.parse(demo_files()["site/keep-off.html"], namespaceHTMLElements=False)
    found = [str(a.get("href")) for a in root.findall(".//main//li//a") if not str(a.get("href")).startswith("#")]
    assert sorted(found) == sorted(due)


# Liners


def test_a_liner_is_shown_on_each_clay_with_what_was_seen_there() -> None:
    other = {"clays/ash-pit.md": entry("name: Ash Pit", "cone: 5 to 7")}
    text = asked({LOG: log(alone("B1")), **other}, "liners.html")
    assert in_order(
        text, "On Ash Pit Never tried on this clay", "FR Ferry Rust The label allows food", "Never tested on Ash Pit."
    )
    assert in_order(
        text,
        "On Quarry White",
        "FR Ferry Rust The label allows food Seen once on this clay: no fault on 1 tile. The tile had 2 coats. Its label: 2 to 3 coats",
    )
    assert (
        "The label allows food, but not in these lists PL Pond Lantern The label of Pond Lantern says that it moves."
        in text
    )
    assert PIECE in text


def test_a_clay_that_cannot_take_the_cone_is_kept_out_of_the_liners() -> None:
    text = asked({"clays/garden-red.md": entry("name: Garden Red", "cone: 06 to 04")}, "liners.html")
    assert "On Garden Red" not in text
    assert "Clays that are left out Garden Red Not for cone 6: this clay can melt and take the shelf with it." in text


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({LOG: log(alone("B1", faults="pinholes", coats=4))}, "Tile B1 (4 coats, on Quarry White) shows pinholes."),
        ({LOG: log(alone("B1", ran="3 mm"))}, "Upright tile B1 of Ferry Rust alone ran 3 mm (1/8 in)."),
        ({FERRY: glaze("Ferry Rust", "FR", *STABLE, "goes on: rim only"), PAIR: entry("base: FR", "top: PL", "on chart: no")},
         "It goes near the rim only."),
        ({FERRY: glaze("Ferry Rust", "FR", *STABLE, "cone: 06 to 04"), PAIR: entry("base: FR", "top: PL", "on chart: no")},
         "This studio fires to cone 6; the label of Ferry Rust says cone 06 to 04."),
        (house("food rule: lab reports only"), "This studio's rule keeps it away from where food and mouths go."),
    ],
    ids=["a fault at any coats", "a run", "rim only", "another cone", "lab reports only"],
)  # fmt: skip
def test_a_glaze_whose_label_allows_food_is_left_out_with_the_reason(changed: dict[str, str], why: str) -> None:
    text = asked(changed, "liners.html")
    assert f"FR Ferry Rust {why}" in text.partition("but not in these lists")[2]
    assert "FR Ferry Rust The label allows food" not in text


@pytest.mark.parametrize("status", ["out", "retired", "?"])
def test_a_glaze_that_is_not_on_the_shelf_is_no_liner(status: str) -> None:
    text = asked({FERRY: glaze("Ferry Rust", "FR", *STABLE, f"status: {status}")}, "liners.html")
    assert "None: no glaze in use" in asked(
        {FERRY: glaze("Ferry Rust", "FR", *STABLE, f"status: {status}")}, "questions.html"
    )
    assert "Ferry Rust" not in text


# Today


def test_the_substitute_sees_what_anyone_may_brush_and_what_waits() -> None:
    more = {
        "glazes/rim-owl.md": glaze("Rim Owl", "RO", *STABLE, "goes on: rim only"),
        "glazes/river-run.md": glaze("River Run", "RR", "food label: yes", "flow: runny", "coats: 2"),
        "glazes/who-knows.md": glaze("Who Knows", "WK", "food label: yes", "flow: stable"),
        "glazes/old-jar.md": glaze("Old Jar", "OJ", *STABLE, "status: out"),
    }
    text = asked(more, "today.html")
    assert in_order(
        text,
        "May be brushed where food goes; the teacher decides later",
        "FR Ferry Rust 2 to 3 coats Leave 6 mm",
        "These jars wait",
    )
    assert in_order(text, "They run, or nobody knows", "RR River Run", "near the rim only", "RO Rim Owl",
                    "Something is not known", "WK Who Knows", "Empty or no longer used: OJ Old Jar")  # fmt: skip
    for mine in ("RO Rim Owl", "RR River Run", "WK Who Knows", "OJ Old Jar"):
        assert mine not in text.partition("These jars wait")[0]
    assert in_order(
        text, "Only the teacher or the technician", "Kilns: loading, firing", "Cutting and grinding", "Mixing"
    )
    assert in_order(
        text, "Before you glaze", "Kilns are the technician's.", PIECE, "Whom to call", "Teacher Kiln technician"
    )


@pytest.mark.parametrize(
    ("row", "listed"),
    [
        (tile("B1"), True),
        (tile("B1", ran="2 mm"), False),
        (tile("B1", stood="flat"), False),
        (tile("B1", firing=""), False),
    ],
    ids=["stays put", "ran", "never upright", "not fired"],
)
def test_a_layering_is_for_everybody_only_where_tiles_show_that_it_stays_put(row: str, listed: bool) -> None:
    changed = {POND: glaze("Pond Lantern", "PL", *STABLE), LOG: log(row)}
    assert ("Ferry Rust first, then Pond Lantern" in asked(changed, "today.html")) is listed


def test_a_jar_whose_label_nobody_wrote_down_says_so_and_the_clays_are_named() -> None:
    clays = {
        "clays/garden-red.md": entry("name: Garden Red", "cone: 06 to 04"),
        "clays/who-knows.md": entry("name: Who Knows"),
        FERRY: glaze("Ferry Rust", "FR", "flow: stable", "coats: 2 to 3"),
    }
    text = asked(clays, "today.html")
    assert "FR Ferry Rust 2 to 3 coats What its label says about food: not written down." in text
    assert in_order(
        text,
        "Quarry White: to be glazed and fired to cone 6.",
        "Not Garden Red: it can melt at cone 6",
        "Who Knows: nobody has written down which cone it is for, so it waits for the teacher.",
        "A clay that is not named here waits",
    )


def test_a_layering_that_is_not_on_the_chart_waits_for_the_teacher() -> None:
    changed = {POND: glaze("Pond Lantern", "PL", *STABLE), LOG: log(tile("B1"))}
    hidden = {PAIR: entry("base: FR", "top: PL", "coats: 2 + 1", "on chart: no")}
    assert "Ferry Rust first, then Pond Lantern" not in asked({**changed, **hidden}, "today.html")


def test_what_may_not_touch_food_is_for_pieces_that_never_hold_any() -> None:
    changed = {FERRY: glaze("Ferry Rust", "FR", "food label: no", "flow: stable", "coats: 2 to 3")}
    text = asked(changed, "today.html")
    assert in_order(text, "Only on pieces that never hold food", "FR Ferry Rust 2 to 3 coats Leave 6 mm Keep off food")


# The mug


def test_the_mug_page_walks_from_the_glaze_to_the_label_and_never_says_yes() -> None:
    says = {FERRY: glaze("Ferry Rust", "FR", *STABLE, 'label says: "Dinnerware, cone 5 to 6"')}
    text = asked(says, "drink.html")
    assert in_order(
        text,
        "What touches the drink, and what touches your lips?",
        "from the rim down to 20 mm (13/16 in)",
        "One glaze: which?",
        "FR Ferry Rust The label allows food",
        "Your own mug: look it over",
        "No reason found. That is not a yes",
        PIECE,
        "What the labels say",
        "Ferry Rust in its own words: “Dinnerware, cone 5 to 6”",
        "Pond Lantern the label allows food; nobody has copied its words",
    )
    assert not re.search(r"\bYes\b|\byou (?:can|may) drink\b|\bgo ahead\b|\bsafe\b", text)


def test_what_nobody_knows_and_what_the_house_keeps_away_stops_at_the_mug() -> None:
    unknown = {POND: glaze("Pond Lantern", "PL", "flow: moves", "coats: 2 to 3")}
    text = asked(unknown, "drink.html")
    assert in_order(
        text, "stop. Keep it off food and drink.", "PL Pond Lantern Not known: keep off food", "not written down"
    )
    assert "No layering of this studio may go inside or on the lip." in text
    assert "What nobody knows is not for food." in text


def test_a_layering_that_labels_allow_is_listed_with_its_order_and_coats_where_the_house_lets_it() -> None:
    text = asked(house("food rule: labels"), "drink.html")
    assert (
        "Ferry Rust first PL then Pond Lantern Labels allow, not lab tested Only on Quarry White"
        " 2 coats Ferry Rust, then 1 Pond Lantern" in text
    )


def test_a_mug_on_a_clay_that_its_line_does_not_name_stops() -> None:
    """Harbour Fog over Bramble Ink was never fired on Coalhouse, and the rule asks for a tile on the clay."""
    page = demo_files()["site/drink.html"].decode()
    line = text_of(page).partition("Bramble Ink first")[2].partition("HF then Harbour Fog")[2].partition(" then ")[0]
    assert "Only on" in line and "Coalhouse" not in line
    assert page.count('href="#stop-clay"') == 2
    assert in_order(text_of(page), "Another clay Stop: keep it off food and drink.", "on another clay nobody knows")


def test_a_layering_whose_tiles_name_no_clay_stops_at_the_mug() -> None:
    blank = {LOG: log(tile("A101").replace("Quarry White", "")), **house("food rule: labels")}
    assert "PL then Pond Lantern Labels allow, not lab tested Nobody wrote down the clay of its tiles: stop" in asked(
        blank, "drink.html"
    )


def test_a_glaze_by_itself_names_no_clay_at_the_mug() -> None:
    assert "Only on" not in asked({}, "drink.html")


def test_a_glaze_for_rims_is_listed_with_a_stop_for_the_whole_inside() -> None:
    rim = {
        FERRY: glaze("Ferry Rust", "FR", *STABLE, "goes on: rim only"),
        PAIR: entry("base: FR", "top: PL", "on chart: no"),
    }
    text = asked(rim, "drink.html")
    assert "2 to 3 coats. Near the rim only: if it covers the whole inside, stop." in text


def test_every_answer_on_the_mug_page_leads_on_and_every_stop_is_reached() -> None:
    page = demo_files()["site/drink.html"].decode()
    ids, ways = set(re.findall(r'\bid="([^"]+)"', page)), set(re.findall(r'href="#([^"]+)"', page))
    assert ways <= ids
    assert {each for each in ids if each.startswith("stop-")} <= ways
    assert {"one", "two", "look", "end"} <= ways


# Labels


def test_labels_missing_or_older_than_two_years_come_missing_first_then_oldest() -> None:
    """The edition's day is 2 November 2026: 2 November 2024 is two years ago, and one day more is too old."""
    changed = {
        "glazes/a-fresh.md": glaze("A Fresh", "AF", *STABLE, "data sheet: 2024-11-02"),
        "glazes/b-stale.md": glaze("B Stale", "BS", *STABLE, "data sheet: 2024-11-01"),
        "glazes/c-older.md": glaze("C Older", "CO", *STABLE, "label read: 2021-05-01"),
        "glazes/d-blank.md": glaze("D Blank", "DB", "data sheet: ?", "flow: stable", "coats: 2"),
        "glazes/e-retired.md": glaze("E Retired", "ER", *STABLE, "data sheet: ?", "status: retired"),
    }
    text = asked(changed, "labels.html")
    assert (
        "3 glazes: nobody wrote down when the label or the data sheet was read, or it was more than two years ago."
        in text
    )
    assert in_order(
        text,
        "DB D Blank Data sheet: nobody wrote down when it was read.",
        "While you read, write down: what it says about food.",
        "CO C Older Label: read on 1 May 2021, more than two years ago.",
        "BS B Stale Data sheet: read on 1 November 2024, more than two years ago.",
    )
    assert "AF A Fresh" not in text and "E Retired" not in text and "FR Ferry Rust" not in text


def test_the_studios_date_stands_for_labels_without_their_own() -> None:
    assert "None: every label and data sheet was read" in asked(house("labels read: 2026-09-01"), "labels.html")
    old = asked(house("labels read: 2023-09-01"), "labels.html")
    assert "FR Ferry Rust Label: read on 1 September 2023, more than two years ago." in old
    assert "for all its jars, that their labels were read on 1 September 2023. It counts for every glaze" in old
    assert "without a date of its own: Ferry Rust and Pond Lantern." in old
    missing = asked(house(), "labels.html")
    assert "FR Ferry Rust Label: nobody wrote down when it was read." in missing


# All of them


def test_the_list_of_questions_gives_each_a_short_answer_and_the_first_page_asks_them_all() -> None:
    pages = pages_of({})
    text = text_of(pages["questions.html"])
    assert in_order(text, "Can I drink from this mug? This book never says yes.", "What is kept off food, and why? 0 glazes",
                    "Which glaze can go inside? 1 glaze in use", "What ran? 1 tile ran", "What may the class do today?",
                    "Which labels should be read again? None")  # fmt: skip
    for question in QUESTIONS:
        assert f'href="{question}"' in pages["questions.html"]
        assert f'href="{question}"' in pages["index.html"].partition("<main")[2]
        assert 'href="questions.html" aria-current="true"' in pages[question]


def test_where_nothing_is_made_for_food_every_page_says_so_and_none_lists_what_may_touch_it() -> None:
    pages = pages_of({**house("food rule: never"), PAIR: entry("base: FR", "top: PL", "coats: 2 + 1")})
    for question in ("drink.html", "keep-off.html", "liners.html", "today.html", "questions.html"):
        assert "House rule: nothing made here is for food" in text_of(pages[question])
    everything = " ".join(text_of(pages[question]) for question in (*QUESTIONS, "questions.html"))
    for kinder in ("The label allows food", "Labels allow", "may go inside", "where food and mouths go"):
        assert kinder not in everything, kinder
    assert "House rule: not for food" in text_of(pages["today.html"])


def test_a_studio_without_clays_firings_and_forms_has_every_page() -> None:
    bare = ("clays/quarry-white.md", "firings/f01.md", "forms/mug.md", LOG, PAIR, POND)
    pages = pages_of({}, bare)
    assert "No upright tile has run more than 1 mm." in text_of(pages["ran.html"])
    assert "Nothing in this book is kept off food." in text_of(pages["keep-off.html"])
    assert PIECE in text_of(pages["liners.html"])
