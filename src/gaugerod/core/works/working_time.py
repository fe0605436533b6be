"""Working time: when the crew works, when a task ends that it starts, and the way back."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import MIDNIGHT, NO_PLACE, WorkingWeek
from gaugerod.core.job.public_holidays import is_place, public_holidays

_NAMES = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingTime:
    """When the crew works: hours of the day, days of the week (Monday 0), days off.

    A day that closes at midnight goes on to its end. `place` is whose public holidays are
    kept, or nothing.
    """

    opens: time
    closes: time
    days: frozenset[int]
    off: frozenset[date]
    zone: ZoneInfo
    place: str = ""


def working_time(week: WorkingWeek, timezone: ZoneInfo | str, *, region: str = "") -> WorkingTime:
    """Read the working week of a job.

    Parameters
    ----------
    week
        Hours, days and holidays.
    timezone
        Time zone of the site, such as ``America/Chicago``.
    region
        Region of the site: whose public holidays are kept, unless the week says otherwise;
        of a region that is no known place there are none.

    Returns
    -------
    WorkingTime
        The same, checked.

    Raises
    ------
    JobError
        No day or no hour is left to work in, or the time zone is not known.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> week = WorkingWeek.model_validate({"start": "2026-03-02", "days": ["mon", "thu"]})
    >>> sorted(working_time(week, "America/Chicago").days)
    [0, 3]
    """
    if not week.days:
        raise JobError(Message("works.no-days"))
    if week.closes <= week.opens and week.closes != MIDNIGHT:
        opens, closes = (moment.isoformat("minutes") for moment in (week.opens, week.closes))
        raise JobError(Message("works.no-hours", opens=opens, closes=closes))
    return WorkingTime(
        opens=week.opens,
        closes=week.closes,
        days=frozenset(_NAMES.index(day) for day in week.days),
        off=frozenset(week.holidays),
        zone=timezone if isinstance(timezone, ZoneInfo) else _zone(timezone),
        place=_place(week.holidays_of, region),
    )


def _place(asked: str, region: str) -> str:
    if asked:
        return "" if asked == NO_PLACE else asked
    home = region.upper()
    return home if is_place(home) else ""


def _zone(name: str) -> ZoneInfo:
    # What a wrong name raises depends on its spelling: not found, not a key, or a folder.
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:
        raise JobError(Message("works.timezone", read=name[:40])) from error


def first_working(moment: datetime, when: WorkingTime) -> tuple[datetime, datetime]:
    """Return the first moment in working time, and when that day closes.

    Parameters
    ----------
    moment
        Not before this; with its time zone.
    when
        When the crew works.

    Returns
    -------
    tuple of datetime
        Both in UTC, so that differences are real time also when clocks change.

    Notes
    -----
    A moment at which the day closes belongs to the next. Source: own design.

    Examples
    --------
    Friday evening in Chicago: Monday at eight, which is 13:00 UTC, for on Sunday the clocks
    went forward.

    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> friday = datetime(2026, 3, 6, 17, 0, tzinfo=ZoneInfo("America/Chicago"))
    >>> first_working(friday, working_time(week, "America/Chicago"))[0].isoformat()
    '2026-03-09T13:00:00+00:00'
    """
    day = moment.astimezone(when.zone).date()
    while True:
        opens, closes = hours_of(day, when)
        if moment < closes and is_working_day(day, when):
            return max(moment.astimezone(UTC), opens), closes
        day += _DAY


def last_working(moment: datetime, when: WorkingTime) -> tuple[datetime, datetime]:
    """Return the last moment of working time, and when that day opens.

    Parameters
    ----------
    moment
        Not after this; with its time zone.
    when
        When the crew works.

    Returns
    -------
    tuple of datetime
        Both in UTC.

    Notes
    -----
    A moment at which the day opens belongs to the one before. Source: own design.

    Examples
    --------
    Monday at eight: Friday at half past four.

    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> monday = datetime(2026, 3, 9, 8, 0, tzinfo=UTC)
    >>> last_working(monday, working_time(week, "UTC"))[0].isoformat()
    '2026-03-06T16:30:00+00:00'
    """
    day = moment.astimezone(when.zone).date()
    while True:
        opens, closes = hours_of(day, when)
        if opens < moment and is_working_day(day, when):
            return min(moment.astimezone(UTC), closes), opens
        day -= _DAY


def is_working_day(day: date, when: WorkingTime) -> bool:
    """Tell whether the crew works on a day.

    Parameters
    ----------
    day
        The day.
    when
        When the crew works.

    Returns
    -------
    bool
        Whether it is a day of the working week, and neither a day off nor a public holiday.

    Notes
    -----
    A day whose hours vanish as clocks change is none. Source: own design.

    Examples
    --------
    >>> week = WorkingWeek.model_validate({"start": "2026-12-21", "holidays_of": "GB"})
    >>> is_working_day(date(2026, 12, 25), working_time(week, "Europe/London"))
    False
    """
    opens, closes = hours_of(day, when)
    return (
        opens < closes
        and day.weekday() in when.days
        and day not in when.off
        and day not in public_holidays(when.place, day.year)
    )


def hours_of(day: date, when: WorkingTime) -> tuple[datetime, datetime]:
    """Return when a day opens and closes, were it a working day.

    Parameters
    ----------
    day
        The day.
    when
        When the crew works.

    Returns
    -------
    tuple of datetime
        Both in UTC.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> opens, closes = hours_of(date(2026, 3, 2), working_time(week, "America/Chicago"))
    >>> opens.isoformat()
    '2026-03-02T14:00:00+00:00'
    """
    last = day + _DAY if when.closes == MIDNIGHT else day
    return _instant(day, when.opens, when.zone), _instant(last, when.closes, when.zone)


def _instant(day: date, at: time, zone: ZoneInfo) -> datetime:
    return datetime.combine(day, at, tzinfo=zone).astimezone(UTC)


def work(ready: datetime, minutes: int, when: WorkingTime) -> tuple[datetime, datetime]:
    """Work on a task without a break but for nights and days off.

    Parameters
    ----------
    ready
        Not before this; with its time zone.
    minutes
        Working time that the task takes, >= 0. [minutes]
    when
        When the crew works.

    Returns
    -------
    tuple of datetime
        Start and end, in UTC.

    Notes
    -----
    Source: own design.

    Examples
    --------
    Nine hours from Monday at eight, the day closing at half past four: half an hour is
    left for Tuesday.

    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> monday = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
    >>> start, end = work(monday, 540, working_time(week, "UTC"))
    >>> end.isoformat()
    '2026-03-03T08:30:00+00:00'
    """
    start, closes = first_working(ready, when)
    now, left = start, timedelta(minutes=minutes)
    while now + left > closes:
        left -= closes - now
        now, closes = first_working(closes, when)
    return start, now + left


def work_back(due: datetime, minutes: int, when: WorkingTime) -> tuple[datetime, datetime]:
    """Place a task as late as it may be.

    Parameters
    ----------
    due
        Not after this; with its time zone.
    minutes
        Working time that the task takes, > 0. [minutes]
    when
        When the crew works.

    Returns
    -------
    tuple of datetime
        Latest start and end, in UTC.

    Notes
    -----
    `work`, run backwards. Source: own design.

    Examples
    --------
    Nine hours that must be over on Tuesday at half past eight begin on Monday at eight.

    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> tuesday = datetime(2026, 3, 3, 8, 30, tzinfo=UTC)
    >>> work_back(tuesday, 540, working_time(week, "UTC"))[0].isoformat()
    '2026-03-02T08:00:00+00:00'
    """
    end, opens = last_working(due, when)
    now, left = end, timedelta(minutes=minutes)
    while now - left < opens:
        left -= now - opens
        now, opens = last_working(opens, when)
    return now - left, end


def stretches(
    start: datetime, end: datetime, when: WorkingTime
) -> tuple[tuple[datetime, datetime], ...]:
    """Cut a span at nights and days off.

    Parameters
    ----------
    start
        Begin of the span, with its time zone.
    end
        End of the span.
    when
        When the crew works.

    Returns
    -------
    tuple of tuple of datetime
        Start and end of each stretch of working time, in UTC, one a day.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> start, end = (datetime(2026, 3, day, 9, 0, tzinfo=UTC) for day in (2, 3))
    >>> [f"{a:%a %H:%M}-{b:%H:%M}" for a, b in stretches(start, end, working_time(week, "UTC"))]
    ['Mon 09:00-16:30', 'Tue 08:00-09:00']
    """
    found: list[tuple[datetime, datetime]] = []
    now, closes = first_working(start, when)
    while now < end:
        found.append((now, min(closes, end.astimezone(UTC))))
        now, closes = first_working(closes, when)
    return tuple(found)


def worked(start: datetime, end: datetime, when: WorkingTime) -> int:
    """Return how much working time lies between two moments.

    Parameters
    ----------
    start
        First moment, with its time zone.
    end
        Second moment; before the first there is none.
    when
        When the crew works.

    Returns
    -------
    int
        Whole minutes. [minutes]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> start, end = (datetime(2026, 3, day, 9, 0, tzinfo=UTC) for day in (2, 3))
    >>> worked(start, end, working_time(week, "UTC"))
    510
    """
    spans = (until - since for since, until in stretches(start, end, when))
    return sum(spans, timedelta()) // timedelta(minutes=1)
