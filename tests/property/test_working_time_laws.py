"""Laws of the working calendar: in any zone, with any hours, over any change of the clock."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.job.document import MIDNIGHT
from gaugerod.core.job.public_holidays import public_holidays
from gaugerod.core.works.working_time import (
    WorkingTime,
    first_working,
    last_working,
    stretches,
    work,
    work_back,
    worked,
)

ZONES = [
    ZoneInfo(name)
    for name in (
        "UTC",
        "America/Chicago",
        "Europe/London",
        "Asia/Kathmandu",  # a quarter of an hour off
        "Australia/Lord_Howe",  # clocks change by half an hour
        "America/St_Johns",
    )
]
PLACES = ["", "US", "US-IL", "GB-ENG", "AU"]


@st.composite
def calendars(draw: st.DrawFn) -> WorkingTime:
    opens = draw(st.integers(0, 23 * 60))
    closes = draw(st.integers(opens + 1, 24 * 60))
    return WorkingTime(
        opens=time(opens // 60, opens % 60),
        closes=MIDNIGHT if closes == 24 * 60 else time(closes // 60, closes % 60),
        days=frozenset(draw(st.sets(st.integers(0, 6), min_size=1))),
        off=frozenset(draw(st.sets(st.dates(date(2026, 1, 1), date(2026, 12, 31))))),
        zone=draw(st.sampled_from(ZONES)),
        place=draw(st.sampled_from(PLACES)),
    )


MOMENTS = st.integers(0, 400 * 24 * 60).map(
    lambda minutes: datetime(2025, 12, 1, tzinfo=UTC) + timedelta(minutes=minutes)
)
MINUTES = st.integers(1, 3000)


@given(when=calendars(), ready=MOMENTS, minutes=MINUTES)
def test_no_work_at_night_nor_on_a_day_off(
    when: WorkingTime, ready: datetime, minutes: int
) -> None:
    start, end = work(ready, minutes, when)
    assert start >= ready
    for since, until in stretches(start, end, when):
        first, last = since.astimezone(when.zone), until.astimezone(when.zone)
        assert first.weekday() in when.days
        assert first.date() not in when.off
        assert first.date() not in public_holidays(when.place, first.year)
        # Clocks that go forward past the opening open with the next moment there is.
        assert first.time() >= when.opens
        if when.closes == MIDNIGHT:
            assert last.date() == first.date() or last.time() == MIDNIGHT
        else:
            assert last.date() == first.date()
            assert last.time() <= when.closes or last.utcoffset() != first.utcoffset()


@given(when=calendars(), ready=MOMENTS, minutes=MINUTES)
def test_the_stretches_are_as_long_as_the_work(
    when: WorkingTime, ready: datetime, minutes: int
) -> None:
    start, end = work(ready, minutes, when)
    spans = [until - since for since, until in stretches(start, end, when)]
    assert sum(spans, timedelta()) == timedelta(minutes=minutes)
    assert worked(ready, end, when) == worked(start, end, when) == minutes


@given(when=calendars(), ready=MOMENTS)
def test_adding_nothing_changes_nothing(when: WorkingTime, ready: datetime) -> None:
    start, end = work(ready, 0, when)
    assert start == end == first_working(ready, when)[0]
    assert work(start, 0, when) == (start, start)
    assert worked(ready, start, when) == 0


@given(when=calendars(), ready=MOMENTS, first=MINUTES, second=MINUTES)
def test_work_adds_up(when: WorkingTime, ready: datetime, first: int, second: int) -> None:
    together = work(ready, first + second, when)[1]
    assert work(work(ready, first, when)[1], second, when)[1] == together


@given(when=calendars(), ready=MOMENTS, later=st.integers(0, 5000), minutes=MINUTES)
def test_who_begins_later_ends_no_sooner(
    when: WorkingTime, ready: datetime, later: int, minutes: int
) -> None:
    start, end = work(ready, minutes, when)
    after = work(ready + timedelta(minutes=later), minutes, when)
    assert after[0] >= start
    assert after[1] >= end
    assert work(ready, minutes + 1, when)[1] > end


@given(when=calendars(), ready=MOMENTS, minutes=MINUTES)
def test_back_is_the_way_it_came(when: WorkingTime, ready: datetime, minutes: int) -> None:
    start, end = work(ready, minutes, when)
    assert work_back(end, minutes, when) == (start, end)


@given(when=calendars(), due=MOMENTS, minutes=MINUTES)
def test_as_late_as_may_be_and_no_later(when: WorkingTime, due: datetime, minutes: int) -> None:
    start, end = work_back(due, minutes, when)
    assert end == last_working(due, when)[0] <= due
    assert work(start, minutes, when) == (start, end)
    a_minute_later = work(start, 1, when)[1]
    assert work(a_minute_later, minutes, when)[1] > due


def whole_days(zone: str) -> WorkingTime:
    return WorkingTime(
        opens=MIDNIGHT,
        closes=MIDNIGHT,
        days=frozenset(range(7)),
        off=frozenset(),
        zone=ZoneInfo(zone),
    )


@given(day=st.integers(0, 364), zone=st.sampled_from(["America/Chicago", "Europe/London"]))
def test_a_day_on_which_clocks_change_has_its_own_length(day: int, zone: str) -> None:
    # By law, 2026: 8 March and 1 November in Chicago, 29 March and 25 October in London.
    first = datetime(2026, 1, 1, tzinfo=ZoneInfo(zone)) + timedelta(days=day)
    on = f"{first:%m-%d}"
    short = {"America/Chicago": "03-08", "Europe/London": "03-29"}[zone]
    long = {"America/Chicago": "11-01", "Europe/London": "10-25"}[zone]
    hours = 23 if on == short else 25 if on == long else 24
    assert worked(first, first + timedelta(days=1), whole_days(zone)) == hours * 60
