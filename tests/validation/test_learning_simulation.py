"""Learning from past jobs, on shops made up by lot whose true factors are known.

Rule: conjugate normal mean (any text on Bayesian statistics): where the prior is true, no other
estimate has a smaller mean square error, nine in ten of the intervals hold the truth, and shrinkage
is better than the records alone and than learning nothing (calc).
"""

import numpy as np
from tests.priced_by_hand import rates

from gaugerod.core.job.past import PastJobs
from gaugerod.core.pricing.learning import learn

TASKS = [f"t{n}" for n in range(10)]
TABLE = rates(*({"id": id_, "per": "alcove", "hours": 1} for id_ in TASKS))


def test_shrinking_is_nearer_the_truth_and_says_how_near() -> None:
    lots = np.random.default_rng(7)
    off_learned, off_raw, off_table, held = [], [], [], []
    for _ in range(200):
        truth = lots.normal(0.0, 0.25, len(TASKS))
        jobs = [
            {
                "name": f"Job {number}",
                "task": [
                    {"id": id_, "estimated": 1.0, "actual": float(np.exp(own + noise))}
                    for id_, own, noise in zip(
                        TASKS, truth, lots.normal(0.0, 0.3, len(TASKS)), strict=True
                    )
                ],
            }
            for number in range(3)
        ]
        lesson = learn(PastJobs.model_validate({"format": 1, "job": jobs}), TABLE)
        for found, own in zip(lesson.tasks, truth, strict=True):
            off_learned.append((np.log(found.factor) - own) ** 2)
            off_raw.append((np.log(found.raw) - own) ** 2)
            off_table.append(own**2)
            held.append(np.log(found.least) <= own <= np.log(found.most))
    assert np.mean(off_learned) < 0.75 * np.mean(off_raw)
    assert np.mean(off_learned) < 0.5 * np.mean(off_table)
    assert 0.88 < np.mean(held) < 0.92
