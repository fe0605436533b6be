"""The adjustment against a general solver that takes its own differences."""

from collections.abc import Iterator

import numpy as np
from scipy.optimize import least_squares

from bench.timing import Row, versus
from gaugerod.core.job.sample import sample_job
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.model import predict, unknowns_of
from gaugerod.core.survey.sigmas import sigma_of


def rows() -> Iterator[Row]:
    """Yield the fit of a plain alcove of three walls."""
    job = sample_job()
    taken = [
        (reading, wall.name, place)
        for place, wall in enumerate(job.wall)
        for reading in wall.readings
    ]
    names = sorted({name for item in taken for name in unknowns_of(*item)})
    start = np.array([1000.0 if name.startswith("width") else 0.0 for name in names])

    def misfit(x: np.ndarray) -> np.ndarray:
        state = dict(zip(names, x, strict=True))
        return np.array(
            [
                (r.reads - predict(r, wall, place, state).value) / sigma_of(r, "good")
                for r, wall, place in taken
            ]
        )

    yield versus(
        f"fit {len(taken)} readings, {len(names)} unknowns",
        lambda: fit_walls(job),
        lambda: least_squares(misfit, start, method="trf"),
        "general solver, numeric derivatives (no w-tests)",
    )
