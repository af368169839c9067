"""One row's cells as a log writes them: units beside figures, coats apart, a class's everyday words by the book's.

Nothing is guessed: a word stands for another only where it says the same, or where the teacher settled it. What is
said here of words is common practice, no source.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence

from combobook.raw import RawRow, RawText
from combobook.take_in.headings import CM, COATS
from combobook.take_in.settled import Settled
from combobook.validate.log import FIRST_ELEVEN, OTHERS

LOG_COLUMNS = (*FIRST_ELEVEN, *OTHERS)
"""A log's columns as take-in writes them."""
_BLANK = frozenset({"-", "--", "–", "—", "n/a", "na", "n.a."})
_COUNTS = {"one": "1", "two": "2", "three": "3", "four": "4"}
_UNIT = {"ran mm": "mm", "ran in": "in", CM: "cm"}
_SAME: Mapping[str, Mapping[str, str]] = {
    "top": dict.fromkeys(("none", "no", "nothing", "no top"), ""),
    "top coats": dict.fromkeys(("none", "no", "0"), ""),
    "kiln shelf": {"top": "upper", "bottom": "lower", "mid": "middle", "centre": "middle", "center": "middle",
                   "top shelf": "upper", "upper shelf": "upper", "middle shelf": "middle", "bottom shelf": "lower",
                   "lower shelf": "lower"},
    "stood": {"standing": "upright", "stood": "upright", "stood up": "upright", "vertical": "upright", "up": "upright",
              "lying": "flat", "laid flat": "flat", "lying flat": "flat", "lying down": "flat", "horizontal": "flat"},
    "ran": {"none": "no", "no run": "no", "no runs": "no", "not at all": "no", "did not run": "no", "didn't run": "no",
            "did not": "no", "ran off": "off the tile", "off tile": "off the tile", "ran off the tile": "off the tile",
            "ran off tile": "off the tile"},
}  # fmt: skip
_FAULTS = {"pinhole": "pinholes", "pit": "pits", "blister": "blisters", "crater": "craters", "craze": "crazing",
           "crazed": "crazing", "crawled": "crawling", "crawl": "crawling", "bare patch": "bare patches",
           "bare spots": "bare patches", "no faults": "none", "no": "none"}  # fmt: skip


def cells_of(row: RawRow, columns: Mapping[str, int], settled: Settled, decimal_comma: bool) -> dict[str, RawText]:
    """The row's cells by a log's column; those of columns that the table lacks are blank, at the row's beginning.

    `columns` as matched, `coats` and the kinds of `ran` among them. Every cell keeps its place.
    """
    found = {name: _plain(row.cells[number], name, settled) for name, number in columns.items()}
    cells = {name: found.get(name, RawText("", row.line, 1, 1)) for name in LOG_COLUMNS}
    for name in ("base coats", "top coats"):
        cells[name] = _count(cells[name])
    if COATS in found:
        _part_coats(cells, found[COATS])
    for name in ("ran", *_UNIT):
        if name in found:
            cells["ran"] = _length(found[name], _UNIT.get(name, ""), decimal_comma)
    cells["faults"] = cells["faults"]._replace(text=_faults(cells["faults"].text))
    return cells


def tile_key(text: str) -> str:
    """What a tile's spellings have in common: `b-117`, `B 117` and `B117` are one tile."""
    return re.sub(r"[\s_-]", "", text).upper()


def _plain(cell: RawText, column: str, settled: Settled) -> RawText:
    text = " ".join(unicodedata.normalize("NFC", cell.text).replace("\N{NO-BREAK SPACE}", " ").split())
    if len(text) > 1 and text[0] in "“„”" and text[-1] in "”“":
        text = text[1:-1].strip()
    if "ran" in column:
        column = "ran"
    text = settled.read(column, text)
    if text.casefold() in _BLANK:
        text = ""
    words = _SAME.get(column, {})
    return cell._replace(text=words.get(text.casefold().replace("’", "'"), text))


def _count(cell: RawText) -> RawText:
    """`2 coats`, `2x`, `two` and a spreadsheet's `2.0` are 2."""
    plain = cell.text.casefold()
    if match := re.fullmatch(r"(\d)(?:[.,]0+)?\s*(?:coats?|x|×|layers?)?", plain):
        return cell._replace(text=match[1])
    return cell._replace(text=_COUNTS.get(plain.removesuffix(" coats").removesuffix(" coat"), cell.text))


def _part_coats(cells: dict[str, RawText], coats: RawText) -> None:
    """`2 + 1` is the base's coats, then the top's; a bare number is those of one glaze alone."""
    if match := re.fullmatch(r"(\S+)\s*(?:\+|then|/|&|and)\s*(\S+)", coats.text):
        cells["base coats"], cells["top coats"] = (_count(coats._replace(text=match[n])) for n in (1, 2))
    elif not cells["top"].text:
        cells["base coats"] = _count(coats)
    elif coats.text:
        # Whose coats these are nobody can tell: the row says what is due.
        cells["base coats"] = coats._replace(text=f"{coats.text} of both?")


def _length(cell: RawText, unit: str, decimal_comma: bool) -> RawText:
    text = re.sub(r"(?<=\d),(?=\d)", ".", cell.text) if decimal_comma else cell.text
    text = re.sub(r"\s*(?:millimet(?:er|re)s?)$", " mm", text)
    bare = re.fullmatch(r"[\d./\s½¼¾]+", text) and text.strip() != "0"
    return cell._replace(text=f"{text} {unit}" if unit and bare else text)


def _faults(text: str) -> str:
    """With `;` between, and each by the book's word."""
    parts: Sequence[str] = [part.strip() for part in re.split(r"[;,/+&]|\band\b", text) if part.strip()]
    return "; ".join(_FAULTS.get(part.casefold(), part) for part in parts)
