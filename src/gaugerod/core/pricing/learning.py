"""Hours that learn: what past jobs say of a table of rates, and how sure that is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, log, sqrt

from gaugerod.core.job.past import PastJobs
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.conditions import slower

BELIEF = 0.25
"""Sigma of the log of how far a shop's hours are off before any job is recorded. [1]"""
SCATTER = 0.30
"""Sigma of the log of one record against the next, before any job is recorded. [1]"""
WORTH = 4
"""How many records that scatter is worth. [1]"""
SURE = 1.645
"""Sigmas either way that hold nine cases in ten. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What past jobs say of one task.

    `factor` is what its hours are multiplied by, between `least` and `most` in nine cases of
    ten; `raw` is what the records alone would say, and `weight` is how far they are believed.
    [1]
    """

    id: str
    records: int
    raw: float
    weight: float
    factor: float
    least: float
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """What past jobs say of all tasks on record.

    `scatter` is the sigma of the log of one record; `unknown` are tasks on record that the
    table of rates has not. [1]
    """

    tasks: tuple[Learned, ...]
    scatter: float
    unknown: tuple[str, ...]


def learn(past: PastJobs, rates: RateTable) -> Lesson:
    """Learn from past jobs how far each task's hours are off.

    Parameters
    ----------
    past
        Hours estimated and taken, job by job.
    rates
        The table that is to be corrected.

    Returns
    -------
    Lesson
        A factor for each task on record, with its uncertainty. [1]

    Notes
    -----
    With ``y = log(actual / estimated)``, each record of task t is ``y ~ N(m_t, s^2)``, and before
    any record ``m_t ~ N(0, b^2)``: the table is believed to be right within `BELIEF`. The
    scatter is pooled over all tasks, ``s^2 = (v s_0^2 + sum of squares within tasks) / (v +
    records - tasks)``, v being `WORTH` and s_0 `SCATTER`. Of n records with mean y, the weight
    is ``w = b^2 / (b^2 + s^2 / n)``, the estimate ``w y``, its variance ``w s^2 / n``; the
    factor is ``exp(w y)``, the median of what is believed. One record that ran half over moves
    the hours by a sixth, five alike by two fifths. Source: conjugate normal mean, any text on
    Bayesian statistics; the prior figures are common practice, no source;
    ``docs/theory/price.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> record = {"id": "set", "estimated": 8, "actual": 12}
    >>> past = PastJobs.model_validate({"format": 1, "job": [{"name": "A", "task": [record]}]})
    >>> (found,) = learn(past, sample_rates()).tasks
    >>> round(found.raw, 2), round(found.weight, 2), round(found.factor, 2)
    (1.5, 0.41, 1.18)
    """
    logs: dict[str, list[float]] = {}
    for job in past.job:
        for record in job.task:
            logs.setdefault(record.id, []).append(log(record.actual / record.estimated))
    known = {task.id for task in rates.task}
    variance = _scatter(logs)
    return Lesson(
        tasks=tuple(_learned(id_, logs[id_], variance) for id_ in sorted(logs) if id_ in known),
        scatter=sqrt(variance),
        unknown=tuple(sorted(logs.keys() - known)),
    )


def _scatter(logs: Mapping[str, Sequence[float]]) -> float:
    """Return the variance of one record, pooled over all tasks with what was believed. [1]."""
    within = sum((y - _mean(found)) ** 2 for found in logs.values() for y in found)
    spare = sum(len(found) - 1 for found in logs.values())
    return (WORTH * SCATTER**2 + within) / (WORTH + spare)


def _learned(id_: str, logs: Sequence[float], variance: float) -> Learned:
    of_mean = variance / len(logs)
    weight = BELIEF**2 / (BELIEF**2 + of_mean)
    centre, sigma = weight * _mean(logs), sqrt(weight * of_mean)
    return Learned(
        id=id_,
        records=len(logs),
        raw=exp(_mean(logs)),
        weight=weight,
        factor=exp(centre),
        least=exp(centre - SURE * sigma),
        most=exp(centre + SURE * sigma),
    )


def _mean(logs: Sequence[float]) -> float:
    return sum(logs) / len(logs)


def with_lesson(rates: RateTable, lesson: Lesson) -> RateTable:
    """Return rates whose hours are corrected by what past jobs say.

    Parameters
    ----------
    rates
        The rates.
    lesson
        What was learned of them.

    Returns
    -------
    RateTable
        The rates, low, likely and high hours of each task on record times its factor.

    Notes
    -----
    How far hours spread about the likely ones stays a matter of the table. Source: see `learn`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> record = {"id": "set", "estimated": 8, "actual": 12}
    >>> past = PastJobs.model_validate({"format": 1, "job": [{"name": "A", "task": [record]}]})
    >>> rates = sample_rates()
    >>> round(with_lesson(rates, learn(past, rates)).task[0].hours, 3)
    0.295
    """
    factors = {found.id: found.factor for found in lesson.tasks}
    tasks = tuple(slower(task, factors.get(task.id, 1.0)) for task in rates.task)
    return rates.model_copy(update={"task": tasks})
