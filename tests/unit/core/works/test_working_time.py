from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.working_time import (
    WorkingTime,
    first_working,
    is_working_day,
    last_working,
    stretches,
    work,
    work_back,
    worked,
    working_time,
)

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


def done(ready: str, minutes: int, when: WorkingTime) -> tuple[datetime, datetime]:
    return work(at(ready), minutes, when)


def test_work_may_fill_the_day_to_the_minute() -> None:
    assert done("2026-03-02T08:00", 510, hours())[1] == at("2026-03-02T16:30")


def test_work_stops_for_the_night() -> None:
    assert done("2026-03-02T08:00", 511, hours())[1] == at("2026-03-03T08:01")


def test_work_stops_for_the_weekend() -> None:
    start, end = done("2026-03-06T16:00", 60, hours())
    assert (start, end) == (at("2026-03-06T16:00"), at("2026-03-09T08:30"))


def test_work_over_many_days() -> None:
    # 20 h from Thursday at noon: 4.5 + 8.5 on Friday, and 7 on Monday.
    assert done("2026-03-05T12:00", 1200, hours())[1] == at("2026-03-09T15:00")


def test_no_work_ends_where_it_could_start() -> None:
    start, end = done("2026-03-06T17:00", 0, hours())
    assert start == end == at("2026-03-09T08:00")


def test_a_working_night_when_clocks_go_forward_is_an_hour_shorter() -> None:
    # From midnight to six on Sunday 8 March 2026 there are five hours in Chicago.
    night = hours(opens="00:00", closes="06:00", days=["sun", "mon"])
    start, end = done("2026-03-08T00:00", 301, night)
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


@pytest.mark.parametrize(
    ("moment", "last"),
    [
        ("2026-03-02T17:00", "2026-03-02T16:30"),
        ("2026-03-02T16:30", "2026-03-02T16:30"),
        ("2026-03-02T11:11", "2026-03-02T11:11"),
        ("2026-03-03T08:00", "2026-03-02T16:30"),  # opening time belongs to the day before
        ("2026-03-08T12:00", "2026-03-06T16:30"),
    ],
)
def test_the_last_moment_of_work(moment: str, last: str) -> None:
    assert last_working(at(moment), hours())[0] == at(last)


def test_back_from_when_it_must_be_done() -> None:
    # 20 h until Monday at three: 7 h on Monday, 8.5 on Friday, 4.5 on Thursday.
    start, end = work_back(at("2026-03-09T15:00"), 1200, hours())
    assert (start, end) == (at("2026-03-05T12:00"), at("2026-03-09T15:00"))
    start, end = work_back(at("2026-03-03T04:00"), 510, hours())
    assert (start, end) == (at("2026-03-02T08:00"), at("2026-03-02T16:30"))


def test_working_time_between_two_moments() -> None:
    assert worked(at("2026-03-06T16:00"), at("2026-03-09T08:30"), hours()) == 60
    assert worked(at("2026-03-06T16:30"), at("2026-03-09T08:00"), hours()) == 0
    assert worked(at("2026-03-09T08:30"), at("2026-03-06T16:00"), hours()) == 0


def test_a_span_is_cut_at_nights_and_days_off() -> None:
    cut = stretches(at("2026-03-06T16:00"), at("2026-03-09T08:30"), hours())
    assert cut == (
        (at("2026-03-06T16:00"), at("2026-03-06T16:30")),
        (at("2026-03-09T08:00"), at("2026-03-09T08:30")),
    )
    assert stretches(at("2026-03-07T08:00"), at("2026-03-08T08:00"), hours()) == ()


@pytest.mark.parametrize(
    ("asked", "region", "place"),
    [
        ("", "", ""),
        ("", "US-IL", "US-IL"),
        ("", "us-il", "US-IL"),
        ("", "Cook County", ""),
        ("US", "US-IL", "US"),
        ("none", "US-IL", ""),
    ],
)
def test_whose_public_holidays_are_kept(asked: str, region: str, place: str) -> None:
    assert working_time(week(holidays_of=asked), CHICAGO, region=region).place == place


def test_public_holidays_are_no_days_of_work() -> None:
    # In Illinois the first Monday of March is Casimir Pulaski Day; in the rest it is none.
    monday = date(2026, 3, 2)
    assert is_working_day(monday, hours(holidays_of="US"))
    assert not is_working_day(monday, hours(holidays_of="US-IL"))
    assert first_working(at("2026-03-02T08:00"), hours(holidays_of="US-IL"))[0] == at(
        "2026-03-03T08:00"
    )


def test_a_day_may_go_on_to_midnight() -> None:
    late = hours(opens="16:00", closes="00:00")
    assert done("2026-03-02T23:00", 90, late)[1] == at("2026-03-03T16:30")
    whole = hours(opens="00:00", closes="00:00", days=["mon", "tue"])
    assert done("2026-03-02T23:00", 90, whole)[1] == at("2026-03-03T00:30")


def test_a_day_whose_hours_vanish_with_the_clocks_is_none() -> None:
    # Clocks go from 2:00 to 3:00 on Sunday 8 March 2026 in Chicago: half past two to three is
    # no time at all.
    night = hours(opens="02:30", closes="03:00", days=["sat", "sun"])
    assert is_working_day(date(2026, 3, 7), night)
    assert not is_working_day(date(2026, 3, 8), night)
    assert done("2026-03-07T02:30", 31, night)[1] == at("2026-03-14T02:31")
