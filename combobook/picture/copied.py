"""A photograph for the studio's own photos/: upright, in sRGB, made anew from its pixels, and whose tag lies in it."""

from __future__ import annotations

import io
from dataclasses import dataclass

from PIL import Image, ImageFile

from combobook.picture.colour import on_backdrop, shrinkable
from combobook.picture.develop import TURNS, grey_copy, opened, orientation
from combobook.picture.settings import JPEG_QUALITY
from combobook.picture.tag import found_tag
from combobook.problems import Problem

LONGEST = 2400
"""Pixels of a copy's longer side: twice what is ever shown, and a tag's code stays legible."""
_THUMB = 320


@dataclass(frozen=True, slots=True, kw_only=True)
class Copied:
    """A copy that carries nothing of the camera, the place or the day."""

    jpeg: bytes
    thumb: bytes
    """A small JPEG of the same."""
    mark: str | None
    """What the tag in the picture says, in capitals; None without a readable tag."""


def copied(name: str, data: bytes) -> Copied | Problem:
    """The copy, or what is wrong with the file. Its light and colours stay as photographed. Equal bytes, equal copy."""
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    return opened(name, data, _copied)


def _copied(image: Image.Image) -> Copied:
    profile, turn = image.info.get("icc_profile"), TURNS.get(orientation(image))
    image.draft(None, (LONGEST, LONGEST))
    whole = image if image.mode in ("L", "RGB", "CMYK") and not image.has_transparency_data else shrinkable(image)
    grey = grey_copy(whole)
    whole.thumbnail((LONGEST, LONGEST), Image.Resampling.HAMMING, reducing_gap=1.0)
    upright = on_backdrop(whole, profile)
    if turn is not None:
        upright, grey = upright.transpose(turn), grey.transpose(turn)
    # What Pillow remembers of the file (comments, profile, EXIF) must not reach another one.
    upright.info.clear()
    tag = found_tag(grey, upright)
    small = upright.copy()
    small.thumbnail((_THUMB, _THUMB), Image.Resampling.HAMMING)
    return Copied(jpeg=_jpeg(upright), thumb=_jpeg(small), mark=tag.mark if tag is not None else None)


def _jpeg(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "JPEG", quality=max(JPEG_QUALITY, 90))
    return out.getvalue()
