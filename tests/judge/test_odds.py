"""What so few firings leave open, for every count up to sixty.

Oracle: SciPy (scipy.stats.beta). The exact one-sided 95 % upper bound of Clopper and Pearson (Biometrika 26, 1934,
404-413) on k failures in n trials is the 0.95 quantile of the beta distribution with k + 1 and n - k.
"""

from __future__ import annotations

import pytest
from scipy.stats import beta

from combobook.judge.odds import failure_bound

MOST = 60


def test_the_bound_is_the_beta_quantile_for_every_count_of_failures_in_up_to_sixty_firings() -> None:
    apart = {
        (failures, trials): (found, oracle)
        for trials in range(1, MOST + 1)
        for failures, oracle in enumerate([*beta.ppf(0.95, range(1, trials + 1), range(trials, 0, -1)), 1.0])
        if (found := failure_bound(failures, trials)) != pytest.approx(oracle, abs=1e-9)
    }
    assert apart == {}


def test_without_a_failure_it_is_the_closed_form_of_the_rules() -> None:
    """rules.md, section 4: no failures in n: 1 - 0.05^(1/n)."""
    for trials in range(1, MOST + 1):
        assert failure_bound(0, trials) == pytest.approx(1 - 0.05 ** (1 / trials), abs=1e-12)


def test_one_more_failure_leaves_more_open_and_one_more_clean_firing_less() -> None:
    for trials in range(1, MOST):
        bounds = [failure_bound(failures, trials) or 0 for failures in range(trials + 1)]
        assert bounds == sorted(set(bounds))
        assert all((failure_bound(k, trials + 1) or 0) < bound for k, bound in enumerate(bounds))
