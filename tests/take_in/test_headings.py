"""Which column a heading is. The words are common practice, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from combobook.take_in.headings import PERSON, glaze_column, log_column, near_log_column
from tests.take_in.classes import rows_of, said, taken

LOG = {
    "1st glaze": "base", "under glaze": "base", "Base": "base", "First Glaze": "base", "Which glaze went on first?": "base",
    "glaze on top": "top", "2nd glaze": "top", "over-glaze": "top", "Top glaze": "top",
    "# coats": "coats", "How many coats?": "coats", "# of coats (1st glaze)": "base coats",
    "Number of coats of the top glaze": "top coats", "Coats – base": "base coats", "Base lot": "base lot",
    "Tile #": "tile", "Test tile no.": "tile", "kiln load": "firing", "Firing": "firing", "Shelf": "kiln shelf",
    "Clay body": "clay", "Stood (upright/flat)": "stood", "How far did it run?": "ran", "Run (mm)": "ran mm",
    "RAN IN": "ran in", "Drip (cm)": "ran cm", "Defects": "faults", "Any faults?": "faults", "Notes": "looks",
    "What does it look like?": "looks", "Picture": "photo",
    "Student": PERSON, "Name": PERSON, "E-mail": PERSON, "Email Address": PERSON, "Made by": PERSON, "Phone number": PERSON,
    "Timestamp": None, "underglaze": None, "Table": None, "lot": None,
}  # fmt: skip


@pytest.mark.parametrize("heading", LOG)
def test_a_heading_of_a_log_is_known_by_its_words(heading: str) -> None:
    assert log_column(heading) == LOG[heading]


def test_a_misspelt_heading_is_near_to_one_and_another_material_or_unit_is_not() -> None:
    near = {h: near_log_column(h) for h in ("Firng", "fautls", "kiln shlef", "underglaze", "ran cn", "Table", "Timestamp")}
    assert near == {"Firng": "firing", "fautls": "faults", "kiln shlef": "kiln shelf", "underglaze": None,
                    "ran cn": None, "Table": None, "Timestamp": None}  # fmt: skip


def test_a_column_that_calls_a_glaze_safe_is_not_read_as_what_its_label_says() -> None:
    assert [glaze_column(h) for h in ("Food safe?", "Food label", "Brand")] == [None, "food label", "maker"]


def test_coats_belong_to_the_glaze_to_their_left(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "Tile,1st glaze,# coats,2nd glaze,# coats\nC1,FR,2,PL,3\n")
    assert said(done) == []
    assert rows_of(folder / "logs/2026-autumn-1.csv") == [
        {"tile": "C1", "base": "ferry-rust", "base coats": "2", "top": "pond-lantern", "top coats": "3"}
    ]


def test_coats_in_one_column_are_parted_and_a_bare_number_beside_two_glazes_is_doubtful(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "tile,base,top,coats\nC1,FR,PL,2 + 1\nC2,FR,,2\nC3,FR,PL,3\n")
    assert said(done) == ["4:10 coats-due"]
    assert done.problems[0].message == "`3` coats of which glaze? This row has two"
    assert [(r["base coats"], r.get("top coats")) for r in rows_of(folder / "logs/2026-autumn-1.csv")] == [
        ("2", "1"),
        ("2", None),
    ]


def test_how_headings_were_read_is_kept_for_the_teacher_to_edit(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "Tile #,1st glaze,base coats,Fautls\nC1,FR,2,none\n")
    assert said(done) == ["1:29 column-guessed"]
    kept = (folder / "logs/columns.yaml").read_text().splitlines()
    assert [line for line in kept if not line.startswith("#")] == [
        "columns:", '  "Tile #": tile', '  "1st glaze": base', '  "Fautls": faults',
    ]  # fmt: skip


def test_a_column_that_nobody_knows_is_named_and_its_cells_are_not_taken_in(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "tile,base,base coats,Mood of the kiln\nC1,FR,2,grumpy\nC2,XX,2,calm\n")
    assert said(done) == ["1:22 unknown-column", "3:4 unknown-glaze"]
    assert done.problems[0].help.endswith('content/logs/columns.yaml:\ncolumns:\n  "Mood of the kiln": leave out')
    assert "grumpy" not in (folder / "logs/2026-autumn-1.csv").read_text()
    assert rows_of(tmp_path / "class-doubtful.csv")[0]["Mood of the kiln"] == "calm"


def test_without_a_column_of_tiles_nothing_is_taken_in(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "Thing,base,base coats\nC1,FR,2\n")
    assert [(p.code, p.message) for p in done.problems if p.is_error] == [("missing-column", "no column is read as `tile`")]
    assert done.stopped == "nothing was taken in: the columns cannot be told"
    assert sorted(p.name for p in (folder / "logs").iterdir()) == ["autumn.csv"]


def test_two_columns_by_which_a_tile_is_known_stop_it(tmp_path: Path) -> None:
    done, _ = taken(tmp_path, "tile,first glaze,1st glaze,base coats\nC1,FR,PL,2\n")
    assert [p.message for p in done.problems if p.is_error] == ["`1st glaze` and `first glaze` are both read as `base`"]


def test_a_columns_own_name_goes_before_another_word_for_it(tmp_path: Path) -> None:
    done, folder = taken(tmp_path, "Code,tile,base,base coats,Colour,Notes\nX1,C1,FR,2,green,runny\n")
    assert [(p.place.column, p.message) for p in done.problems] == [
        (1, "`tile` is read as `tile`, and the cells of `Code` stay where they are"),
        (34, "`Colour` is read as `looks`, and the cells of `Notes` stay where they are"),
    ]
    assert rows_of(folder / "logs/2026-autumn-1.csv") == [
        {"tile": "C1", "base": "ferry-rust", "base coats": "2", "looks": "green"}
    ]
