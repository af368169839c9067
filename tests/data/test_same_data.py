"""The demo studio's data is the same from run to run and in whatever order its files lie on the disk."""

from __future__ import annotations

import csv
import dataclasses
import io
import json
import random
import shutil
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from combobook import pipeline
from combobook.edition import Edition
from combobook.judge import judge
from combobook.link import link
from combobook.parse import parse
from combobook.problems import in_order
from combobook.progress import Silent
from combobook.read import read
from combobook.render.data import data
from combobook.theme import load_theme
from combobook.validate import validate
from combobook.wording import Words

DEMO = Path(__file__).parents[2] / "content"


def data_of(folder: Path, seed: int | None = None) -> Mapping[str, bytes]:
    """The data of a folder; with a seed its sources are shuffled before they are parsed."""
    content, problems = read(folder)
    if seed is not None:
        sources = list(content.sources)
        random.Random(seed).shuffle(sources)
        content = dataclasses.replace(content, sources=tuple(sources))
    raw, more = parse(content)
    entries, even_more = validate(raw)
    book, linked = link(entries, content.photos)
    assert book is not None
    studio = book.studio
    theme, _ = load_theme(studio.theme.value, studio.language.value, studio.theme.place, studio.language.place)
    judged, said = judge(book)
    assert theme is not None
    made = Edition(
        book=book,
        judged=judged,
        pictures={},
        theme=theme,
        words=Words(theme.table, studio.units.value),
        problems=in_order([*problems, *more, *even_more, *linked, *said]),
    )
    return data(made)[0]


@cache
def first() -> Mapping[str, bytes]:
    return data_of(DEMO)


def test_two_runs_give_the_same_bytes() -> None:
    assert data_of(DEMO) == first()


def test_files_in_another_order_give_the_same_bytes() -> None:
    for seed in (1, 2, 3):
        assert data_of(DEMO, seed) == first()


def test_a_copy_written_backwards_elsewhere_gives_the_same_bytes(tmp_path: Path) -> None:
    for path in sorted(DEMO.rglob("*"), reverse=True):
        target = tmp_path / "a copy" / path.relative_to(DEMO)
        if path.is_file():
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, target)
    assert data_of(tmp_path / "a copy") == first()


def test_the_demos_book_has_a_row_and_an_entry_for_each_layering_and_every_kind_of_verdict() -> None:
    book = json.loads(first()["data/book.json"])
    rows = list(csv.DictReader(io.StringIO(first()["data/combinations.csv"].decode("utf-8-sig"), newline="")))
    entries = book["combinations"]
    assert [row["id"] for row in rows] == [entry["id"] for entry in entries] == sorted(e["id"] for e in entries)
    assert [p for p in book["problems"] if p["severity"] == "error"] == []
    for kind, seen in {
        "food": ({e["food"]["level"] for e in entries}, {"keep off", "not known", "labels allow", "lab report"}),
        "movement": ({e["movement"]["class"] for e in entries}, {"stable", "moves", "runny"}),
        "evidence": (
            {e["evidence"]["level"] for e in entries},
            {"untested", "old", "disagrees", "seen once", "repeated", "steady"},
        ),
    }.items():
        assert seen[0] == seen[1], kind


def test_every_reason_of_the_demo_points_at_a_line_that_is_there() -> None:
    book = json.loads(first()["data/book.json"])
    lines = {str(p.relative_to(DEMO)): p.read_bytes().count(b"\n") + 1 for p in DEMO.rglob("*") if p.suffix != ".jpg" and p.is_file()}
    reasons = [r for e in book["combinations"] for part in ("food", "movement") for r in e[part]["reasons"]]
    assert len(reasons) >= len(book["combinations"])
    for reason in reasons:
        path, line = reason["at"].rsplit(":", 1)
        assert 1 <= int(line) <= lines[path], reason
        assert reason["says"] and reason["rule"]


def test_the_pass_finds_the_same_problems_as_the_stages_called_one_by_one() -> None:
    checked = pipeline.check(DEMO, Silent())
    told = [f"{p.place.at}:{p.place.column} {p.code}" for p in checked.problems]
    assert told == [f"{p['at']} {p['code']}" for p in json.loads(first()["data/book.json"])["problems"]]
