"""Working time: when the crew works, and when a task ends that it starts."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import WorkingWeek

_NAMES = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingTime:
    """When the crew works: hours of the day, days of the week (Monday 0), days off."""

    opens: time
    closes: time
    days: frozenset[int]
    off: frozenset[date]
    zone: ZoneInfo


def working_time(week: WorkingWeek, timezone: ZoneInfo | str) -> WorkingTime:
    """Read the working week of a job.

    Parameters
    ----------
    week
        Hours, days and holidays.
    timezone
        Time zone of the site, such as ``America/Chicago``.

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
    if week.closes <= week.opens:
        opens, closes = (moment.isoformat("minutes") for moment in (week.opens, week.closes))
        raise JobError(Message("works.no-hours", opens=opens, closes=closes))
    return WorkingTime(
        opens=week.opens,
        closes=week.closes,
        days=frozenset(_NAMES.index(day) for day in week.days),
        off=frozenset(week.holidays),
        zone=timezone if isinstance(timezone, ZoneInfo) else _zone(timezone),
    )


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
        opens, closes = (_instant(day, at, when.zone) for at in (when.opens, when.closes))
        if day.weekday() in when.days and day not in when.off and moment < closes:
            return max(moment.astimezone(UTC), opens), closes
        day += timedelta(days=1)


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
