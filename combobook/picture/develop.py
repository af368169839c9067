"""One photograph: from the bytes of a file to three upright, shrunk JPEGs without metadata."""

from __future__ import annotations

import io
import threading
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import PurePath

from PIL import Image, UnidentifiedImageError

from combobook.picture.colour import on_backdrop, shrinkable
from combobook.picture.faults import fault
from combobook.picture.settings import JPEG_QUALITY
from combobook.pictures import MOST_PIXELS, SIZES
from combobook.problems import Problem

_BIG = 24_000_000
_one_big_at_a_time = threading.Lock()
_ORIENTATION = 0x0112
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shrunk:
    """One size as JPEG bytes."""

    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Developed:
    """What a photograph gave: what kind of file it was, its own pixels, and its sizes in the order of SIZES."""

    format: str
    width: int
    height: int
    sizes: tuple[Shrunk, ...]


def develop(name: str, data: bytes) -> Developed | Problem:
    """The photograph's sizes, or what is wrong with the file. Never raises for what is in `data`."""
    try:
        if _is_heif(data):
            _teach_pillow_heif()
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "WEBP", "HEIF")) as image:
            width, height = image.size
            if width * height > MOST_PIXELS:
                return fault("photo-too-large", name, pixels=f"{width} × {height} pixels are")
            with _one_big_at_a_time if width * height > _BIG else nullcontext():
                return _shrink(image)
    except Image.DecompressionBombError:
        return fault("photo-too-large", name, pixels="its pixels are")
    except UnidentifiedImageError:
        known = _named_kind(data)
        return fault("photo-damaged", name) if known else fault("photo-unreadable", name, suffix=PurePath(name).suffix)
    except Exception:  # noqa: BLE001 - decoders raise what they like for bytes made to break them
        return fault("photo-damaged", name)


def _shrink(image: Image.Image) -> Developed:
    """The chain 1200, 480, 160: each size from the one before; turned after the first, when little is left to turn."""
    profile = image.info.get("icc_profile")
    turn = _TURNS.get(_orientation(image))
    kind, (width, height) = str(image.format), image.size
    largest = next(iter(SIZES.values()))
    if image.mode in ("L", "RGB", "CMYK") and not image.has_transparency_data:
        image.thumbnail((largest, largest), reducing_gap=1.0)  # asks a JPEG for fewer pixels; 2.0 would not
    else:
        image = shrinkable(image)
        image.thumbnail((largest, largest), reducing_gap=1.0)
    flat = on_backdrop(image, profile)
    if turn is not None:
        flat = flat.transpose(turn)
    if turn is not None and turn not in (_TURNS[2], _TURNS[3], _TURNS[4]):
        width, height = height, width
    sizes = []
    for longest in SIZES.values():
        flat = flat.copy()
        flat.thumbnail((longest, longest), reducing_gap=1.0)
        sizes.append(_encoded(flat))
    return Developed(format="JPEG" if kind == "MPO" else kind, width=width, height=height, sizes=tuple(sizes))


def _encoded(image: Image.Image) -> Shrunk:
    """From pixels alone: what Pillow remembers of the file (comments, profile, EXIF) is dropped first."""
    image.info.clear()
    out = io.BytesIO()
    image.save(out, "JPEG", quality=JPEG_QUALITY)
    return Shrunk(width=image.width, height=image.height, data=out.getvalue())


def _orientation(image: Image.Image) -> int:
    """EXIF orientation, 1 where none can be read. libheif has turned a HEIC already and says 1."""
    try:
        return int(image.getexif().get(_ORIENTATION, 1))
    except Exception:  # noqa: BLE001 - broken EXIF is no reason to refuse the picture
        return 1


def _is_heif(data: bytes) -> bool:
    return data[4:8] == b"ftyp"


def _named_kind(data: bytes) -> bool:
    """The first bytes are those of a kind we read, though the rest could not be."""
    return _is_heif(data) or data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")) or (
        data[:4] == b"RIFF" and data[8:12] == b"WEBP"
    )


def _teach_pillow_heif() -> None:
    """Only when a HEIC turns up: the import costs more than a small studio's whole pass."""
    if "HEIF" not in Image.OPEN:
        from pillow_heif import register_heif_opener

        register_heif_opener(thumbnails=False)
