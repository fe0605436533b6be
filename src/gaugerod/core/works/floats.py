"""The critical path: how much later each task may start without putting off others."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from gaugerod.core.works.network import Activity
from gaugerod.core.works.working_time import WorkingTime, work_back, worked

if TYPE_CHECKING:
    import networkx as nx


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """Where a task lies, in UTC: start and end of the work, end of the hold."""

    start: datetime
    end: datetime
    until: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Float:
    """Working time by which a task may start later. [minutes].

    `total`: without putting off the finish. `free`: without putting off any other task.
    """

    total: int
    free: int


def floats(
    tasks: Mapping[str, Activity],
    slots: Mapping[str, Slot],
    when: WorkingTime,
    *,
    crew: Iterable[tuple[str, str]] = (),
) -> dict[str, Float]:
    """Return the float of every task.

    Parameters
    ----------
    tasks
        The tasks; none waits for one that is not among them.
    slots
        Where each lies when it starts as early as it can.
    when
        When the crew works.
    crew
        Pairs of tasks, one after the other, that the same crew works at.

    Returns
    -------
    dict of str to Float
        Total and free float. [minutes]

    Notes
    -----
    Backwards from the finish of the whole, last hold and all: a task must end, and its hold
    be over, when the earliest of those that wait for it must begin; the crew it keeps is wanted
    only when it ends. Float is counted in working time, so hours in which nobody works are
    none. Source: critical path method, Kelley and Walker (1959, from memory), with the crew's
    order as more lines of the network.

    Examples
    --------
    One hour and three hours, and an hour that waits for both: the first may start two hours
    later.

    >>> from gaugerod.core.job.document import WorkingWeek
    >>> from gaugerod.core.works.working_time import working_time
    >>> when = working_time(WorkingWeek.model_validate({"start": "2026-03-02"}), "UTC")
    >>> def task(id_, hours, *after):
    ...     return Activity(id=id_, name=id_, minutes=hours * 60, hold_minutes=0, after=after)
    >>> def at(hour):
    ...     return datetime.fromisoformat(f"2026-03-02T{hour:02}:00+00:00")
    >>> def slot(start, end):
    ...     return Slot(start=at(start), end=at(end), until=at(end))
    >>> tasks = {"a": task("a", 1), "b": task("b", 3), "c": task("c", 1, "a", "b")}
    >>> found = floats(tasks, {"a": slot(8, 9), "b": slot(8, 11), "c": slot(11, 12)}, when)
    >>> found["a"].total, found["b"].total, found["c"].total
    (120, 0, 0)
    """
    graph, forwards = _graph(tasks, crew)
    finish = max((slot.until for slot in slots.values()), default=None)
    latest: dict[str, datetime] = {}
    found: dict[str, Float] = {}
    for id_ in reversed(forwards):
        task, slot = tasks[id_], slots[id_]
        holds = {after: _hold(graph, id_, after) for after in graph.successors(id_)}
        own = [finish - timedelta(minutes=task.hold_minutes)] if finish else []
        latest[id_] = _start(
            task, min([*own, *(latest[after] - hold for after, hold in holds.items())]), when
        )
        freely = _start(
            task, min([*own, *(slots[after].start - hold for after, hold in holds.items())]), when
        )
        found[id_] = Float(
            total=worked(slot.start, latest[id_], when), free=worked(slot.start, freely, when)
        )
    return found


def _graph(
    tasks: Mapping[str, Activity], crew: Iterable[tuple[str, str]]
) -> tuple["nx.DiGraph[str]", list[str]]:
    """Return what waits for what and for how long, and an order that keeps to it."""
    import networkx as nx  # noqa: PLC0415  (slow to load; few commands plan days)

    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(tasks)
    graph.add_edges_from(crew, hold=0)
    for id_, task in tasks.items():
        # Where the crew goes on with what waits for the hold, the hold counts.
        for before in task.after:
            graph.add_edge(before, id_, hold=tasks[before].hold_minutes)
    return graph, list(nx.topological_sort(graph))


def _hold(graph: "nx.DiGraph[str]", before: str, after: str) -> timedelta:
    return timedelta(minutes=graph.edges[before, after]["hold"])


def _start(task: Activity, due: datetime, when: WorkingTime) -> datetime:
    # What takes no time needs nobody: it may be at night.
    return work_back(due, task.minutes, when)[0] if task.minutes else due
