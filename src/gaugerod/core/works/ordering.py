"""Ordering in time: from the day a thing is needed back to the last day to order it."""

from datetime import date, datetime, timedelta

from gaugerod.core.works.working_time import WorkingTime, hours_of, is_working_day, last_working

_DAY = timedelta(days=1)


def order_by(
    needed: datetime,
    when: WorkingTime,
    *,
    lead_days: int,
    lie_hours: float = 0.0,
    spare_days: int = 0,
) -> date:
    """Return the last day to order what is needed at a moment.

    Parameters
    ----------
    needed
        When it is first needed, with its time zone.
    when
        When the crew works: only then is anybody there to order it or take it in.
    lead_days
        From order to delivery, every day counted, >= 0. [days]
    lie_hours
        How long it lies in the room before it is used, >= 0. [hours]
    spare_days
        Working days kept in hand, >= 0. [days]

    Returns
    -------
    date
        A working day.

    Notes
    -----
    It comes on a working day, by closing time; so what is needed at eight comes the day before
    at the latest. Latest order = start - lead - days in hand. Source: common practice, no
    source.

    Examples
    --------
    Needed on Thursday at ten, in the room a day before: it comes by Tuesday's close, ten days
    after Saturday 28 February, so it is ordered on Friday.

    >>> from gaugerod.core.job.document import WorkingWeek
    >>> from gaugerod.core.works.working_time import working_time
    >>> week = WorkingWeek.model_validate({"start": "2026-03-02"})
    >>> thursday = datetime.fromisoformat("2026-03-12T10:00:00+00:00")
    >>> when = working_time(week, "UTC")
    >>> order_by(thursday, when, lead_days=10, lie_hours=24).isoformat()
    '2026-02-27'
    """
    ready = needed - timedelta(hours=lie_hours)
    end, _ = last_working(ready, when)
    day = end.astimezone(when.zone).date()
    if ready < hours_of(day, when)[1]:
        day = _working_day(day - _DAY, when)
    for _ in range(spare_days):
        day = _working_day(day - _DAY, when)
    return _working_day(day - timedelta(days=lead_days), when)


def _working_day(day: date, when: WorkingTime) -> date:
    """Return a day, or the last working day before it."""
    while not is_working_day(day, when):
        day -= _DAY
    return day
