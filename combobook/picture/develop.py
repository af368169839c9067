"""One photograph: from the bytes of a file to upright, shrunk pictures without metadata, and what they show."""

from __future__ import annotations

import io
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import PurePath
from typing import TypeVar

from PIL import Image, UnidentifiedImageError

from combobook.colours import TileColour
from combobook.picture.balance import balanced, can_balance
from combobook.picture.colour import on_backdrop, shrinkable
from combobook.picture.faults import fault
from combobook.picture.measure import measured
from combobook.picture.settings import JPEG_QUALITY, WEBP_METHOD, WEBP_QUALITY
from combobook.picture.tag import FoundTag, found_tag
from combobook.picture.tile import edges, glazed
from combobook.pictures import MOST_PIXELS, SIZES, Edges, TagSeen
from combobook.problems import Problem

T = TypeVar("T")
_BIG = 24_000_000
_one_big_at_a_time = threading.Lock()
_ORIENTATION = 0x0112
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_ON_ITS_SIDE = tuple(TURNS[n] for n in (5, 6, 7, 8))
_LARGEST = max(SIZES.values())
_SEARCHED = 2 * _LARGEST


@dataclass(frozen=True, slots=True, kw_only=True)
class Shrunk:
    """One size in bytes."""

    width: int
    height: int
    jpeg: bytes
    webp: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Developed:
    """What a photograph gave: the kind of file, its own pixels, its sizes in the order of SIZES, what it shows."""

    format: str
    width: int
    height: int
    sizes: tuple[Shrunk, ...]
    tag: TagSeen | None
    tile: Edges | None
    colour: TileColour | None


def develop(name: str, data: bytes) -> Developed | Problem:
    """The photograph's sizes, or what is wrong with the file. Never raises for what is in `data`."""
    return opened(name, data, _shrink)


def opened(name: str, data: bytes, use: Callable[[Image.Image], T]) -> T | Problem:
    """What `use` makes of the photograph, or what is wrong with the file. Never raises for what is in `data`."""
    try:
        if _is_heif(data):
            _teach_pillow_heif()
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "WEBP", "HEIF")) as image:
            width, height = image.size
            if width * height > MOST_PIXELS:
                return fault("photo-too-large", name, pixels=f"{width} × {height} pixels are")
            with _one_big_at_a_time if width * height > _BIG else nullcontext():
                return use(image)
    except Image.DecompressionBombError:
        return fault("photo-too-large", name, pixels="its pixels are")
    except UnidentifiedImageError:
        known = _named_kind(data)
        return fault("photo-damaged", name) if known else fault("photo-unreadable", name, suffix=PurePath(name).suffix)
    except Exception:  # noqa: BLE001 - decoders raise what they like for bytes made to break them
        return fault("photo-damaged", name)


def _shrink(image: Image.Image) -> Developed:
    """The picture at its largest size, upright, in the light of its tag; then the smaller ones from it."""
    profile, kind, (width, height) = image.info.get("icc_profile"), str(image.format), image.size
    turn = TURNS.get(orientation(image))
    # Asks a JPEG's decoder for fewer pixels: about twice those of the largest size.
    image.draft(None, (_LARGEST, _LARGEST))
    whole = image if image.mode in ("L", "RGB", "CMYK") and not image.has_transparency_data else shrinkable(image)
    grey = grey_copy(whole)
    whole.thumbnail((_LARGEST, _LARGEST), Image.Resampling.HAMMING, reducing_gap=1.0)
    upright = on_backdrop(whole, profile)
    if turn is not None:
        upright, grey = upright.transpose(turn), grey.transpose(turn)
    if turn in _ON_ITS_SIDE:
        width, height = height, width
    # What Pillow remembers of the file (comments, profile, EXIF) must not reach another one.
    upright.info.clear()
    tag = found_tag(grey, upright)
    fair = tag is not None and can_balance(tag.paper)
    if tag is not None and fair:
        upright = balanced(upright, tag.paper)
    sizes = list(_chain(upright))
    tile = _edges(sizes, tag)
    return Developed(
        format="JPEG" if kind == "MPO" else kind,
        width=width,
        height=height,
        sizes=tuple(_encoded(each) for each in sizes),
        tag=TagSeen(mark=tag.mark, pixels_per_mm=round(tag.pixels_per_mm, 3)) if tag is not None else None,
        tile=tile,
        colour=_colour(sizes[0], tile, fair),
    )


def grey_copy(image: Image.Image) -> Image.Image:
    """What tags are looked for in: larger than what is shown, as a code's modules are small in a wide photograph."""
    factor = max(1, max(image.size) // _SEARCHED)
    return (image.reduce(factor) if factor > 1 else image).convert("L")


def _chain(upright: Image.Image) -> Iterator[Image.Image]:
    """Each size from the one before."""
    for longest in SIZES.values():
        upright = upright.copy()
        upright.thumbnail((longest, longest), Image.Resampling.HAMMING, reducing_gap=1.0)
        yield upright


def _edges(sizes: Sequence[Image.Image], tag: FoundTag | None) -> Edges | None:
    """The tile is looked for on the smallest size."""
    wide, high = sizes[0].size
    outline = tuple((x / wide, y / high) for x, y in tag.outline()) if tag is not None else ()
    found = edges(sizes[-1], outline)
    return (round(found[0], 4), round(found[1], 4), round(found[2], 4), round(found[3], 4)) if found else None


def _colour(largest: Image.Image, tile: Edges | None, fair: bool) -> TileColour | None:
    """Measured on the largest size, where a speckle is not yet mixed."""
    wide, high = largest.size
    left, top, right, low = glazed(tile)
    part = largest.crop((round(left * wide), round(top * high), round(right * wide), round(low * high)))
    return measured(part, balanced=fair)


def _encoded(image: Image.Image) -> Shrunk:
    jpeg, webp = io.BytesIO(), io.BytesIO()
    image.save(jpeg, "JPEG", quality=JPEG_QUALITY)
    image.save(webp, "WEBP", quality=WEBP_QUALITY, method=WEBP_METHOD)
    return Shrunk(width=image.width, height=image.height, jpeg=jpeg.getvalue(), webp=webp.getvalue())


def orientation(image: Image.Image) -> int:
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
