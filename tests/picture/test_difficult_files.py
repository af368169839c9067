"""Sixty files as they come from phones, scanners, print shops and broken cards, each with what becomes of it."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import coloraide
import numpy as np
import pytest
from PIL import Image

from combobook.picture.balance import linear
from combobook.picture.colour import BACKDROP
from tests.picture.photographs import (
    CORNERS,
    close,
    coded,
    colour_at,
    developed,
    plain,
    quarters,
    rgb_profile,
    shown,
    turned_exif,
)
from tests.picture.test_upright import STORED, as_stored

Colour = tuple[int, int, int]
PLACES = {"top left": (0.2, 0.2), "top right": (0.8, 0.2), "low left": (0.2, 0.8), "low right": (0.8, 0.8)}


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file, and what becomes of it: its corners or its one colour, the codes that are said; `shown` or left out."""

    name: str
    data: Callable[[], bytes]
    corners: dict[str, Colour] | None = None
    colour: Colour | None = None
    codes: tuple[str, ...] = ()
    within: int = 8
    shown: bool = True


def usual(name: str, data: Callable[[], bytes], **more: object) -> File:
    """A file that comes out as the four coloured quarters, upright, with nothing said."""
    return File(name=name, data=data, corners=CORNERS, **more)


def refused(name: str, data: Callable[[], bytes], code: str) -> File:
    return File(name=name, data=data, codes=(code,), shown=False)


def wide(space: str) -> bytes:
    """A profile of the wide space that coloraide knows by that name, its curve the one of sRGB."""
    primaries = tuple(
        tuple(float(v) for v in coloraide.Color(space, list(one)).convert("xyz-d50").coords())
        for one in ((1, 0, 0), (0, 1, 0), (0, 0, 1))
    )
    return rgb_profile(primaries, tuple(linear(value) for value in range(256)))


def in_srgb(space: str, values: tuple[float, ...]) -> Colour:
    red, green, blue = (round(255 * float(v)) for v in coloraide.Color(space, [v / 255 for v in values]).convert("srgb").coords())
    return red, green, blue


def deep_png(bits_rgb: tuple[int, int, int]) -> bytes:
    """A PNG of 200 × 200 pixels with 16 bits for each of red, green and blue (W3C PNG, third edition, section 11.2.1)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    row = b"\0" + struct.pack(">3H", *bits_rgb) * 200
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 200, 200, 16, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(row * 200)) + chunk(b"IEND", b"")


def bomb(width: int, height: int) -> bytes:
    """A PNG that claims so many pixels and holds none."""
    good = bytearray(coded(plain((1, 2, 3), size=(2, 2)), "PNG"))
    good[16:24] = struct.pack(">II", width, height)
    good[29:33] = struct.pack(">I", zlib.crc32(bytes(good[12:29])))
    return bytes(good)


def with_alpha() -> Image.Image:
    image = quarters().convert("RGBA")
    image.paste((0, 0, 0, 0), (0, 0, 160, 120))
    return image


def palette() -> Image.Image:
    return quarters().quantize(8)


def moving(kind: str) -> bytes:
    return coded(quarters(), kind, save_all=True, append_images=[plain((0, 0, 255), size=(320, 240))])


def cut(kind: str, part: float) -> Callable[[], bytes]:
    def data() -> bytes:
        whole = coded(quarters(800, 600), kind)
        return whole[: int(len(whole) * part)]

    return data


CLEAR = {**CORNERS, "top left": BACKDROP}
GREY = {place: (round(0.299 * r + 0.587 * g + 0.114 * b),) * 3 for place, (r, g, b) in CORNERS.items()}
MOSS, P3 = (128, 153, 102), "display-p3"
# The primaries of the one and the curve of sRGB: light is light, whatever the curve that coded it.
ADOBE_MOSS = in_srgb("a98-rgb-linear", tuple(255 * linear(value) for value in MOSS))

FILES: dict[str, File] = {
    **{
        f"a {kind} held the {n}th way": usual(
            f"a{suffix}", lambda kind=kind, n=n: coded(as_stored(quarters(), n), kind, exif=turned_exif(n))
        )
        for kind, suffix in (("JPEG", ".jpg"), ("HEIF", ".heic"))
        for n in STORED
    },
    "a PNG held sideways": usual("a.png", lambda: coded(as_stored(quarters(), 6), "PNG", exif=turned_exif(6))),
    "a WebP held sideways": usual("a.webp", lambda: coded(as_stored(quarters(), 8), "WEBP", exif=turned_exif(8))),
    "a phone's wide colours as JPEG": File(
        name="a.jpg", data=lambda: coded(plain(MOSS), "JPEG", icc_profile=wide(P3), quality=95), colour=in_srgb(P3, MOSS), within=3
    ),
    "a phone's wide colours as HEIC": File(
        name="a.heic", data=lambda: coded(plain(MOSS), "HEIF", icc_profile=wide(P3), quality=95), colour=in_srgb(P3, MOSS), within=3
    ),
    "a phone's wide colours as PNG": File(
        name="a.png", data=lambda: coded(plain(MOSS), "PNG", icc_profile=wide(P3)), colour=in_srgb(P3, MOSS), within=3
    ),
    "a phone's wide colours as WebP": File(
        name="a.webp", data=lambda: coded(plain(MOSS), "WEBP", icc_profile=wide(P3), lossless=True), colour=in_srgb(P3, MOSS), within=3
    ),
    "wide colours in a palette": File(
        name="a.png", data=lambda: coded(plain(MOSS).quantize(4), "PNG", icc_profile=wide(P3)), colour=in_srgb(P3, MOSS), within=3
    ),
    "a wider space still": File(
        name="a.png", data=lambda: coded(plain(MOSS), "PNG", icc_profile=wide("a98-rgb")), colour=ADOBE_MOSS, within=3
    ),
    "a profile cut short": usual("a.jpg", lambda: coded(quarters(), "JPEG", icc_profile=wide(P3)[:150])),
    "words for a profile": usual("a.png", lambda: coded(quarters(), "PNG", icc_profile=b"no profile at all")),
    "16 bits of red, green and blue": File(name="a.png", data=lambda: deep_png((0x2000, 0x8000, 0xFFFF)), colour=(32, 128, 255)),
    "16 bits of grey": File(
        name="a.png", data=lambda: coded(Image.fromarray(np.full((200, 200), 0x8000, dtype=np.uint16)), "PNG"), colour=(128, 128, 128)
    ),
    "a scanner's 8 bits of grey": File(name="a.jpg", data=lambda: coded(quarters().convert("L"), "JPEG"), corners=GREY),
    "a fax's single bits": File(name="a.png", data=lambda: coded(plain(1, "1"), "PNG"), colour=(255, 255, 255)),
    "a print shop's CMYK": File(
        name="a.jpg", data=lambda: coded(quarters().convert("CMYK"), "JPEG", quality=95), corners=CORNERS, within=12
    ),
    "a palette": usual("a.png", lambda: coded(palette(), "PNG")),
    "a palette with a clear colour": File(
        name="a.png", data=lambda: coded(palette(), "PNG", transparency=palette().getpixel((10, 10))), corners=CLEAR
    ),
    "a see-through PNG": File(name="a.png", data=lambda: coded(with_alpha(), "PNG"), corners=CLEAR),
    "a see-through WebP": File(name="a.webp", data=lambda: coded(with_alpha(), "WEBP", lossless=True), corners=CLEAR),
    "a see-through HEIC": File(name="a.heic", data=lambda: coded(with_alpha(), "HEIF", quality=95), corners=CLEAR),
    "see-through greys": File(name="a.png", data=lambda: coded(plain((0, 0), "LA"), "PNG"), colour=BACKDROP),
    "one clear colour of all": File(
        name="a.png", data=lambda: coded(quarters(), "PNG", transparency=CORNERS["top left"]), corners=CLEAR
    ),
    "a progressive JPEG": usual("a.jpg", lambda: coded(quarters(), "JPEG", progressive=True)),
    "a JPEG with full colour": usual("a.jpg", lambda: coded(quarters(), "JPEG", subsampling=0)),
    "a JPEG kept in red, green and blue": usual("a.jpg", lambda: coded(quarters(), "JPEG", keep_rgb=True)),
    "a JPEG of the poorest quality": usual("a.jpg", lambda: coded(quarters(), "JPEG", quality=8), within=30),
    "a JPEG with restart marks": usual("a.jpg", lambda: coded(quarters(), "JPEG", restart_marker_rows=1)),
    "a lossless WebP": usual("a.webp", lambda: coded(quarters(), "WEBP", lossless=True)),
    "a moving WebP": usual("a.webp", lambda: moving("WEBP")),
    "a moving PNG": usual("a.png", lambda: moving("PNG")),
    "two pictures in one JPEG": usual("a.jpg", lambda: moving("MPO")),
    "a JPEG with more behind its end": usual("a.jpg", lambda: coded(quarters(), "JPEG") + b"\0" * 999 + b"a film of the kiln"),
    "EXIF that makes no sense": usual("a.jpg", lambda: coded(quarters(), "JPEG", exif=b"Exif\0\0MM\0*\xff\xff\xff\xff")),
    "a ninth way to hold a phone": usual("a.jpg", lambda: coded(quarters(), "JPEG", exif=turned_exif(9))),
    "12 megapixels": usual("a.jpg", lambda: coded(quarters(4000, 3000), "JPEG", quality=60)),
    "a suffix in capitals": usual("A.JPEG", lambda: coded(quarters(), "JPEG")),
    "a PNG that says it is a JPEG": usual("a.jpg", lambda: coded(quarters(), "PNG"), codes=("photo-mislabelled",)),
    "a HEIC that says it is a JPEG": usual("a.jpg", lambda: coded(quarters(), "HEIF", quality=95), codes=("photo-mislabelled",)),
    "a JPEG that says it is a HEIC": usual("a.heic", lambda: coded(quarters(), "JPEG"), codes=("photo-mislabelled",)),
    "a WebP that says it is a PNG": usual("a.png", lambda: coded(quarters(), "WEBP", quality=95), codes=("photo-mislabelled",)),
    "a single pixel": File(
        name="a.png", data=lambda: coded(plain((9, 90, 200), size=(1, 1)), "PNG"), colour=(9, 90, 200), codes=("photo-small",)
    ),
    "a line one pixel high": File(
        name="a.png", data=lambda: coded(plain((9, 90, 200), size=(3000, 1)), "PNG"), colour=(9, 90, 200), codes=("photo-small",)
    ),
    "a preview": usual("a.jpg", lambda: coded(quarters(120, 90), "JPEG"), codes=("photo-small",)),
    "nothing at all": refused("a.jpg", lambda: b"", "photo-empty"),
    "a JPEG cut in half": refused("a.jpg", cut("JPEG", 0.5), "photo-damaged"),
    "a PNG cut in half": refused("a.png", cut("PNG", 0.5), "photo-damaged"),
    "a WebP cut in half": refused("a.webp", cut("WEBP", 0.5), "photo-damaged"),
    "a HEIC cut in half": refused("a.heic", cut("HEIF", 0.5), "photo-damaged"),
    "the first bytes of a JPEG": refused("a.jpg", lambda: b"\xff\xd8\xff\xe0", "photo-damaged"),
    "the first bytes of a HEIC": refused("a.heic", lambda: b"\0\0\0\x18ftypheic", "photo-damaged"),
    "zeros": refused("a.jpg", lambda: bytes(5000), "photo-unreadable"),
    "a letter": refused("a.png", lambda: b"Dear Ms R, here is my tile", "photo-unreadable"),
    "a GIF": refused("a.png", lambda: coded(quarters(), "GIF"), "photo-unreadable"),
    "a TIFF": refused("a.jpg", lambda: coded(quarters(), "TIFF"), "photo-unreadable"),
    "a BMP": refused("a.jpg", lambda: coded(quarters(), "BMP"), "photo-unreadable"),
    "a drawing in SVG": refused("a.webp", lambda: b"<svg xmlns='http://www.w3.org/2000/svg'/>", "photo-unreadable"),
    "a bomb of nine thousand megapixels": refused("a.png", lambda: bomb(95_000, 95_000), "photo-too-large"),
    "a bomb just over what is read": refused("a.png", lambda: bomb(10_000, 8_001), "photo-too-large"),
    "a bomb just under it": refused("a.png", lambda: bomb(10_000, 8_000), "photo-damaged"),
}  # fmt: skip


def test_there_are_about_sixty() -> None:
    assert len(FILES) >= 60


@pytest.mark.parametrize("what", FILES)
def test_each_becomes_what_it_should_and_nothing_else_is_said(tmp_path: Path, what: str) -> None:
    file = FILES[what]
    pictures, problems = developed(tmp_path, {file.name: file.data()})
    assert tuple(p.code for p in problems) == file.codes
    assert list(pictures) == ([file.name] if file.shown else [])
    assert all((p.place.path, p.place.line) == (f"photos/{file.name}", 1) and p.help for p in problems)
    for made in pictures.values():
        for image in (shown(made), Image.open(io.BytesIO(made.webp["page"].data))):
            for place, colour in (file.corners or {}).items():
                assert close(colour_at(image, *PLACES[place]), colour, file.within), place
            if file.colour is not None:
                assert close(colour_at(image, 0.5, 0.5), file.colour, file.within)
