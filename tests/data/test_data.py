"""book.json and combinations.csv say what entry-format.md promises, read back by Python's own json and csv."""

from __future__ import annotations

import csv
import dataclasses
import io
import json
import re
from typing import Any

import pytest

from combobook.book import Book
from combobook.edition import Edition
from combobook.problems import Place, Problem, Severity
from combobook.render.data import CLASSES, EVIDENCE, FOOD, data
from combobook.verdicts import EvidenceLevel, FoodLevel, MoveClass
from tests.data.editions import edition, glaze, layering, two_orders


def book_of(made: Edition) -> dict[str, Any]:
    files, problems = data(made)
    assert (sorted(files), problems) == (["data/book.json", "data/combinations.csv"], ())
    book = json.loads(files["data/book.json"].decode("utf-8"))
    assert isinstance(book, dict)
    return book


def rows_of(made: Edition) -> list[dict[str, str]]:
    text = data(made)[0]["data/combinations.csv"].decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_whole_book_is_as_the_contract_lays_it_out() -> None:
    warning = Problem(
        place=Place(path="glazes/rust.md", line=2, column=8),
        severity=Severity.WARNING,
        code="label-unread",
        message="nobody wrote when the label was read",
        help="never in the data",
    )
    nothing = {"level": "untested", "tiles": 0, "firings": 0}
    unknown = {"level": "not known", "food_ware": False, "reasons": []}
    untested = {
        "class": "moves",
        "worst_run_mm": None,
        "off_the_tile": False,
        "margin_mm": 13,
        "reach_mm": None,
        "catch_plate": True,
        "reasons": [],
    }
    assert book_of(two_orders((warning,))) == {
        "studio": "Haus „Ö“ & Söhne",
        "edition": "2026 Autumn",
        "cone": "6",
        "glazes": [
            {
                "id": "fog",
                "name": "Fog",
                "mark": "FO",
                "cone": ["5", "6"],
                "food_label": "yes",
                "flow": "stable",
                "status": "in use",
                "as_base": ["rust-over-fog"],
                "as_top": ["fog-over-rust"],
                "page": "glazes/fog.html",
            },
            {
                "id": "moss",
                "name": "Moss",
                "mark": "MO",
                "cone": ["06", "04"],
                "food_label": "not stated",
                "flow": "runny",
                "status": "in use",
                "as_base": [],
                "as_top": ["moss-over-rust"],
                "page": "glazes/moss.html",
            },
            {
                "id": "rust",
                "name": "Rust",
                "mark": "R2",
                "cone": None,
                "food_label": "not known",
                "flow": "not known",
                "status": "running low",
                "as_base": ["fog-over-rust", "moss-over-rust"],
                "as_top": ["rust-over-fog"],
                "page": "glazes/rust.html",
            },
        ],
        "combinations": [
            {
                "id": "fog-over-rust",
                "base": "rust",
                "top": "fog",
                "coats": [2, 1],
                "page": "combinations/fog-over-rust.html",
                "reverse": "rust-over-fog",
                "food": {
                    "level": "keep off",
                    "food_ware": False,
                    "reasons": [
                        {"rule": "F1", "says": "The label of Rust says no: “keep off”.", "at": "glazes/rust.md:7"},
                        {"rule": "F4", "says": "The label of x says no: “keep off”.", "at": "c/x.md:5"},
                    ],
                },
                "movement": {
                    "class": "runny",
                    "worst_run_mm": 12.7,
                    "off_the_tile": True,
                    "margin_mm": 26,
                    "reach_mm": 25,
                    "catch_plate": True,
                    "reasons": [{"rule": "M3", "says": "It ran 12.7 mm (1/2 in).", "at": "logs/a.csv:12"}],
                },
                "evidence": {"level": "seen once", "tiles": 1, "firings": 1},
                "places": [
                    {"form": "mug", "inside": False, "from_rim_mm": 20, "to_rim_mm": 75, "none": None},
                    {
                        "form": "vase",
                        "inside": None,
                        "from_rim_mm": None,
                        "to_rim_mm": None,
                        "none": "The lip takes 20 mm (13/16 in). Running takes the rest.",
                    },
                ],
            },
            {
                "id": "moss-over-rust",
                "base": "rust",
                "top": "moss",
                "coats": None,
                "page": "combinations/moss-over-rust.html",
                "reverse": None,
                "food": unknown,
                "movement": untested,
                "evidence": nothing,
                "places": [],
            },
            {
                "id": "rust-over-fog",
                "base": "fog",
                "top": "rust",
                "coats": None,
                "page": "combinations/rust-over-fog.html",
                "reverse": "fog-over-rust",
                "food": unknown,
                "movement": untested | {"class": "stable", "worst_run_mm": 4, "catch_plate": False},
                "evidence": nothing,
                "places": [],
            },
        ],
        "problems": [
            {
                "at": "glazes/rust.md:2:8",
                "severity": "warning",
                "code": "label-unread",
                "message": "nobody wrote when the label was read",
            }
        ],
    }


def test_the_text_of_book_json_is_utf_8_with_sorted_keys_two_spaces_and_a_last_newline() -> None:
    text = data(two_orders())[0]["data/book.json"].decode("utf-8")
    assert text == json.dumps(json.loads(text), indent=2, sort_keys=True, ensure_ascii=False) + "\n"
    assert '  "studio": "Haus „Ö“ & Söhne"\n' in text
    assert "\\u" not in text and "\r" not in text and not text.startswith("\N{BYTE ORDER MARK}")


def test_whole_numbers_have_no_point() -> None:
    text = data(two_orders())[0]["data/book.json"].decode("utf-8")
    assert '"worst_run_mm": 4\n' in text
    assert re.findall(r": \d+\.0\b", text) == []


def test_the_rows_are_the_layerings_on_file_by_id_with_blanks_for_what_nobody_knows() -> None:
    assert data(two_orders())[0]["data/combinations.csv"].decode("utf-8") == (
        "\N{BYTE ORDER MARK}id,base,top,base coats,top coats,food level,food ware,class,worst run mm,margin mm,reach mm,"
        "catch plate,tiles,firings,evidence,page\r\n"
        "fog-over-rust,rust,fog,2,1,keep off,no,runny,12.7,26,25,yes,1,1,seen once,combinations/fog-over-rust.html\r\n"
        "moss-over-rust,rust,moss,,,not known,no,moves,,13,,yes,0,0,untested,combinations/moss-over-rust.html\r\n"
        "rust-over-fog,fog,rust,,,not known,no,stable,4,13,,no,0,0,untested,combinations/rust-over-fog.html\r\n"
    )


def test_the_rows_and_the_book_agree() -> None:
    made = two_orders()
    for row, entry in zip(rows_of(made), book_of(made)["combinations"], strict=True):
        assert (row["id"], row["base"], row["top"], row["page"]) == tuple(entry[k] for k in ("id", "base", "top", "page"))
        assert row["food level"] == entry["food"]["level"]
        assert row["evidence"] == entry["evidence"]["level"]
        assert row["worst run mm"] == ("" if entry["movement"]["worst_run_mm"] is None else f"{entry['movement']['worst_run_mm']}")


@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_a_cell_that_a_spreadsheet_would_run_is_defused(start: str) -> None:
    base, top = glaze(f"{start}1-1"), glaze("fog")
    verdict = layering(base, top)
    made = edition(verdict, layering(top, base), entered=(verdict.id, f"{base.id}-over-fog"))
    rows = rows_of(made)
    assert {(row["base"], row["top"]) for row in rows} == {(f"'{base.id}", "fog"), ("fog", f"'{base.id}")}
    assert [cell for row in rows for cell in row.values() if cell[:1] in "=+-@\t\r" and cell] == []


def test_a_comma_or_quote_in_a_cell_stays_in_its_cell() -> None:
    verdict = layering(glaze('a,"b"'), glaze("fog"))
    assert rows_of(edition(verdict, entered=(verdict.id,)))[0]["base"] == 'a,"b"'


def test_an_edition_without_layerings_has_empty_lists_and_a_heading() -> None:
    verdict = layering(glaze("fog"), glaze("rust"))
    made = edition(verdict, entered=())
    assert (book_of(made)["combinations"], rows_of(made)) == ([], [])
    assert book_of(made)["glazes"][0]["as_base"] == []


def test_the_order_in_which_things_were_read_changes_nothing() -> None:
    problems = tuple(
        Problem(place=Place(path=p, line=n), severity=Severity.WARNING, code="c", message="m")
        for p, n in (("b.md", 10), ("a.md", 2), ("b.md", 9))
    )
    made = two_orders(problems)
    turned = {
        f.name: dict(reversed(value.items())) if isinstance(value := getattr(made.book, f.name), dict) else value
        for f in dataclasses.fields(Book)
    }
    other = dataclasses.replace(
        made,
        book=Book(**turned),
        judged=dataclasses.replace(made.judged, layerings=dict(reversed(made.judged.layerings.items()))),
        problems=problems[::-1],
    )
    assert data(other) == data(made)
    assert [p["at"] for p in book_of(made)["problems"]] == ["a.md:2:1", "b.md:9:1", "b.md:10:1"]


def test_every_level_has_its_word_of_the_contract() -> None:
    assert [FOOD[level] for level in FoodLevel] == ["keep off", "not known", "labels allow", "lab report"]
    assert [CLASSES[cls] for cls in MoveClass] == ["stable", "moves", "runny"]
    assert {EVIDENCE[level] for level in EvidenceLevel} == {
        "untested", "old", "disagrees", "steady", "repeated", "seen once",
    }  # fmt: skip
    assert len(EVIDENCE) == len(EvidenceLevel)
