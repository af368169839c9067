"""A class's file of 168 rows as it really comes, and its results two weeks later; made by the same numbers each time."""

from __future__ import annotations

from itertools import permutations

from tests.take_in.classes import GLAZES

TITLE = "Autumn class, period 3;;;;;;;;;;;;"
HEAD = "Timestamp;Student;Tile #;1st glaze;# coats;2nd glaze;# coats;Clay body;Stood (upright/flat);Notes;;"
PEOPLE = ("Maria Lopez", "Jo Bell")
ROWS = 168
WRONG = {7: "2-Sep", 20: PEOPLE[0], 21: PEOPLE[1]}
"""Marks that are none, by row."""
MISSPELT = {12: "Fery Rust", 13: "Fery Rust", 90: "Ferry Rsut"}
FIRST, AGAIN, OTHERWISE = 30, 167, 168
"""A tile's row, the same tile spelt otherwise with the same words, and with another top."""


def brushed() -> bytes:
    """Semicolons, a byte-order mark, title lines, blank rows, curly quotes, a tile two ways, two names for marks."""
    lines = [TITLE, "", HEAD]
    for number, (mark, base, top) in enumerate(_tiles(), 1):
        if number in MISSPELT:
            base = MISSPELT[number]
        quoted = f"“{top}”" if number % 9 == 0 else top
        looks = "“milky; blue”" if number == 41 else ""
        lines.append(f"2026/10/12 10:0{number % 10};Student {number};{mark};{base};2;{quoted};1;Quarry White;upright;{looks};;")
        if number % 25 == 0:
            lines.append(";;;;;;;;;;;")
    return b"\xef\xbb\xbf" + "\r\n".join(lines).encode()


def results() -> bytes:
    """What the kiln told of every third tile, by its mark alone."""
    lines = ["Tile No.,Kiln load,Shelf,Run (mm),Defects,Notes"]
    for number, (mark, _, _) in enumerate(_tiles(), 1):
        if number % 3 == 0 and number not in (*WRONG, *MISSPELT, OTHERWISE):
            lines.append(f"{mark.lower()},f01,mid,{number % 7},{'pinholes' if number % 5 == 0 else 'none'},")
    return "\r\n".join(lines).encode("utf-16")


def _tiles() -> list[tuple[str, str, str]]:
    """Mark, base and top of each row."""
    names = list(GLAZES.values())
    pairs = (list(permutations(names, 2)) * 6)[:ROWS]
    rows = [(WRONG.get(n, f"R{200 + n}"), *pair) for n, pair in enumerate(pairs, 1)]
    mark, base, top = rows[FIRST - 1]
    rows[AGAIN - 1] = (f"{mark[0].lower()}-{mark[1:]}", base, top)
    rows[OTHERWISE - 1] = (mark, base, next(name for name in names if name not in (base, top)))
    return rows
