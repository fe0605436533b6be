"""The volume between a surface and what it is filled or ground to."""

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.mesh import Mesh


def volumes(mesh: Mesh, depths: Array, within: BaseGeometry) -> tuple[float, ...]:
    """Return the volume under a depth map, cell by cell.

    Parameters
    ----------
    mesh
        The mesh.
    depths
        Depth at each of its places, straight between them; what is below nought counts as
        nought. [mm]
    within
        Where to count: the wall less its openings. [mm]

    Returns
    -------
    tuple of float
        Volume of each cell. [mm3]

    Notes
    -----
    Exact: a straight function over a polygon has the volume of its area times its value at
    the centroid, and each triangle is cut where the depth passes through nought. Source:
    own derivation.

    Examples
    --------
    A pyramid 3 mm high on a cell of 300 by 300 mm: a third of area times height.

    >>> from shapely.geometry import box
    >>> from gaugerod.core.survey.mesh import mesh_of
    >>> from gaugerod.core.survey.spots import Spot
    >>> corners = [(0.0, 0.0), (300.0, 0.0), (0.0, 300.0), (300.0, 300.0)]
    >>> mesh = mesh_of([Spot(x=x, y=y, z=0.0, sigma=1.0) for x, y in corners])
    >>> volumes(mesh, np.array([0.0, 0.0, 0.0, 0.0, 3.0]), box(0, 0, 300, 300))
    (90000.0,)
    """
    corners = np.dstack([mesh.places[mesh.triangles], depths[mesh.triangles]])
    filled = [triangle for triangle in range(len(corners)) if corners[triangle, :, 2].max() > 0]
    shapes = [Polygon(_above(corners[triangle])) for triangle in filled]
    parts = shapely.intersection(np.array(shapes, dtype=np.object_), within)
    found = np.zeros(len(mesh.rings))
    for triangle, part in zip(filled, parts, strict=True):
        if part.area > 0:
            middle = np.array([part.centroid.x, part.centroid.y])
            found[mesh.owners[triangle]] += part.area * _straight(corners[triangle], middle)
    return tuple(float(volume) for volume in found)


def _above(corners: Array) -> list[tuple[float, float]]:
    """Cut a triangle where its depth passes through nought."""
    kept = []
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        if start[2] >= 0:
            kept.append((float(start[0]), float(start[1])))
        if start[2] * end[2] < 0:
            crossing = start + (end - start) * (start[2] / (start[2] - end[2]))
            kept.append((float(crossing[0]), float(crossing[1])))
    return kept


def _straight(corners: Array, place: Array) -> float:
    """Value at a place of the straight function through three corners."""
    sides = corners[1:] - corners[0]
    shares = np.linalg.solve(sides[:, :2].T, place - corners[0, :2])
    return float(corners[0, 2] + shares @ sides[:, 2])
