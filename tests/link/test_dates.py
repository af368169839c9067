"""Dates and labels: the edition's own date, what lies after it, and what nobody has read for two years."""

from __future__ import annotations

import datetime as dt

import pytest

from combobook.entries import NOT_KNOWN
from tests.studios import GOOD_FILES, entry, glaze, make_with, said

GOOD_STUDIO = GOOD_FILES["studio.yaml"]
WITHOUT_DATE = GOOD_STUDIO.replace("date: 2026-11-02\n", "")
WITHOUT_LABELS_READ = GOOD_STUDIO.replace("labels read: 2026-09-01\n", "")
NEITHER = WITHOUT_DATE.replace("labels read: 2026-09-01\n", "")
PL = "glazes/pond-lantern.md"


def test_an_edition_without_a_date_takes_the_newest_in_the_content_with_a_warning() -> None:
    book, problems = make_with({"studio.yaml": WITHOUT_DATE})
    assert (book.studio.date.value, book.studio.date.stated) == (dt.date(2026, 10, 14), False)
    assert said(problems) == ["studio.yaml:1:1 warning no-edition-date"]
    assert "2026-10-14" in problems[0].message


def test_an_edition_whose_date_nobody_knows_says_so_at_the_words() -> None:
    book, problems = make_with({"studio.yaml": GOOD_STUDIO.replace("date: 2026-11-02", "date: not known")})
    assert book.studio.date.value == dt.date(2026, 10, 14)
    assert said(problems) == ["studio.yaml:4:7 warning no-edition-date"]


def test_where_no_date_is_written_anywhere_none_is_made_up() -> None:
    undated = {path: text.replace("data sheet: 2026-09-01\n", "").replace("date: 2026-10-14\n", "") for path, text in GOOD_FILES.items()}
    book, problems = make_with({**undated, "studio.yaml": NEITHER})
    assert book.studio.date.value is NOT_KNOWN
    assert [p.code for p in problems] == ["data-sheet-not-read", "label-not-read"] * 2 + ["no-edition-date"]


def test_a_date_that_could_not_be_read_is_one_problem_and_the_newest_stands_for_it() -> None:
    book, problems = make_with({"studio.yaml": GOOD_STUDIO.replace("2026-11-02", "2026-02-31")})
    assert said(problems) == ["studio.yaml:4:7 error impossible-date"]
    assert book.studio.date.value == dt.date(2026, 10, 14)


@pytest.mark.parametrize(
    ("path", "text", "line"),
    [
        (PL, glaze("Pond Lantern", "PL", "label read: 2026-11-03"), 6),
        (PL, glaze("Pond Lantern", "PL", "retest since: 2026-11-03"), 6),
        (PL, entry("name: Pond Lantern", "mark: PL", "cone: 6", "food label: yes", "flow: moves", "data sheet: 2026-11-03"), 7),
        ("firings/f01.md", entry("cone: 6", "date: 2026-11-03"), 3),
        ("lab/a.md", entry("glaze: PL", "ware: pitcher", "limits: FDA", "date: 2026-11-03"), 5),
        ("studio.yaml", GOOD_STUDIO.replace("labels read: 2026-09-01", "labels read: 2026-11-03"), 5),
    ],
)
def test_a_date_after_the_editions_is_a_warning(path: str, text: str, line: int) -> None:
    _, problems = make_with({path: text})
    assert [(p.place.at, p.severity.value, p.code) for p in problems] == [(f"{path}:{line}", "warning", "date-after-edition")]
    assert make_with({path: text.replace("2026-11-03", "2026-11-02")})[1] == ()


@pytest.mark.parametrize("field", ["label read", "data sheet"])
def test_a_label_or_data_sheet_is_old_from_the_day_after_two_years(field: str) -> None:
    code = "label-not-read" if field == "label read" else "data-sheet-not-read"
    assert make_with({PL: glaze("Pond Lantern", "PL", f"{field}: 2024-11-02")})[1] == ()
    _, problems = make_with({PL: glaze("Pond Lantern", "PL", f"{field}: 2024-11-01")})
    assert [(p.severity.value, p.code) for p in problems] == [("warning", code)]


def test_two_years_before_a_leap_day_is_the_last_of_february() -> None:
    leap = GOOD_STUDIO.replace("2026-11-02", "2028-02-29").replace("2026-09-01", "2027-09-01")
    change = {"studio.yaml": leap, "glazes/ferry-rust.md": glaze("Ferry Rust", "FR")}
    assert make_with({**change, PL: glaze("Pond Lantern", "PL", "label read: 2026-02-28")})[1] == ()
    _, problems = make_with({**change, PL: glaze("Pond Lantern", "PL", "label read: 2026-02-27")})
    assert said(problems) == [f"{PL}:6:13 warning label-not-read"]


def test_a_label_nobody_has_read_is_a_warning_at_the_glazes_name() -> None:
    _, problems = make_with({"studio.yaml": WITHOUT_LABELS_READ, "glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "label read: 2026-09-01")})
    assert said(problems) == [f"{PL}:2:1 warning label-not-read"]


def test_a_data_sheet_nobody_has_is_a_warning_at_the_glazes_name() -> None:
    _, problems = make_with({PL: entry("name: Pond Lantern", "mark: PL", "cone: 6")})
    assert said(problems) == [f"{PL}:2:1 warning data-sheet-not-read"]


def test_the_studios_labels_read_stands_for_a_label_read_nobody_knows() -> None:
    assert make_with({PL: glaze("Pond Lantern", "PL", "label read: ?")})[1] == ()


def test_the_studios_old_labels_read_is_one_warning_however_many_glazes_lean_on_it() -> None:
    _, problems = make_with({"studio.yaml": GOOD_STUDIO.replace("labels read: 2026-09-01", "labels read: 2024-09-01")})
    assert said(problems) == ["studio.yaml:5:14 warning labels-not-read"]


def test_the_studios_old_labels_read_is_nothing_where_every_label_has_its_own() -> None:
    own = {f"glazes/{n.lower().replace(' ', '-')}.md": glaze(n, m, "label read: 2026-09-01") for n, m in (("Ferry Rust", "FR"), ("Pond Lantern", "PL"))}
    old = {"studio.yaml": GOOD_STUDIO.replace("labels read: 2026-09-01", "labels read: 2024-09-01")}
    assert make_with({**own, **old})[1] == ()


def test_nobody_needs_to_read_the_label_of_a_retired_glaze() -> None:
    _, problems = make_with({"studio.yaml": WITHOUT_LABELS_READ, **{f"glazes/{n}.md": glaze(n.title(), n.upper(), "label read: 2026-09-01") for n in ("fr", "pl")},
                             "glazes/old.md": entry("name: Old Jar", "mark: OJ", "cone: 6", "status: retired")}, without=[PL, "glazes/ferry-rust.md"])  # fmt: skip
    assert problems == ()


def test_a_label_read_that_could_not_be_read_is_one_problem() -> None:
    _, problems = make_with({"studio.yaml": WITHOUT_LABELS_READ, "glazes/ferry-rust.md": glaze("Ferry Rust", "FR", "label read: 2026-09-01"),
                             PL: glaze("Pond Lantern", "PL", "label read: last spring")})  # fmt: skip
    assert said(problems) == [f"{PL}:6:13 error bad-date"]


def test_a_studios_labels_read_that_could_not_be_read_is_one_problem() -> None:
    _, problems = make_with({"studio.yaml": GOOD_STUDIO.replace("labels read: 2026-09-01", "labels read: last spring")})
    assert said(problems) == ["studio.yaml:5:14 error bad-date"]
