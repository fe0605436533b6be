"""The network of tasks: what this job takes, how long, and what must end first."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.calendar import Room
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable, Task
from gaugerod.core.pricing.money import exact, half_up
from gaugerod.core.pricing.price import Price
from gaugerod.core.takeoff.order import Order
from gaugerod.core.works.holds import MINUTES, hold_minutes

if TYPE_CHECKING:
    import networkx as nx


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """One task of this job, its hold, and the tasks of this job it waits for. [minutes].

    An inspection keeps nobody of the crew busy: its minutes are working time in which somebody
    is waited for.
    """

    id: str
    name: str
    minutes: int
    hold_minutes: int
    after: tuple[str, ...]
    who: tuple[str, ...] = ()
    inspection: bool = False
    needs_order: bool = False


def network(
    order: Order, price: Price, system: System, rates: RateTable, *, room: Room | None = None
) -> dict[str, Activity]:
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
    room
        How warm and damp it is while things cure, where the job says so.

    Returns
    -------
    dict of str to Activity
        The tasks of this job by id, in the order of the table, each followed by its inspection.

    Raises
    ------
    JobError
        Two tasks have one id, a task waits for one that is not there, tasks wait for one
        another in a circle, or the room is outside what the maker's table of holds says.

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
    minutes = {task.id: task.minutes for task in price.tasks}
    made: dict[str, Activity] = {}
    for task in rates.task:
        if task.id in minutes:
            made[task.id] = Activity(
                id=task.id,
                name=task.name,
                minutes=minutes[task.id],
                hold_minutes=_hold(task, order, system, room),
                after=(),
                who=task.who,
                needs_order=task.needs_order,
            )
            made |= _inspection(task)
    waits = _waits(_graph(rates), made.keys())
    return {id_: replace(task, after=waits[id_]) for id_, task in made.items()}


def _inspection(task: Task) -> dict[str, Activity]:
    if task.inspection is None:
        return {}
    id_ = inspection_of(task.id)
    minutes = half_up(exact(task.inspection.hours) * MINUTES)
    looks = Activity(
        id=id_,
        name=task.inspection.name,
        minutes=minutes,
        hold_minutes=0,
        after=(),
        who=task.inspection.who,
        inspection=True,
    )
    return {id_: looks}


def inspection_of(task: str) -> str:
    """Return the id of the inspection of a task.

    Parameters
    ----------
    task
        Id of the task.

    Returns
    -------
    str
        Id of its inspection.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> inspection_of("frame")
    'frame-inspection'
    """
    return f"{task}-inspection"


def _graph(rates: RateTable) -> "nx.DiGraph[str]":
    """Return every task of the table and its inspection, each with those that wait for it."""
    import networkx as nx  # noqa: PLC0415  (slow to load; few commands plan days)

    graph: nx.DiGraph[str] = nx.DiGraph()
    ends: dict[str, str] = {}
    for task in rates.task:
        ends[task.id] = inspection_of(task.id) if task.inspection else task.id
        for id_ in dict.fromkeys((task.id, ends[task.id])):
            if id_ in graph:
                raise JobError(Message("works.task-twice", task=id_))
            graph.add_node(id_)
    for task in rates.task:
        if task.inspection:
            graph.add_edge(task.id, ends[task.id])
        for before in task.after:
            if before not in ends:
                raise JobError(Message("works.unknown-task", task=task.id, after=before))
            graph.add_edge(ends[before], task.id)
    if not nx.is_directed_acyclic_graph(graph):
        # Back to front: told as who waits for whom.
        circle = [after for _, after, *_ in reversed(nx.find_cycle(graph))]
        raise JobError(Message("works.circle", tasks=" -> ".join([*circle, circle[0]])))
    return graph


def _waits(graph: "nx.DiGraph[str]", done: Collection[str]) -> Mapping[str, tuple[str, ...]]:
    """Return for every task that is done which of the others it waits for next."""
    import networkx as nx  # noqa: PLC0415  (slow to load; few commands plan days)

    rank = {id_: place for place, id_ in enumerate(graph)}
    for id_ in tuple(graph):
        if id_ not in done:
            handed_on = [
                (before, after)
                for before in graph.predecessors(id_)
                for after in graph.successors(id_)
            ]
            graph.remove_node(id_)
            graph.add_edges_from(handed_on)
    next_ = nx.transitive_reduction(graph)
    return {
        id_: tuple(sorted(next_.predecessors(id_), key=lambda before: rank[before]))
        for id_ in next_
    }


def _hold(task: Task, order: Order, system: System, room: Room | None) -> int:
    """Return the hold after a task: hours as written, or the material's where it is used."""
    materials = {
        "adhesive": system.adhesive,
        "sealant": system.sealant,
        "mortar": system.mortar,
        "grout": system.grout,
    }
    if not isinstance(task.hold, str):
        return hold_minutes(task.hold, None, room, of=task.name)
    material = materials.get(task.hold)
    if material is None or not any(line.id == task.hold for line in order.lines):
        return 0
    return hold_minutes(material.hold_hours, material.hold, room, of=material.name)
