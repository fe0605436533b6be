"""Hours of the tasks: what is cut, drilled and set, times the hours for one of each."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from gaugerod.core.cutting.pieces import CutPlan
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Driver, Per, RateTable, Task
from gaugerod.core.pricing.money import counted, exact, half_up
from gaugerod.core.pricing.price import TaskHours
from gaugerod.core.takeoff.order import Order

MINUTES = 60
"""Minutes of an hour."""
MODE = 4
"""How much the likely hours weigh against the low and the high ones. [1]"""


def task_hours(
    order: Order, cuts: CutPlan, rates: RateTable, system: System
) -> tuple[TaskHours, ...]:
    """Return the tasks of one alcove of which there is anything to do.

    Parameters
    ----------
    order
        What is counted on the drawings, and the trims that are cut. [mm]
    cuts
        The cut plan: a pass of the saw that frees two pieces is one cut.
    rates
        Hours of each task.
    system
        The material; tasks of another kind are left out.

    Returns
    -------
    tuple of TaskHours
        The tasks in the order of the table. [minutes]

    Notes
    -----
    A task takes the sum of its counts, each times its hours. The minutes that are priced and
    planned are the mean of the beta distribution of low, likely and high hours,
    ``(low + 4 likely + high) / 6``: over many jobs it neither loses nor wins, as the likely
    hours would lose where much can go ill and little can go well. Each figure is rounded half
    up once. Source: PERT, D. G. Malcolm, J. H. Roseboom, C. E. Clark and W. Fazar, Operations
    Research 7(5), 1959 (from memory).

    Examples
    --------
    36 pieces at a quarter of an hour each:

    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_rates, sample_system
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> system = sample_system()
    >>> order, cuts = sample_order(), plan_cuts((), system)
    >>> [task.minutes for task in task_hours(order, cuts, sample_rates(), system)]
    [540]
    """
    counts = _counts(order, cuts)
    return tuple(
        _task(task, counts)
        for task in rates.task
        if task.suits(system.kind) and any(counts[driver.per] for driver in _drivers(task))
    )


def _drivers(task: Task) -> tuple[Driver, ...]:
    return (task, *task.also)


def _task(task: Task, counts: Mapping[Per, float]) -> TaskHours:
    low, likely, high = _minutes(task, counts)
    return TaskHours(
        id=task.id,
        name=task.name,
        count=counts[task.per],
        minutes=half_up((low + MODE * likely + high) / (MODE + 2)),
        low=half_up(low),
        likely=half_up(likely),
        high=half_up(high),
        people=task.people,
    )


def _minutes(task: Task, counts: Mapping[Per, float]) -> tuple[Decimal, Decimal, Decimal]:
    """Return the low, likely and high minutes of a task, exact."""
    figures = [
        [counted(counts[driver.per]) * MINUTES * exact(hours) for hours in _hours(driver)]
        for driver in _drivers(task)
    ]
    low, likely, high = (sum(column, Decimal()) for column in zip(*figures, strict=True))
    return low, likely, high


def _hours(driver: Driver) -> Iterator[float]:
    low, high = driver.range
    yield from (low, driver.hours, high)


def _counts(order: Order, cuts: CutPlan) -> Mapping[Per, float]:
    quantities = order.quantities
    trims = sum(cut.length for stock in order.trims for cut in stock.runs)
    return {
        "alcove": 1,
        "square metre": quantities.area / 1e6,
        "piece": quantities.pieces,
        "straight cut": min(quantities.straight_cuts, cuts.cuts),
        "shaped cut": quantities.shaped_cuts,
        "hole": quantities.holes,
        "metre": (quantities.seal_length + quantities.seam_length) / 1e3,
        "metre of trim": trims / 1e3,
        "niche": quantities.niches,
        "reveal": quantities.reveals,
    }
