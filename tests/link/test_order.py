"""The order of files changes nothing, and a big studio takes no time."""

from __future__ import annotations

import dataclasses
import random
import time

from hypothesis import given, settings
from hypothesis import strategies as st

from combobook.link import link
from combobook.parse import parse
from combobook.problems import in_order
from combobook.validate import validate
from tests.studios import content_of, entry, files_with, glaze, log

FILES = files_with(
    {
        "glazes/slate-hop.md": glaze("Slate Hop", "SH", "goes on: rim only", "label read: 2020-01-01"),
        "glazes/copy.md": glaze("Slate Hop", "SH"),
        "combinations/a.md": entry("base: PL", "top: FR", body="[x](../glazes/gone.md) [y](../glazes/slate-hop.md)\n"),
        "combinations/b.md": entry("base: PL", "top: FR", "coats: 1 + 1"),
        "combinations/c.md": entry("base: Gone", "top: FR"),
        "lab/a.md": entry("glaze: PL", "ware: pitcher", "limits: FDA"),
        "logs/a.csv": log("B1,FR,2,PL,1,,,upper,,3 mm", "B2,SH,2,PL,1", "B2,SH,1,PL,1,Quarry White"),
        "logs/b.csv": log("B2,SH,2,PL,1,,,,flat", "B2,SH,1,FR,1", "B3,FR,1,SH,1,,,,,2 mm,,,gone.jpg"),
    }
)


@given(st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None, derandomize=True, database=None)
def test_the_order_of_entries_changes_nothing(shuffled: random.Random) -> None:
    raw, _ = parse(content_of(FILES, ["z.jpg", "a.jpg"]))
    entries, _ = validate(raw)
    book, problems = link(entries, ("a.jpg", "z.jpg"))
    mixed = {}
    for name in ("glazes", "combinations", "clays", "forms", "firings", "reports", "pages", "rows", "withheld_layerings"):
        values = list(getattr(entries, name))
        shuffled.shuffle(values)
        mixed[name] = tuple(values)
    other, others = link(dataclasses.replace(entries, **mixed), ("z.jpg", "a.jpg"))
    assert book is not None and other is not None
    assert other == book
    assert in_order(others) == in_order(problems)
    for name in ("glazes", "combinations", "clays", "forms", "firings", "pages", "tiles_of"):
        assert list(getattr(other, name)) == list(getattr(book, name)) == sorted(getattr(book, name))


def test_a_big_studio_is_linked_in_no_time() -> None:
    glazes = {f"glazes/g{n:02}.md": glaze(f"Glaze {n:02}", f"G{n:02}") for n in range(60)}
    pairs = [(a, b) for a in range(60) for b in range(60) if a != b][:3500]
    combinations = {f"combinations/g{b:02}-over-g{a:02}.md": entry(f"base: g{a:02}", f"top: G{b:02}") for a, b in pairs}
    rows = [f"T{n},G{pairs[n % 3500][0]:02},2,G{pairs[n % 3500][1]:02},1,Quarry White,f01,upper,upright,1 mm,none" for n in range(20_000)]
    raw, _ = parse(content_of(files_with({**glazes, **combinations, "logs/big.csv": log(*rows), "logs/low.csv": log(*(f"U{n},Gx{n},2,G01,1" for n in range(600)))})))
    entries, _ = validate(raw)
    begun = time.perf_counter()
    book, problems = link(entries, ())
    # Well under a second on the machine of the bench; here other work may go on beside it.
    assert time.perf_counter() - begun < 6
    assert book is not None and len(book.combinations) == 3501 and len(book.tiles) == 20_001
    assert {p.code for p in problems} == {"unknown-glaze"}
