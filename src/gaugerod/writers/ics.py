"""The days as a calendar after RFC 5545, to be taken into any diary."""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from uuid import UUID, uuid5

from icalendar import Calendar, Event

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.works.days import DayTask

_SPACE = UUID("b1f0c6de-4d57-5a0e-9c1b-7e2a35f48d60")
"""Ours alone, so that no other program's entries have the same ids."""


def ics(plan: Plan, words: Catalogue, *, stamp: datetime) -> bytes:
    """Write the days of a plan as a calendar.

    Parameters
    ----------
    plan
        The plan.
    words
        Sentences of the catalogue.
    stamp
        When the calendar is made, with its time zone; the same plan and stamp give the same
        bytes.

    Returns
    -------
    bytes
        An entry for each stretch of work and each hold, one where water may run, and one on
        the last day to order. Moments are in UTC, so that no diary can misread them. An entry
        keeps its id when the job is planned again: a diary moves it and doesn't add another.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//gaugerod//EN")
    calendar.add("version", "2.0")
    for entry in _entries(plan, words):
        entry.add("dtstamp", stamp.astimezone(UTC))
        if plan.job.site.address:
            entry.add("location", plan.job.site.address)
        calendar.add_component(entry)
    written: bytes = calendar.to_ical()
    return written


def _entries(plan: Plan, words: Catalogue) -> Iterator[Event]:
    days = plan.days
    for task in days.tasks:
        yield from _work(plan, task)
        if task.hold_minutes:
            says = words.text("sheet.ics-hold", job=plan.job.name, task=task.name)
            yield _entry(plan, f"{task.id} hold", says, task.end, task.hold_until, busy=False)
    says = words.text("sheet.ics-water", job=plan.job.name)
    yield _entry(plan, "water", says, days.no_water_until, busy=False)
    if days.order_by:
        says = words.text("sheet.ics-order", job=plan.job.name)
        yield _entry(plan, "order", says, days.order_by, busy=False)


def _work(plan: Plan, task: DayTask) -> Iterator[Event]:
    for number, (since, until) in enumerate(task.stretches):
        says = f"{plan.job.name}: {task.name}"
        entry = _entry(plan, f"{task.id} {number}", says, since, until, busy=True)
        entry.add("description", ", ".join(task.who))
        yield entry


def _entry(
    plan: Plan,
    what: str,
    says: str,
    since: datetime | date,
    until: datetime | None = None,
    *,
    busy: bool,
) -> Event:
    entry = Event()
    entry.add("uid", str(uuid5(_SPACE, f"{plan.job.name}\n{plan.job.site.address}\n{what}")))
    entry.add("summary", says)
    entry.add("dtstart", since.astimezone(UTC) if isinstance(since, datetime) else since)
    if until:
        entry.add("dtend", until.astimezone(UTC))
    entry.add("transp", "OPAQUE" if busy else "TRANSPARENT")
    return entry
