"""Outlines of ware: radius and height points, smoothed, scaled to a form's own height."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import hypot

from combobook.entries import Form, Inside

Point = tuple[float, float]
"""Radius and height, in mm from the axis and from the kiln shelf."""

# Radius and height as parts of the height, foot to rim; our own drawings, by the word in the form's name.
_OUTLINES: dict[str, tuple[Point, ...]] = {
    "mug": ((0.29, 0.0), (0.33, 0.03), (0.385, 0.12), (0.4, 0.3), (0.385, 0.62), (0.395, 0.85), (0.42, 1.0)),
    "cup": ((0.27, 0.0), (0.3, 0.04), (0.42, 0.22), (0.47, 0.55), (0.49, 0.85), (0.53, 1.0)),
    "bowl": ((0.4, 0.0), (0.42, 0.06), (0.72, 0.22), (0.98, 0.52), (1.1, 0.8), (1.17, 1.0)),
    "plate": ((1.75, 0.0), (1.9, 0.12), (2.9, 0.34), (3.9, 0.68), (4.6, 0.95), (4.8, 1.0)),
    "dish": ((1.3, 0.0), (1.36, 0.08), (1.62, 0.24), (1.84, 0.6), (1.96, 0.9), (2.0, 1.0)),
    "vase": ((0.17, 0.0), (0.2, 0.04), (0.3, 0.22), (0.345, 0.42), (0.29, 0.62), (0.17, 0.8), (0.14, 0.88), (0.2, 1.0)),
    "jug": ((0.25, 0.0), (0.27, 0.03), (0.37, 0.25), (0.36, 0.45), (0.25, 0.72), (0.23, 0.85), (0.28, 1.0)),
    "jar": ((0.3, 0.0), (0.33, 0.04), (0.42, 0.25), (0.44, 0.5), (0.4, 0.78), (0.3, 0.93), (0.31, 1.0)),
    "planter": ((0.33, 0.0), (0.35, 0.03), (0.42, 0.3), (0.47, 0.65), (0.52, 0.96), (0.53, 1.0)),
    "tile": ((0.3, 0.0), (0.3, 0.5), (0.3, 1.0)),
    "pot": ((0.3, 0.0), (0.34, 0.04), (0.41, 0.25), (0.42, 0.6), (0.4, 0.9), (0.42, 1.0)),
}
_ALSO = {
    "tumbler": "mug", "beaker": "mug", "saucer": "plate", "tray": "dish", "platter": "plate", "pitcher": "jug",
    "ewer": "jug", "bottle": "vase", "canister": "jar", "crock": "jar", "test": "tile", "slab": "tile",
}  # fmt: skip


def kind_of(form: Form) -> str:
    """Which outline a form is drawn with: by a word of its name or file name, else by its `inside`."""
    words = f"{form.name.value} {form.id}".lower().replace("-", " ").split()
    for word in words:
        singular = word.removesuffix("s")
        kind = _ALSO.get(singular, singular)
        if kind in _OUTLINES:
            return "plate" if kind == "dish" and form.inside.value is Inside.OPEN else kind
    return "plate" if form.inside.value is Inside.OPEN else "tile" if form.inside.value is Inside.NONE else "pot"


@lru_cache(maxsize=128)
def outline(kind: str, height: float) -> tuple[Point, ...]:
    """The outside, foot to rim, in mm: a Catmull-Rom curve through the outline's points."""
    points = [(r * height, h * height) for r, h in _OUTLINES[kind]]
    return tuple(_smooth(points))


@lru_cache(maxsize=512)
def inside_of(outside: tuple[Point, ...], wall: float, floor: float) -> tuple[Point, ...]:
    """The inner surface, floor to rim: the outside moved in by the wall's thickness, from the floor up."""
    rim = outside[-1][1]
    inner: list[Point] = []
    for i, (r, h) in enumerate(outside):
        (r0, h0), (r1, h1) = outside[max(i - 1, 0)], outside[min(i + 1, len(outside) - 1)]
        along = hypot(r1 - r0, h1 - h0) or 1.0
        moved = (max(r - wall * (h1 - h0) / along, 0.5), min(h + wall * (r1 - r0) / along, rim))
        if moved[1] > floor and (not inner or moved[1] > inner[-1][1]):
            inner.append(moved)
    return ((inner[0][0] * 0.9, floor), *inner) if inner else ()


def radius_at(points: tuple[Point, ...], height: float) -> float:
    """The radius at a height, between points; ends held."""
    for (r0, h0), (r1, h1) in pairwise(points):
        if h0 <= height <= h1:
            return r0 if h1 == h0 else r0 + (r1 - r0) * (height - h0) / (h1 - h0)
    return points[-1][0] if height > points[-1][1] else points[0][0]


@lru_cache(maxsize=512)
def thinned(points: tuple[Point, ...], off: float) -> tuple[Point, ...]:
    """The same line with fewer points, nowhere further than `off` from where it was (Douglas and Peucker's way)."""
    if len(points) < 3:
        return points
    away, at = max((_away(point, points[0], points[-1]), -n) for n, point in enumerate(points[1:-1], 1))
    if away <= off:
        return (points[0], points[-1])
    return (*thinned(points[: 1 - at], off)[:-1], *thinned(points[-at:], off))


def _away(point: Point, start: Point, end: Point) -> float:
    """How far a point lies from the straight line between two others, or from both where they are one."""
    (r, h), (r0, h0), (r1, h1) = point, start, end
    along = hypot(r1 - r0, h1 - h0)
    return abs((r1 - r0) * (h - h0) - (h1 - h0) * (r - r0)) / along if along else hypot(r - r0, h - h0)


def _smooth(points: list[Point], steps: int = 7) -> list[Point]:
    padded = [points[0], *points, points[-1]]
    out = [points[0]]
    for i in range(len(points) - 1):
        p0, p1, p2, p3 = padded[i : i + 4]
        for step in range(1, steps + 1):
            t = step / steps
            out.append((_catmull(p0[0], p1[0], p2[0], p3[0], t), _catmull(p0[1], p1[1], p2[1], p3[1], t)))
    return out


def _catmull(a: float, b: float, c: float, d: float, t: float) -> float:
    return 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
