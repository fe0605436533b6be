from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.working_time import WorkingTime, first_working, work, working_time

CHICAGO = ZoneInfo("America/Chicago")


def week(**changes: object) -> WorkingWeek:
    return WorkingWeek.model_validate({"start": "2026-03-02"} | changes)


def hours(**changes: object) -> WorkingTime:
    return working_time(week(**changes), CHICAGO)


def at(text: str) -> datetime:
    """A moment on the wall clock in Chicago."""
    return datetime.fromisoformat(text).replace(tzinfo=CHICAGO)


@pytest.mark.parametrize(
    ("moment", "first"),
    [
        ("2026-03-02T07:00", "2026-03-02T08:00"),  # a Monday
        ("2026-03-02T08:00", "2026-03-02T08:00"),
        ("2026-03-02T11:11", "2026-03-02T11:11"),
        ("2026-03-02T16:30", "2026-03-03T08:00"),  # closing time belongs to the next day
        ("2026-03-02T23:59", "2026-03-03T08:00"),
        ("2026-03-06T16:29", "2026-03-06T16:29"),  # a Friday
        ("2026-03-06T17:00", "2026-03-09T08:00"),
        ("2026-03-07T12:00", "2026-03-09T08:00"),
    ],
)
def test_the_first_moment_of_work(moment: str, first: str) -> None:
    assert first_working(at(moment), hours())[0] == at(first)


def test_holidays_are_no_days_of_work() -> None:
    off = hours(holidays=["2026-03-03", "2026-03-04"])
    assert first_working(at("2026-03-02T17:00"), off)[0] == at("2026-03-05T08:00")


def test_a_short_week() -> None:
    assert first_working(at("2026-03-03T08:00"), hours(days=["mon", "sat"]))[0] == at(
        "2026-03-07T08:00"
    )


def worked(ready: str, minutes: int, when: WorkingTime) -> tuple[datetime, datetime]:
    return work(at(ready), minutes, when)


def test_work_may_fill_the_day_to_the_minute() -> None:
    assert worked("2026-03-02T08:00", 510, hours())[1] == at("2026-03-02T16:30")


def test_work_stops_for_the_night() -> None:
    assert worked("2026-03-02T08:00", 511, hours())[1] == at("2026-03-03T08:01")


def test_work_stops_for_the_weekend() -> None:
    start, end = worked("2026-03-06T16:00", 60, hours())
    assert (start, end) == (at("2026-03-06T16:00"), at("2026-03-09T08:30"))


def test_work_over_many_days() -> None:
    # 20 h from Thursday at noon: 4.5 + 8.5 on Friday, and 7 on Monday.
    assert worked("2026-03-05T12:00", 1200, hours())[1] == at("2026-03-09T15:00")


def test_no_work_ends_where_it_could_start() -> None:
    start, end = worked("2026-03-06T17:00", 0, hours())
    assert start == end == at("2026-03-09T08:00")


def test_a_working_night_when_clocks_go_forward_is_an_hour_shorter() -> None:
    # From midnight to six on Sunday 8 March 2026 there are five hours in Chicago.
    night = hours(opens="00:00", closes="06:00", days=["sun", "mon"])
    start, end = worked("2026-03-08T00:00", 301, night)
    assert end == at("2026-03-09T00:01")
    assert end.astimezone(UTC) - start.astimezone(UTC) == timedelta(hours=23, minutes=1)


def test_a_zone_may_be_given_as_such_or_by_name() -> None:
    assert working_time(week(), "America/Chicago") == working_time(week(), CHICAGO)


@pytest.mark.parametrize("name", ["Nowhere/Atall", "", "../etc", "America", "/etc/localtime"])
def test_a_zone_that_is_none(name: str) -> None:
    with pytest.raises(JobError) as caught:
        working_time(week(), name)
    assert caught.value.message.key == "works.timezone"
    assert caught.value.message.values["read"] == name


def test_a_week_without_days() -> None:
    with pytest.raises(JobError) as caught:
        hours(days=[])
    assert caught.value.message.key == "works.no-days"


@pytest.mark.parametrize("closes", ["08:00", "07:00"])
def test_a_day_without_hours(closes: str) -> None:
    with pytest.raises(JobError) as caught:
        hours(closes=closes)
    assert dict(caught.value.message.values) == {"opens": "08:00", "closes": closes}
