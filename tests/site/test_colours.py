"""Find by colour, what comes nearest, and colours compared with a figure: read from the pages, and counted again."""

from __future__ import annotations

import random
import re
from dataclasses import replace

import pytest
from coloraide import Color

from combobook.colours import Lab, lab, shade
from combobook.edition import Edition
from combobook.render.site import site
from combobook.render.views.colour_of import Coloured, colour_of, nearest
from combobook.render.views.colours import CHOICES, MOST
from combobook.render.views.comparisons import colours_view
from combobook.render.views.desk import Desk, desk
from tests.contact.editions import AMBER, TEAL, edition, shows
from tests.site.editions import text_of
from tests.studios import entry, glaze

FR_PL = "FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,none,"
PL_FR = "PL,2,FR,1,Quarry White,f01,middle,upright,2 mm,none,"


def page_of(made: Edition, path: str) -> str:
    files, problems = site(made)
    assert problems == ()
    return files[f"site/{path}"].decode()


def delta(one: Lab, other: Lab) -> str:
    """CIEDE2000 by coloraide, to the tenth that pages show."""
    return f"{Color('lab-d65', [one.l, one.a, one.b]).delta_e(Color('lab-d65', [other.l, other.a, other.b]), method='2000'):.1f}"


def says(made: Edition) -> list[tuple[str, str]]:
    """What the layering Pond Lantern over Ferry Rust compares, and what each rests on."""
    laid_out = desk(made)
    view = colours_view(laid_out, made.judged.layerings["ferry-rust", "pond-lantern"])
    return [(each.says, each.rests_on) for each in view.comparisons]


def test_this_order_against_the_other() -> None:
    made = edition((f"B1,{FR_PL},b1.jpg", f"B2,{PL_FR},b2.jpg"), {"b1.jpg": shows(TEAL), "b2.jpg": shows(AMBER)})
    figure = delta(TEAL, AMBER)
    assert says(made) == [
        (f"This order against the other: quite another colour ({figure})", "As photographed, not balanced.")
    ]
    panel = text_of(page_of(made, "combinations/pond-lantern-over-ferry-rust.html"))
    assert f"quite another colour ({figure})" in panel
    assert "Tile B2: 2 coats Pond Lantern, then 1 Ferry Rust, on Quarry White, firing f01" in panel


def test_the_fewest_coats_against_the_most_on_the_same_clay() -> None:
    paler = Lab(TEAL.l + 6, TEAL.a, TEAL.b)
    made = edition(
        ("B1,FR,1,PL,1,Quarry White,f01,middle,upright,no,none,,b1.jpg",
         "B2,FR,2,PL,1,Quarry White,f01,middle,upright,no,none,,b2.jpg",
         "B3,FR,2,PL,2,Quarry White,f01,middle,upright,no,none,,b3.jpg",
         "B4,FR,3,PL,3,,f01,middle,upright,no,none,,b4.jpg"),
        {"b1.jpg": shows(paler, balanced=True), "b2.jpg": shows(TEAL, balanced=True),
         "b3.jpg": shows(TEAL, balanced=True), "b4.jpg": shows(AMBER, balanced=True)},
    )  # fmt: skip
    assert says(made) == [
        (f"2 coats against 4 coats in all, on Quarry White: differs a little ({delta(paler, TEAL)})",
         "Both balanced by their tags."),
    ]  # fmt: skip


def test_a_light_clay_against_a_dark_one_at_the_same_coats() -> None:
    near = Lab(TEAL.l, TEAL.a + 1, TEAL.b)
    made = edition(
        (f"B1,{FR_PL},b1.jpg", f"B2,{FR_PL.replace('Quarry White', 'Coal')},drawing-b2.jpg"),
        {"b1.jpg": shows(TEAL), "drawing-b2.jpg": shows(near)},
    )
    assert says(made) == [
        (f"Quarry White (light clay) against Coal (dark clay): hardly differs ({delta(TEAL, near)})",
         "One of the two is not balanced, or a drawing: this compares only roughly."),
    ]  # fmt: skip


def test_a_glaze_alone_is_compared_too() -> None:
    made = edition(
        ("B1,FR,1,,,Coal,f01,middle,upright,no,none,,b1.jpg", "B1,FR,3,,,Coal,f01,middle,upright,no,none,,b2.jpg"),
        {"b1.jpg": shows(TEAL), "b2.jpg": shows(AMBER)},
    )
    page = text_of(page_of(made, "glazes/ferry-rust.html"))
    assert f"1 coat against 3 coats, on Coal: quite another colour ({delta(TEAL, AMBER)})" in page


def test_without_two_measured_pictures_nothing_is_compared() -> None:
    made = edition((f"B1,{FR_PL},b1.jpg", f"B2,{PL_FR},b2.jpg"), {"b1.jpg": shows(TEAL), "b2.jpg": None})
    assert says(made) == []
    assert "Colours compared" not in page_of(made, "combinations/pond-lantern-over-ferry-rust.html")


def test_tiles_fired_as_meant_are_compared_before_others() -> None:
    hot = {"firings/f02.md": entry("cone: 6", "date: 2026-10-20", "witness:", "  middle: 8")}
    made = edition(
        (f"B1,{FR_PL.replace('f01', 'f02')},b1.jpg", f"B2,{FR_PL},b2.jpg", f"B3,{PL_FR},b3.jpg"),
        {"b1.jpg": shows(AMBER), "b2.jpg": shows(TEAL), "b3.jpg": shows(TEAL)},
        {**hot, "firings/f01.md": entry("cone: 6", "date: 2026-10-14", "witness:", "  middle: 6")},
    )
    assert says(made)[0][0] == "This order against the other: hardly differs (0.0)"


def test_families_stand_in_words_with_their_layerings_light_ones_first() -> None:
    dark = Lab(18.0, -14.0, -5.0)
    made = edition(
        (f"B1,{FR_PL},b1.jpg", f"B2,{PL_FR},b2.jpg"), {"b1.jpg": shows(dark), "b2.jpg": shows(TEAL, AMBER)}
    )
    page = page_of(made, "colours.html")
    text = text_of(page)
    assert "Blue-greens 2 layerings" in text
    assert text.index("Ferry Rust over Pond Lantern") < text.index("Pond Lantern over Ferry Rust")
    assert "Dark blue-green, breaks amber" in text and "Deep blue-green" in text
    assert "Colours are as photographed, not balanced" in text
    assert "style=" not in page.split("<main", 1)[1], "a swatch's colour is an attribute: the page's policy forbids styles"
    swatches = re.findall(r"<svg class=\"swatch\"[^>]*>", page)
    assert swatches and all('aria-hidden="true"' in each for each in swatches)


def test_ways_of_measuring_are_said_where_they_differ() -> None:
    made = edition(
        (f"B1,{FR_PL},b1.jpg", f"B2,{PL_FR},b2.jpg"),
        {"b1.jpg": shows(TEAL), "b2.jpg": shows(AMBER, balanced=True)},
    )
    text = text_of(page_of(made, "colours.html"))
    assert "Dark blue-green (as photographed)" in text
    assert "(balanced by its tag)" in text
    assert "Some of these colours were balanced by a tile tag" in text


def test_a_shelf_without_measured_pictures_says_so_and_offers_no_colour() -> None:
    made = edition((f"B1,{FR_PL}",), {})
    files, _ = site(made)
    assert "No picture has been measured yet." in text_of(files["site/colours.html"].decode())
    assert not [path for path in files if path.startswith("site/colours/")]


def test_every_colour_to_choose_has_words_of_its_own() -> None:
    named = [shade(lab(*rgb)) for rgb in CHOICES]
    assert len(set(named)) == len(CHOICES)


def test_a_chosen_colour_lists_what_comes_nearest_first_with_its_figure() -> None:
    chosen = lab(44, 128, 122)
    far, near = Lab(chosen.l - 8, chosen.a, chosen.b), Lab(chosen.l - 2, chosen.a, chosen.b)
    made = edition((f"B1,{FR_PL},b1.jpg", f"B2,{PL_FR},b2.jpg"), {"b1.jpg": shows(far), "b2.jpg": shows(near)})
    text = text_of(page_of(made, "colours/blue-green.html"))
    assert text.index(f"({delta(chosen, near)})") < text.index(f"({delta(chosen, far)})")
    assert text.index("Ferry Rust over Pond Lantern") < text.index("Pond Lantern over Ferry Rust")


@pytest.mark.parametrize(("off", "close", "listed"), [(3, True, True), (11, False, True), (30, False, False)])
def test_a_chosen_colour_that_nothing_comes_close_to_says_so_and_lists_nothing_far_off(
    off: int, close: bool, listed: bool
) -> None:
    """Darker by so much of CIELAB's lightness: at 8 they are clearly different, past 15 they are left out."""
    chosen = lab(44, 128, 122)
    only = Lab(chosen.l - off, chosen.a, chosen.b)
    made = edition((f"B1,{FR_PL},b1.jpg",), {"b1.jpg": shows(only)})
    text = text_of(page_of(made, "colours/blue-green.html"))
    nearest_is = f"Nothing comes close: the nearest, Pond Lantern over Ferry Rust, is {{}} ({delta(chosen, only)})."
    said = [nearest_is.format(words) in text for words in ("clearly different", "quite another colour")]
    assert any(said) is (not close)
    assert ("Nearest in colour" in text) is listed
    assert ("1 layering, nearest in main colour first" in text) is listed


def test_a_layerings_page_lists_the_nearest_in_colour_but_never_itself() -> None:
    third = {"glazes/reed.md": glaze("Reed", "RE", "food label: yes", "flow: stable")}
    made = edition(
        (f"B1,{FR_PL},b1.jpg", f"B2,{PL_FR},b2.jpg", f"B3,{FR_PL.replace('PL', 'RE')},b3.jpg"),
        {"b1.jpg": shows(TEAL), "b2.jpg": shows(AMBER), "b3.jpg": shows(Lab(TEAL.l + 2, TEAL.a, TEAL.b))},
        third,
    )
    laid_out = desk(made)
    verdict = made.judged.layerings["ferry-rust", "pond-lantern"]
    assert colour_of(laid_out, verdict) == shows(TEAL)
    cards = colours_view(laid_out, verdict).nearest
    assert [card.name for card in cards] == ["Reed over Ferry Rust"], "amber is no answer to blue-green"
    assert cards[0].note.startswith("Dark blue-green. Hardly differs (")


def test_the_nearest_are_those_that_measuring_every_one_would_give() -> None:
    """A seeded shelf of 500 in the range of glazes: six for one of its own, the nearest half for a chosen colour."""
    dice = random.Random(6)
    colours = [Lab(dice.gauss(48, 17), dice.gauss(3, 16), dice.gauss(10, 20)) for _ in range(500)]
    laid_out = shelf_of(colours)
    asked = [(colour, 6, 6) for colour in colours[:40]] + [(lab(*rgb), MOST, MOST // 2) for rgb in CHOICES]
    for wanted, most, sure in asked:
        by_all = sorted((difference_of(wanted, each), f"v{n}") for n, each in enumerate(colours))[:sure]
        found = [(round(de, 6), each.verdict.id) for each, de in nearest(laid_out, wanted, most)][:sure]
        assert found == [(round(de, 6), name) for de, name in by_all], wanted


def difference_of(one: Lab, other: Lab) -> float:
    a, b = (Color("lab-d65", [each.l, each.a, each.b]) for each in (one, other))
    return float(a.delta_e(b, method="2000"))


def shelf_of(colours: list[Lab]) -> Desk:
    """A desk on which layerings of these colours lie."""
    made = edition((f"B1,{FR_PL},b1.jpg",), {"b1.jpg": shows(TEAL)})
    verdict = made.judged.layerings["ferry-rust", "pond-lantern"]
    laid_out = desk(made)
    laid_out.kept["coloured", ""] = tuple(
        Coloured(verdict=replace(verdict, id=f"v{n}"), colour=shows(each), way="photographed", said="")
        for n, each in enumerate(colours)
    )
    return laid_out
