from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.ordering import order_by
from gaugerod.core.works.working_time import WorkingTime, working_time

LONDON = ZoneInfo("Europe/London")


def hours(**changes: object) -> WorkingTime:
    week = WorkingWeek.model_validate({"start": "2026-03-02"} | changes)
    return working_time(week, LONDON)


def needed(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=LONDON)


@pytest.mark.parametrize(
    ("moment", "last"),
    [
        ("2026-03-12T08:00", "2026-03-11"),  # Thursday at eight: by Wednesday's close
        ("2026-03-12T16:29", "2026-03-11"),
        ("2026-03-12T16:30", "2026-03-12"),
        ("2026-03-09T08:00", "2026-03-06"),  # Monday at eight: by Friday's close
    ],
)
def test_it_comes_by_the_close_of_a_working_day(moment: str, last: str) -> None:
    assert order_by(needed(moment), hours(), lead_days=0) == date.fromisoformat(last)


def test_lead_counts_every_day_and_is_ordered_on_a_working_day() -> None:
    # Wednesday 11 March less ten days is Sunday 1 March: ordered on Friday 27 February.
    assert order_by(needed("2026-03-12T08:00"), hours(), lead_days=10) == date(2026, 2, 27)


def test_it_lies_in_the_room_first() -> None:
    # 48 h before Thursday at eight is Tuesday at eight: by Monday's close.
    assert order_by(needed("2026-03-12T08:00"), hours(), lead_days=0, lie_hours=48) == date(
        2026, 3, 9
    )


def test_days_in_hand_are_working_days() -> None:
    # Wednesday 11, Tuesday 10, Monday 9, Friday 6 March.
    assert order_by(needed("2026-03-12T08:00"), hours(), lead_days=0, spare_days=3) == date(
        2026, 3, 6
    )


def test_nobody_takes_it_in_on_a_holiday() -> None:
    # Monday 6 April 2026 is Easter Monday, Friday 3 April Good Friday.
    easter = hours(holidays_of="GB-ENG")
    assert order_by(needed("2026-04-07T08:00"), easter, lead_days=0) == date(2026, 4, 2)
