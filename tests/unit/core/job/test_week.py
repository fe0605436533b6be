from collections.abc import Callable
from typing import Any

from gaugerod.core.job.document import Job
from gaugerod.core.job.week import week_of

Edited = Callable[[Callable[[dict[str, Any]], object]], Job]


def test_the_room_of_the_calendar_comes_first(edited: Edited) -> None:
    def both(job: dict[str, Any]) -> None:
        job["calendar"].update(room={"temperature": "60 F", "humidity": 70.0})
        job["facts"].update(room="50 F")

    week = week_of(edited(both))
    assert week.room is not None
    assert (round(week.room.temperature, 2), week.room.humidity) == (15.56, 70.0)


def test_else_the_coolest_that_it_gets(edited: Edited) -> None:
    week = week_of(edited(lambda job: job["facts"].update(room="50 F")))
    assert week.room is not None
    assert (week.room.temperature, week.room.humidity) == (10.0, 50.0)


def test_without_either_it_is_as_usual(edited: Edited) -> None:
    job = edited(lambda _: None)
    assert week_of(job) is job.calendar
