"""The rates of a shop as they are for one job: its place, and what makes its work slower."""

from math import prod

from gaugerod.core.job.document import Job
from gaugerod.core.job.places import at_place
from gaugerod.core.job.rates import Driver, RateTable, Task


def rates_for(rates: RateTable, job: Job) -> RateTable:
    """Return the rates of a shop as they are for one job.

    Parameters
    ----------
    rates
        The rates, with other figures by place and factors by name.
    job
        Where it is, and which factors hold on it; one named twice holds twice.

    Returns
    -------
    RateTable
        The rates with the figures of the nearest place in them, all hours times the factors.

    Notes
    -----
    Factors multiply. Source: common practice, no source.

    Examples
    --------
    Two floors without a lift, each a twentieth more:

    >>> from gaugerod.core.job.sample import sample_job, sample_rates
    >>> floor = {"id": "floor", "name": "A floor without a lift", "times": 1.05}
    >>> rates = RateTable.model_validate(sample_rates().model_dump() | {"factor": [floor]})
    >>> job = sample_job().model_copy(update={"factors": ("floor", "floor")})
    >>> rates.task[0].hours, round(rates_for(rates, job).task[0].hours, 4)
    (0.25, 0.2756)
    """
    there = at_place(rates, job.site.region)
    times = {factor.id: factor.times for factor in there.factor}
    factor = prod(times[id_] for id_ in job.factors)
    return there.model_copy(
        update={"task": tuple(slower(task, factor) for task in there.task)} if job.factors else {}
    )


def slower(task: Task, factor: float) -> Task:
    """Return a task whose hours, low, likely and high, are multiplied by a factor.

    Parameters
    ----------
    task
        The task.
    factor
        What its hours are multiplied by. [1]

    Returns
    -------
    Task
        The task, with what else it is counted by.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> slower(sample_rates().task[0], 2.0).hours
    0.5
    """
    also = tuple(driver.model_copy(update=_times(driver, factor)) for driver in task.also)
    return task.model_copy(update={**_times(task, factor), "also": also})


def _times(driver: Driver, factor: float) -> dict[str, float]:
    low, high = driver.range
    return {"low": low * factor, "hours": driver.hours * factor, "high": high * factor}
