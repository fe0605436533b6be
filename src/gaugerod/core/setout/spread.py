"""How figures of a layout follow the survey, and the spread that its covariance gives them."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import inf
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.margins import Planned, planned, rim
from gaugerod.core.survey.moved import STEP
from gaugerod.core.survey.walls import FittedWall, Walls

Array: TypeAlias = NDArray[np.float64]
End: TypeAlias = Literal["left", "right"]
Figures: TypeAlias = Callable[[Planned, FittedWall], Sequence[float]]
ENDS: tuple[End, End] = ("left", "right")


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCut:
    """The end piece of a course as planned, at its narrowest, and how sure that is. [mm]."""

    wall: str
    course: int
    side: End
    width: float
    sigma: float


def plans_of(walls: Walls, layout: Layout, system: System) -> tuple[Planned, ...]:
    """Return what a layout settles on each wall.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    layout
        A layout on these walls. [mm]
    system
        The material. [mm]

    Returns
    -------
    tuple of Planned
        Wall by wall, from left to right. [mm]

    Notes
    -----
    Source: as `planned`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> [len(plan.rows) for plan in plans_of(*sample_layout())]
    [5, 5, 5]
    """
    return tuple(
        planned(layout, on_wall, wall, system)
        for on_wall, wall in zip(layout.walls, walls.walls, strict=True)
    )


def follow(walls: Walls, plans: Sequence[Planned], figures: Figures) -> tuple[Array, Array]:
    """Return figures of a layout, and how they follow the parameters of the survey.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    plans
        What the layout settles on each wall.
    figures
        Gives the figures of one wall; as many for every state of it. [mm]

    Returns
    -------
    tuple of ndarray
        The figures of all walls in turn, shape ``(n,)``, and their rates, shape ``(n, p)``.
        [mm], [1]

    Notes
    -----
    A forward difference on the walls made again with one parameter moved. Source: own
    derivation.

    Examples
    --------
    A right end grows with the width of its wall, a left end does not:

    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> _, rates = follow(walls, plans_of(walls, layout, system), end_widths)
    >>> (rates[10:12, walls.parameters.index("width B")] + 0.0).round(6).tolist()
    [0.0, 1.0]
    """
    found = [figures(plan, wall) for plan, wall in zip(plans, walls.walls, strict=True)]
    starts = np.cumsum([0, *(len(on_wall) for on_wall in found)])
    value = np.array([figure for on_wall in found for figure in on_wall])
    rates = np.zeros((len(value), len(walls.parameters)))
    for moved in walls.moved:
        rows = slice(starts[moved.place], starts[moved.place + 1])
        now = np.array(figures(plans[moved.place], moved.wall))
        rates[rows, moved.parameter] = (now - value[rows]) / STEP
    return value, rates


def sigmas(rates: Array, covariance: Array) -> Array:
    """Return the standard deviations of figures that are linear in some parameters.

    Parameters
    ----------
    rates
        How each figure follows each parameter, shape ``(n, p)``. [1]
    covariance
        Covariance of the parameters, shape ``(p, p)``. [mm2]

    Returns
    -------
    ndarray
        Standard deviations, shape ``(n,)``. [mm]

    Notes
    -----
    The root of the diagonal of ``J C J'``. Source: propagation of variances, any text on
    adjustment computations.

    Examples
    --------
    >>> sigmas(np.array([[1.0, 1.0]]), np.array([[9.0, 0.0], [0.0, 16.0]]))
    array([5.])
    """
    variance: Array = ((rates @ covariance) * rates).sum(axis=1)
    # Rounding may leave a hair below nought where two parameters cancel.
    spread: Array = np.sqrt(np.maximum(variance, 0.0))
    return spread


def end_widths(plan: Planned, wall: FittedWall) -> tuple[float, ...]:
    """Return the widths of the end pieces on a wall that has moved.

    Parameters
    ----------
    plan
        The layout on the wall.
    wall
        The wall as it is. [mm]

    Returns
    -------
    tuple of float
        Left and right, course by course, at the height where each was planned narrowest;
        where the rim lies, whether or not the module reaches it. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    A wall of 1500 less 9.525 + 1.5875 + 3.175 left, 3 right, and one whole module:

    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> plan = plans_of(walls, layout, system)[1]
    >>> round(sum(end_widths(plan, walls.walls[1])[:2]), 1)
    882.7
    """
    return tuple(_widths(plan, wall))


def _widths(plan: Planned, wall: FittedWall) -> Iterator[float]:
    face = plan.batch.lattice.face[0]
    for row in plan.rows:
        left, right = (rim(plan, wall, side, y) for side, y in zip(ENDS, row.narrow, strict=True))
        reach = right if row.alone else min(row.first + face, row.stop)
        start = left if row.alone else max(row.last, row.begin)
        # Where a step or a slope leaves no end piece nothing is cut.
        yield reach - left if reach > -inf else face
        yield right - start if start < inf else face


def end_cuts(walls: Walls, plans: Sequence[Planned]) -> tuple[EndCut, ...]:
    """Return every end piece of a layout with the standard deviation of its width.

    Parameters
    ----------
    walls
        The surveyed alcove, with the covariance of its parameters. [mm]
    plans
        What the layout settles on each wall.

    Returns
    -------
    tuple of EndCut
        Wall by wall, course by course, the left end before the right. [mm]

    Notes
    -----
    The width is no more than the module's. Source: `end_widths` and `sigmas`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> ends = end_cuts(walls, plans_of(walls, layout, system))
    >>> (ends[0].wall, ends[0].course, ends[0].side, ends[0].width)
    ('L', 1, 'left', 600.0)
    """
    widths, rates = follow(walls, plans, end_widths)
    spread = sigmas(rates, walls.covariance)
    named = ((plan, row, side) for plan in plans for row in plan.rows for side in ENDS)
    return tuple(
        EndCut(
            wall=plan.batch.case.wall.name,
            course=row.course,
            side=side,
            width=min(width, plan.batch.lattice.face[0]),
            sigma=sigma,
        )
        for (plan, row, side), width, sigma in zip(
            named, widths.tolist(), spread.tolist(), strict=True
        )
    )
