"""The same account on a layering's page: folded away, without a script, without rule codes."""

from __future__ import annotations

import re

import html5lib

from tests.site.editions import pages_of, text_of
from tests.studios import log
from tests.why.asking import account, part
from tests.why.test_account import GOOD_ROW, LOG, pond_lantern

LAYERING = "combinations/pond-lantern-over-ferry-rust.html"
CODE = re.compile(r"\b[FMP][1-9]\b")


def panel(page: str) -> str:
    """What the folded account says, by another reader of HTML than ours."""
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
    found = tree.findall(".//details[@id='why']")
    assert len(found) == 1
    return " ".join("".join(found[0].itertext()).split())


def test_page_and_terminal_give_the_same_reasons_with_the_same_grounds_and_lines() -> None:
    changed = {**pond_lantern("food label: no"), LOG: log(GOOD_ROW.replace("none", "pinholes"))}
    said = panel(pages_of(changed)[LAYERING])
    told = account(changed)
    for key in ("food", "running", "fire"):
        for point in part(told, key).points:
            assert f"{point.says} {point.rests_on}".strip() in said and point.at in said
    for note in part(told, "change").notes:
        assert note in said


def test_no_page_shows_a_rule_code() -> None:
    for path, page in pages_of(pond_lantern("food label: no", "flow: runny")).items():
        assert not CODE.search(text_of(page)), path


def test_reasons_for_running_stand_in_the_account_and_nowhere_else_on_the_page() -> None:
    said = text_of(pages_of()[LAYERING])
    assert said.count("The label of Pond Lantern says that it moves.") == 1


def test_no_reason_for_food_is_lost_however_many_there_are() -> None:
    rows = log(*(f"B{n},FR,2,PL,1,Quarry White,f01,middle,upright,2 mm,pinholes" for n in range(1, 8)))
    said = panel(pages_of({LOG: rows})[LAYERING])
    assert [n for n in range(1, 8) if f"Tile B{n} shows pinholes" not in said] == []


def test_a_cell_that_nobody_made_has_its_food_words_and_its_evidence() -> None:
    clay = "---\nname: Hod Brown\ncone: 5 to 7\n---\n"
    rows = log(GOOD_ROW, "B2,FR,3,PL,1,Hod Brown,f01,middle,upright,no,none")
    page = pages_of({"clays/hod-brown.md": clay, LOG: rows})[LAYERING]
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
    table = tree.find(".//table[@class='surfaces stack']")
    assert table is not None
    cells = [" ".join(" ".join(cell.itertext()).split()) for cell in table.findall(".//tbody/tr/td")]
    empty = [cell for cell in cells if cell.startswith("Not made yet")]
    assert empty == [
        "Not made yet Not known: keep off food until it is Untested",
        "Not made yet Not known: keep off food until it is Untested 4 coats are too many",
    ]
    assert all("food" in cell for cell in cells)
