"""What so many firings leave open."""

from __future__ import annotations

from functools import cache
from math import comb

LEFT_OPEN = 0.05
_HALVINGS = 60


@cache
def failure_bound(failures: int, trials: int) -> float | None:
    """The exact one-sided 95 % upper bound on a failure rate (Clopper and Pearson, Biometrika 26, 1934, 404-413).

    The rate at which so few failures or fewer would still turn up one time in twenty; None without a trial. No failures
    in n: 1 - 0.05^(1/n). Raises ValueError where there are more failures than trials.
    """
    if not 0 <= failures <= trials:
        raise ValueError(f"{failures} failures in {trials} trials")
    if trials == 0:
        return None
    if failures == trials:
        return 1.0
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if _at_most(failures, trials, middle) > LEFT_OPEN:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _at_most(failures: int, trials: int, rate: float) -> float:
    """The chance of so many failures or fewer."""
    return sum(comb(trials, k) * rate**k * (1 - rate) ** (trials - k) for k in range(failures + 1))
