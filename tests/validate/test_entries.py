"""Entries of every kind: each field lands where it belongs, with its place, its default, and its *not known*."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction

import pytest

from combobook.cones import Cone, ConeRange
from combobook.entries import (
    NOT_KNOWN,
    ClayShows,
    DoubtfulRule,
    Flow,
    FoodLabel,
    FoodRule,
    GoesOn,
    Inside,
    KilnShelf,
    Limits,
    Status,
    Surface,
    Tone,
    Units,
    Ware,
)
from combobook.measures import CoatRange, Coats, Reading, Span
from combobook.problems import Place
from tests.reading.reader import codes, entries_of, glaze

STUDIO = "studio: Reed Lane\nedition: 2026 Autumn\ncone: 6\n"


def test_a_studio_with_the_least_takes_every_default() -> None:
    entries, problems = entries_of({"studio.yaml": STUDIO})
    studio = entries.studio
    assert problems == () and studio is not None
    assert (studio.name.value, studio.edition.value, studio.cone.value) == ("Reed Lane", "2026 Autumn", Cone(54))
    assert studio.date.value is NOT_KNOWN
    assert studio.food_rule.value is FoodRule.ONE_GLAZE_ALONE
    assert studio.doubtful.value is DoubtfulRule.BELOW_THE_LIP
    assert studio.most_coats.value == 3
    assert studio.usual_coats.value is NOT_KNOWN
    assert studio.rim_band.value == Span(Fraction(13), Fraction(25))
    assert studio.lip.value == 20
    assert studio.foot_margin.value == Span(Fraction(6), Fraction(13))
    assert studio.run_factor.value == 2
    assert studio.read_from.value == 2000
    assert (studio.chart_paper.value.width, studio.chart_paper.value.height) == (Fraction("609.6"), Fraction("914.4"))
    assert (studio.paper.value.width, studio.paper.value.height) == (Fraction("215.9"), Fraction("279.4"))
    assert studio.units.value is Units.MM
    assert studio.address.value is NOT_KNOWN
    assert studio.house_rules == ()
    assert (studio.theme.value, studio.language.value) == ("daylight", "en")
    assert not any(written.stated for written in (studio.lip, studio.date, studio.theme))
    assert studio.lip.place == Place(path="studio.yaml", line=1)


def test_blank_and_question_mark_take_the_studio_default() -> None:
    entries, problems = entries_of({"studio.yaml": STUDIO + "lip: ?\nmost coats:\nunits: not known\n"})
    assert problems == () and entries.studio is not None
    assert (entries.studio.lip.value, entries.studio.most_coats.value, entries.studio.units.value) == (20, 3, Units.MM)
    assert not entries.studio.lip.stated
    assert entries.studio.lip.field_line == 4


def test_a_studio_says_all_it_can() -> None:
    text = STUDIO + (
        "date: 2026-11-02\nfood rule: lab reports only\ndoubtful glazes on food ware: never\nmost coats: 4\nusual coats: 2 + 1\n"
        "rim band: 1/2 to 1 in\nlip: 25 mm\nfoot margin: 6 mm\nrun factor: 1.5\nlabels read: 2026-09-01\nread from: 6 ft\n"
        "chart paper: A1\npaper: A4\nunits: in\naddress: https://glazes.example\nhouse rules:\n  - No dry sweeping.\n  - Ask first.\n"
        "theme: evening\nlanguage: de\n"
    )
    entries, problems = entries_of({"studio.yaml": text})
    studio = entries.studio
    assert problems == () and studio is not None
    assert studio.date.value == dt.date(2026, 11, 2)
    assert (studio.food_rule.value, studio.doubtful.value) == (FoodRule.LAB_REPORTS_ONLY, DoubtfulRule.NEVER)
    assert (studio.most_coats.value, studio.usual_coats.value) == (4, Coats(2, 1))
    assert studio.rim_band.value == Span(Fraction("12.7"), Fraction("25.4"))
    assert (studio.lip.value, studio.foot_margin.value) == (25, Span(Fraction(6), Fraction(6)))
    assert (studio.run_factor.value, studio.read_from.value) == (Fraction(3, 2), Fraction("1828.8"))
    assert (studio.chart_paper.value.name, studio.paper.value.name) == ("A1", "A4")
    assert [rule.value for rule in studio.house_rules] == ["No dry sweeping.", "Ask first."]
    assert studio.house_rules[1].place == Place(path="studio.yaml", line=21, column=5)


@pytest.mark.parametrize("field", ["studio", "edition", "cone"])
@pytest.mark.parametrize("value", ["", "?", "Not known"])
def test_a_studio_needs_its_name_its_edition_and_its_cone(field: str, value: str) -> None:
    lines = [f"{field}: {value}" if line.startswith(field) else line for line in STUDIO.split("\n")]
    entries, problems = entries_of({"studio.yaml": "\n".join(lines)})
    assert entries.studio is None
    assert codes(problems) == ["must-be-known"]


def test_a_glaze_says_all_it_can() -> None:
    text = glaze(
        "cone: 5 to 6", "food label: conditional", "label says: non-toxic and food safe when used alone", "label read: 2026-09-01",
        "data sheet: 2025-02-03", "flow: runny", "goes on: rim only", "rim band: 10 to 20 mm", "coats: 2 to 3", "surface: satin",
        "clay shows: partly", "looks: blue-grey", "handling:", "  - non-toxic", "  - avoid dust", "status: running low", "lot: 0044",
        "retest since: 2026-01-01", "left: 250 ml", "jar: 1 pint", "covers: 5 m2", "maker: a neighbour", "was: old-rust",
    )  # fmt: skip
    entries, problems = entries_of({"glazes/ferry-rust.md": text + "Body\n"})
    (found,) = entries.glazes
    assert problems == ()
    assert (found.id, found.name.value, found.mark.value) == ("ferry-rust", "Ferry Rust", "FR")
    assert found.cone.value == ConeRange(Cone(52), Cone(54))
    assert (found.food_label.value, found.flow.value) == (FoodLabel.CONDITIONAL, Flow.RUNNY)
    assert (found.goes_on.value, found.rim_band.value) == (GoesOn.RIM_ONLY, Span(Fraction(10), Fraction(20)))
    assert (found.coats.value, found.surface.value, found.clay_shows.value) == (CoatRange(2, 3), Surface.SATIN, ClayShows.PARTLY)
    assert [words.value for words in found.handling] == ["non-toxic", "avoid dust"]
    assert (found.status.value, found.lot.value, found.retest_since.value) == (Status.RUNNING_LOW, "0044", dt.date(2026, 1, 1))
    assert (found.left.value, found.covers.value, found.was.value) == (Fraction(1, 4), 5, "old-rust")
    assert found.food_label.place == Place(path="glazes/ferry-rust.md", line=5, column=13)
    assert found.food_label.at == Place(path="glazes/ferry-rust.md", line=5)
    assert (found.body.text, found.body.line) == ("Body\n", 28)


def test_a_glaze_with_the_least_knows_nothing_more() -> None:
    entries, problems = entries_of({"glazes/ferry-rust.md": glaze()})
    (found,) = entries.glazes
    assert problems == ()
    assert found.goes_on.value is GoesOn.ANYWHERE and not found.rim_only
    assert found.status.value is Status.IN_USE
    assert found.food_label.value is NOT_KNOWN and not found.food_label.stated
    # An absent field stands at the glaze's `name` line.
    assert found.food_label.at == Place(path="glazes/ferry-rust.md", line=2)


@pytest.mark.parametrize("value", ["", "?", "not known"])
def test_goes_on_not_known_counts_as_rim_only(value: str) -> None:
    entries, problems = entries_of({"glazes/ferry-rust.md": glaze(f"goes on: {value}")})
    assert problems == ()
    assert entries.glazes[0].goes_on.value is NOT_KNOWN and entries.glazes[0].rim_only
    assert entries.glazes[0].goes_on.field_line == 4


def test_a_value_is_text_until_its_field_reads_it() -> None:
    entries, problems = entries_of({"glazes/a.md": "---\nname: 06\nmark: no\nlot: 10:30\nlooks: 1e3\n---\n"})
    (found,) = entries.glazes
    assert problems == ()
    assert (found.name.value, found.mark.value, found.lot.value, found.looks.value) == ("06", "no", "10:30", "1e3")


def test_a_refused_field_is_not_known_and_says_so_to_later_stages() -> None:
    entries, problems = entries_of({"glazes/a.md": glaze("label read: yesterday")})
    assert codes(problems) == ["bad-date"]
    assert entries.glazes[0].label_read.value is NOT_KNOWN
    assert entries.refused == {("glazes/a.md", "label read")}


def test_a_glaze_without_a_mark_is_withheld_under_every_name_it_goes_by() -> None:
    entries, problems = entries_of({"glazes/ferry-rust.md": "---\nname: Old Rust\nmark: F R\n---\n"})
    assert codes(problems) == ["bad-mark"]
    assert entries.glazes == ()
    assert {("glazes", "ferry-rust"), ("glazes", "ferry rust"), ("glazes", "old rust"), ("glazes", "f r")} <= entries.withheld


def test_a_file_that_cannot_be_parsed_is_withheld_by_what_can_be_made_out() -> None:
    entries, problems = entries_of({"glazes/a.md": "name: Ferry Rust\nmark: FR\n", "combinations/x-over-y.md": "no fence"})
    assert codes(problems) == ["no-front-matter"] * 2
    assert {("glazes", "a"), ("glazes", "ferry rust"), ("glazes", "fr")} <= entries.withheld
    assert entries.withheld_layerings == (("y", "x"),)


def test_a_combination_says_all_it_can() -> None:
    text = "---\nbase: FR\ntop: pond lantern\ncoats: 2 + 1\nname: Dusk\nlooks: blue\nphoto: b1.jpg\non chart: no\nkeep off food: crazes\n---\n"
    entries, problems = entries_of({"combinations/a.md": text})
    (found,) = entries.combinations
    assert problems == ()
    assert (found.base.value, found.top.value, found.coats.value) == ("FR", "pond lantern", Coats(2, 1))
    assert (found.name.value, found.looks.value, found.photo.value) == ("Dusk", "blue", "b1.jpg")
    assert (found.on_chart.value, found.keep_off_food.value) == (False, "crazes")


@pytest.mark.parametrize("value", ["", "?", "not known"])
def test_keep_off_food_without_a_known_reason_counts(value: str) -> None:
    entries, problems = entries_of({"combinations/a.md": f"---\nbase: A\ntop: B\nkeep off food: {value}\n---\n"})
    assert problems == ()
    assert entries.combinations[0].keep_off_food.value == ""
    assert entries.combinations[0].keep_off_food.at == Place(path="combinations/a.md", line=4)


def test_an_absent_keep_off_food_is_no_reason_and_the_chart_is_the_default() -> None:
    entries, problems = entries_of({"combinations/a.md": "---\nbase: A\ntop: B\n---\n"})
    assert problems == ()
    assert entries.combinations[0].keep_off_food.value is None
    assert entries.combinations[0].on_chart.value is True
    # What is absent stands at the `base` line.
    assert entries.combinations[0].coats.at == Place(path="combinations/a.md", line=2)


@pytest.mark.parametrize("field", ["food", "Food", "food level", "food_safe", "verdict", "class", "stable", "safe", "margin"])
def test_no_field_of_a_combination_makes_a_verdict_kinder(field: str) -> None:
    _, problems = entries_of({"combinations/a.md": f"---\nbase: A\ntop: B\n{field}: yes\n---\n"})
    assert codes(problems) == ["loosens-verdict"]
    assert "stricter, never kinder" in problems[0].message


def test_clay_form_firing_and_page() -> None:
    entries, problems = entries_of(
        {
            "clays/a.md": "---\nname: Quarry\nmark: QW\ncone: 5 to 7\ntone: mid\nlooks: speckled\n---\n",
            "forms/a.md": "---\nname: Mug\nheight: 9.5 cm\nholds food: yes\ninside: open\narea: 350 cm2\n---\n",
            "forms/b.md": "---\nname: Bowl\n---\n",
            "firings/f01.md": "---\ncone: 6\ndate: 2026-10-14\nkiln: big\nrate: 60 C/h\npeak: 2232 F\nhold: 10 min\ncooling: slow\n"
            "witness:\n  Lower: 6\n  upper: 6 1/2\n  middle: ?\n---\n",
            "pages/a.md": "---\ntitle: Safety\n---\n# Other\n",
            "pages/b.md": "---\n---\n\nIntro\n\n## Who to *ask*\n",
            "pages/how-we-glaze.md": "---\ntitle: ?\n---\ntext\n",
        }
    )
    assert problems == ()
    clay, (mug, bowl), firing = entries.clays[0], entries.forms, entries.firings[0]
    assert (clay.mark.value, clay.tone.value) == ("QW", Tone.MID)
    assert (mug.height.value, mug.holds_food.value, mug.inside.value, mug.area.value) == (95, True, Inside.OPEN, Fraction(350, 10_000))
    assert (bowl.height.value, bowl.holds_food.value, bowl.inside.value) == (NOT_KNOWN, NOT_KNOWN, Inside.HOLLOW)
    assert (firing.rate.value, firing.peak.value, firing.hold.value) == (60, Fraction(11000, 9), 10)
    assert [(shelf, cone.value, cone.field_line) for shelf, cone in firing.witness] == [
        (KilnShelf.UPPER, Cone(55), 11), (KilnShelf.LOWER, Cone(54), 10),
    ]  # fmt: skip
    assert [page.title.value for page in entries.pages] == ["Safety", "Who to ask", "How we glaze"]
    assert entries.pages[1].title.place.line == 6


def test_a_lab_report_on_a_layering_and_on_one_glaze() -> None:
    entries, problems = entries_of(
        {
            "lab/a.md": "---\nbase: FR\ntop: PL\nware: cup or mug\nlimits: eu 84/500\ncoats: 2 + 1\nclay: QW\ncone: 6\n"
            "lead:\n  - 0.02 mg/L\n  - <0.01 mg/L\ncadmium: 0.01 mg/L\nmethod: by hand\nlab: a lab\ndate: 2026-03-04\n---\n",
            "lab/b.md": "---\nglaze: FR\nware: flatware\nlimits: FDA\ncoats: 2\nlead: ?\n---\n",
        }
    )
    assert problems == ()
    layering, alone = entries.reports
    assert layering.base and layering.top and layering.glaze is None
    assert (layering.ware.value, layering.limits.value, layering.coats.value) == (Ware.CUP_OR_MUG, Limits.EU, Coats(2, 1))
    assert layering.lead.value == (Reading(Fraction("0.02"), "mg/L", False), Reading(Fraction("0.01"), "mg/L", True))
    assert len(layering.cadmium.value) == 1
    assert alone.glaze and alone.base is None and alone.top is None
    assert (alone.coats.value, alone.lead.value, alone.cadmium.value) == (2, (), ())


@pytest.mark.parametrize(
    ("folder", "text", "missing"),
    [
        ("glazes", "mark: A", 1), ("glazes", "name: A", 1), ("combinations", "base: A", 1), ("combinations", "top: A", 1), ("clays", "cone: 6", 1),
        ("forms", "height: 1 mm", 1), ("firings", "kiln: A", 1), ("lab", "glaze: A", 2), ("glazes", "cone: 6", 2),
    ],
)  # fmt: skip
def test_what_is_required_must_be_there(folder: str, text: str, missing: int) -> None:
    _, problems = entries_of({f"{folder}/a.md": f"---\n{text}\n---\n"})
    assert codes(problems) == ["missing-field"] * missing


def test_every_problem_of_every_file_comes_out_in_one_run() -> None:
    _, problems = entries_of(
        {
            "studio.yaml": STUDIO.replace("6", "60") + "lip: 3 mm\nunits: feet\n",
            "glazes/a.md": glaze("handling: Warning: may run", "cone: 6 to 5", "flow: stabel", "colour: blue"),
            "glazes/b.md": "no front matter",
        }
    )
    assert codes(problems) == [
        "yaml-syntax", "range-reversed", "not-one-of", "unknown-key", "no-front-matter", "bad-cone", "lip-too-small", "not-one-of",
    ]  # fmt: skip


def test_what_yaml_refuses_is_read_as_the_quoted_line_would_be() -> None:
    entries, problems = entries_of({"glazes/a.md": glaze("handling: Warning: may run", "looks: @dusk", "lot: 'tis")})
    assert codes(problems) == ["yaml-syntax"] * 3
    (found,) = entries.glazes
    assert [words.value for words in found.handling] == ["Warning: may run"]
    assert (found.looks.value, found.lot.value) == ("@dusk", "'tis")


def test_whole_line_comments_and_quoted_hashes_drop_nothing() -> None:
    entries, problems = entries_of({"glazes/a.md": glaze("# a comment", 'looks: "same as jar #4"', "lot: 4#4", "coats: # to do", "handling:", "  # more")})
    assert problems == ()
    assert entries.glazes[0].looks.value == "same as jar #4"
    assert entries.glazes[0].lot.value == "4#4"


def test_line_ends_of_every_kind_and_other_breaks_keep_the_places() -> None:
    entries, problems = entries_of({"glazes/a.md": glaze("looks: blue\u2028grey", "flow: stabel")})
    assert [(p.place.line, p.place.column) for p in problems] == [(5, 7)]
    assert entries.glazes[0].looks.value == "blue grey"


@pytest.mark.parametrize("field", ["Mark", "marks", " mrak", "mark "])
def test_a_misspelt_field_is_not_missing_a_second_time(field: str) -> None:
    entries, problems = entries_of({"glazes/a.md": f"---\nname: A\n'{field}': A\nlabel raed: 2026-01-01\n---\n"})
    assert codes(problems)[-1:] == ["unknown-key"]
    assert set(codes(problems)) == {"unknown-key"}
    assert ("glazes/a.md", "label read") in entries.refused
