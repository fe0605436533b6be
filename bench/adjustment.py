"""The survey: one fit against a general solver, and how it grows with the readings."""

from collections.abc import Callable, Iterator
from functools import partial
from math import hypot
from statistics import median

import numpy as np
from scipy.optimize import least_squares

from bench.timing import Row, seconds, shown, versus
from gaugerod.core.job.document import Job
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.observations import Observation, observations
from gaugerod.core.survey.solve import solve, would_read

COUNTS = (60, 200, 600, 2000)
"""Readings of one alcove: a careful survey of one has about the first."""
ROUNDS = 3
"""Fewer than elsewhere: the general solver takes seconds over the longest."""
WALLS = {"L": (810.0, ("right",)), "B": (1520.0, ("left", "right")), "R": (800.0, ("left",))}
SIGMAS = {
    "width": 1.0,
    "deck": 0.7,
    "ceiling": 1.0,
    "lean": 1.2,
    "corner to corner": 1.5,
    "hole": 1.5,
}
"""Good practice, as the program states it: common practice, no source. [mm]"""
LOW, HIGH = -650.0, 1250.0

Raw = dict[str, object]


def rows() -> Iterator[Row]:
    """Yield the fit of an alcove of three walls, and what it costs with more readings."""
    each: dict[int, float] = {}
    for count in COUNTS:
        job = alcove(count)
        used, _ = observations(job)
        general = _general(used)
        _agree(job, general)
        fit = partial(fit_walls, job)
        for what, ours in (
            (
                f"solve for {len(used)} readings, {len(_names(used))} unknowns",
                partial(solve, used, used, walls=3),
            ),
            (f"fit {len(used)} readings: bends, tests, advice too", fit),
        ):
            yield versus(what, ours, general, "general solver, numeric derivatives", rounds=ROUNDS)
        each[count] = median(seconds(fit) for _ in range(5)) / len(used)
    first = each[COUNTS[0]]
    for count in COUNTS[1:]:
        yield Row(
            what=f"one reading of {count}",
            ours=shown(each[count]),
            theirs=shown(first),
            ratio=first / each[count],
            against=f"one reading of {COUNTS[0]}",
        )


def alcove(count: int) -> Job:
    """Return an invented alcove with about so many readings, each out by its sigma. [mm]."""
    rng = np.random.default_rng(count)
    walls = []
    for name, (width, corners) in WALLS.items():
        readings = _exact(width, corners, count // len(WALLS))
        for reading in readings:
            reading["reads"] = float(str(reading["reads"])) + rng.normal(
                0, SIGMAS[str(reading["kind"])]
            )
        hole = {"name": "valve", "diameter": 76}
        walls.append({"name": name, "readings": readings, "hole": [hole]})
    return Job.model_validate(
        {
            "format": 1,
            "name": "Bench",
            "scenario": "Invented.",
            "unit": "mm",
            "survey": {"surface": "backer"},
            "choices": {"material": "any"},
            "calendar": {"start": "2026-03-02"},
            "wall": walls,
        }
    )


def _exact(width: float, corners: tuple[str, ...], count: int) -> list[Raw]:
    """Return the readings of a square wall: a hole, leans, diagonals, and lines of the rest."""
    diagonal = hypot(width, HIGH - LOW)
    readings: list[Raw] = [
        {"kind": "hole", "of": "valve", "from": start, "reads": reads}
        for start, reads in (("left", 300.0), ("right", width - 300.0), ("datum", -330.0))
    ]
    readings += [{"kind": "lean", "edge": edge, "over": 1800, "reads": 0.0} for edge in corners]
    readings += [
        {"kind": "corner to corner", "left_at": left, "right_at": right, "reads": diagonal}
        for left, right in ((LOW, HIGH), (HIGH, LOW))
    ]
    third, over = divmod(count - len(readings), 3)
    heights = np.linspace(LOW, HIGH, third + over).tolist()
    stations = np.linspace(0.0, width, third).tolist()
    readings += [{"kind": "width", "at": at, "reads": width} for at in heights]
    readings += [{"kind": "deck", "at": at, "reads": 720.0} for at in stations]
    readings += [{"kind": "ceiling", "at": at, "reads": 1400.0} for at in stations]
    return readings


def _names(used: tuple[Observation, ...]) -> tuple[str, ...]:
    return solve(used, used, walls=3).names


def _general(used: tuple[Observation, ...]) -> Callable[[], dict[str, float]]:
    """Return the same fit by a general solver; the beliefs weigh nothing beside so many."""
    names = _names(used)
    start = np.array([1000.0 if name.startswith("width") else 0.0 for name in names])

    def misfit(x: np.ndarray) -> np.ndarray:
        state = dict(zip(names, x.tolist(), strict=True))
        return np.array(
            [(o.reading.reads - would_read(o, state, ()).value) / o.sigma for o in used]
        )

    return lambda: dict(zip(names, least_squares(misfit, start, x_scale="jac").x, strict=True))


def _agree(job: Job, general: Callable[[], dict[str, float]]) -> None:
    """Check that both came to one alcove: a reading left out for its test moves it a little."""
    state = general()
    for wall in fit_walls(job).walls:
        assert abs(wall.right.offset - state[f"width {wall.name}"]) < 1.0
