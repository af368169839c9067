"""Letters on sheets: how large they must be, and how wide a text comes out. Leaf of the sheets.

Letter height for distance D and visual angle a is 2·D·tan(a/2), measured on capitals (ISO 9241-3:1992, 5.4:
16 minutes of arc at least, 20 preferred). A type size follows from the face's own cap height.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from math import ceil, pi, tan

LEAST_ARCMIN = 16
PREFERRED_ARCMIN = 20
FAMILY = "Atkinson Hyperlegible"
FACES: Mapping[str, str] = {
    "regular": "AtkinsonHyperlegible-Regular.ttf",
    "bold": "AtkinsonHyperlegible-Bold.ttf",
}
"""The two faces every sheet is set in, and their files in the font package."""
_SPARE = 1.004
"""Widths are summed without kerning, which nearly always tightens; this covers the few pairs it opens."""


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of text in one weight."""

    text: str
    bold: bool = False


Line = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class _Face:
    advances: Mapping[int, float]
    """By code point, in ems."""
    unknown: float
    cap_height: float


def capital_height(distance_mm: float, arcmin: float) -> float:
    """How high capitals must be, in mm, to fill `arcmin` minutes of arc at `distance_mm`. Source: ISO 9241-3:1992."""
    return 2 * distance_mm * tan(arcmin / 60 * pi / 180 / 2)


def type_size(distance_mm: float, arcmin: float) -> float:
    """The type size in mm for that capital height, rounded up to 0.1 mm so that no reading of it falls short."""
    return ceil(capital_height(distance_mm, arcmin) / _face("regular").cap_height * 10 - 1e-9) / 10


def font_file(weight: str) -> bytes:
    """The face's font file (`regular` or `bold`)."""
    return (resources.files("fontpkg_atkinson_hyperlegible") / "files" / FACES[weight]).read_bytes()


@lru_cache(maxsize=65536)
def width(text: str, size: float, bold: bool = False) -> float:
    """How wide a text comes out, in the unit of `size`; never less than it really is."""
    face = _face("bold" if bold else "regular")
    return sum(face.advances.get(ord(letter), face.unknown) for letter in text) * size * _SPARE


def line_width(line: Line, size: float) -> float:
    """How wide a line of runs comes out, in the unit of `size`."""
    return sum(width(run.text, size, run.bold) for run in line)


def not_in_the_face(text: str) -> str:
    """The letters of a text that the face does not have, each once; empty where it has them all."""
    face = _face("regular")
    return "".join(dict.fromkeys(c for c in text if ord(c) not in face.advances and not c.isspace()))


@lru_cache(maxsize=8192)
def wrapped(line: Line, size: float, room: float) -> tuple[Line, ...]:
    """The text in lines no wider than `room`; a word that alone is wider is divided with hyphens."""
    words = [
        Run(piece, run.bold)
        for run in line
        for word in run.text.split()
        for piece in _pieces(word, run.bold, size, room)
    ]
    lines: list[list[Run]] = []
    used = 0.0
    for word in words:
        step = width(word.text, size, word.bold)
        space = width(" ", size, word.bold)
        if lines and used + space + step <= room:
            lines[-1].append(word)
            used += space + step
        else:
            lines.append([word])
            used = step
    return tuple(_joined(words) for words in lines)


def _pieces(word: str, bold: bool, size: float, room: float) -> list[str]:
    if width(word, size, bold) <= room:
        return [word]
    pieces, piece = [], ""
    for letter in word:
        if piece and width(f"{piece}{letter}-", size, bold) > room:
            pieces.append(f"{piece}-")
            piece = ""
        piece += letter
    return [*pieces, piece]


def _joined(words: list[Run]) -> Line:
    """Neighbouring words of one weight as one run; the space between two weights goes with the first."""
    runs: list[Run] = []
    for word in words:
        if runs and runs[-1].bold == word.bold:
            runs[-1] = Run(f"{runs[-1].text} {word.text}", word.bold)
        else:
            if runs:
                runs[-1] = Run(f"{runs[-1].text} ", runs[-1].bold)
            runs.append(word)
    return tuple(runs)


@cache
def _face(weight: str) -> _Face:
    # Imported here: fontTools takes a tenth of a second, and only sheets measure letters.
    from fontTools.ttLib import TTFont

    file = resources.files("fontpkg_atkinson_hyperlegible") / "files" / FACES[weight]
    with resources.as_file(file) as path, TTFont(path, lazy=True) as font:
        em = font["head"].unitsPerEm
        metrics = font["hmtx"].metrics
        return _Face(
            advances={code: metrics[glyph][0] / em for code, glyph in font.getBestCmap().items()},
            unknown=1.0,
            cap_height=font["OS/2"].sCapHeight / em,
        )
