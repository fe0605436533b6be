"""A surface through spots: the Delaunay cells, each split about its middle."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import Delaunay

from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.spots import Spot

Indices = NDArray[np.intp]

_SAME_CIRCLE = 1e-6
"""Centres of two circles closer than this share of the radius are one. [1]"""
_THREAD = 1e-6
"""A triangle thinner than this is noise along the edge of the spots. [mm2/mm2]"""
_TRIANGLE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Mesh:
    """Spots joined to cells in plan, x and y. [mm].

    `places` holds the spots, so many, then a middle for each cell that has more than three.
    `rings` gives the spots round each cell, anticlockwise. `owners` says which cell a triangle
    is part of.
    """

    spots: int
    places: Array
    rings: tuple[tuple[int, ...], ...]
    triangles: Indices
    owners: Indices


def mesh_of(spots: Sequence[Spot]) -> Mesh:
    """Join spots to cells.

    Parameters
    ----------
    spots
        Three or more, not on one line, no two at one place.

    Returns
    -------
    Mesh
        Cells and triangles. [mm]

    Notes
    -----
    Delaunay triangles that share their circle are one cell: the rectangles of a grid. Such a
    cell is split about its middle, which takes the mean height of its corners, so that neither
    diagonal is favoured and the result does not depend on how the grid is turned. Over a
    rectangle its volume is that of the bilinear surface: area times the mean of the corners.
    Source: own derivation on Delaunay's cells.

    Examples
    --------
    >>> corners = [(0.0, 0.0), (300.0, 0.0), (0.0, 600.0), (300.0, 600.0), (600.0, 300.0)]
    >>> mesh = mesh_of([Spot(x=x, y=y, z=0.0, sigma=1.0) for x, y in corners])
    >>> sorted(len(ring) for ring in mesh.rings), len(mesh.triangles)
    ([3, 4], 5)
    """
    plan = np.array([(spot.x, spot.y) for spot in spots])
    rings = _rings(plan)
    places = [*plan]
    triangles, owners = [], []
    for cell, ring in enumerate(rings):
        fan = [ring]
        if len(ring) > _TRIANGLE:
            following = (*ring[1:], ring[0])
            fan = [(*side, len(places)) for side in zip(ring, following, strict=True)]
            places.append(plan[list(ring)].mean(axis=0))
        triangles += fan
        owners += [cell] * len(fan)
    mesh = Mesh(
        spots=len(plan),
        places=np.array(places),
        rings=rings,
        triangles=np.array(triangles),
        owners=np.array(owners),
    )
    for array in (mesh.places, mesh.triangles, mesh.owners):
        array.setflags(write=False)
    return mesh


def _rings(plan: Array) -> tuple[tuple[int, ...], ...]:
    found = Delaunay(plan)
    corners = plan[found.simplices]
    sides = corners[:, 1:] - corners[:, :1]
    squares = (sides**2).sum(axis=2)
    whole = np.abs(np.linalg.det(sides)) > _THREAD * squares.sum(axis=1)
    # From the first corner to the centre of the circle: both sides are chords of it.
    radii = np.zeros((len(corners), 2))
    radii[whole] = np.linalg.solve(sides[whole], squares[whole][:, :, None] / 2)[:, :, 0]
    centres = corners[:, 0] + radii
    cell_of = {int(one): int(one) for one in np.flatnonzero(whole)}
    for one, other in _neighbours(found, cell_of):
        apart = np.linalg.norm(centres[one] - centres[other])
        if apart < _SAME_CIRCLE * np.linalg.norm(radii[one]):
            keep, drop = cell_of[one], cell_of[other]
            cell_of = {t: keep if cell == drop else cell for t, cell in cell_of.items()}
    cells: dict[int, set[int]] = {}
    for triangle, cell in cell_of.items():
        cells.setdefault(cell, set()).update(int(spot) for spot in found.simplices[triangle])
    return tuple(sorted(_anticlockwise(plan, sorted(cell)) for cell in cells.values()))


def _neighbours(found: Delaunay, whole: dict[int, int]) -> list[tuple[int, int]]:
    pairs = ((one, int(other)) for one in whole for other in found.neighbors[one])
    return [(one, other) for one, other in pairs if one < other and other in whole]


def _anticlockwise(plan: Array, cell: list[int]) -> tuple[int, ...]:
    out = plan[cell] - plan[cell].mean(axis=0)
    order = np.argsort(np.arctan2(out[:, 1], out[:, 0]))
    ring = [cell[i] for i in order]
    first = ring.index(min(ring))
    return (*ring[first:], *ring[:first])


def over_places(mesh: Mesh, values: Array) -> Array:
    """Carry values of the spots to all places of a mesh.

    Parameters
    ----------
    mesh
        The mesh.
    values
        One for each spot, in their order. [mm]

    Returns
    -------
    Array
        The same, then the mean of its corners for the middle of each cell. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> corners = [(0.0, 0.0), (300.0, 0.0), (0.0, 600.0), (300.0, 600.0)]
    >>> mesh = mesh_of([Spot(x=x, y=y, z=0.0, sigma=1.0) for x, y in corners])
    >>> over_places(mesh, np.array([0.0, 0.0, 0.0, 4.0]))
    array([0., 0., 0., 4., 1.])
    """
    middles = [values[list(ring)].mean() for ring in mesh.rings if len(ring) > _TRIANGLE]
    return np.append(values, middles)
