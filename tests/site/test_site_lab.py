"""Lab reports on a page: what was found, what it does to the verdict, its limits, and further reading."""

from __future__ import annotations

from tests.site.editions import pages_of, text_of
from tests.studios import entry, glaze

LAYERING = "combinations/pond-lantern-over-ferry-rust.html"
SHELF = {
    "glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "food label: yes", "flow: stable", "coats: 1 to 3"),
    "glazes/pond-lantern.md": glaze("Pond Lantern", "PL", "food label: yes", "flow: stable", "coats: 1 to 3"),
}


def said(*fields: str) -> str:
    report = entry("base: ferry-rust", "top: pond-lantern", *fields)
    return text_of(pages_of({**SHELF, "lab/one.md": report})[LAYERING])


def test_a_report_that_exceeds_says_that_it_counts_against_the_layering() -> None:
    page = said("ware: cup or mug", "limits: Canada", "lead: [0.6 mg/L]", "cadmium: [0.01 mg/L]")
    assert "Over the Canada limit for lead. It counts against these glazes in this order, whatever" in page
    assert (
        "Lead limit for cups and mugs: 0.5 mg/L, no piece over. Glazed Ceramics and Glassware Regulations "
        "SOR/2016-175, 2016 (am. 2023)."
    ) in page
    assert "Keep off food" in page


def test_a_report_that_does_not_match_exactly_says_that_it_lifts_nothing() -> None:
    page = said("ware: flatware", "limits: EU 84/500", "cone: 5", "lead: [0.1 mg/dm2]", "cadmium: [0.01 mg/dm2]")
    assert "Within the EU 84/500 limits for lead and cadmium. The report does not say how many coats were tested." in page
    assert "It was fired to cone 5; this studio fires to cone 6. So it lifts nothing here." in page
    assert "0.8 mg/dm², one piece of at least four may be over, by at most half." in page


def test_a_limit_from_memory_is_marked_where_it_decides() -> None:
    page = said("ware: cup or mug", "limits: ISO 6486-2", "lead: [0.6 mg/L]", "cadmium: [0.01 mg/L]")
    assert "A limit quoted from memory decided this, and nobody has checked it." in page
    assert "ISO 6486-2:1999, 1999. This limit is quoted from memory and not verified." in page


def test_a_cup_that_takes_another_wares_limit_says_so() -> None:
    page = said("ware: cup or mug", "limits: FDA", "lead: [0.1 mg/L]", "cadmium: [0.01 mg/L]")
    assert "0.25 mg/L, any one of six pieces. CPG Sec. 545.400 (CPG 7117.06), 2005 rev. These limits have none" in page
    assert "Cannot be judged: FDA asks for 6 pieces, and lead was read on 1. So it counts neither for nor against." in page


def test_the_other_published_limits_are_further_reading_and_stand_only_beside_a_report() -> None:
    page = said("ware: flatware", "limits: FDA")
    assert "Other limits, for further reading Nothing here is judged by these." in page
    assert page.count("California Prop 65:") == 7 and "Wedgwood" not in page
    assert "ISO: lead in ceramic cookware: 5 mg/L (hot 4 % acetic acid, 2 h). ISO 8391-2:1986" in page
    assert "further reading" not in text_of(pages_of(SHELF)[LAYERING])


def test_a_report_on_a_layering_that_nobody_wrote_or_brushed_has_its_page() -> None:
    report = entry(
        "base: pond-lantern", "top: ferry-rust", "ware: cup or mug", "limits: Canada", "lead: [0.6 mg/L]", "cadmium: ?"
    )
    pages = pages_of({**SHELF, "lab/one.md": report})
    page = text_of(pages["combinations/ferry-rust-over-pond-lantern.html"])
    assert "Keep off food" in page and "Over the Canada limit for lead." in page
    assert "it is known from a lab report alone." in page
    assert "then Ferry Rust" in text_of(pages["layerings.html"])
