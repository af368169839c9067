"""What holds of every printed sheet, read back with Poppler, outloud and pdfua: none of them made it."""

from __future__ import annotations

import re
import subprocess
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from html import unescape
from itertools import takewhile
from pathlib import Path

import outloud  # type: ignore[import-untyped]
import pdfua

from combobook.edition import Edition
from combobook.problems import Problem
from tests.published_demo import demo_edition

MM = 72 / 25.4
"""Points a millimetre."""
CRASHING_RULES = {"UA-14-001": "is_integer"}
"""Rules of pdfua 0.1.3 that crash on sound files, and a word of how: DEVELOPERS.md lists them."""
CAUTIONS = (
    "the stricter wins", "no laboratory's finding", "never dry-sweep", "fitted respirator", "goggles, mask",
    "Kilns are the technician's", "Only codes", "Your own piece decides",
)  # fmt: skip
SLACK = 0.35
"""Points by which boxes of words may touch: hinting and rounding, far less than a stroke."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A word and its box in points, from the upper left corner."""

    text: str
    x0: float
    y0: float
    x1: float
    y1: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPage:
    width: float
    height: float
    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


@cache
def made(sheet: Callable[[Edition], tuple[Mapping[str, bytes], Sequence[Problem]]]) -> Mapping[str, bytes]:
    """What a sheet's function makes of the demo, once, with nothing reported."""
    files, problems = sheet(demo_edition())
    assert list(problems) == []
    return files


def sound(
    pdf: bytes, *, cautions: bool = True, furniture: bool = True, guesses: tuple[str, ...] = ()
) -> tuple[SheetPage, ...]:
    """Asserts everything that every sheet keeps to, and gives its pages as Poppler reads them.

    `guesses` are rules of outloud that warn where they guess wrong of this sheet; DEVELOPERS.md says why.
    """
    pages = read(pdf)
    assert pages
    only_our_face(pdf)
    every_word_on_its_page_and_on_no_other(pages)
    tagged_for_listeners(pdf, guesses)
    if furniture:
        for n, page in enumerate(pages, 1):
            for words in (f"sheet {n} of {len(pages)}", "Weir Street Clay Room", "2026 Autumn", "20 November 2026",
                          "Replaces earlier editions", *(CAUTIONS if cautions else ())):  # fmt: skip
                assert words in page.text, (n, words)
    return pages


def read(pdf: bytes) -> tuple[SheetPage, ...]:
    """Every page with its words, by `pdftotext -bbox`."""
    told = _poppler("pdftotext", "-bbox", "-", "-", data=pdf)
    pages = []
    for width, height, inside in re.findall(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', told, re.DOTALL):
        words = re.findall(r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>', inside)
        found = (Word(text=unescape(w[4]), x0=float(w[0]), y0=float(w[1]), x1=float(w[2]), y1=float(w[3])) for w in words)
        pages.append(SheetPage(width=float(width), height=float(height), words=tuple(found)))
    return tuple(pages)


def only_our_face(pdf: bytes) -> None:
    """No other font crept in, for a letter that ours does not have; and ours is in the file."""
    rows = _poppler("pdffonts", "-", data=pdf).splitlines()[2:]
    assert rows
    for row in rows:
        assert "Atkinson" in row.split()[0], row
        assert row.split()[-5] == "yes", f"not embedded: {row}"


def every_word_on_its_page_and_on_no_other(pages: Sequence[SheetPage]) -> None:
    """Poppler's boxes are as high as a line; letters themselves take from 0.2 to 0.8 of it at most."""
    for n, page in enumerate(pages, 1):
        boxes = sorted((_letters(word) for word in page.words), key=lambda word: word.y0)
        for word in boxes:
            assert word.x0 >= 0 and word.y0 >= 0 and word.x1 <= page.width and word.y1 <= page.height, (n, word)
        for i, one in enumerate(boxes):
            for other in boxes[i + 1 :]:
                if other.y0 >= one.y1 - SLACK:
                    break
                assert one.x1 <= other.x0 + SLACK or other.x1 <= one.x0 + SLACK, (n, one, other)


def _letters(word: Word) -> Word:
    """The part of a word's line that its capitals can take: 0.668 of the size above the base line."""
    high = word.y1 - word.y0
    return Word(text=word.text, x0=word.x0, y0=word.y0 + 0.24 * high, x1=word.x1, y1=word.y1 - 0.22 * high)


def tagged_for_listeners(pdf: bytes, guesses: tuple[str, ...] = ()) -> None:
    """PDF/UA-1 as far as machines can tell: outloud without an error or warning, pdfua likewise, no rule left out."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sheet.pdf"
        file.write_bytes(pdf)
        heard = outloud.check(str(file))
        second = pdfua.validate(str(file))
    assert heard.error is None
    found = [f for f in heard.findings if f.severity == "error" or (f.severity == "warning" and f.rule not in guesses)]
    assert [(f.severity, f.rule, f.page, f.message) for f in found] == []
    assert [(f.rule_id, f.message) for f in second.findings if f.severity >= pdfua.Severity.WARNING] == []
    no_heading_is_empty(pdf)
    left_out = {o.rule_id: o.skipped_reason or "" for o in second.skipped}
    unexplained = {rule: why for rule, why in left_out.items() if CRASHING_RULES.get(rule, "\0") not in why}
    assert unexplained == {}


def no_heading_is_empty(pdf: bytes) -> None:
    """Stands in for the rule of pdfua that crashes, by Poppler's view of the tree of tags."""
    lines = _poppler("pdfinfo", "-struct-text", "-", data=pdf).splitlines()
    for n, line in enumerate(lines):
        if re.match(r" *H[1-6]\b", line):
            assert any(re.match(r' *"\s*\S', each) for each in _under(lines, n)), (n, line)


def _under(lines: Sequence[str], n: int) -> Iterator[str]:
    """The lines that are further in than this one, up to the next that is not."""
    return takewhile(lambda each: _depth(each) > _depth(lines[n]), lines[n + 1 :])


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip())


def same_twice(sheet: Callable[[Edition], tuple[Mapping[str, bytes], Sequence[Problem]]]) -> None:
    """Equal input gives equal bytes."""
    assert sheet(demo_edition())[0] == made(sheet)


def _poppler(tool: str, *words: str, data: bytes) -> str:
    return subprocess.run([tool, *words], input=data, capture_output=True, check=True).stdout.decode()
