"""Where on my pot: what each drawing says, on the page and in print, held to the judge's own figures."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from typing import Any

import html5lib
import pytest
from pdfminer.high_level import extract_text

from combobook.entries import NOT_KNOWN, DoubtfulRule, Flow, FoodLabel, FoodRule, Form, GoesOn, Inside, Units
from combobook.judge import judge_pair
from combobook.render.print_profiles import print_scale, profile_for_print
from combobook.render.profiles import profile, scale_of, spread
from combobook.render.sheet import sheet
from combobook.theme import load_theme
from combobook.verdicts import Band
from combobook.wording import Words
from tests.judge.building import book, entry, form, glaze, tile

A, B = glaze("amber"), glaze("birch")
NO = glaze("birch", food_label=FoodLabel.NO)
RIM = glaze("birch", goes_on=GoesOn.RIM_ONLY)
RUNNY_NO = glaze("birch", flow=Flow.RUNNY, food_label=FoodLabel.NO)
MUG, PLATE = form("mug", 95), form("plate", 28, True, Inside.OPEN)
FORMS = (
    MUG, PLATE, form("bowl", 70), form("dish", 30), form("vase", 600, False), form("jar", "240.5", NOT_KNOWN),
    form("tile", 150, False, Inside.NONE), form("jug", NOT_KNOWN), form("planter", "31.4", False),
)  # fmt: skip
_STUDIO = book().studio
_THEME, _ = load_theme("daylight", "en", _STUDIO.theme.place, _STUDIO.language.place)
assert _THEME is not None
WORDS = {units: Words(_THEME.table, units) for units in Units}
LABELLED = re.compile(r"^(lip|here|not below|untested|bare foot).*?(\d+) mm")


def bands(top: Any = B, *tiles: Any, forms: tuple[Form, ...] = FORMS, **house: Any) -> tuple[Band, ...]:
    return judge_pair(book([entry(A, top)], tiles, forms=forms, **house), "amber", "birch").bands


def one(on: Form, top: Any = B, *tiles: Any, **house: Any) -> Band:
    return bands(top, *tiles, forms=(on,), **house)[0]


EVERY = {
    "untested and kept off": bands(NO),
    "tested and calm": bands(B, tile("T1", (A, B))),
    "rims only": bands(RIM, tile("T1", (A, RIM))),
    "runny and kept off": bands(RUNNY_NO),
    "kept off food ware by the house": bands(NO, tile("T1", (A, NO)), doubtful=DoubtfulRule.NEVER),
    "ran 11.3 mm": bands(B, tile("T1", (A, B), ran="11.3"), food_rule=FoodRule.NEVER),
}


def texts(markup: str, tag: str = "text") -> list[str]:
    """The texts of a drawing, by another reader of HTML than ours."""
    tree = html5lib.HTMLParser(strict=False, namespaceHTMLElements=False).parseFragment(markup)
    return ["".join(found.itertext()) for found in tree.iter() if str(found.tag).rpartition("}")[2] == tag]


def drawings(markup: str) -> Iterator[tuple[str, float, float]]:
    """Each path of one class or none, as its class and the highest and lowest point of a box that starts `M…h…V…`."""
    for found in re.finditer(r'<path class="([a-z-]+)"[^>]* d="M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)h', markup):
        yield found[1], float(found[2]), float(found[3])


def shown(band: Band, units: Units = Units.MM) -> list[str]:
    return texts(profile(band.form, band, WORDS[units]))


def test_a_useful_place_is_said_with_both_its_ends_in_both_units() -> None:
    band = one(MUG, NO)
    assert shown(band) == [
        "lip: keep clear 20 mm (13/16 in)",
        "here: 20 to 31 mm",
        "(13/16 to 1 3/16 in)",
        "bare foot 13 mm (1/2 in)",
    ]
    assert shown(band, Units.INCHES) == [
        "lip: keep clear 13/16 in (20 mm)",
        "here: 13/16 to 1 3/16 in",
        "(20 to 31 mm)",
        "bare foot 1/2 in (13 mm)",
    ]


def test_a_place_from_the_rim_down_is_said_as_that() -> None:
    assert shown(one(MUG, B, tile("T1", (A, B)))) == ["here: down to 82 mm (3 3/16 in)", "bare foot 13 mm (1/2 in)"]


def test_where_there_is_no_useful_place_the_drawing_says_so_and_shows_what_binds() -> None:
    assert shown(one(form("bowl", 70), RUNNY_NO)) == [
        "lip: keep clear 20 mm (13/16 in)",
        "untested: not below 23 mm (7/8 in)",
        "not below 25 mm (1 in)",
        "outside: nowhere",
        "bare foot 13 mm (1/2 in)",
    ]


def test_a_plate_shows_its_inside_from_above_and_its_outside_only_for_lip_and_foot() -> None:
    kept_off = str(profile(PLATE, one(PLATE, NO), WORDS[Units.MM]))
    assert shown(one(PLATE, NO)) == ["lip: keep clear 20 mm (13/16 in)", "bare foot 13 mm (1/2 in)"]
    assert texts(kept_off, "p") == ["From above, drawn smaller: not inside"]
    rim = one(PLATE, RIM, tile("T1", (A, RIM)))
    assert texts(str(profile(PLATE, rim, WORDS[Units.MM])), "p") == [
        "From above, drawn smaller: inside only in the top 25 mm (1 in)"
    ]


@pytest.mark.parametrize("case", EVERY)
def test_every_label_and_every_filling_is_the_judges_figure(case: str) -> None:
    for band in EVERY[case]:
        markup = str(profile(band.form, band, WORDS[Units.MM]))
        if band.form.height.value is NOT_KNOWN:
            assert markup == ""
            continue
        height = float(band.form.height.value)
        said = {match[1]: int(match[2]) for text in texts(markup) if (match := LABELLED.match(text))}
        here = [text for text in texts(markup) if text.startswith("here")]
        assert said.get("lip", 0) == band.lip_mm
        assert said["bare foot"] == band.margin_mm
        assert bool(here) == (band.to_mm is not None)
        if band.to_mm is not None:
            assert f"{band.to_mm} mm" in here[0]
            assert str(band.from_mm) in here[0] or band.from_mm == 0
        boxes = {kind: (top, end) for kind, top, end in drawings(markup)}
        assert ("here" in boxes) == (band.to_mm is not None) or band.form is PLATE
        if "here" in boxes and band.form is not PLATE:
            assert boxes["here"] == pytest.approx((8 + band.from_mm * 1.6, 8 + band.to_mm * 1.6), abs=0.06)  # type: ignore[operator]
        if band.base_to_mm is not None:
            ends = (8 + band.base_from_mm * 1.6, 8 + band.base_to_mm * 1.6)
            assert boxes["first-bar"] == pytest.approx(ends, abs=0.06)
        tall = re.search(r'class="pot" width="[\d.]+rem" height="([\d.]+)rem"', markup)
        assert tall and float(tall[1]) * 16 == pytest.approx(height * 1.6 + 14, abs=0.1)


def test_every_form_of_a_studio_is_drawn_at_one_scale_at_which_the_largest_fits() -> None:
    assert scale_of((MUG, PLATE)) == 1.6
    scale = scale_of(FORMS)
    assert scale * 600 <= 520
    assert scale_of(()) == scale_of((form("jug", NOT_KNOWN),)) == 1.6
    for band in EVERY["tested and calm"]:
        markup = str(profile(band.form, band, WORDS[Units.MM], small=True))
        if markup:
            wide, tall = (float(found) * 16 for found in re.findall(r'(?:width|height)="([\d.]+)rem"', markup))
            assert tall <= 128 and wide <= 240


def test_labels_keep_apart_and_as_near_as_can_be_to_what_they_name() -> None:
    assert spread([10.0, 50.0], [20.0, 20.0], 0, 100) == [10.0, 50.0]
    assert spread([10.0, 12.0, 14.0], [20.0, 40.0, 20.0], 0, 100) == [10.0, 40.0, 70.0]
    assert spread([95.0, 99.0], [20.0, 20.0], 0, 100) == [70.0, 90.0]


def test_each_ident_of_a_page_is_used_once() -> None:
    page = "".join(
        str(profile(band.form, band, WORDS[Units.MM], small=small)) for band in EVERY["untested and kept off"] for small in (False, True)
    )
    idents = re.findall(r' id="([^"]+)"', page)
    assert len(idents) == len(set(idents)) > 8
    assert set(re.findall(r"url\(#([^)]+)\)", page)) == set(idents)


# -- in print ---------------------------------------------------------------------------------------------------------------
def printed(shown_bands: tuple[Band, ...], scale: float = 0.3) -> str:
    made = [
        profile_for_print(band.form, band, WORDS[Units.MM], scale=scale, letters_mm=3, ident=f"p{n}")
        for n, band in enumerate(shown_bands)
    ]
    body = "".join(
        f'<div style="break-inside:avoid;width:{each.width_mm}mm">{each.drawing}</div><p>{" ".join(each.why_not)}</p>'
        for each in made
    )
    html = f'<!DOCTYPE html><html lang="en"><head><title>Pots</title></head><body><h1>Pots</h1>{body}</body></html>'
    assert _THEME is not None
    pdf, problems = sheet(html, theme=_THEME, style=("print-sheet.css",), files={}, path="print/pots.pdf")
    assert [each.message for each in problems if "alt" in each.message or "svg" in each.message.lower()] == []
    return " ".join(extract_text(io.BytesIO(pdf)).split())


def test_a_printed_profile_says_in_its_own_letters_what_the_page_says() -> None:
    for case in ("untested and kept off", "rims only", "runny and kept off"):
        said = printed(EVERY[case])
        for band in EVERY[case]:
            for label in shown(band) if band.form.height.value is not NOT_KNOWN else []:
                assert label in said, (case, band.form.id)
    said = printed((one(MUG, RIM, tile("T1", (A, RIM))),))
    assert "first glaze alone: down to 89 mm (3 1/2 in)" in said
    assert "inside: only in the top 25 mm (1 in)" in said


def test_a_printed_profile_says_why_there_is_no_useful_place() -> None:
    assert "5 mm (3/16 in) is left, 10 mm (3/8 in) is the least." in printed((one(form("cup", 75), RUNNY_NO),))
    assert printed((one(form("jug", NOT_KNOWN), B),)).endswith("Nobody has written down how tall this form is.")


def test_a_printed_profile_takes_nothing_from_a_style_sheet_and_is_read_aloud() -> None:
    band = one(MUG, NO)
    made = profile_for_print(MUG, band, WORDS[Units.MM], scale=0.4, letters_mm=3.5, ident="mug")
    assert "currentColor" not in made.drawing
    for tag in re.findall(r"<text[^>]*>", made.drawing):
        assert 'fill="#1f1d1a"' in tag and 'font-family="Atkinson Hyperlegible"' in tag and 'font-size="14.0"' in tag
    assert re.search(r'class="here" fill="#2b4c63"', made.drawing)
    assert texts(made.drawing, "title") == [
        "Mug: lip: keep clear 20 mm (13/16 in); here: 20 to 31 mm (13/16 to 1 3/16 in); bare foot 13 mm (1/2 in); "
        "first glaze alone: down to 89 mm (3 1/2 in); inside: keep it out"
    ]
    assert f'width="{made.width_mm:.2f}mm" height="{made.height_mm:.2f}mm"' in made.drawing


def test_printed_forms_share_a_scale_at_which_each_fits_its_room_and_none_is_larger_than_life() -> None:
    scale = print_scale(FORMS, tall_mm=60, wide_mm=80)
    assert scale == pytest.approx(0.1)
    assert print_scale((MUG,), tall_mm=400, wide_mm=400) == 1
    made = profile_for_print(MUG, one(MUG), WORDS[Units.MM], scale=scale, letters_mm=2, ident="mug")
    assert made.height_mm < 20


def test_a_rim_only_top_is_the_reason_where_its_reach_leaves_no_place() -> None:
    top = glaze("birch", goes_on=GoesOn.RIM_ONLY, food_label=FoodLabel.NO)
    found = one(MUG, top, tile("T1", (A, top)))
    made = profile_for_print(MUG, found, WORDS[Units.MM], scale=0.4, letters_mm=3, ident="mug")
    assert [each.rule for each in found.none] == ["P1", "P3"]
    assert made.why_not[1] == (
        "Birch goes on rims only, so it stays in the top 25 mm (1 in): 5 mm (3/16 in) is left, 10 mm (3/8 in) is the least."
    )
