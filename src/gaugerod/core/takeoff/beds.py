"""Beds of mortar and joints of grout."""

from collections.abc import Iterable
from math import radians, sin

from gaugerod.core.base.geometry import Region, shape_of

TROWEL = radians(45)
"""Angle at which a trowel is commonly held. [rad]"""


def mean_bed(*, depth: float, width: float, gap: float) -> float:
    """Return the mean thickness of a bed combed with a notched trowel.

    Parameters
    ----------
    depth
        Depth of the notch, > 0. [mm]
    width
        Width of the notch, > 0. [mm]
    gap
        Width of the tooth between two notches, >= 0. [mm]

    Returns
    -------
    float
        Thickness, once the ridges are pressed flat. [mm]

    Notes
    -----
    ``depth * width / (width + gap) * sin 45 deg``: the trowel leans, and ridges stand on only
    part of the wall. Source: own derivation.

    Examples
    --------
    Half-inch square notch: 0.177 in.

    >>> round(mean_bed(depth=12.7, width=12.7, gap=12.7) / 25.4, 3)
    0.177
    """
    return depth * width / (width + gap) * sin(TROWEL)


def joint_area(regions: Iterable[Region], pieces: Iterable[Region]) -> float:
    """Return the area of the joints that pieces leave between them.

    Parameters
    ----------
    regions
        What the lining covers, net of openings and holes. [mm]
    pieces
        The pieces that lie in it, net of the same. [mm]

    Returns
    -------
    float
        Area of all joints. [mm2]

    Notes
    -----
    What is covered less what is tile, so that crossings count once. The usual estimate,
    ``(a + b) / (a b)`` times the joint, counts each crossing twice and divides by the face
    and not by the pitch: 4.5 % high for a 100 mm tile with 3 mm joints. Source: own
    derivation.

    Examples
    --------
    Two tiles of 10 x 10 in a field of 21 x 10: a joint of 1 x 10.

    >>> def box(left, right):
    ...     return Region(rings=(((left, 0.0), (right, 0.0), (right, 10.0), (left, 10.0)),))
    >>> joint_area([box(0, 21)], [box(0, 10), box(11, 21)])
    10.0
    """
    return max(_area(regions) - _area(pieces), 0.0)


def _area(regions: Iterable[Region]) -> float:
    return float(sum(shape_of(region).area for region in regions))
