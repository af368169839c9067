"""A seeded drawing surface in millimetres: coordinates, blur and noise.

All lengths are mm. The same seed and size give the same numbers; another size is another drawing.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Field = NDArray[np.float64]
"""One value per pixel, rows first."""

PICTURE_WIDTH, PICTURE_HEIGHT = 72.0, 96.0
TILE_WIDTH, TILE_HEIGHT = 50.0, 84.0


def smooth(low: float, high: float, value: Field) -> Field:
    """0 below `low`, 1 above `high` (or the other way round where low > high), with soft ends."""
    t = np.clip((value - low) / (high - low), 0.0, 1.0)
    return np.asarray(t * t * (3 - 2 * t))


class Canvas:
    """`x` runs from the tile's middle, `y` down from the tile's top edge."""

    def __init__(self, seed: int, scale: float = 7.0) -> None:
        self.random = np.random.default_rng(seed)
        self.scale = scale
        self.width, self.height = round(PICTURE_WIDTH * scale), round(PICTURE_HEIGHT * scale)
        self._fx, self._fy = np.meshgrid(np.fft.rfftfreq(self.width) * scale, np.fft.fftfreq(self.height) * scale)
        x, y = np.meshgrid(
            (np.arange(self.width) + 0.5) / scale - PICTURE_WIDTH / 2,
            (np.arange(self.height) + 0.5) / scale - (PICTURE_HEIGHT - TILE_HEIGHT) / 2 + 1.0,
        )
        self.x: Field = x
        self.y: Field = y

    def blur(self, field: Field, size: float) -> Field:
        """Gaussian blur of standard deviation `size` mm."""
        keep = np.exp(-2 * np.pi**2 * (self._fx**2 + self._fy**2) * size**2)
        return np.fft.irfft2(np.fft.rfft2(field) * keep, s=field.shape)

    def noise(self, across: float, down: float | None = None) -> Field:
        """Blotches of about `across` × `down` mm, mean 0, standard deviation 1."""
        k = np.hypot(self._fx * across, self._fy * (across if down is None else down))
        white = self.random.standard_normal((self.height, self.width))
        z = np.fft.irfft2(np.fft.rfft2(white) * k * np.exp(-(k**2)), s=white.shape)
        return np.asarray(z / z.std())

    def cloud(self, size: float, octaves: int = 4, gain: float = 0.55, across: float = 1, down: float = 1) -> Field:
        """Noise upon finer noise; `across` and `down` stretch it."""
        z = np.zeros_like(self.x)
        for i in range(octaves):
            z = z + gain**i * self.noise(size * across / 2**i, size * down / 2**i)
        return np.asarray(z / z.std())

    def line(self, size: float) -> Field:
        """One smooth wandering value per column, as a row that spreads over the picture."""
        white = np.fft.rfft(self.random.standard_normal(self.width))
        z = np.fft.irfft(white * np.exp(-((np.fft.rfftfreq(self.width) * self.scale * size) ** 2)), n=self.width)
        return np.asarray(z / z.std())[None, :]

    def around(self, cx: float, cy: float, reach: float) -> tuple[slice, slice]:
        """Rows and columns of the square within `reach` mm of a point; may be empty at the border."""
        row = (cy + (PICTURE_HEIGHT - TILE_HEIGHT) / 2 - 1.0) * self.scale
        column = (cx + PICTURE_WIDTH / 2) * self.scale
        r = reach * self.scale
        return (
            slice(max(0, round(row - r)), min(self.height, max(0, round(row + r)))),
            slice(max(0, round(column - r)), min(self.width, max(0, round(column + r)))),
        )

    def stretched(self, field: Field, size: float) -> Field:
        """Blur along y only, which draws a field out downwards."""
        keep = np.exp(-2 * np.pi**2 * (self._fy * size) ** 2)
        return np.fft.irfft2(np.fft.rfft2(field) * keep, s=field.shape)
