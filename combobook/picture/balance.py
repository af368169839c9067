"""Light taken out of a photograph by the white paper of its tag."""

from __future__ import annotations

from PIL import Image

PAPER = (240, 240, 244)
"""sRGB of the printing paper: L* 95, a* 0, b* -2, as ISO 12647-2 gives for coated paper (value from memory). Office
papers differ from it by about two units."""

_BURNT, _DARK = 253, 45
"""A paper as light as this may have been lighter still, one as dark as this tells more of the noise than of the light:
neither says what the light was."""


def can_balance(paper: tuple[int, int, int]) -> bool:
    """Whether a paper photographed in this sRGB colour still says what the light was."""
    return max(paper) < _BURNT and min(paper) > _DARK


def balanced(image: Image.Image, paper: tuple[int, int, int]) -> Image.Image:
    """The RGB picture as it would be if the paper, photographed as `paper`, came out as PAPER.

    Each channel is multiplied in linear light, as another lamp or another exposure would do; values beyond white end
    at white.
    """
    table = [
        encoded(linear(value) * linear(white) / linear(seen))
        for white, seen in zip(PAPER, paper, strict=True)
        for value in range(256)
    ]
    return image.point(table)


def linear(value: float) -> float:
    """Light, 0 to 1, of an sRGB value from 0 to 255 (IEC 61966-2-1)."""
    part = value / 255
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def encoded(light: float) -> int:
    """The sRGB value from 0 to 255 of a light, held to 0 to 1."""
    held = min(1.0, max(0.0, light))
    return round(255 * (held * 12.92 if held <= 0.0031308 else 1.055 * held ** (1 / 2.4) - 0.055))
