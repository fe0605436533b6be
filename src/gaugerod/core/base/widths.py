"""How narrow a shape is, whichever way it lies."""

import numpy as np
import shapely
from shapely.geometry import Polygon

_LEG = 1e-3
"""A shape fills its hull but for this share, or it has legs. [1]"""


def narrowest(shape: Polygon) -> float:
    """Return the least width of a shape over all directions.

    Parameters
    ----------
    shape
        A polygon with an area. [mm]

    Returns
    -------
    float
        Distance of the closest two parallel lines that hold it between them. [mm]

    Notes
    -----
    One of the two lines lies along an edge of the convex hull. Source: rotating calipers,
    M. Shamos, *Computational Geometry*, 1978 (from memory).

    Examples
    --------
    Half a square of 300 mm, cut on the diagonal, is 212 mm across.

    >>> round(narrowest(Polygon([(0, 0), (300, 0), (0, 300)])), 1)
    212.1
    """
    ring = shapely.get_coordinates(shape.convex_hull)
    along = np.diff(ring, axis=0)
    lengths = np.hypot(along[:, 0], along[:, 1])
    across = np.column_stack([-along[:, 1], along[:, 0]]) / lengths[:, None]
    reach = ring @ across.T
    return float(np.min(reach.max(axis=0) - reach.min(axis=0)))


def has_thin_leg(shape: Polygon, least: float) -> bool:
    """Tell whether a notched shape has a leg narrower than the least.

    Parameters
    ----------
    shape
        The shape, without the holes drilled in it. [mm]
    least
        Least width of a leg, > 0. [mm]

    Returns
    -------
    bool
        Whether there is such a leg. A shape without notches has none.

    Notes
    -----
    A disc of the least width is rolled about inside. It can't reach into a corner: of 45
    degrees its rim stays ``least / 2 (1 / sin 22.5 - 1) = 0.81 least`` away. What lies farther
    than `least` from all that it reaches is a leg. Source: morphological opening; the bound is
    own derivation.

    Examples
    --------
    >>> ell = shapely.box(0, 0, 300, 300).difference(shapely.box(30, 30, 300, 300))
    >>> has_thin_leg(ell, 50.0), has_thin_leg(ell, 20.0)
    (True, False)
    """
    if shape.area > shape.convex_hull.area * (1 - _LEG):
        return False
    core = shape.buffer(-least / 2 + least * _LEG, join_style="mitre")
    if core.is_empty:
        return True
    rolled = core.buffer(least / 2)
    return bool(
        np.max(shapely.distance(shapely.points(shapely.get_coordinates(shape)), rolled)) > least
    )
