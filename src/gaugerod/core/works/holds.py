"""Hold clocks: how long nobody touches what was glued, by the warmth and damp of the room."""

from bisect import bisect_right
from collections.abc import Sequence
from math import ceil

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.calendar import HoldTable, Room

COLD = 16.0
"""Below this a cure without a table takes twice its hours: 60 F. [celsius]"""
DAMP = 80.0
"""Above this relative humidity it does too. [percent]"""
MINUTES = 60
"""Minutes of an hour."""


def hold_minutes(hours: float, table: HoldTable | None, room: Room | None, *, of: str) -> int:
    """Return how long a hold lasts.

    Parameters
    ----------
    hours
        The hold in a room as usual. [hours]
    table
        The maker's hours by temperature and humidity, where there are any.
    room
        How warm and damp the room is, where the job says so.
    of
        What is held, for the message.

    Returns
    -------
    int
        The hold, up to a whole minute. [minutes]

    Raises
    ------
    JobError
        The room is colder than the table begins, or its humidity is not in it: then nobody
        knows the hold.

    Notes
    -----
    Where the job says nothing of the room, the hours as written. Else, with a table, straight
    between its rows and between its columns: a cure slows the more the colder it is, so the
    chord errs on the long side. Warmer than the last row gains nothing. Without a table, twice
    the hours below 16 degrees C or above 80 % humidity (common practice, no source; the figure
    for damp is our own). The maker's sheet wins. Source: own derivation, ``docs/theory/days.md``.

    Examples
    --------
    48 h at 10 degrees and 24 h at 20: 36 h at 15.

    >>> table = HoldTable.model_validate({"temperature": ["10 C", "20 C"], "hours": [[48], [24]]})
    >>> hold_minutes(24, table, Room(temperature="15 C"), of="adhesive") / 60
    36.0
    >>> hold_minutes(24, None, Room(temperature="15 C"), of="adhesive") / 60
    48.0
    """
    if room is None:
        return _minutes(hours)
    if table is None:
        slow = room.temperature < COLD or room.humidity > DAMP
        return _minutes(2 * hours if slow else hours)
    if room.temperature < table.temperature[0]:
        least = table.temperature[0]
        raise JobError(
            Message(
                "works.too-cold",
                of=of,
                read=room.temperature,
                read_f=_fahrenheit(room.temperature),
                least=least,
                least_f=_fahrenheit(least),
            )
        )
    if table.humidity and not table.humidity[0] <= room.humidity <= table.humidity[-1]:
        raise JobError(
            Message(
                "works.humidity",
                of=of,
                read=room.humidity,
                least=table.humidity[0],
                most=table.humidity[-1],
            )
        )
    by_warmth = [
        _between(room.humidity, table.humidity, row) if table.humidity else row[0]
        for row in table.hours
    ]
    return _minutes(_between(room.temperature, table.temperature, by_warmth))


def _between(at: float, scale: Sequence[float], values: Sequence[float]) -> float:
    """Return the value straight between two of a scale; past its end, the last."""
    right = bisect_right(scale, at)
    if right == len(scale):
        return values[-1]
    left = right - 1
    share = (at - scale[left]) / (scale[right] - scale[left])
    return values[left] + share * (values[right] - values[left])


def _fahrenheit(celsius: float) -> float:
    return celsius * 1.8 + 32


def _minutes(hours: float) -> int:
    # Rounded first: a hold of 36 h that floats make 36.0000001 h is no minute longer.
    return ceil(round(hours * MINUTES, 6))
