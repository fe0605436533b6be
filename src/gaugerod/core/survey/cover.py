"""The lowest plane over a surface: what filling alone can bring it to."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from scipy.optimize import linprog

from gaugerod.core.base.geometry import Point
from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.spots import Spot

Goal: TypeAlias = Literal["flat", "plumb", "parallel"]

_TIE = 1e-5
"""Weight that only decides between planes that need the same fill. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The plane ``z = offset + across * x + up * y``. [mm, mm/mm]."""

    offset: float
    across: float
    up: float


def below(target: Target, spots: Sequence[Spot]) -> Array:
    """Return how far each spot lies below a plane.

    Parameters
    ----------
    target
        The plane.
    spots
        The spots.

    Returns
    -------
    Array
        Plane less spot. [mm]

    Notes
    -----
    Source: equation of a plane.

    Examples
    --------
    >>> below(Target(offset=1.0, across=0.0, up=0.0), [Spot(x=0.0, y=0.0, z=-2.0, sigma=1.0)])
    array([3.])
    """
    x, y, z = np.array([(spot.x, spot.y, spot.z) for spot in spots]).T
    depths: Array = target.offset + target.across * x + target.up * y - z
    return depths


def cover(spots: Sequence[Spot], *, goal: Goal, middle: Point, like: Point = (0.0, 0.0)) -> Target:
    r"""Return the plane over all spots that is lowest above a point.

    Parameters
    ----------
    spots
        The spots, at least one.
    goal
        *Flat* leaves the plane free, *plumb* turns it about a plumb line only, *parallel*
        keeps it parallel to the plane that depths were read from.
    middle
        Where it is to be lowest: the centroid of what is filled. It lies among the spots. [mm]
    like
        Slopes across and up that it takes, of all planes that are as low. [mm/mm]

    Returns
    -------
    Target
        The plane. [mm, mm/mm]

    Notes
    -----
    The fill under a plane is area times height at the centroid, less what the wall fills
    itself, so that the lowest plane over the centroid needs the least. It is the linear
    programme: least :math:`h` with :math:`h + b (x_i - x_m) + c (y_i - y_m) \ge z_i` for every
    spot. Source: own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    Two humps of 2 and 4 mm, 600 mm apart; half-way the plane through both stands at 3.

    >>> places = {0.0: 2.0, 300.0: 0.0, 600.0: 4.0}
    >>> row = [Spot(x=x, y=0.0, z=z, sigma=1.0) for x, z in places.items()]
    >>> plane = cover(row, goal="plumb", middle=(300.0, 0.0))
    >>> round(plane.offset, 6), round(plane.across * 300, 6)
    (2.0, 1.0)
    """
    x, y, z = np.array([(spot.x, spot.y, spot.z) for spot in spots]).T
    out = np.column_stack([x - middle[0], y - middle[1]])
    free = [goal != "parallel", goal == "flat"]
    slopes = _slopes(out, z, like=np.array(like), free=np.array(free))
    # From the slopes the height follows exactly, so that no spot stands above the plane.
    height = float((z - out @ slopes).max())
    across, up = (float(slope) for slope in slopes)
    return Target(offset=height - across * middle[0] - up * middle[1], across=across, up=up)


def _slopes(out: Array, z: Array, *, like: Array, free: Array) -> Array:
    """Solve for height and slopes; each slope is `like` and what it has more or less."""
    size = max(float(np.abs(out).max()), 1.0)
    unit = out * free / size
    found = linprog(
        c=[1.0, _TIE, _TIE, _TIE, _TIE],
        A_ub=-np.column_stack([np.ones_like(z), unit, -unit]),
        b_ub=out @ (like * free) - z,
        bounds=[(None, None), *[(0.0, None)] * 4],
    )
    _, *more_and_less = np.asarray(found.x, dtype=np.float64)
    turn = np.array(more_and_less[:2]) - np.array(more_and_less[2:])
    return np.where(free, like + turn / size, 0.0)
