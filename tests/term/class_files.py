"""What a class hands in during a term, made from the plan it was given: always the same, and as untidy as it comes."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence

ROWS = 168
SHELF_LIST = """Our new jars,,,,,
Glaze,Mark,Cone,Food label,Movement,Coats
Bramble Lock,BL,5 to 6,yes,stable,2 to 3
Cider Fence,CF,5 to 6,yes,moves,2
Dusk Paddle,DP,5 to 6,not stated,stable,2
Flint Nettle,FN,5 to 6,yes,stable,1 to 2
Gravel Plum,GP,5 to 6,conditional,moves,2
Hatch Willow,HW,5 to 6,no,runny,1
"""
AS_A_DATE, PEOPLE = "2-Sep", ("Maria Lopez", "Jo Bell")
WRONG_MARKS = {10: AS_A_DATE, 60: PEOPLE[0], 61: PEOPLE[1]}
"""Row, and what stands where its tile's mark should: SEP-2 as a spreadsheet leaves it, and two names."""
MISSPELT = {33: "Bramble Lok", 34: "Bramble Lok", 120: "Cidr Fence"}
"""Row, and its first glaze as a student wrote it."""
TWO_WAYS = 25
"""This row's tile is written down again in the last row, otherwise spelt."""
DOUBTFUL = len(WRONG_MARKS) + len(MISSPELT)

Row = Mapping[str, str]


def planned(data: bytes) -> list[dict[str, str]]:
    """The plan's rows."""
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def brushed(rows: Sequence[Row], names: Mapping[str, str]) -> bytes:
    """Semicolons, a byte-order mark, a title, blank rows, curly quotes, students' names; one row of ROWS is a repeat."""
    lines = ["Autumn term, both classes;;;;;;;;", "", "Student;Tile no.;1st glaze;# coats;2nd glaze;# coats;Clay body;Stood;Notes"]
    for number, row in enumerate(rows[: ROWS - 1], 1):
        base = MISSPELT.get(number, names[row["base"]])
        top = names.get(row["top"], "")
        top = f"“{top}”" if number % 9 == 0 and top else top
        note = "“thick; my fault”" if number == 41 else ""
        lines.append(
            f"Pupil {number};{WRONG_MARKS.get(number, row['tile'])};{base};{row['base coats']};{top};"
            f"{row['top coats']};{row['clay']};{row['stood']};{note}"
        )
        if number % 20 == 0:
            lines.append(";;;;;;;;")
    again = rows[TWO_WAYS - 1]
    mark = f"{again['tile'][0].lower()}-{again['tile'][1:]}"
    lines.append(
        f"Pupil {ROWS};{mark};{names[again['base']]};{again['base coats']};{names.get(again['top'], '')};"
        f"{again['top coats']};{again['clay']};{again['stood']};"
    )
    return b"\xef\xbb\xbf" + "\r\n".join(lines).encode()


def mended(doubtful: bytes, rows: Sequence[Row], names: Mapping[str, str]) -> bytes:
    """The file of doubtful rows as the teacher hands it back: each mark and glaze as it should have been."""
    text = doubtful.decode("utf-8-sig")
    table = list(csv.reader(io.StringIO(text, newline=""), delimiter=";" if ";" in text.split("\n", 1)[0] else ","))
    heading = next(row for row in table if "Tile no." in row)
    mark, base = heading.index("Tile no."), heading.index("1st glaze")
    right = iter(sorted((*WRONG_MARKS, *MISSPELT)))
    for cells in table[table.index(heading) + 1 :]:
        row = rows[next(right) - 1]
        cells[mark], cells[base] = row["tile"], names[row["base"]]
    out = io.StringIO()
    csv.writer(out).writerows(table)
    return out.getvalue().encode()


def results(rows: Sequence[Row]) -> bytes:
    """Two weeks later, by the tile's mark alone: where it stood, how far it ran, what is wrong with it."""
    lines = ["Tile;Kiln load;Shelf;Run (mm);Defects;Notes"]
    for number, row in enumerate(rows[: ROWS - 1], 1):
        ran = number % 4 if "hatch-willow" not in (row["base"], row["top"]) else 8
        fault = "pinholes" if number % 17 == 0 else "none"
        lines.append(f"{row['tile'].lower()};autumn-load;{('upper', 'lower')[number % 2]};{ran};{fault};")
    return "\r\n".join(lines).encode("utf-16")
