"""The rates of a shop as they are for one job: its place, what makes it slower, its own figures."""

from math import prod

from gaugerod.core.job.document import Job
from gaugerod.core.job.own_figures import OwnHours, Pricing
from gaugerod.core.job.places import at_place
from gaugerod.core.job.rates import Driver, RateTable, Task

_FIGURES = (
    *("labour", "markup", "margin", "contingency"),
    *("tax", "freight", "freight_taxed", "subs", "permit", "disposal"),
)
_INSTEAD = {"labour": "crew", "markup": "margin", "margin": "markup"}
"""What is no longer said by the rates, where the job says this."""


def rates_for(rates: RateTable, job: Job) -> RateTable:
    """Return the rates of a shop as they are for one job.

    Parameters
    ----------
    rates
        The rates, with other figures by place and factors by name.
    job
        Where it is, which factors hold on it (one named twice holds twice), its own figures.

    Returns
    -------
    RateTable
        The rates with the figures of the nearest place in them, all hours times the factors, and
        what the job says of itself instead.

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
    slowed = there.model_copy(
        update={"task": tuple(slower(task, factor) for task in there.task)} if job.factors else {}
    )
    return with_own(slowed, job.pricing)


def with_own(rates: RateTable, own: Pricing) -> RateTable:
    """Return rates with the figures that a job has of its own.

    Parameters
    ----------
    rates
        The rates, as they are at the place.
    own
        What the job says instead.

    Returns
    -------
    RateTable
        The rates with these figures in them. A task with hours of its own takes those once, and
        is counted by nothing else; an allowance replaces that of the same id; what comes on the
        price of this job comes after what comes on every price.

    Notes
    -----
    Of mark-up and margin, and of a rate and its parts, the one that is given counts. Source:
    own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> own = Pricing.model_validate({"margin": 0.3, "task": [{"task": "set", "hours": 7}]})
    >>> made = with_own(sample_rates(), own)
    >>> made.markup, made.margin, made.task[0].per, made.task[0].hours
    (None, 0.3, 'alcove', 7.0)
    """
    told = {name: getattr(own, name) for name in _FIGURES}
    figures = {name: value for name, value in told.items() if value is not None}
    instead = {_INSTEAD[name]: None for name in figures if name in _INSTEAD}
    hours = {one.task: one for one in own.task}
    allowances = {one.id: one for one in (*rates.allowance, *own.allowance)}
    return rates.model_copy(
        update={
            **instead,
            **figures,
            "task": tuple(_told(task, hours.get(task.id)) for task in rates.task),
            "allowance": tuple(allowances.values()),
            "charge": (*rates.charge, *own.charge),
        }
    )


def _told(task: Task, own: OwnHours | None) -> Task:
    if own is None:
        return task
    hours = {"hours": own.hours, "low": own.low, "high": own.high}
    return task.model_copy(update={"per": "alcove", "also": (), **hours})


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
