"""The patch map: where and how deep to fill, or which hump to grind, and how much it takes."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import LEAST_AREA, Point, Ring
from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.cover import Goal, Target, below, cover
from gaugerod.core.survey.mesh import Mesh, over_places
from gaugerod.core.survey.plane import Plane
from gaugerod.core.survey.spots import Spot
from gaugerod.core.survey.volume import volumes


@dataclass(frozen=True, slots=True, kw_only=True)
class PatchSpot:
    """How deep to fill at one place: `flush` to the plane, or the `least` that will do. [mm]."""

    at: Point
    flush: float
    least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PatchCell:
    """Compound between some spots, for both depths. [mm, mm3]."""

    ring: Ring
    flush: float
    least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Grind:
    """The one hump whose grinding saves most: how deep, and what is then left to fill. [mm3].

    `dust` is what comes off, `flush` the compound to the lower plane.
    """

    at: Point
    depth: float
    dust: float
    flush: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """What brings a surface to a plane, or near enough to it. [mm, mm3].

    `band` is how far the surface may stay below the plane and still keep every limit.
    """

    goal: Goal
    target: Target
    band: float
    spots: tuple[PatchSpot, ...]
    cells: tuple[PatchCell, ...]
    flush: float
    least: float
    grind: Grind | None


def patch(
    spots: Sequence[Spot],
    mesh: Mesh,
    plane: Plane,
    *,
    within: BaseGeometry,
    goal: Goal,
    band: float,
) -> Patch | None:
    """Return the patch map of a surface.

    Parameters
    ----------
    spots
        The spots.
    mesh
        The same spots, joined.
    plane
        The plane that fits them best.
    within
        The wall less its openings. [mm]
    goal
        *Flat*, in whatever plane takes the least, or *plumb* as well.
    band
        What the tightest limit allows, >= 0; nought fills all the way in both columns. [mm]

    Returns
    -------
    Patch or None
        Depths, volumes and the hump to grind; none where the spots lie round no wall. [mm, mm3]

    Notes
    -----
    Nothing is taken off: the plane stands on the high points. A surface that keeps between a
    plane and a band below it has no gap greater than the band under any straightedge, since
    the chord between two of its points stays below the plane. So the least fill is what is
    deeper than the band. Volumes are exact for a surface that is straight within each
    triangle. Source: own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    A cell of 600 by 600 mm with one corner 4 mm low, to be flat to 1 mm:

    >>> from shapely.geometry import box
    >>> from gaugerod.core.survey.mesh import mesh_of
    >>> from gaugerod.core.survey.plane import fit_plane
    >>> heights = {(0.0, 0.0): 0.0, (600.0, 0.0): 0.0, (0.0, 600.0): 0.0, (600.0, 600.0): -4.0}
    >>> spots = [Spot(x=x, y=y, z=z, sigma=1.0) for (x, y), z in heights.items()]
    >>> made = patch(spots, mesh_of(spots), fit_plane(spots), within=box(0, 0, 600, 600),
    ...     goal="plumb", band=1.0)
    >>> made.flush, made.least, [spot.flush for spot in made.spots]
    (360000.0, 270000.0, [0.0, 0.0, 0.0, 4.0])
    """
    if sum(volumes(mesh, np.ones(len(mesh.places)), within)) < LEAST_AREA:
        return None
    middle = _centroid(mesh, within)
    like = (plane.across, plane.up)
    target = cover(spots, goal=goal, middle=middle, like=like)
    depths = np.maximum(below(target, spots), 0.0)
    flush = _filled(mesh, depths, within)
    least = _filled(mesh, depths - band, within)
    return Patch(
        goal=goal,
        target=target,
        band=band,
        spots=tuple(
            PatchSpot(at=(spot.x, spot.y), flush=float(deep), least=max(float(deep) - band, 0.0))
            for spot, deep in zip(spots, depths, strict=True)
        ),
        cells=tuple(
            PatchCell(ring=_ring(mesh, ring), flush=full, least=some)
            for ring, full, some in zip(mesh.rings, flush, least, strict=True)
            if full > 0
        ),
        flush=sum(flush),
        least=sum(least),
        grind=_hump(spots, mesh, depths, within=within, goal=goal, middle=middle, like=like),
    )


def _filled(mesh: Mesh, depths: Array, within: BaseGeometry) -> tuple[float, ...]:
    """Volume where each spot is filled by its depth, and straight from spot to spot."""
    return volumes(mesh, over_places(mesh, np.maximum(depths, 0.0)), within)


def _centroid(mesh: Mesh, within: BaseGeometry) -> Point:
    cells = [shapely.Polygon(_ring(mesh, ring)) for ring in mesh.rings]
    middle = shapely.union_all(cells).intersection(within).centroid
    return middle.x, middle.y


def _ring(mesh: Mesh, ring: tuple[int, ...]) -> Ring:
    return tuple((float(x), float(y)) for x, y in mesh.places[list(ring)])


def _hump(
    spots: Sequence[Spot],
    mesh: Mesh,
    depths: Array,
    *,
    within: BaseGeometry,
    goal: Goal,
    middle: Point,
    like: Point,
) -> Grind | None:
    """Try to grind each spot that holds the plane up, down to where the others would put it."""
    worth_it = sum(_filled(mesh, depths, within)) - _WORTH
    best: Grind | None = None
    for number, hump in enumerate(spots):
        others = [*spots[:number], *spots[number + 1 :]]
        if depths[number] > _TOUCHES or not _among(others, middle):
            continue
        lower = below(cover(others, goal=goal, middle=middle, like=like), spots)
        flush = sum(_filled(mesh, lower, within))
        if flush < (worth_it if best is None else best.flush):
            best = Grind(
                at=(hump.x, hump.y),
                depth=-float(lower[number]),
                dust=sum(_filled(mesh, -lower, within)),
                flush=flush,
            )
    return best


def _among(spots: Sequence[Spot], middle: Point) -> bool:
    hull = shapely.MultiPoint([(spot.x, spot.y) for spot in spots]).convex_hull
    return bool(hull.contains(shapely.Point(middle)))


_TOUCHES = 1e-4
"""A plane stands on the spots that are as near to it as this. [mm]"""
_WORTH = 1000.0
"""Nobody grinds to save less compound than a millilitre. [mm3]"""
