"""Depths read on one surface of a wall: its plane, how flat it is, and the patch."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import box
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Point, Region, shape_of
from gaugerod.core.job.readings import Surface
from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.cover import Goal
from gaugerod.core.survey.grid import grid_departures, missing_spots
from gaugerod.core.survey.limits import Held, Judged, allowed, judge
from gaugerod.core.survey.mesh import Mesh, mesh_of, over_places
from gaugerod.core.survey.patches import Patch, patch
from gaugerod.core.survey.plane import Plane, fit_plane
from gaugerod.core.survey.spots import Spot, spans_a_plane
from gaugerod.core.survey.straightedge import straightedge
from gaugerod.core.survey.upright import plane_lean
from gaugerod.core.survey.volume import volumes
from gaugerod.core.survey.walls import FittedWall

_BESIDE = 25.0
"""A spot may lie this far off the wall, for want of a better station. [mm]"""
_DIRECTIONS: tuple[Held, ...] = ("level", "plumb", "any")


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceFlatness:
    """What the depths say of one surface. [mm].

    `stray` spots lie off the wall or in an opening, and are left out; `missing` ones would
    complete the grid. `read` is the share of the wall that lies between spots. Without three
    spots off one line there is no plane, and nothing is judged. A patch is there for what is
    out: to be flat, or to be plumb as well.
    """

    surface: Surface
    spots: tuple[Spot, ...]
    stray: tuple[Spot, ...]
    missing: tuple[Point, ...]
    read: float
    plane: Plane | None
    judged: tuple[Judged, ...]
    patches: tuple[Patch, ...]


def surface_flatness(
    spots: Sequence[Spot], wall: FittedWall, surface: Surface, tolerances: Sequence[Tolerance]
) -> SurfaceFlatness:
    """Judge one surface by the depths that were read on it.

    Parameters
    ----------
    spots
        Where it was read, with heights out of the wall.
    wall
        The wall.
    surface
        Which surface it is.
    tolerances
        What is allowed on it: flat and plumb.

    Returns
    -------
    SurfaceFlatness
        Plane, verdicts and patches. [mm, mm3]

    Notes
    -----
    Straightedges are laid level, plumb, and in any direction. Limits that grow with the
    distance of the points are held against the grid as well. Source: own design,
    ``docs/theory/flatness.md``.

    Examples
    --------
    The sample's back wall, 4 mm hollow in the middle:

    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "advice": "Fill it.",
    ...     "allows": [{"over": 2000, "at_most": 3}], "source": "None.", "sure": "calc"}
    >>> spots = [Spot(x=x, y=y, z=-4.0 if x == 700 and y == 300 else 0.0, sigma=0.4)
    ...     for x in (100.0, 700.0, 1300.0) for y in (-300.0, 300.0, 900.0)]
    >>> wall = fit_walls(sample_job()).walls[1]
    >>> found = surface_flatness(spots, wall, "backer", [Tolerance.model_validate(row)])
    >>> [judged.verdict for judged in found.judged], found.patches[0].flush / 600**2
    (['out', 'out', 'out'], 4.0)
    """
    within = wall_shape(wall)
    near = [within.distance(ShapelyPoint(spot.x, spot.y)) <= _BESIDE for spot in spots]
    kept = tuple(spot for spot, on_wall in zip(spots, near, strict=True) if on_wall)
    stray = tuple(spot for spot, on_wall in zip(spots, near, strict=True) if not on_wall)
    missing = tuple(p for p in missing_spots(kept) if within.intersects(ShapelyPoint(p)))
    if not spans_a_plane(kept):
        return SurfaceFlatness(
            surface=surface,
            spots=kept,
            stray=stray,
            missing=missing,
            read=0.0,
            plane=None,
            judged=(),
            patches=(),
        )
    plane, mesh = fit_plane(kept), mesh_of(kept)
    flat = tuple(row for row in tolerances if row.about == "flat")
    judged = _flat(kept, mesh, wall, flat)
    leans = plane_lean(plane, kept, [row for row in tolerances if row.about == "plumb"])
    area = sum(volumes(mesh, np.ones(len(mesh.places)), within))
    band = min((float(allowed(row, np.array(0.0))) for row in flat), default=0.0)
    goals: dict[Goal, tuple[Judged, ...]] = {"flat": judged, "plumb": leans}
    made = [
        patch(kept, mesh, plane, within=within, goal=goal, band=band if goal == "flat" else 0.0)
        for goal, found in goals.items()
        if any(one.verdict == "out" for one in found)
    ]
    return SurfaceFlatness(
        surface=surface,
        spots=kept,
        stray=stray,
        missing=missing,
        read=area / within.area,
        plane=plane,
        judged=(*judged, *leans),
        patches=tuple(one for one in made if one is not None),
    )


def _flat(
    spots: Sequence[Spot], mesh: Mesh, wall: FittedWall, tolerances: Sequence[Tolerance]
) -> tuple[Judged, ...]:
    heights = over_places(mesh, np.array([spot.z for spot in spots]))
    sigma = float(np.sqrt(np.mean([spot.sigma**2 for spot in spots])))
    openings = [opening.box for opening in wall.openings]
    laid = [
        judged
        for held in _DIRECTIONS
        for judged in straightedge(
            mesh, heights, tolerances, sigma=sigma, held=held, openings=openings
        )
    ]
    by_distance = [row for row in tolerances if row.scales == "straight line"]
    grid = [[judge(found, row) for found in grid_departures(spots)] for row in by_distance]
    worst = [max(row, key=lambda judged: judged.over) for row in grid if row]
    return (*laid, *worst)


def wall_shape(wall: FittedWall) -> BaseGeometry:
    """Return a wall less its openings.

    Parameters
    ----------
    wall
        The wall.

    Returns
    -------
    BaseGeometry
        What of it can be lined. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> round(wall_shape(fit_walls(sample_job()).walls[1]).bounds[2])
    1500
    """
    shape: BaseGeometry = shape_of(Region(rings=(wall.outline,)))
    for opening in wall.openings:
        at = opening.box
        shape = shape.difference(box(at.left, at.bottom, at.right, at.top))
    return shape
