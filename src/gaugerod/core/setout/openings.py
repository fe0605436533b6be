"""Openings as the lining meets them: with the joint left round them, on a joint if near one."""

from dataclasses import replace

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.materials import System
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.survey.walls import FittedWall

EASE = 0.9
"""A step narrower than this cannot be cut; it is lost in the joint round the opening. [mm]"""


def opening_boxes(wall: FittedWall, system: System) -> tuple[Box, ...]:
    """Return the openings of a wall, each grown by the joint left round it.

    Parameters
    ----------
    wall
        The wall. [mm]
    system
        The material, for the joint where an opening has none of its own. [mm]

    Returns
    -------
    tuple of Box
        One box for each opening. [mm]

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> opening_boxes(fit_walls(sample_job()).walls[1], sample_system())
    ()
    """
    grown = []
    for opening in wall.openings:
        gap = system.gaps.opening if opening.gap is None else opening.gap
        b = opening.box
        grown.append(
            Box(left=b.left - gap, bottom=b.bottom - gap, right=b.right + gap, top=b.top + gap)
        )
    return tuple(grown)


def ease(opening: Box, lattice: Lattice) -> Box:
    """Move the edges of an opening onto joints that they miss by less than can be cut.

    Parameters
    ----------
    opening
        The opening with its joint. [mm]
    lattice
        The lattice over it. [mm]

    Returns
    -------
    Box
        The opening; each edge has moved by less than `EASE` or not at all. [mm]

    Notes
    -----
    A survey finds a jamb to a millimetre or so. Without easing, a module centred on an
    opening of its own width would get steps of hundredths cut out of its neighbours.
    Source: own design.

    Examples
    --------
    >>> grid = Lattice(face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=300.0,
    ...     phase=450.0, row_shift=0.0)
    >>> ease(Box(left=450.4, bottom=299.8, right=1049.7, top=620.0), grid)
    Box(left=450.0, bottom=300.0, right=1050.0, top=620.0)
    """
    eased = opening
    for course in lattice.courses(bottom=opening.bottom - EASE, top=opening.top + EASE):
        eased = replace(
            eased,
            bottom=_near(eased.bottom, lattice.row_top(course)),
            top=_near(eased.top, lattice.row_bottom(course)),
        )
        span = lattice.numbers(course, left=opening.left - EASE, right=opening.right + EASE)
        for number in span:
            cell = lattice.cell(course, number)
            eased = replace(
                eased, left=_near(eased.left, cell.right), right=_near(eased.right, cell.left)
            )
    return eased


def _near(edge: float, joint: float) -> float:
    return joint if abs(edge - joint) < EASE else edge
