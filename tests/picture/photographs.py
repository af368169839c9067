"""Photographs drawn for these tests, and the stage run on them."""

from __future__ import annotations

import io
import struct
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pillow_heif
from PIL import Image

from combobook.picture import picture
from combobook.pictures import Picture
from combobook.problems import Problem

pillow_heif.register_heif_opener()

CORNERS = {"top left": (220, 40, 40), "top right": (40, 180, 60), "low left": (40, 70, 210), "low right": (230, 210, 60)}


def quarters(width: int = 320, height: int = 240) -> Image.Image:
    """A picture whose four quarters differ, so that every turn and flip shows."""
    pixels = np.zeros((height, width, 3), dtype=np.uint8)
    y, x = height // 2, width // 2
    pixels[:y, :x], pixels[:y, x:] = CORNERS["top left"], CORNERS["top right"]
    pixels[y:, :x], pixels[y:, x:] = CORNERS["low left"], CORNERS["low right"]
    return Image.fromarray(pixels)


def plain(colour: tuple[int, ...] | int, mode: str = "RGB", size: tuple[int, int] = (200, 200)) -> Image.Image:
    return Image.new(mode, size, colour)


def coded(image: Image.Image, kind: str, **options: object) -> bytes:
    """The picture as a file of that kind."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def turned_exif(orientation: int) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    return exif.tobytes()


def studio(tmp_path: Path, photos: Mapping[str, bytes]) -> Path:
    """A content folder with these files in photos/."""
    folder = tmp_path / "content"
    (folder / "photos").mkdir(parents=True, exist_ok=True)
    for name, data in photos.items():
        (folder / "photos" / name).write_bytes(data)
    return folder


def developed(tmp_path: Path, photos: Mapping[str, bytes]) -> tuple[Mapping[str, Picture], tuple[Problem, ...]]:
    """The stage on a folder with these photos, all of them named."""
    return picture(studio(tmp_path, photos), photos, tmp_path / "cache")


def one(tmp_path: Path, name: str, data: bytes) -> Picture:
    """The only photo's picture, when nothing at all was reported."""
    pictures, problems = developed(tmp_path, {name: data})
    assert problems == ()
    return pictures[name]


def shown(made: Picture, size: str = "page") -> Image.Image:
    """What a reader of the JPEG sees."""
    file = made.sizes[size]
    image = Image.open(io.BytesIO(file.data))
    assert (image.format, image.mode, image.size) == ("JPEG", "RGB", (file.width, file.height))
    return image


def colour_at(image: Image.Image, across: float, down: float) -> tuple[int, ...]:
    pixel = image.getpixel((int(across * image.width), int(down * image.height)))
    assert isinstance(pixel, tuple)
    return pixel


def close(a: tuple[int, ...], b: tuple[int, ...], within: int = 6) -> bool:
    """Equal as far as a JPEG keeps colours."""
    return all(abs(x - y) <= within for x, y in zip(a, b, strict=True))


def rgb_profile(columns: tuple[tuple[float, float, float], ...], curve: float | tuple[float, ...]) -> bytes:
    """An ICC version 2 matrix profile (ICC.1:2001-04) of these D50 primaries, written by hand.

    `curve` is a gamma, or the light (0 to 1) of evenly spaced values.
    """

    def s15(*values: float) -> bytes:
        return b"".join(struct.pack(">i", round(value * 65536)) for value in values)

    points = [round(curve * 256)] if isinstance(curve, float | int) else [round(light * 65535) for light in curve]
    coded_curve = b"curv" + bytes(4) + struct.pack(f">I{len(points)}H", len(points), *points)
    text = b"made for a test\0"
    tags = {
        b"desc": b"desc" + bytes(4) + struct.pack(">I", len(text)) + text + bytes(79),
        b"cprt": b"text" + bytes(4) + text,
        b"wtpt": b"XYZ " + bytes(4) + s15(0.9642, 1.0, 0.8249),
        **{n: b"XYZ " + bytes(4) + s15(*c) for n, c in zip((b"rXYZ", b"gXYZ", b"bXYZ"), columns, strict=True)},
        **dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), coded_curve),
    }
    table, body, start = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for name, value in tags.items():
        value += bytes(-len(value) % 4)
        table += name + struct.pack(">II", start + len(body), len(value))
        body += value
    size = struct.pack(">I", start + len(body))
    head = size + bytes(4) + b"\x02\x10\0\0" + b"mntrRGB XYZ " + bytes(12) + b"acsp" + bytes(28)
    head += s15(0.9642, 1.0, 0.8249)
    return head + bytes(128 - len(head)) + table + body
