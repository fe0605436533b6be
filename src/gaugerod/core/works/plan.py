"""The days: one crew, a network of tasks, holds that run while nobody works."""

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.money import exact, half_up
from gaugerod.core.pricing.price import Price
from gaugerod.core.takeoff.order import Order
from gaugerod.core.works.days import Days, DayTask
from gaugerod.core.works.floats import Float, Slot, floats
from gaugerod.core.works.holds import MINUTES
from gaugerod.core.works.network import Activity, network
from gaugerod.core.works.ordering import order_by
from gaugerod.core.works.schedule import Went, crew_order, schedule
from gaugerod.core.works.working_time import WorkingTime, hours_of, stretches, working_time


def plan_days(
    order: Order,
    price: Price,
    system: System,
    week: WorkingWeek,
    *,
    rates: RateTable,
    timezone: ZoneInfo | str,
    region: str = "",
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
        First day, hours of work, days off; the room; what was done when.
    rates
        Which task waits for which.
    timezone
        Time zone of the site.
    region
        Region of the site: whose public holidays are kept, unless the week says otherwise.

    Returns
    -------
    Days
        Start and end of each task and of its hold, in that time zone.

    Raises
    ------
    JobError
        The network, the working week, the time zone or the room cannot be worked with, or
        progress is told of a task that this job has not.

    Notes
    -----
    One crew works one task at a time, in working hours; a task may stop for the night. A
    hold is real time: it runs through nights, days off and changes of the clock. What was begun,
    done or put off lies where it was, and the rest moves with it. A task is critical if it is
    not done and any later start puts off the finish. Source: critical path method, Kelley and
    Walker (1959, from memory), with the crew as a resource; ``docs/theory/days.md``.

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
    when = working_time(week, timezone, region=region)
    tasks = network(order, price, system, rates, room=week.room)
    went = _went(week, tasks, when)
    try:
        begin, delivered = _begin(week, system, when)
        slots = schedule(tasks, begin, when, went=went, delivered=delivered)
        slack = floats(tasks, slots, when, crew=crew_order(tasks, slots))
        needed = _needed(tasks, slots, when)
        last = _order_by(needed, week, system, when)
    except OverflowError as error:
        raise JobError(Message("works.too-far", start=str(week.start))) from error
    finish = max((slot.until for slot in slots.values()), default=begin)
    holds = [slots[id_].until for id_ in slots if tasks[id_].hold_minutes]
    return Days(
        tasks=tuple(
            _day_task(tasks[id_], slots[id_], slack[id_], went.get(id_), when) for id_ in slots
        ),
        finish=finish.astimezone(when.zone),
        no_water_until=max(holds, default=finish).astimezone(when.zone),
        needed=needed,
        order_by=last,
        holidays_of=when.place,
        notes=tuple(_too_soon(tasks, slots, went)),
    )


def _begin(
    week: WorkingWeek, system: System, when: WorkingTime
) -> tuple[datetime, datetime | None]:
    """Return when work may begin, and when what needs the order may."""
    begin = datetime.combine(week.start, time(), tzinfo=when.zone).astimezone(UTC)
    if week.delivered is None:
        return begin, None
    came = hours_of(week.delivered, when)[1]
    return begin, came + timedelta(hours=system.acclimatise_hours)


def _went(week: WorkingWeek, tasks: Mapping[str, Activity], when: WorkingTime) -> dict[str, Went]:
    """Return what became of tasks on the day, in UTC."""
    for told in week.progress:
        if told.task not in tasks:
            known = ", ".join(tasks)
            raise JobError(Message("works.unknown-progress", read=told.task, known=known))
    return {
        told.task: Went(
            started=_instant(told.started, when),
            finished=_instant(told.finished, when),
            delay=half_up(exact(told.delay_hours) * MINUTES),
        )
        for told in week.progress
    }


def _instant(moment: datetime | None, when: WorkingTime) -> datetime | None:
    return moment.replace(tzinfo=when.zone).astimezone(UTC) if moment else None


def _needed(
    tasks: Mapping[str, Activity], slots: Mapping[str, Slot], when: WorkingTime
) -> datetime | None:
    """Return when the order must be on site: for the first task that needs it, or any."""
    asking = [slots[id_].start for id_ in slots if tasks[id_].needs_order]
    starts = asking or [slot.start for slot in slots.values()]
    return min(starts).astimezone(when.zone) if starts else None


def _order_by(
    needed: datetime | None, week: WorkingWeek, system: System, when: WorkingTime
) -> date | None:
    if needed is None or week.delivered or system.lead_days is None:
        return None
    return order_by(
        needed,
        when,
        lead_days=system.lead_days,
        lie_hours=system.acclimatise_hours,
        spare_days=week.spare_days,
    )


def _too_soon(
    tasks: Mapping[str, Activity], slots: Mapping[str, Slot], went: Mapping[str, Went]
) -> Iterator[Message]:
    """Yield what was begun before what it waits for was over."""
    for id_ in went:
        for before in tasks[id_].after:
            if slots[id_].start < slots[before].until:
                yield Message("works.too-soon", task=tasks[id_].name, before=tasks[before].name)


def _day_task(
    task: Activity, slot: Slot, slack: Float, went: Went | None, when: WorkingTime
) -> DayTask:
    done = went is not None and went.finished is not None
    return DayTask(
        id=task.id,
        name=task.name,
        minutes=task.minutes,
        after=task.after,
        start=slot.start.astimezone(when.zone),
        end=slot.end.astimezone(when.zone),
        hold_minutes=task.hold_minutes,
        hold_until=slot.until.astimezone(when.zone),
        critical=not done and slack.total == 0,
        float_minutes=slack.total,
        free_minutes=slack.free,
        who=task.who,
        stretches=tuple(
            (since.astimezone(when.zone), until.astimezone(when.zone))
            for since, until in _worked(task, slot, when)
        ),
        done=done,
    )


def _worked(task: Activity, slot: Slot, when: WorkingTime) -> tuple[tuple[datetime, datetime], ...]:
    """Return the stretches of work; what was done on a day off was done in one."""
    if not task.minutes:
        return ()
    return stretches(slot.start, slot.end, when) or ((slot.start, slot.end),)
