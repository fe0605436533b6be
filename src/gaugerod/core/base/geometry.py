"""Plane geometry that the stages share: boxes, regions, and the way to and from shapely."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

Point: TypeAlias = tuple[float, float]
Ring: TypeAlias = tuple[Point, ...]

SNAP = 1e-4
"""Two positions closer than this are one. [mm]"""
GRID = 1e-8
"""Clipped shapes are rounded to this, so that noise leaves no threads without width. [mm]"""
LEAST_AREA = 0.1
"""A region smaller than this is rounding noise, not a piece. [mm2]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle. [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Width. [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height. [mm]."""
        return self.top - self.bottom


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A polygon with holes; the outer ring runs anticlockwise, holes clockwise. [mm]."""

    rings: tuple[Ring, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A near-plumb line ``x = offset + slope * y``, bowed where `bow` says so. [mm].

    `bow` holds heights, ascending, and how far x lies off the straight line there; it is
    straight between them and nought beyond.
    """

    offset: float
    slope: float
    bow: tuple[Point, ...] = ()

    def at(self, y: float) -> float:
        """Return x at a height.

        Parameters
        ----------
        y
            Height. [mm]

        Returns
        -------
        float
            Position along the level. [mm]

        Notes
        -----
        Source: equation of a line.

        Examples
        --------
        A corner 18 in away that leans 1/2 in over 72 in, 36 in up:

        >>> Edge(offset=18.0, slope=0.5 / 72).at(36.0)
        18.25
        """
        straight = self.offset + self.slope * y
        if not self.bow:
            return straight
        heights, off = zip(*self.bow, strict=True)
        return straight + float(np.interp(y, heights, off, left=0.0, right=0.0))


def shape_of(region: Region) -> Polygon:
    """Return the shapely polygon of a region.

    Parameters
    ----------
    region
        The region, rings unclosed. [mm]

    Returns
    -------
    Polygon
        The same polygon. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> shape_of(Region(rings=(((0, 0), (2, 0), (2, 1), (0, 1)),))).area
    2.0
    """
    outer, *holes = region.rings
    return Polygon(outer, holes)


def regions_of(shape: BaseGeometry) -> tuple[Region, ...]:
    """Return the polygons of a shape, without the lines and specks that clipping leaves.

    Parameters
    ----------
    shape
        Any shapely geometry. [mm]

    Returns
    -------
    tuple of Region
        Its polygons of at least `LEAST_AREA`, from left to right, then upwards. [mm]

    Notes
    -----
    Clipping along a shared edge yields lines and slivers of no area; they are not pieces.
    Source: own derivation.

    Examples
    --------
    >>> len(regions_of(shapely.box(0, 0, 1, 1).union(shapely.box(5, 0, 6, 1))))
    2
    """
    parts = [p for p in _polygons(shape) if p.area > LEAST_AREA]
    parts.sort(key=lambda p: (p.bounds[0], p.bounds[1]))
    return tuple(_region(part) for part in parts)


def _polygons(shape: BaseGeometry) -> Iterable[Polygon]:
    if isinstance(shape, Polygon):
        return (shape,)
    if isinstance(shape, MultiPolygon):
        return shape.geoms
    return [p for p in getattr(shape, "geoms", ()) if isinstance(p, Polygon)]


def _region(polygon: Polygon) -> Region:
    turned = shapely.orient_polygons(polygon)
    rings = (turned.exterior, *turned.interiors)
    return Region(rings=tuple(tuple((x, y) for x, y in ring.coords[:-1]) for ring in rings))


def bounds_of(rings: tuple[Ring, ...]) -> Box:
    """Return the box round a set of rings.

    Parameters
    ----------
    rings
        At least one ring. [mm]

    Returns
    -------
    Box
        The smallest upright box that holds them. [mm]

    Notes
    -----
    Source: none needed; extremes of the vertices.

    Examples
    --------
    >>> bounds_of((((0, 1), (4, 2), (3, 9)),)).height
    8
    """
    points = [point for ring in rings for point in ring]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Box(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys))


def is_box(region: Region) -> bool:
    """Tell whether a region is an upright box, to the last digit.

    Parameters
    ----------
    region
        The region, rings unclosed. [mm]

    Returns
    -------
    bool
        Whether it has four corners, no hole, and level and upright edges only.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> is_box(Region(rings=(((0, 0), (2, 0), (2, 1), (0, 1)),)))
    True
    >>> is_box(Region(rings=(((0, 0), (2, 0), (2, 1), (1, 1)),)))
    False
    """
    (first, *corners), *holes = region.rings
    ends = zip((first, *corners), (*corners, first), strict=True)
    plain = all((a[0] == b[0]) != (a[1] == b[1]) for a, b in ends)
    return plain and len(corners) == 3 and not holes  # noqa: PLR2004  (a box has four)


def disc(*, x: float, y: float, diameter: float, sides: int = 64) -> Polygon:
    """Return a round hole as a polygon that holds the whole circle.

    Parameters
    ----------
    x, y
        Centre. [mm]
    diameter
        Diameter, > 0. [mm]
    sides
        Number of sides, at least 8 and a multiple of 4.

    Returns
    -------
    Polygon
        Regular polygon drawn round the circle, so that nothing in it is kept. [mm]

    Notes
    -----
    The circumscribed radius is ``r / cos(pi / n)``. Source: Euclid, regular polygons.

    Examples
    --------
    >>> disc(x=0.0, y=0.0, diameter=2.0).area > 3.1415926
    True
    """
    radius = diameter / 2 / np.cos(np.pi / sides)
    angles = (np.arange(sides) + 0.5) * (2 * np.pi / sides)
    return Polygon(np.column_stack([x + radius * np.cos(angles), y + radius * np.sin(angles)]))
