"""What to test again: what a new lot or a re-test date made old, glaze by glaze, and what disagrees."""

from __future__ import annotations

import html5lib

from tests.site.editions import pages_of, text_of
from tests.studios import HEADER, entry, glaze

FERRY, POND, HERON = "glazes/ferry-rust.md", "glazes/pond-lantern.md", "glazes/heron-loft.md"
LOG = "logs/autumn.csv"
LATE = {"firings/f02.md": entry("cone: 6", "date: 2026-11-14", "witness:", "  middle: 6")}


def rows(*lines: str) -> str:
    """A log: tile, base, base coats, top, top coats, firing, ran, faults, base lot, top lot."""
    made = []
    for line in lines:
        tile, base, n, top, m, firing, ran, faults, base_lot, top_lot = line.split(",")
        shelf, stood = ("middle", "upright") if firing else ("", "")
        made.append(
            f"{tile},{base},{n},{top},{m},Quarry White,{firing},{shelf},{stood},{ran},{faults},,,{base_lot},{top_lot}"
        )
    return "\n".join([HEADER, *made, ""])


def ferry(*lines: str) -> str:
    return glaze("Ferry Rust", "FR", "food label: yes", "flow: stable", "coats: 2 to 3", *lines)


def studio(ferry_rust: str, *log: str) -> str:
    """The re-test page of the good studio with a third glaze, this Ferry Rust and this log."""
    heron = glaze("Heron Loft", "HL", "food label: yes", "flow: stable", "coats: 2")
    return pages_of({FERRY: ferry_rust, HERON: heron, LOG: rows(*log), **LATE})["retest.html"]


def names(page: str) -> list[str]:
    """Glazes and what rests on each, in the page's order."""
    root = html5lib.parse(page, namespaceHTMLElements=False)
    main = root.find(".//main")
    assert main is not None
    found = [e for e in main.iter("a") if e.get("class") == "again-name" or str(e.get("href")).startswith("glazes/")]
    return ["".join(each.itertext()) for each in found]


OLD_PAIR = "A1,Ferry Rust,2,Pond Lantern,1,f01,no,none,FR-1,"
NEW_PAIR = "A2,Ferry Rust,2,Pond Lantern,1,f02,no,none,FR-2,"
OLD_ALONE = "A3,Ferry Rust,2,,,f01,no,none,FR-1,"


def test_where_every_lot_is_the_one_in_the_jar_nothing_is_old() -> None:
    text = text_of(studio(ferry("lot: FR-2"), NEW_PAIR))
    assert "No tile is old" in text
    assert "Test first" not in text
    assert "No tiles disagree." in text


def test_a_new_lot_names_both_lots_how_many_tiles_and_what_rests_on_the_old_one() -> None:
    text = text_of(studio(ferry("lot: FR-2"), OLD_PAIR, OLD_ALONE))
    assert "From lot FR-1 to lot FR-2. Of the old lot: 2 tiles." in text
    assert "2 tiles, 1 layering" in text
    assert "Resting on old tiles alone: 1 layering and 1 glaze alone. Partly on old ones: 0 layerings." in text
    assert text.count("Test first: its only tile is old") == 2


def test_a_layering_with_a_newer_tile_is_partly_old_and_stands_after_those_with_none() -> None:
    page = studio(ferry("lot: FR-2"), OLD_PAIR, NEW_PAIR, OLD_ALONE)
    assert "Old: 1 of 2 tiles" in text_of(page)
    assert names(page) == ["Ferry Rust", "Ferry Rust alone", "Pond Lantern over Ferry Rust"]


def test_a_retest_date_says_the_day_and_the_firings_before_it() -> None:
    """The good studio's f01 was fired on 14 October 2026, f02 on 14 November."""
    text = text_of(
        studio(ferry("retest since: 2026-11-01"), OLD_PAIR.replace("FR-1", ""), NEW_PAIR.replace("FR-2", ""))
    )
    assert "Changed on 1 November 2026. Fired before that: 1 tile (firing f01)." in text
    assert "nobody knows when" not in text


def test_a_firing_without_a_date_cannot_count_after_a_retest_date_and_is_said_apart() -> None:
    undated = {"firings/f01.md": entry("cone: 6")}
    page = pages_of({FERRY: ferry("retest since: 2026-11-01"), LOG: rows(OLD_PAIR.replace("FR-1", "")), **undated})
    text = text_of(page["retest.html"])
    assert "Changed on 1 November 2026. Fired nobody knows when, so not counted: 1 tile (firing f01)." in text
    assert "Fired before that" not in text


def test_the_glaze_with_most_layerings_on_its_old_lot_stands_first_then_the_one_with_most_rows() -> None:
    heron = glaze("Heron Loft", "HL", "food label: yes", "flow: stable", "coats: 2", "lot: HL-2")
    heron = {HERON: glaze("Heron Loft", "HL", "food label: yes", "flow: stable", "coats: 2", "lot: HL-2")}
    two_on_heron = (
        "B1,Heron Loft,2,Pond Lantern,1,f01,no,none,HL-1,",
        "B2,Heron Loft,2,Pond Lantern,1,f02,no,none,HL-1,",
    )
    one_on_ferry = "B3,Ferry Rust,2,Pond Lantern,1,f01,no,none,FR-1,"
    another_on_ferry = "B4,Ferry Rust,2,Heron Loft,1,f01,no,none,FR-1,HL-2"

    def order(*log: str) -> list[str]:
        page = pages_of({FERRY: ferry("lot: FR-2"), LOG: rows(*log), **heron, **LATE})["retest.html"]
        return [name for name in names(page) if name in ("Ferry Rust", "Heron Loft")]

    assert order(*two_on_heron, one_on_ferry, another_on_ferry) == ["Ferry Rust", "Heron Loft"]
    assert order(*two_on_heron, one_on_ferry) == ["Heron Loft", "Ferry Rust"]


def test_an_old_tile_says_so_in_its_row_and_a_newer_one_does_not() -> None:
    pages = pages_of({FERRY: ferry("lot: FR-2"), LOG: rows(OLD_PAIR, NEW_PAIR), **LATE})
    text = text_of(pages["combinations/pond-lantern-over-ferry-rust.html"])
    assert "A1 logs/autumn.csv:2 old: Ferry Rust lot FR-1" in text
    assert text.count("old: Ferry Rust") == 1
    dated = pages_of({FERRY: ferry("retest since: 2026-11-01"), LOG: rows(OLD_ALONE), **LATE})
    assert "A3 logs/autumn.csv:2 old: before Ferry Rust changed" in text_of(dated["glazes/ferry-rust.html"])


def test_a_tile_that_is_not_fired_is_no_evidence_and_so_is_not_old() -> None:
    assert "No tile is old" in text_of(studio(ferry("lot: FR-2"), "A1,Ferry Rust,2,Pond Lantern,1,,,,FR-1,"))


def test_a_glaze_that_is_retired_says_so_where_its_old_tiles_are_listed() -> None:
    gone = {
        "combinations/pond-lantern-over-ferry-rust.md": entry("base: Ferry Rust", "top: Pond Lantern", "on chart: no")
    }
    page = pages_of({FERRY: ferry("lot: FR-2", "status: retired"), LOG: rows(OLD_PAIR), **gone})["retest.html"]
    assert "Ferry Rust is retired" in text_of(page)


def test_what_disagrees_is_listed_and_leads_to_its_tiles_side_by_side() -> None:
    apart = ("C1,Ferry Rust,2,Pond Lantern,1,f01,no,none,,", "C2,Ferry Rust,2,Pond Lantern,1,f02,9 mm,none,,")
    page = studio(ferry(), *apart)
    assert "Pond Lantern over Ferry Rust some ran and some did not Disagrees: 2 tiles, 2 firings" in text_of(page)
    assert 'href="combinations/pond-lantern-over-ferry-rust.html#differ"' in page
