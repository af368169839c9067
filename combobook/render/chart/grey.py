"""The grey form of the wall chart: the same sheets without colour, as a copier gives them back but with more care.

Nothing is lost: every verdict is words, shape and frame, and each card says its colour in words. Pictures keep their
full range of lightness; a copier would squeeze it.
"""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any

PATH = "print/wall-chart-grey.pdf"
_COLOUR = re.compile(rb"(?<![\d.])([\d.]+) ([\d.]+) ([\d.]+) (rg|RG)\b")


def in_grey(pdf: bytes) -> bytes:
    """The same PDF with every colour of words, lines and pictures replaced by a grey of equal luminance."""
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import StreamObject

    writer = PdfWriter(clone_from=PdfReader(BytesIO(pdf)))
    pages = {page.raw_get("/Contents").idnum for page in writer.pages}
    for thing in writer._objects:
        if not isinstance(thing, StreamObject):
            continue
        where = thing.indirect_reference
        if thing.get("/Subtype") == "/Image":
            _picture(thing)
        elif thing.get("/Subtype") == "/Form" or "/PatternType" in thing or (where and where.idnum in pages):
            _drawing(thing)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def _drawing(stream: Any) -> None:
    """The colours of words and lines, in a stream of drawing operations."""
    data = stream.get_data()
    changed = _COLOUR.sub(_grey, data)
    if changed == data:
        return
    stream.set_data(changed)


def _grey(found: re.Match[bytes]) -> bytes:
    operator = b"g" if found[4] == b"rg" else b"G"
    return b"%.4g %s" % (_luminance(*(float(found[n]) for n in (1, 2, 3))), operator)


def _luminance(*colour: float) -> float:
    """The sRGB grey of equal relative luminance. Source: WCAG 2.2, definition of relative luminance; IEC 61966-2-1."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    light = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055


def _picture(image: Any) -> None:
    """A JPEG in grey; a picture that has no colour stays as it is."""
    from PIL import Image
    from pypdf.generic import NameObject

    if image.get("/ColorSpace") != "/DeviceRGB" or image.get("/Filter") != "/DCTDecode":
        return
    out = BytesIO()
    with Image.open(BytesIO(image._data)) as picture:
        picture.convert("L").save(out, "JPEG", quality=85)
    image._data = out.getvalue()
    image[NameObject("/ColorSpace")] = NameObject("/DeviceGray")
