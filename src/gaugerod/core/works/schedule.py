"""The order of working: one task at a time in the alcove, as early as it can be begun."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from graphlib import TopologicalSorter
from itertools import pairwise

from gaugerod.core.works.floats import Slot
from gaugerod.core.works.network import Activity
from gaugerod.core.works.working_time import WorkingTime, work, work_back


@dataclass(frozen=True, slots=True, kw_only=True)
class Went:
    """What became of a task, in UTC; `delay` is working time it starts late. [minutes]."""

    started: datetime | None = None
    finished: datetime | None = None
    delay: int = 0


_AS_PLANNED = Went()


def schedule(
    tasks: Mapping[str, Activity],
    begin: datetime,
    when: WorkingTime,
    *,
    went: Mapping[str, Went],
    delivered: datetime | None = None,
) -> dict[str, Slot]:
    """Return the slot of every task, in the order of working.

    Parameters
    ----------
    tasks
        The tasks, in the order in which they are taken where several may start at once.
    begin
        Nothing starts before this.
    when
        When the crew works.
    went
        What was begun, done or put off.
    delivered
        What needs the order does not start before this.

    Returns
    -------
    dict of str to Slot
        Start and end of each task, and the end of its hold, in UTC.

    Notes
    -----
    In one alcove there is room for one task at a time; inspections keep nobody. Of the tasks
    that wait for nothing any more, the one that can start first is taken, of several the first
    in the table. A task that was begun or done lies where it was, also on a day off. Source:
    own design.

    Examples
    --------
    >>> from gaugerod.core.job.document import WorkingWeek
    >>> from gaugerod.core.works.working_time import working_time
    >>> when = working_time(WorkingWeek.model_validate({"start": "2026-03-02"}), "UTC")
    >>> set_ = Activity(id="set", name="Set", minutes=60, hold_minutes=90, after=())
    >>> seal = Activity(id="seal", name="Seal", minutes=60, hold_minutes=0, after=("set",))
    >>> monday = datetime(2026, 3, 2, tzinfo=UTC)
    >>> slots = schedule({"set": set_, "seal": seal}, monday, when, went={})
    >>> f"{slots['seal'].start:%H:%M}"
    '10:30'
    """
    slots: dict[str, Slot] = {}
    rank = {id_: place for place, id_ in enumerate(tasks)}

    def slot_of(id_: str) -> Slot:
        task = tasks[id_]
        ready = [begin, *(slots[before].until for before in task.after)]
        if not task.inspection:
            ready += [slot.end for one, slot in slots.items() if not tasks[one].inspection]
        if delivered and task.needs_order:
            ready.append(delivered)
        return _slot(task, max(ready), went.get(id_, _AS_PLANNED), when)

    sorter = TopologicalSorter({id_: task.after for id_, task in tasks.items()})
    sorter.prepare()
    waiting: dict[str, None] = {}
    while sorter.is_active():
        waiting |= dict.fromkeys(sorter.get_ready())
        may = {id_: slot_of(id_) for id_ in waiting}
        id_ = min(may, key=lambda one: (may[one].start, rank[one]))
        slots[id_] = may[id_]
        del waiting[id_]
        sorter.done(id_)
    return slots


def crew_order(
    tasks: Mapping[str, Activity], slots: Mapping[str, Slot]
) -> tuple[tuple[str, str], ...]:
    """Return what the crew works at, each task with the next.

    Parameters
    ----------
    tasks
        The tasks.
    slots
        Where they lie, in the order of working.

    Returns
    -------
    tuple of tuple of str
        Pairs of tasks that follow each other; inspections keep nobody and are left out.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> crew_order({}, {})
    ()
    """
    return tuple(pairwise(id_ for id_ in slots if not tasks[id_].inspection))


def _slot(task: Activity, ready: datetime, went: Went, when: WorkingTime) -> Slot:
    if went.started:
        start = went.started
        end = work(start, task.minutes, when)[1]
    elif went.finished:
        start = end = went.finished
        if task.minutes:
            start = work_back(end, task.minutes, when)[0]
    else:
        late = work(ready, went.delay, when)[1] if went.delay else ready
        start, end = work(late, task.minutes, when) if task.minutes else (late, late)
    end = went.finished or end
    return Slot(
        start=start.astimezone(UTC),
        end=end.astimezone(UTC),
        until=end.astimezone(UTC) + timedelta(minutes=task.hold_minutes),
    )
