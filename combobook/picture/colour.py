"""Any kind of pixels to plain sRGB on the book's backdrop."""

from __future__ import annotations

import io

from PIL import Image, ImageCms

BACKDROP = (0xCF, 0xCC, 0xC6)
"""What shows through where a picture is see-through: the warm grey that pages put behind tiles."""

_DEEP = ("I", "I;16", "I;16L", "I;16B", "I;16N")
_SPACES = {"RGB": "RGB", "L": "GRAY", "CMYK": "CMYK"}


def shrinkable(image: Image.Image) -> Image.Image:
    """The same picture in a mode whose pixels can be averaged: L, RGB, RGBA or CMYK.

    Palettes and single bits cannot be; 16-bit greys would be cut off at 255 and not scaled by a plain conversion.
    """
    if image.mode in _DEEP:
        return image.point(lambda value: value * (1 / 257) + 0).convert("L")
    if image.mode == "F":
        return image.convert("L")
    if image.has_transparency_data:
        return image if image.mode == "RGBA" else image.convert("RGBA")
    if image.mode in _SPACES:
        return image
    return image.convert("L" if image.mode == "1" else "RGB")


def on_backdrop(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The picture in sRGB, flattened on BACKDROP. `profile` is the file's colour profile, if it had one."""
    if image.mode != "RGBA":
        return _srgb(image, profile)
    flat = Image.new("RGB", image.size, BACKDROP)
    flat.paste(_srgb(image.convert("RGB"), profile), mask=image.getchannel("A"))
    return flat


def _srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Through the profile, if it is readable and about pixels of this kind; else by Pillow's own conversion."""
    if profile:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            if source.profile.xcolor_space.strip() == _SPACES[image.mode]:
                target = ImageCms.createProfile("sRGB")
                converted = ImageCms.profileToProfile(image, source, target, outputMode="RGB")
                if converted is not None:
                    return converted
        except (ImageCms.PyCMSError, OSError, ValueError):
            pass  # a broken profile is no reason to refuse the picture
    return image if image.mode == "RGB" else image.convert("RGB")
