"""Photographs made ready for pages and sheets: sizes, limits and the pictures themselves. Leaf module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from combobook.colours import TileColour

SIZES: Mapping[str, int] = {"page": 1200, "card": 480, "thumb": 160}
"""Name of each size, and the longest its longer side may be, in pixels; largest first. Nothing is ever enlarged."""

FORMATS: Mapping[str, str] = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP", ".heic": "HEIF"}
"""What a file's suffix, in lower case, says is in it."""

MOST_PIXELS = 80_000_000
MOST_BYTES = 100_000_000
FEW_PIXELS = 160
"""A photograph whose shorter side has fewer is used, with a warning: a glaze cannot be judged from it."""

DRAWING_PREFIX = "drawing-"
"""A file whose name begins so is a drawing and is marked as one wherever it is shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureFile:
    """One size of a picture: a baseline JPEG or a WebP, upright, in sRGB, made from pixels alone (no metadata)."""

    path: str
    """Under site/: `pictures/<hash>-1200.jpg` or `.webp`; equal pictures have equal paths."""
    width: int
    height: int
    stored: Path
    """Where the picture stage keeps the bytes, absolute."""

    @property
    def data(self) -> bytes:
        """The file's bytes, read when asked for, so that any number of pictures takes the memory of one."""
        return self.stored.read_bytes()


Edges = tuple[float, float, float, float]
"""Left, top, right and low edge as parts of the picture's width and height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TagSeen:
    """The tile tag that a photograph shows (`tags` says what is on one)."""

    mark: str
    """The tile's mark as the tag says it, in capitals."""
    pixels_per_mm: float
    """Scale of the page size at the tag, so that tiles can be shown as large as they are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A photograph or drawing of photos/, ready to be shown."""

    name: str
    """File name in photos/."""
    drawing: bool
    colour: TileColour | None = None
    """Measured on the picture, a drawing's too; None where no tile can be made out (a picture of a few pixels)."""
    tag: TagSeen | None = None
    """None where no tag can be read in the picture."""
    tile: Edges | None = None
    """Where the tile lies in it, so that it can be shown without its table; None where none stands out."""
    sizes: Mapping[str, PictureFile]
    """JPEGs by the names in SIZES; a small photograph has the same pixels in several. Sheets embed these."""
    webp: Mapping[str, PictureFile] = field(default_factory=dict)
    """The same pixels as WebP, about half the bytes, for pages, which fall back to `sizes`."""

    @property
    def page(self) -> PictureFile:
        return self.sizes["page"]

    @property
    def card(self) -> PictureFile:
        return self.sizes["card"]

    @property
    def thumb(self) -> PictureFile:
        return self.sizes["thumb"]
