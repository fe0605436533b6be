from datetime import UTC, datetime

import pytest

from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.network import Activity
from gaugerod.core.works.schedule import Went, crew_order, schedule
from gaugerod.core.works.working_time import working_time

WHEN = working_time(WorkingWeek.model_validate({"start": "2026-03-02"}), "UTC")


def task(
    id_: str,
    minutes: int,
    *after: str,
    hold: int = 0,
    inspection: bool = False,
    needs_order: bool = False,
) -> Activity:
    return Activity(
        id=id_,
        name=id_,
        minutes=minutes,
        hold_minutes=hold,
        after=after,
        inspection=inspection,
        needs_order=needs_order,
    )


def at(text: str) -> datetime:
    """A moment of March 2026, whose second is a Monday: "02 08:00"."""
    return datetime.fromisoformat(f"2026-03-{text}").replace(tzinfo=UTC)


def placed(
    *tasks: Activity, delivered: datetime | None = None, **went: Went
) -> dict[str, tuple[datetime, datetime]]:
    named = {one.id: one for one in tasks}
    slots = schedule(named, at("02 00:00"), WHEN, went=went, delivered=delivered)
    return {id_: (slot.start, slot.end) for id_, slot in slots.items()}


A, B = task("a", 60), task("b", 60, "a")


def test_an_inspection_keeps_nobody_busy() -> None:
    look = task("look", 240, "a", inspection=True)
    other = task("other", 60)
    found = placed(A, look, other, task("close", 60, "look"))
    assert found == {
        "a": (at("02 08:00"), at("02 09:00")),
        "look": (at("02 09:00"), at("02 13:00")),
        "other": (at("02 09:00"), at("02 10:00")),
        "close": (at("02 13:00"), at("02 14:00")),
    }


def test_the_crew_goes_from_task_to_task_past_inspections() -> None:
    tasks = {one.id: one for one in (A, task("look", 240, "a", inspection=True), B)}
    slots = schedule(tasks, at("02 00:00"), WHEN, went={})
    assert crew_order(tasks, slots) == (("a", "b"),)


def test_an_inspector_comes_in_working_hours() -> None:
    found = placed(task("a", 480), task("look", 60, "a", inspection=True))
    assert found["look"] == (at("02 16:00"), at("03 08:30"))


def test_what_takes_no_time_needs_nobody_and_may_be_at_night() -> None:
    found = placed(task("a", 60, hold=720), task("dry", 0, "a"), task("b", 60, "dry"))
    assert found["dry"] == (at("02 21:00"), at("02 21:00"))
    assert found["b"] == (at("03 08:00"), at("03 09:00"))


def test_what_needs_the_order_waits_for_it() -> None:
    found = placed(A, task("b", 60, "a", needs_order=True), delivered=at("03 16:30"))
    assert found["b"][0] == at("04 08:00")


@pytest.mark.parametrize(
    ("went", "first", "second"),
    [
        # Begun late, and as long as planned.
        (Went(started=at("02 10:00")), ("02 10:00", "02 11:00"), "02 11:00"),
        # Done late: begun when it should have been for that.
        (Went(finished=at("02 12:00")), ("02 11:00", "02 12:00"), "02 12:00"),
        (Went(finished=at("03 08:30")), ("02 16:00", "03 08:30"), "03 08:30"),
        # Both as they were, also on a Sunday.
        (
            Went(started=at("01 10:00"), finished=at("01 15:00")),
            ("01 10:00", "01 15:00"),
            "02 08:00",
        ),
        # Put off by an hour of work.
        (Went(delay=60), ("02 09:00", "02 10:00"), "02 10:00"),
        # Put off beyond the day.
        (Went(delay=510), ("03 08:00", "03 09:00"), "03 09:00"),
        # Once begun, no longer put off.
        (Went(started=at("02 08:00"), delay=60), ("02 08:00", "02 09:00"), "02 09:00"),
    ],
)
def test_what_went_otherwise_moves_the_rest(
    went: Went, first: tuple[str, str], second: str
) -> None:
    found = placed(A, B, a=went)
    assert found["a"] == (at(first[0]), at(first[1]))
    assert found["b"][0] == at(second)


def test_a_hold_runs_from_when_the_task_was_done() -> None:
    found = placed(task("a", 60, hold=120), B, a=Went(finished=at("02 12:00")))
    assert found["b"][0] == at("02 14:00")


def test_a_moment_that_was_told_done_without_minutes() -> None:
    assert placed(task("a", 0), a=Went(finished=at("02 12:00")))["a"] == (
        at("02 12:00"),
        at("02 12:00"),
    )
