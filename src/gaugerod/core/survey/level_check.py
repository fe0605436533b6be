"""A level held against itself: what it says of a surface, and of its own error."""

from dataclasses import dataclass
from math import atan


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelCheck:
    """What a level says of a surface, and of itself. [mm/mm, rad]."""

    slope: float
    error: float
    angle: float


def reversed_level(*, first: float, second: float, over: float) -> LevelCheck:
    """Read a slope free of the level's own error, and that error, from two readings.

    Parameters
    ----------
    first
        Rise from left to right that the level shows. [mm]
    second
        The same on the same spot with the level turned end for end, still from left to right.
        [mm]
    over
        Length of the level, > 0. [mm]

    Returns
    -------
    LevelCheck
        True slope, error of the level, and that error as an angle. [mm/mm, rad]

    Notes
    -----
    Half the sum is the surface, half the difference the level. Source: two-position method;
    formula from memory.

    Examples
    --------
    Shows 3 mm one way, 1 mm the other, over 1 m:

    >>> found = reversed_level(first=3.0, second=1.0, over=1000.0)
    >>> found.slope, found.error
    (0.002, 0.001)
    """
    error = (first - second) / 2 / over
    return LevelCheck(slope=(first + second) / 2 / over, error=error, angle=atan(error))


def level_drift(*, error: float, over: float) -> float:
    """Return what the error of a level comes to over a length.

    Parameters
    ----------
    error
        Its error. [mm/mm]
    over
        The length. [mm]

    Returns
    -------
    float
        How far the far end is out. [mm]

    Notes
    -----
    Builder's levels are sold as true to 0.5 mm/m. Source: proportion.

    Examples
    --------
    >>> level_drift(error=0.0005, over=1828.8)
    0.9144
    """
    return error * over
