"""The days: one crew, a network of tasks, holds that run while nobody works."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from graphlib import TopologicalSorter
from zoneinfo import ZoneInfo

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.price import Price
from gaugerod.core.takeoff.order import Order
from gaugerod.core.works.days import Days, DayTask
from gaugerod.core.works.network import Activity, network
from gaugerod.core.works.working_time import WorkingTime, first_working, work, working_time


def plan_days(
    order: Order,
    price: Price,
    system: System,
    week: WorkingWeek,
    *,
    rates: RateTable,
    timezone: ZoneInfo | str,
) -> Days:
    """Put the tasks of one alcove on the calendar.

    Parameters
    ----------
    order
        What is bought: only what is used has a hold.
    price
        How long each task takes.
    system
        The material, for its holds.
    week
        First day, hours of work, days off.
    rates
        Which task waits for which.
    timezone
        Time zone of the site.

    Returns
    -------
    Days
        Start and end of each task and of its hold, in that time zone.

    Raises
    ------
    JobError
        The network, the working week or the time zone cannot be worked with.

    Notes
    -----
    One crew works one task at a time, in working hours; a task may stop for the night. A
    hold is real time: it runs through nights, days off and changes of the clock. Of the
    tasks that may come next, the one that can start first is taken, and of several the
    first in the table. A task is critical if it (or its hold) ends with the whole job, or if
    no working time lies between its end and the start of a critical task that waits for it
    or for the crew. Source: critical path method, Kelley and Walker (1959, from memory),
    with the crew as a resource; ``docs/theory/days.md``.

    Examples
    --------
    Nine hours of setting from Monday at eight, the day closing at half past four; then the
    adhesive is held for 24 hours.

    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.pricing.job import price_job
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> order, rates, system = sample_order(), sample_rates(), sample_system()
    >>> price = price_job(order, plan_cuts((), system), rates, system)
    >>> days = plan_days(
    ...     order, price, system, sample_job().calendar, rates=rates, timezone="America/Chicago"
    ... )
    >>> days.tasks[0].end.isoformat(), days.no_water_until.isoformat()
    ('2026-03-03T08:30:00-06:00', '2026-03-04T08:30:00-06:00')
    """
    when = working_time(week, timezone)
    tasks = network(order, price, system, rates)
    begin = datetime.combine(week.start, time(), tzinfo=when.zone)
    try:
        slots = _schedule(tasks, begin.astimezone(UTC), when)
    except OverflowError as error:
        raise JobError(Message("works.too-far", start=str(week.start))) from error
    critical = _critical(tasks, slots, when)
    finish = max((slot.until for slot in slots.values()), default=begin)
    holds = [slots[id_].until for id_ in slots if tasks[id_].hold_minutes]
    return Days(
        tasks=tuple(_day_task(tasks[id_], slots[id_], when, critical) for id_ in slots),
        finish=finish.astimezone(when.zone),
        no_water_until=max(holds, default=finish).astimezone(when.zone),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Slot:
    """Where a task lies, in UTC."""

    start: datetime
    end: datetime
    until: datetime


def _schedule(
    tasks: Mapping[str, Activity], begin: datetime, when: WorkingTime
) -> dict[str, _Slot]:
    """Return the slot of every task, in the order of working."""
    slots: dict[str, _Slot] = {}
    rank = {id_: place for place, id_ in enumerate(tasks)}

    def may_start(id_: str) -> tuple[datetime, int]:
        crew_free = max((slot.end for slot in slots.values()), default=begin)
        held = (slots[before].until for before in tasks[id_].after)
        return first_working(max([crew_free, *held]), when)[0], rank[id_]

    sorter = TopologicalSorter({id_: task.after for id_, task in tasks.items()})
    sorter.prepare()
    waiting: set[str] = set()
    while sorter.is_active():
        waiting |= set(sorter.get_ready())
        id_ = min(waiting, key=may_start)
        start, end = work(may_start(id_)[0], tasks[id_].minutes, when)
        slots[id_] = _Slot(
            start=start, end=end, until=end + timedelta(minutes=tasks[id_].hold_minutes)
        )
        waiting.remove(id_)
        sorter.done(id_)
    return slots


def _critical(
    tasks: Mapping[str, Activity], slots: Mapping[str, _Slot], when: WorkingTime
) -> set[str]:
    """Trace back from the end of the job what leaves it no float."""
    last = max((slot.until for slot in slots.values()), default=None)
    critical = {id_ for id_, slot in slots.items() if slot.until == last}
    worked = list(slots)
    for place, id_ in reversed(list(enumerate(worked))):
        if id_ in critical:
            ends = {before: slots[before].until for before in tasks[id_].after}
            ends |= {crew: slots[crew].end for crew in worked[:place][-1:] if crew not in ends}
            critical |= {
                before
                for before, end in ends.items()
                if first_working(end, when)[0] == slots[id_].start
            }
    return critical


def _day_task(task: Activity, slot: _Slot, when: WorkingTime, critical: set[str]) -> DayTask:
    return DayTask(
        id=task.id,
        name=task.name,
        minutes=task.minutes,
        after=task.after,
        start=slot.start.astimezone(when.zone),
        end=slot.end.astimezone(when.zone),
        hold_minutes=task.hold_minutes,
        hold_until=slot.until.astimezone(when.zone),
        critical=task.id in critical,
    )
