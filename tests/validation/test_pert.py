"""The mean and the variance of hours drawn by lot, against their closed forms.

Rule: beta distribution on low to high with parameters 1 + 4 (likely - low) / (high - low) and
1 + 4 (high - likely) / (high - low); mean (low + 4 likely + high) / 6; variance
(mean - low) (high - mean) / 7. For the mean: D. G. Malcolm, J. H. Roseboom, C. E. Clark and
W. Fazar, "Application of a Technique for Research and Development Program Evaluation", Operations
Research 7(5), 1959 (the reference found, the paper from memory). The variance follows from that
of a beta distribution, a b / ((a + b)^2 (a + b + 1)), with a + b = 6 (calc).
"""

import numpy as np
import pytest
from tests.priced_by_hand import taken

from gaugerod.core.pricing.spread import drawn_minutes

# low, likely, high in minutes; mean and variance worked by hand.
CASES = [
    (60, 90, 150, 95.0, 275.0),  # 35 x 55 / 7
    (60, 120, 300, 140.0, 12800 / 7),  # 80 x 160 / 7
    (0, 60, 120, 60.0, 3600 / 7),  # 60 x 60 / 7
    (60, 60, 240, 90.0, 4500 / 7),  # 30 x 150 / 7
    (100, 400, 400, 350.0, 12500 / 7),  # 250 x 50 / 7
]


@pytest.mark.parametrize(("low", "likely", "high", "mean", "variance"), CASES)
def test_one_task(low: int, likely: int, high: int, mean: float, variance: float) -> None:
    drawn = drawn_minutes((taken("a", low, likely, high),), together=0.0)
    assert float(np.mean(drawn)) == pytest.approx(mean, rel=1e-3)
    assert float(np.var(drawn)) == pytest.approx(variance, rel=5e-3)
    assert low <= drawn.min() <= drawn.max() <= high


@pytest.mark.parametrize("seed", range(5))
def test_tasks_by_themselves(seed: int) -> None:
    tasks = tuple(taken(f"t{n}", *case[:3]) for n, case in enumerate(CASES))
    drawn = drawn_minutes(tasks, together=0.0, draws=20_000, seed=seed)
    assert float(np.mean(drawn)) == pytest.approx(95 + 140 + 60 + 90 + 350, rel=1e-3)
    assert float(np.var(drawn)) == pytest.approx(sum(case[4] for case in CASES), rel=0.04)


def test_tasks_all_together() -> None:
    # All of one shape: their sigmas add, 1 + 2 + 3 of the first.
    tasks = tuple(taken(f"t{n}", 60 * n, 90 * n, 150 * n) for n in (1, 2, 3))
    drawn = drawn_minutes(tasks, together=1.0)
    assert float(np.mean(drawn)) == pytest.approx(6 * 95, rel=1e-3)
    assert float(np.std(drawn)) == pytest.approx(6 * 275**0.5, rel=5e-3)
