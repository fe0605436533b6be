"""The survey on simulated alcoves: errors drawn at the stated sigmas, from fixed seeds.

Expected rates are those of the normal and chi-square distributions, with a margin of four
standard errors of the count, so that a sound program fails once in fifteen thousand draws.
"""

from collections.abc import Callable
from math import sqrt

import numpy as np
import pytest
from scipy.stats import chi2
from tests.simulated_alcove import draw_shapes, job_of, read_with_errors, true_state

from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.document import Job
from gaugerod.core.survey.adjust import ALPHA, BEYOND_CHANCE, correlations
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.naming import named
from gaugerod.core.survey.observations import Observation, observations
from gaugerod.core.survey.slips import slips_of
from gaugerod.core.survey.solve import Solution, solve

MARGIN = 4.0


def solutions(many: int) -> list[tuple[Solution, dict[str, float]]]:
    rng = np.random.default_rng(20261125)
    found = []
    for _ in range(many):
        shapes = draw_shapes(rng)
        used, _ = observations(job_of(read_with_errors(shapes, rng)))
        found.append((solve(used, used, walls=3), true_state(shapes)))
    return found


@pytest.fixture(scope="module")
def drawn(count: Callable[[int, int], int]) -> list[tuple[Solution, dict[str, float]]]:
    return solutions(count(200, 2000))


def test_the_variance_factor_is_one(drawn: list[tuple[Solution, dict[str, float]]]) -> None:
    factors = [solution.squares / solution.redundancy for solution, _ in drawn]
    freedom = drawn[0][0].redundancy
    error = sqrt(2 / freedom / len(factors))
    assert np.mean(factors) == pytest.approx(1.0, abs=MARGIN * error)


@pytest.mark.parametrize("level", [0.5, 0.95])
@pytest.mark.parametrize(
    "names",
    [
        ("width B", "left B", "right B"),
        ("deck 1", "deck 2"),
        ("width L", "right L", "ceiling 0", "ceiling 1"),
    ],
)
def test_confidence_regions_hold_the_truth_at_their_rate(
    drawn: list[tuple[Solution, dict[str, float]]], names: tuple[str, ...], level: float
) -> None:
    limit = chi2.ppf(level, len(names))
    held = 0
    for solution, truth in drawn:
        rows = [solution.names.index(name) for name in names]
        off = np.array([solution.state[name] - truth[name] for name in names])
        block = solution.adjustment.covariance[np.ix_(rows, rows)]
        held += bool(off @ np.linalg.solve(block, off) <= limit)
    error = sqrt(level * (1 - level) / len(drawn))
    assert held / len(drawn) == pytest.approx(level, abs=MARGIN * error)


def test_false_alarms_come_at_their_rate(drawn: list[tuple[Solution, dict[str, float]]]) -> None:
    tests = alarms = 0
    for solution, _ in drawn:
        w = solution.adjustment.w[: len(solution.used)]
        checked = np.isfinite(solution.adjustment.detectable[: len(w)])
        tests += int(checked.sum())
        alarms += int((np.abs(w[checked]) > BEYOND_CHANCE).sum())
    # Tests of one alcove are alike, which widens the spread of the count: allow twice as much.
    error = 2 * sqrt(tests * ALPHA)
    assert alarms == pytest.approx(tests * ALPHA, abs=MARGIN * error)


INCH = 25.4
ONE_WAY = {"burned-hundred", "burned-inch", "tongue"}
"""Slips that only make a reading long; the others are undone by making them again."""


def on_the_tape(job: Job, unit: Unit) -> Job:
    """Return the job as read from a tape in sixteenths of an inch, or in millimetres."""
    step = INCH / 16 if unit == "in" else 1.0
    walls = []
    for wall in job.wall:
        readings = tuple(
            reading.model_copy(update={"reads": round(reading.reads / step) * step})
            for reading in wall.readings
        )
        walls.append(wall.model_copy(update={"readings": readings}))
    return job.model_copy(update={"wall": tuple(walls), "unit": unit})


def slipped(reads: float, unit: Unit, rng: np.random.Generator) -> float:
    """Return what a slip makes of a reading."""
    slips = slips_of(reads, unit=unit)
    slip = slips[int(rng.integers(len(slips)))]
    return 2 * reads - slip.instead if slip.kind in ONE_WAY else slip.instead


def with_reading(job: Job, wrong: Observation, reads: float) -> Job:
    walls = []
    for place, wall in enumerate(job.wall):
        readings = tuple(
            reading.model_copy(update={"reads": reads})
            if (place, name) == (wrong.place, wrong.id)
            else reading
            for name, reading in named(wall)
        )
        walls.append(wall.model_copy(update={"readings": readings}))
    return job.model_copy(update={"wall": tuple(walls)})


def can_be_told(solution: Solution, row: int, size: float) -> bool:
    """A blunder that the test should find, in a reading that no other looks like."""
    fit, used = solution.adjustment, solution.used
    strength = abs(size) * sqrt(max(fit.redundancy[row], 0.0)) / used[row].sigma
    alike = np.delete(np.abs(correlations(fit, row)[: len(used)]), row)
    return bool(strength >= 5.5 and alike.max() < 0.9)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_planted_slip_is_named_first_and_its_kind_guessed(
    count: Callable[[int, int], int], unit: Unit
) -> None:
    rng = np.random.default_rng(7)
    told = named = guessed = 0
    many = count(100, 1000)
    while told < many:
        job = on_the_tape(job_of(read_with_errors(draw_shapes(rng), rng)), unit)
        used, _ = observations(job)
        row = int(rng.integers(len(used)))
        reads = used[row].reading.reads
        wrong = slipped(reads, unit, rng)
        if not can_be_told(solve(used, used, walls=3), row, wrong - reads):
            continue
        told += 1
        suspects = fit_walls(with_reading(job, used[row], wrong)).suspects
        if suspects and suspects[0].readings[0] == used[row].id:
            named += 1
            # Slips of one size cannot be told from each other.
            kinds = {s.kind for s in slips_of(wrong, unit=unit) if abs(s.instead - reads) < 1.0}
            guess = suspects[0].guess
            guessed += guess is not None and guess.key.removeprefix("survey.slip-") in kinds
    assert named >= 0.95 * told
    assert guessed >= 0.8 * told
