"""Cells of a log: tile codes, runs, faults, and what a spreadsheet made of them."""

from __future__ import annotations

import re
from fractions import Fraction

from combobook.entries import OFF_THE_TILE, Fault, OffTheTile
from combobook.measures import MM_PER_INCH
from combobook.validate.quantities import length, read_number
from combobook.validate.refusal import Converter, Refusal
from combobook.validate.words import choice

_MONTH = r"(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)"
_TILE = re.compile(r"[A-Za-z]{1,4}-?[0-9]{1,5}")
_DATE_CODE = re.compile(rf"{_MONTH}-?(?:\d{{1,2}}|\d{{4}})", re.IGNORECASE)
_PERSON = re.compile(
    # Two words, one long word, a word and a number: what people write who sign a tile.
    r"[^\W\d_]+(?:[\s.'’,_-]+[^\W\d_]+)+\.?(?:\W*\d+)?|[^\W\d_]{3,}|[^\W\d_]{5,}[\s_-]*\d+|[^\W\d_]{2,}\s+\d+"
)
_TELEPHONE = re.compile(r"\+?[\d\s().-]{7,}")
# What spreadsheets leave: an error value, a short date, a number in powers of ten; then what only a date is.
_BROKEN = re.compile(
    rf"#(?:REF!|NAME\?|VALUE!|N/A|DIV/0!|NUM!|NULL!)|#+|\d{{1,2}}[-. ]{_MONTH}(?:[-. ]\d{{2,4}})?"
    rf"|{_MONTH}[- ]\d{{2}}(?:\d{{2}})?|\d+(?:[.,]\d+)?E[+-]\d+|\d{{1,2}}:\d{{2}}(?::\d{{2}})?",
    re.IGNORECASE,
)
_A_DATE = re.compile(r"\d{1,4}[/.]\d{1,2}[/.]\d{2,4}|\d{4}-\d{2}-\d{2}(?:[ T]\d{2}:\d{2}(?::\d{2})?)?")
_SERIAL = re.compile(r"[2-6]\d{4}")
_FAULT = choice(Fault)


def mangled(text: str, *, free: bool) -> Refusal | None:
    """The problem of a cell that a spreadsheet turned into a date or a number, else None.

    In a `free` cell (a name, a lot, looks) a written-out date may be what the author meant; a short one never is.
    """
    if text[0].isalpha() and _TILE.fullmatch(text):
        return None  # `MAR-3` as it stands is still a code; the row warns of it.
    if not (_BROKEN.fullmatch(text) or (not free and _A_DATE.fullmatch(text))):
        return None
    return Refusal(
        code="mangled-cell",
        message=f"`{text}` looks like a cell that a spreadsheet turned into a date or number",
        help="format the column as text, then type again what stands on the tile or the class's sheet",
    )


def tile(text: str) -> str | Refusal:
    """A tile's code; never a person's name, address or telephone number."""
    if _TILE.fullmatch(text):
        return text
    if "@" in text or _PERSON.fullmatch(text) or _TELEPHONE.fullmatch(text):
        return Refusal(
            code="tile-is-a-name",
            message="this looks like a person's name or address, not a tile's code",
            help="give the tile a code such as `B117`, and keep the list of who made it out of this folder",
        )
    if _SERIAL.fullmatch(text):
        return Refusal(
            code="mangled-cell",
            message=f"`{text}` looks like a cell that a spreadsheet turned into a date or number",
            help="format the column as text, then type again the code that stands on the tile",
        )
    return Refusal(
        code="bad-tile",
        message=f"`{text}` is no tile code: expected 1 to 4 letters, perhaps a hyphen, 1 to 5 digits",
        help="write the code as it stands on the tile, such as `B117`",
    )


def reads_as_a_date(code: str) -> bool:
    """True of `MAR-3`, `Dec5`, `SEP2026`: what a spreadsheet changes as soon as it opens the file."""
    return bool(_DATE_CODE.fullmatch(code))


def ran(column: str, decimal_comma: bool) -> Converter[Fraction | OffTheTile]:
    """The converter of a run's column: mm; 0 for `no` and `0`; `ran mm` and `ran in` take bare numbers."""

    def convert(text: str) -> Fraction | OffTheTile | Refusal:
        plain = " ".join(text.casefold().split())
        if plain in ("no", "0"):
            return Fraction(0)
        if plain == "off the tile":
            return OFF_THE_TILE
        if decimal_comma:
            plain = re.sub(r"(?<=\d),(?=\d)", ".", plain)
        bare = read_number(plain)
        if bare is not None and column != "ran":
            return bare * (MM_PER_INCH if column == "ran in" else 1)
        found = length(plain)
        if isinstance(found, Refusal) and found.code == "bad-quantity":
            return Refusal(code="bad-run", message=f"expected how far it ran, got `{text}`", help=_RUN_FIX)
        return found

    return convert


_RUN_FIX = (
    "write a length such as `4 mm`; `no` where somebody looked and it did not run; `off the tile`; leave it blank "
    "where nobody measured"
)


def faults(text: str) -> tuple[Fault, ...] | Refusal:
    """The faults in the order written, each once; none for `none`."""
    found: dict[Fault, None] = {}
    clean = False
    for match in re.finditer(r"[^;,]+", text):
        word = match[0].strip()
        if not word:
            continue
        if word.casefold() == "none":
            clean = True
            continue
        fault = _FAULT(word)
        if isinstance(fault, Refusal):
            start = match.start() + len(match[0]) - len(match[0].lstrip())
            return Refusal(
                code=fault.code,
                message=f"`{word}` is no fault this book knows",
                help=fault.help,
                start=start,
                width=len(word),
            )
        found[fault] = None
    if clean and found:
        return Refusal(
            code="none-among-faults",
            message="`none` stands beside a fault",
            help="write `none` alone where somebody looked and found nothing, else the faults alone",
        )
    return tuple(found)
