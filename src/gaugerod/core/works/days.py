"""What planning the days gives: each task and hold with its start and end."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class DayTask:
    """One task on the calendar; `hold_until` is when what it left may be touched.

    `critical` says that there is no float: a longer task or hold puts off the finish.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Days:
    """The calendar of one alcove, tasks in the order of working.

    `finish` is when the last task and the last hold are over; `no_water_until` is the end
    of the last hold.
    """

    tasks: tuple[DayTask, ...]
    finish: datetime
    no_water_until: datetime
