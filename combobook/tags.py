"""The tag of a test tile: what its QR code says, and where everything on it stands. Leaf module.

One paper tag lies beside a tile when it is photographed. Sheets print it; the picture stage and take-in find it again
in the photograph, know the tile by it, and balance the picture's colours by its paper. The code holds the tile's mark
and nothing else: no address (a photographed tag must not lead anybody to a pupil's page) and no name. So it stays a
version 1 symbol with the strongest error correction, as coarse as a QR code gets, which a phone still reads from far
away, at a slant or with a glaze spot on it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

WIDTH_MM, HEIGHT_MM = Fraction("66.7"), Fraction("25.4")
"""The usual address label, 2 5/8 by 1 inch: thirty on a letter sheet (common practice, no source)."""
MODULES = 21
"""Modules a side of a version 1 QR code (ISO/IEC 18004)."""
QUIET = 4
"""White modules that must stay free around the code (ISO/IEC 18004)."""
MODULE_MM = Fraction("0.6")
CODE_MM = MODULES * MODULE_MM
"""Side of the code without its quiet zone: 12.6 mm."""
SCALE_MM = 60
"""Length of the printed scale."""

_MARK = re.compile(r"[A-Z]{1,4}-?[0-9]{1,5}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle on the tag, in mm from its upper left corner."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


CODE = Box(x=Fraction("2.7"), y=Fraction("2.6"), width=CODE_MM, height=CODE_MM)
"""Where the QR code stands; the paper around it stays white for QUIET modules, 2.4 mm."""
WORDS = Box(x=Fraction("17.7"), y=Fraction(2), width=Fraction(47), height=Fraction("15.2"))
"""Where a sheet may set words: the mark large, a line or two below."""
SCALE = Box(x=Fraction("3.35"), y=Fraction("17.7"), width=Fraction(SCALE_MM), height=Fraction("3.2"))
"""Where the scale's ticks hang: one each millimetre, longer at 5 and 10."""
SCALE_NUMBERS: tuple[tuple[Fraction, str], ...] = tuple((SCALE.x + mm, str(mm)) for mm in range(0, SCALE_MM + 1, 10))
"""The scale's numbers and the middle of each, in mm from the tag's left; SCALE_NUMBERS_Y is their baseline."""
SCALE_NUMBERS_Y = Fraction("23.6")


def payload(mark: str) -> str:
    """What the tag's code says of the tile `mark` (`b117` and `B117` are one tile): its mark in capitals.

    Raises ValueError for what is no tile's mark, so that nothing else is ever put on a tag.
    """
    said = mark.strip().upper()
    if not _MARK.fullmatch(said):
        raise ValueError(f"no tile's mark: {mark!r}")
    return said


def mark_in(text: str) -> str | None:
    """The tile's mark that a code's text says, in capitals; None for a code that is no tile tag's."""
    said = text.strip().upper()
    return said if _MARK.fullmatch(said) else None


@lru_cache(maxsize=1024)
def modules(mark: str) -> tuple[tuple[bool, ...], ...]:
    """The code's dark modules by row, MODULES each way, without the quiet zone. Raises ValueError as `payload` does."""
    import segno

    code = segno.make_qr(payload(mark), version=1, error="h", boost_error=False)
    return tuple(tuple(bool(dark) for dark in row) for row in code.matrix)


def code_path(mark: str) -> str:
    """The code as an SVG path in mm on the tag, one bar for each run of dark modules; to be filled black."""
    bars = []
    for down, row in enumerate(modules(mark)):
        start = 0
        while start < MODULES:
            end = start
            while end < MODULES and row[end]:
                end += 1
            if end > start:
                x, y = CODE.x + start * MODULE_MM, CODE.y + down * MODULE_MM
                bars.append(f"M{_mm(x)} {_mm(y)}h{_mm((end - start) * MODULE_MM)}v{_mm(MODULE_MM)}H{_mm(x)}z")
            start = end + 1
    return "".join(bars)


def scale_path() -> str:
    """The scale as an SVG path in mm on the tag, to be stroked black about 0.2 mm wide."""
    path = []
    for mm in range(SCALE_MM + 1):
        long = SCALE.height if mm % 10 == 0 else Fraction("2.4") if mm % 5 == 0 else Fraction("1.5")
        path.append(f"M{_mm(SCALE.x + mm)} {_mm(SCALE.y)}v{_mm(long)}")
    return "".join(path)


def _mm(length: Fraction) -> str:
    """A length with as many decimals as a printer can show."""
    return f"{float(length):.3f}".rstrip("0").rstrip(".")
