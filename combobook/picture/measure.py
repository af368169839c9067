"""A tile's main colour and the one it breaks to, counted from the pixels of its picture."""

from __future__ import annotations

from math import hypot

from PIL import Image

from combobook.colours import Lab, TileColour, difference, lab, srgb
from combobook.picture.balance import linear

_LONGEST = 80
"""Pixels a side that are looked at: taken, not averaged, as a fine speckle is what a glaze breaks to."""
_SORTS = 12
"""Colours that the pixels are first sorted into."""
_ALIKE = 9.0
"""CIEDE2000 under which two of those are one colour of the glaze (house value)."""
_LEAST_SHARE, _LEAST_APART = 0.08, 12.0
"""A second colour is one that takes so much of the tile and differs so much (house values)."""
_HUE_APART, _LIGHT_APART = 8.0, 22.0
"""Nor is it the same colour in shade: a groove is darker, a highlight paler."""
_MOST_SHINE, _VEIL_NEAR = 0.3, 0.25
"""A lamp's reflection takes no more of a tile than this, and is this near to the glaze's own light with white added."""
_FEW = 16
"""With fewer pixels than this a side there is nothing to measure."""

_Counted = list[tuple[float, Lab]]


def measured(part: Image.Image, *, balanced: bool) -> TileColour | None:
    """The colours of an RGB picture that shows glaze and nothing else; None where it has too few pixels."""
    if min(part.size) < _FEW:
        return None
    shrink = min(1.0, _LONGEST / max(part.size))
    size = (max(1, round(part.width * shrink)), max(1, round(part.height * shrink)))
    (_, main), *others = _together(_without_shine(_counted(part.resize(size, Image.Resampling.NEAREST))))
    second = (c for share, c in others if share >= _LEAST_SHARE and _apart(main, c) and not _veil(main, c, share))
    breaking = next(second, None)
    return TileColour(main=_rounded(main), breaking=_rounded(breaking) if breaking else None, balanced=balanced)


def _counted(pixels: Image.Image) -> _Counted:
    """A dozen colours that stand for all, each with its share; the largest first."""
    sorted_ = pixels.quantize(_SORTS, Image.Quantize.MEDIANCUT)
    palette, counts = sorted_.getpalette() or [], sorted_.getcolors() or []
    total = pixels.width * pixels.height
    return sorted(
        ((count / total, lab(*palette[3 * int(n) : 3 * int(n) + 3])) for count, n in counts if isinstance(n, int)),
        key=lambda each: (-each[0], each[1].l, each[1].a, each[1].b),
    )


def _without_shine(colours: _Counted) -> _Counted:
    """Less the white of a lamp's reflection, where it is a small part of a tile that is not white itself."""
    shine = [(share, c) for share, c in colours if c.l > 88 and hypot(c.a, c.b) < 9]
    others = [each for each in colours if each not in shine]
    small = sum(share for share, _ in shine) < 0.25
    return others if others and small and max(others, key=lambda each: each[0])[1].l < 78 else colours


def _together(colours: _Counted) -> _Counted:
    """Those that are one colour of the glaze counted as one: the largest gathers its like, then the next."""
    gathered: _Counted = []
    left = list(colours)
    while left:
        _, first = left[0]
        like = [each for each in left if difference(first, each[1]) < _ALIKE]
        left = [each for each in left if each not in like]
        share = sum(each for each, _ in like)
        mean = Lab(*(sum(s * value for s, value in zip((s for s, _ in like), (getattr(c, axis) for _, c in like),
                     strict=True)) / share for axis in ("l", "a", "b")))  # fmt: skip
        gathered.append((share, mean))
    return sorted(gathered, key=lambda each: -each[0])


def _apart(main: Lab, other: Lab) -> bool:
    if difference(main, other) < _LEAST_APART:
        return False
    return hypot(main.a - other.a, main.b - other.b) >= _HUE_APART or abs(main.l - other.l) >= _LIGHT_APART


def _veil(main: Lab, other: Lab, share: float) -> bool:
    """Whether `other` is only `main` under a lamp's reflection: the same light with white added, on a small part."""
    if share >= _MOST_SHINE or other.l <= main.l:
        return False
    under, over = _light(main), _light(other)
    white = max((o - u) / (1 - u) for u, o in zip(under, over, strict=True) if u < 1)
    return all(abs(u + white * (1 - u) - o) < _VEIL_NEAR * (u + white) for u, o in zip(under, over, strict=True))


def _light(colour: Lab) -> tuple[float, ...]:
    return tuple(linear(value) for value in srgb(colour))


def _rounded(colour: Lab) -> Lab:
    """To a hundredth, so that what is kept and what was just measured are equal."""
    return Lab(round(colour.l, 2), round(colour.a, 2), round(colour.b, 2))
