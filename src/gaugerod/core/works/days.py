"""What planning the days gives: each task and hold with its start and end."""

from dataclasses import dataclass
from datetime import date, datetime

from gaugerod.core.base.messages import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class DayTask:
    """One task on the calendar; `hold_until` is when what it left may be touched.

    `stretches` are the hours of work, one stretch a day. `float_minutes` is the working time by
    which it may start later without putting off the finish, `free_minutes` without putting off
    any other task; it is critical if it is not done and has no float. `who` is on site for it.
    """

    id: str
    name: str
    minutes: int
    after: tuple[str, ...]
    start: datetime
    end: datetime
    hold_minutes: int
    hold_until: datetime
    critical: bool
    float_minutes: int = 0
    free_minutes: int = 0
    who: tuple[str, ...] = ()
    stretches: tuple[tuple[datetime, datetime], ...] = ()
    done: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Days:
    """The calendar of one alcove, tasks in the order of working.

    `finish` is when the last task and the last hold are over; `no_water_until` is the end
    of the last hold. `needed` is when the order must be on site and `order_by` the last day to
    order it, where that is still to be done and the material says how long it takes.
    `holidays_of` is the place whose public holidays are kept, or nothing.
    """

    tasks: tuple[DayTask, ...]
    finish: datetime
    no_water_until: datetime
    needed: datetime | None = None
    order_by: date | None = None
    holidays_of: str = ""
    notes: tuple[Message, ...] = ()
