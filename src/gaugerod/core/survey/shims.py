"""The shim schedule: how much to pack out each stud, so that all stand in one plumb plane."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from gaugerod.core.base.geometry import Point
from gaugerod.core.base.lengths import Display, round_length
from gaugerod.core.survey.cover import Goal, Target, below, cover
from gaugerod.core.survey.spots import Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class Shim:
    """One shim: `thickness` in whole steps, `exact` before rounding. [mm]."""

    at: Point
    thickness: float
    exact: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimSchedule:
    """Shims from the left, each stud upwards, and the plane they bring the studs to. [mm]."""

    target: Target
    shims: tuple[Shim, ...]
    thickest: float


def shim_schedule(
    spots: Sequence[Spot], *, display: Display, goal: Goal = "parallel"
) -> ShimSchedule:
    """Return the shims that bring studs to one plumb plane through the proudest.

    Parameters
    ----------
    spots
        Places on the studs, at least one.
    display
        The step that shims come in: 1/16 in, or 1 mm.
    goal
        *Parallel* to the plane that depths were read from; *plumb* leaves it free to turn
        about a plumb line, which takes less shim where that plane was not quite along the wall.

    Returns
    -------
    ShimSchedule
        Thickness at each place. [mm]

    Notes
    -----
    The shim is the plane less the stud, rounded once to the nearest step, so that each stud
    ends within half a step of the plane. Source: own derivation.

    Examples
    --------
    The second stud stands back by 5 mm at the bottom and by 8.4 mm at the top:

    >>> from gaugerod.core.base.lengths import METRIC
    >>> depths = {(0.0, 0.0): 50.0, (0.0, 1800.0): 50.2, (400.0, 0.0): 55.0, (400.0, 1800.0): 58.4}
    >>> studs = [Spot(x=x, y=y, z=-depth, sigma=0.4) for (x, y), depth in depths.items()]
    >>> made = shim_schedule(studs, display=METRIC)
    >>> [shim.thickness for shim in made.shims], made.thickest
    ([0.0, 0.0, 5.0, 8.0], 8.0)
    """
    middle = fmean(spot.x for spot in spots), fmean(spot.y for spot in spots)
    target = cover(spots, goal=goal, middle=middle)
    shims = tuple(
        Shim(
            at=(spot.x, spot.y),
            thickness=float(round_length(float(exact), display)),
            exact=float(exact),
        )
        for spot, exact in zip(spots, below(target, spots), strict=True)
    )
    return ShimSchedule(target=target, shims=shims, thickest=max(shim.thickness for shim in shims))
