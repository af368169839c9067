"""Rows of a log: columns in any order, cells by their kinds, and what a spreadsheet or a person left there."""

from __future__ import annotations

from fractions import Fraction

import pytest

from combobook.entries import NOT_KNOWN, OFF_THE_TILE, Entries, Fault, KilnShelf, LogRow, Stood
from combobook.problems import Place, Problem
from tests.reading.reader import codes, entries_of

HEADER = "tile,base,base coats,top,top coats,clay,firing,kiln shelf,stood,ran,faults"


def log(*rows: str, header: str = HEADER) -> tuple[Entries, tuple[Problem, ...]]:
    return entries_of({"logs/a.csv": "\n".join([header, *rows, ""])})


def one(row: str, header: str = HEADER) -> LogRow:
    """The one row, which must have no problem."""
    entries, problems = log(row, header=header)
    assert problems == ()
    (found,) = entries.rows
    return found


def test_a_full_row() -> None:
    found = one(
        'B117,FR,2,PL,1,Quarry,f01,Upper,upright,4 mm,"pinholes; crazing",blue,b.jpg,44,45',
        header=HEADER + ",looks,photo,base lot,top lot",
    )
    assert (found.tile.value, found.base.value, found.base_coats.value) == ("B117", "FR", 2)
    assert found.top and found.top.value == "PL" and found.top_coats and found.top_coats.value == 1
    assert (found.kiln_shelf.value, found.stood.value, found.ran.value) == (KilnShelf.UPPER, Stood.UPRIGHT, 4)
    assert found.faults.value == (Fault.PINHOLES, Fault.CRAZING)
    assert (found.looks.value, found.photo.value, found.base_lot.value, found.top_lot.value) == ("blue", "b.jpg", "44", "45")
    assert found.place == Place(path="logs/a.csv", line=2)
    assert found.ran.place == Place(path="logs/a.csv", line=2, column=41)


def test_a_row_of_one_glaze_alone_with_nothing_else_known() -> None:
    found = one("B1,FR,2,,,,,,,,")
    assert found.top is None and found.top_coats is None
    for cell in (found.clay, found.firing, found.kiln_shelf, found.stood, found.ran, found.faults, found.looks):
        assert cell.value is NOT_KNOWN and not cell.stated


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_comma_semicolon_and_tab(delimiter: str) -> None:
    row = "B1,FR,2,PL,1,,,,,,none".replace(",", delimiter)
    assert one(row, header=HEADER.replace(",", delimiter)).faults.value == ()


def test_columns_in_any_order_letter_case_and_spacing() -> None:
    names = HEADER.split(",")
    header = ",".join(f" {name.upper()} " for name in reversed(names))
    assert one(",".join(reversed(["B1", "FR", "2", "", "", "", "", "", "flat", "", ""])), header=header).stood.value is Stood.FLAT


@pytest.mark.parametrize(
    ("cell", "value"),
    [("", NOT_KNOWN), ("?", NOT_KNOWN), ("no", Fraction(0)), ("0", Fraction(0)), ("0 mm", Fraction(0)), ("No", Fraction(0)),
     ("off the tile", OFF_THE_TILE), ("Off The Tile", OFF_THE_TILE), ("1.5 cm", Fraction(15)), ('"1/4"" "', Fraction("6.35"))],
)  # fmt: skip
def test_how_far_it_ran(cell: str, value: object) -> None:
    assert one(f"B1,FR,2,,,,,,upright,{cell},").ran.value == value


def test_bare_numbers_under_ran_mm_and_ran_in() -> None:
    assert one("B1,FR,2,,,,,,,2.5,", header=HEADER.replace("ran", "ran mm")).ran.value == Fraction("2.5")
    assert one("B1,FR,2,,,,,,,1/2,", header=HEADER.replace("ran", "ran in")).ran.value == Fraction("12.7")
    assert one("B1,FR,2,,,,,,,no,", header=HEADER.replace("ran", "ran in")).ran.value == 0


def test_a_decimal_comma_reads_in_a_file_with_semicolons() -> None:
    assert one("B1;FR;2;;;;;;;1,5 cm;".replace(",", ","), header=HEADER.replace(",", ";")).ran.value == 15
    _, problems = log('B1,FR,2,,,,,,,"1,5 cm",')
    assert codes(problems) == ["bad-run"]


@pytest.mark.parametrize(
    ("cell", "code"),
    [("2", "no-unit"), ("-2 mm", "negative"), ("a bit", "bad-run"), ("2 kg", "bad-unit"), ("yes", "bad-run"), ("2-3 mm", "bad-run")],
)  # fmt: skip
def test_what_is_no_run(cell: str, code: str) -> None:
    entries, problems = log(f"B1,FR,2,,,,,,,{cell},")
    assert codes(problems) == [code]
    assert entries.refused == {("logs/a.csv:2", "ran")}


@pytest.mark.parametrize(
    ("cell", "value"),
    [("none", ()), ("None", ()), ("pinholes", (Fault.PINHOLES,)), ('"pinholes, bare patches"', (Fault.PINHOLES, Fault.BARE_PATCHES)),
     ("dry;dry; ", (Fault.DRY,)), ("?", NOT_KNOWN)],
)  # fmt: skip
def test_faults(cell: str, value: object) -> None:
    assert one(f"B1,FR,2,,,,,,,,{cell}").faults.value == value


@pytest.mark.parametrize("code", ["B117", "b1", "AB-12", "ABCD12345", "T0"])
def test_tile_codes(code: str) -> None:
    assert one(f"{code},FR,2,,,,,,,,").tile.value == code


@pytest.mark.parametrize("code", ["MAR-3", "SEP12", "Dec5", "jan-31", "JUN-2026", "Sept-9"])
def test_a_code_that_a_spreadsheet_reads_as_a_date_is_warned_of_and_kept(code: str) -> None:
    entries, problems = log(f"{code},FR,2,,,,,,,,")
    assert codes(problems) == ["tile-reads-as-date"] and not problems[0].is_error
    assert entries.rows[0].tile.value == code


@pytest.mark.parametrize("cell", ["Robin", "Robin M.", "robin@clay.example", "Ana Lía", "O'Neil Kim", "555-123-4567", "Robin 2", "Oliver3"])
def test_a_person_in_a_tile_cell(cell: str) -> None:
    entries, problems = log(f"{cell},FR,2,,,,,,,,")
    assert codes(problems) == ["tile-is-a-name"]
    assert entries.rows == ()


@pytest.mark.parametrize("cell", ["117", "B-", "B 117", "B123456", "B_1", "ABCDE", "é1"])
def test_what_is_no_tile_code(cell: str) -> None:
    _, problems = log(f"{cell},FR,2,,,,,,,,")
    assert [problem.code in ("bad-tile", "tile-is-a-name") for problem in problems] == [True]


@pytest.mark.parametrize("cell", ["2-Sep", "1-Feb-26", "02/09/2026", "2026-09-02", "2026-09-02 00:00:00", "#REF!", "#NAME?", "#N/A", "1.2E+05", "45913"])
def test_a_tile_cell_that_a_spreadsheet_changed(cell: str) -> None:
    entries, problems = log(f"{cell},FR,2,,,,,,,,")
    assert codes(problems) == ["mangled-cell"]
    assert ("tiles", cell.casefold()) in entries.withheld


@pytest.mark.parametrize("column", ["base coats", "kiln shelf", "stood", "ran", "faults", "firing", "clay", "looks", "base lot"])
def test_a_short_date_is_found_in_any_cell(column: str) -> None:
    names = [*HEADER.split(","), "looks", "base lot"]
    cells = dict.fromkeys(names, "") | {"tile": "B1", "base": "FR", "base coats": "2"} | {column: "2-Sep"}
    _, problems = log(",".join(cells.values()), header=",".join(names))
    assert codes(problems) == ["mangled-cell"]


def test_a_firing_named_by_its_day_and_a_lot_by_its_month_are_names() -> None:
    found = one("B1,FR,2,,,,2026-10-14,,,,,2026-03", header=HEADER + ",base lot")
    assert (found.firing.value, found.base_lot.value) == ("2026-10-14", "2026-03")


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (",FR,2,,,,,,,,", "missing-cell"), ("?,FR,2,,,,,,,,", "missing-cell"), ("B1,,2,,,,,,,,", "missing-cell"), ("B1,FR,,,,,,,,,", "missing-cell"),
        ("B1,FR,?,,,,,,,,", "missing-cell"), ("B1,FR,2,PL,,,,,,,", "missing-cell"), ("B1,FR,2,?,1,,,,,,", "missing-cell"), ("B1,FR,2,,1,,,,,,", "coats-without-top"),
        ("B1,FR,0,,,,,,,,", "bad-coats"), ("B1,FR,2.0,,,,,,,,", "bad-coats"), ("B1,FR,2,,,,,,sideways,,", "not-one-of"), ("B1,FR,2,,,,,top,,,", "not-one-of"),
        ("B1,FR,2,,,,,,,,none;dry", "none-among-faults"), ("B1,FR,2,,,,,,,,spots", "not-one-of"), ("B1,FR,2", "ragged-row"), ("B1,FR,2,,,,,,,,,blue", "ragged-row"),
        ('B1,"FR,2,,,,,,,,', "unclosed-quote"),
    ],
)  # fmt: skip
def test_one_cause_gives_one_problem(row: str, code: str) -> None:
    _, problems = log(row)
    assert codes(problems) == [code]


def test_blank_rows_and_blank_cells_beyond_the_header_are_passed_over() -> None:
    entries, problems = log("", ",,,,,,,,,,", "B1,FR,2,,,,,,,,,,", "  ")
    assert problems == () and len(entries.rows) == 1


def test_quoted_cells_keep_their_commas_quotes_lines_and_places() -> None:
    entries, problems = log('B1,FR,2,,,,,,,,,"blue, ""milky""\nat the rim"', "B2,FR,2,,,,,,sideways,,,", header=HEADER + ",looks")
    assert entries.rows[0].looks.value == 'blue, "milky" at the rim'
    assert [(p.code, p.place.line, p.place.column) for p in problems] == [("not-one-of", 4, 14)]


def test_a_claim_in_a_log_is_an_error_at_its_words() -> None:
    _, problems = log("B1,FR,2,,,,,,,,,glossy and food safe", header=HEADER + ",looks")
    assert [(p.code, p.is_error, p.place.column, p.width) for p in problems] == [("claim", True, 28, 9)]


@pytest.mark.parametrize(
    ("header", "found"),
    [
        (HEADER.replace(",stood", ""), ["missing-column"]), (HEADER + ",stood", ["repeated-column"]), (HEADER + ",colour", ["unknown-column"]),
        (HEADER + ",ran mm", ["several-ran-columns"]), (HEADER.replace("ran,", ""), ["missing-column"]), (HEADER.replace("stood", "stod"), ["unknown-column"]),
        ("tile", ["missing-column"]),
    ],
)  # fmt: skip
def test_the_header(header: str, found: list[str]) -> None:
    _, problems = log(header=header)
    assert codes(problems) == found


def test_an_empty_log_is_a_problem() -> None:
    assert codes(entries_of({"logs/a.csv": "\n\n"})[1]) == ["empty-log"]
