"""The network of tasks: what this job takes, how long, and what must end first."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable, Task
from gaugerod.core.pricing.money import exact, half_up
from gaugerod.core.pricing.price import Price
from gaugerod.core.takeoff.order import Order

MINUTES = 60
"""Minutes of an hour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """One task of this job, its hold, and the tasks of this job it waits for. [minutes]."""

    id: str
    name: str
    minutes: int
    hold_minutes: int
    after: tuple[str, ...]


def network(order: Order, price: Price, system: System, rates: RateTable) -> dict[str, Activity]:
    """Make the network of tasks of one job.

    Parameters
    ----------
    order
        What is bought: a hold of a material that is not is none.
    price
        The tasks of this job and how long they take.
    system
        The material, for its holds.
    rates
        All tasks of the shop: which waits for which.

    Returns
    -------
    dict of str to Activity
        The tasks of this job by id, in the order of the table.

    Raises
    ------
    JobError
        Two tasks have one id, a task waits for one that is not there, or tasks wait for one
        another in a circle.

    Notes
    -----
    A task that this job does not take (of another kind, or nothing to do) hands on what it
    waits for to those that wait for it; what a task waits for in any case, through another,
    is not said again. Source: own design; critical path method.

    Examples
    --------
    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_rates, sample_system
    >>> from gaugerod.core.pricing.job import price_job
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> order, rates, system = sample_order(), sample_rates(), sample_system()
    >>> price = price_job(order, plan_cuts((), system), rates, system)
    >>> tasks = network(order, price, system, rates)
    >>> tasks["set"].minutes, tasks["set"].hold_minutes
    (540, 1440)
    """
    table = _table(rates)
    minutes = {task.id: task.minutes for task in price.tasks}
    waits = _waits(table, minutes.keys())
    return {
        id_: Activity(
            id=id_,
            name=task.name,
            minutes=minutes[id_],
            hold_minutes=_hold(task, order, system),
            after=waits[id_],
        )
        for id_, task in table.items()
        if id_ in minutes
    }


def _waits(table: Mapping[str, Task], done: Collection[str]) -> dict[str, tuple[str, ...]]:
    """Return for every task of the table which of those that are done it waits for next."""
    waits: dict[str, tuple[str, ...]] = {}
    ever: dict[str, frozenset[str]] = {}
    for id_ in _sorted(table):
        handed_on = [(b,) if b in done else waits[b] for b in table[id_].after]
        every = dict.fromkeys(task for tasks in handed_on for task in tasks)
        before = frozenset[str]().union(*(ever[task] for task in every))
        waits[id_] = tuple(task for task in every if task not in before)
        ever[id_] = before.union(every)
    return waits


def _table(rates: RateTable) -> Mapping[str, Task]:
    table = {task.id: task for task in rates.task}
    seen: set[str] = set()
    for task in rates.task:
        if task.id in seen:
            raise JobError(Message("works.task-twice", task=task.id))
        seen.add(task.id)
        for before in task.after:
            if before not in table:
                raise JobError(Message("works.unknown-task", task=task.id, after=before))
    return table


def _sorted(table: Mapping[str, Task]) -> Iterable[str]:
    sorter = TopologicalSorter({id_: task.after for id_, task in table.items()})
    try:
        return tuple(sorter.static_order())
    except CycleError as error:
        circle: list[str] = error.args[1]
        raise JobError(Message("works.circle", tasks=" -> ".join(circle))) from error


def _hold(task: Task, order: Order, system: System) -> int:
    """Return the hold after a task: hours as written, or the material's where it is used."""
    materials = {
        "adhesive": system.adhesive,
        "sealant": system.sealant,
        "mortar": system.mortar,
        "grout": system.grout,
    }
    if not isinstance(task.hold, str):
        hours = task.hold
    else:
        material = materials.get(task.hold)
        used = material is not None and any(line.id == task.hold for line in order.lines)
        hours = material.hold_hours if material and used else 0.0
    return half_up(exact(hours) * MINUTES)
