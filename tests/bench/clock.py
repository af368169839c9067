"""Timing side by side, and the lines that tell of it."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable


def seconds(work: Callable[[], object]) -> float:
    """How long one run of the work takes, with what earlier runs left cleared away first."""
    gc.collect()
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def side_by_side(*works: Callable[[], object], turns: int = 5) -> tuple[float, ...]:
    """The best of so many turns of each, taken in turns so that a slow spell of the machine meets them all."""
    best = [float("inf")] * len(works)
    for _ in range(turns):
        best = [min(known, seconds(work)) for known, work in zip(best, works, strict=True)]
    return tuple(best)


def told(what: str, value: float, floor: float, goal: str) -> str:
    """`read to judge: 0.210 s over a floor of 0.120 s: 1.75 (goal 2.0 at most)`."""
    return f"{what}: {_s(value)} over a floor of {_s(floor)}: {value / floor:.2f} (goal {goal})"


def plain(what: str, value: float, note: str = "") -> str:
    return f"{what}: {_s(value)}{f' ({note})' if note else ''}"


def _s(value: float) -> str:
    return f"{value:.3f} s" if value >= 0.1 else f"{value * 1000:.1f} ms"
