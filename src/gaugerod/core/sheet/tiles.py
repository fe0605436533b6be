"""A drawing at full size over several pages: what each page shows, and where pages are joined."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from typing import TypeAlias

import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import SNAP, Box, Point
from gaugerod.core.sheet.drawing import Circle, Line

Stretch: TypeAlias = tuple[Point, Point]
Stroke: TypeAlias = Line | Circle
"""What can be cut off at the end of a page."""

_CHORD = 90  # chords to a quarter of a circle that is cut by the end of a page


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """What one page shows of a drawing; column and row count from the lower left, from 0. [mm].

    `box` lies in the drawing's own frame. Neighbours share a strip as wide as the overlap.
    """

    column: int
    row: int
    columns: int
    rows: int
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """The middle of a shared strip, on both its pages: cut one page there, lay it on the other.

    `name` is the same on both pages.
    """

    name: str
    start: Point
    end: Point


def tiled(
    bounds: Box,
    *,
    room: Point,
    overlap: float,
    from_right: bool = False,
    from_top: bool = False,
) -> tuple[Tile, ...]:
    """Return the pages that a drawing at full size needs.

    Parameters
    ----------
    bounds
        Box round the drawing, wider and taller than nought. [mm]
    room
        Width and height that a page has for it, > `overlap`. [mm]
    overlap
        Width of the strip that neighbours share, > 0. [mm]
    from_right, from_top
        Where the first page begins, else at the left and at the bottom.

    Returns
    -------
    tuple of Tile
        Row by row from the lower left; the ones furthest from the first may be smaller.

    Notes
    -----
    ``n`` pages of size ``r`` that share ``o`` cover ``n * (r - o) + o``.
    Source: own derivation.

    Examples
    --------
    300 wide on pages of 180 that share 12: 180, then the 132 that begin at 168.

    >>> bounds = Box(left=0.0, bottom=0.0, right=300.0, top=100.0)
    >>> [(t.box.left, t.box.right) for t in tiled(bounds, room=(180.0, 130.0), overlap=12.0)]
    [(0.0, 180.0), (168.0, 300.0)]
    """
    columns = _spans((bounds.left, bounds.right), room[0], overlap, back=from_right)
    rows = _spans((bounds.bottom, bounds.top), room[1], overlap, back=from_top)
    return tuple(
        Tile(
            column=column,
            row=row,
            columns=len(columns),
            rows=len(rows),
            box=Box(left=left, bottom=bottom, right=right, top=top),
        )
        for row, (bottom, top) in enumerate(rows)
        for column, (left, right) in enumerate(columns)
    )


def _spans(
    whole: tuple[float, float], room: float, overlap: float, *, back: bool
) -> list[tuple[float, float]]:
    low, high = whole
    if back:
        turned = _spans((-high, -low), room, overlap, back=False)
        return [(-end, -start) for start, end in reversed(turned)]
    step = room - overlap
    count = max(1, ceil((high - low - overlap - SNAP) / step))
    starts = [low + number * step for number in range(count)]
    return [(start, min(start + room, high)) for start in starts]


def joins(tile: Tile, *, overlap: float) -> tuple[Join, ...]:
    """Return where a page is joined to its neighbours.

    Parameters
    ----------
    tile
        The page.
    overlap
        Width of the strip that neighbours share, > 0. [mm]

    Returns
    -------
    tuple of Join
        Plumb joins, then level ones. Joins between columns are A, B and on; those between
        rows go on from there.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> bounds = Box(left=0.0, bottom=0.0, right=300.0, top=100.0)
    >>> first, second = tiled(bounds, room=(180.0, 130.0), overlap=12.0)
    >>> joins(first, overlap=12.0) == joins(second, overlap=12.0)
    True
    >>> [(join.name, join.start) for join in joins(first, overlap=12.0)]
    [('A', (174.0, 0.0))]
    """
    box, half = tile.box, overlap / 2
    found: list[Join] = []
    for beyond, x in ((tile.column - 1, box.left + half), (tile.column, box.right - half)):
        if 0 <= beyond < tile.columns - 1:
            found.append(_join(beyond, (x, box.bottom), (x, box.top)))
    for beyond, y in ((tile.row - 1, box.bottom + half), (tile.row, box.top - half)):
        if 0 <= beyond < tile.rows - 1:
            found.append(_join(tile.columns - 1 + beyond, (box.left, y), (box.right, y)))
    return tuple(found)


def _join(number: int, start: Point, end: Point) -> Join:
    return Join(name=chr(ord("A") + number), start=start, end=end)


def clipped(item: Stroke, box: Box) -> tuple[Stroke, ...]:
    """Return what a page shows of a line or a circle.

    Parameters
    ----------
    item
        The line or circle. [mm]
    box
        What the page shows. [mm]

    Returns
    -------
    tuple of Line or Circle
        The item where it lies inside, lines for what is left of one that is cut off, or
        nothing.

    Notes
    -----
    A circle that is cut off is drawn by chords of one degree: off by 0.004 per cent of its
    radius at most. Source: sagitta ``r * (1 - cos(half the angle))``.

    Examples
    --------
    >>> line = Line(layer="piece", start=(-5.0, 1.0), end=(5.0, 1.0))
    >>> [(part.start, part.end) for part in clipped(line, Box(left=0, bottom=0, right=9, top=9))]
    [((0.0, 1.0), (5.0, 1.0))]
    """
    window = shapely.box(box.left, box.bottom, box.right, box.top)
    shape = shape_of_stroke(item)
    if window.covers(shape):
        return (item,)
    return tuple(
        Line(layer=item.layer, start=start, end=end)
        for start, end in stretches(shape.intersection(window))
    )


def shape_of_stroke(item: Stroke) -> BaseGeometry:
    """Return the shapely line of a line or a circle.

    Parameters
    ----------
    item
        The line or circle. [mm]

    Returns
    -------
    BaseGeometry
        Its path. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> shape_of_stroke(Line(layer="piece", start=(0.0, 0.0), end=(3.0, 4.0))).length
    5.0
    """
    if isinstance(item, Line):
        return shapely.LineString([item.start, item.end])
    return shapely.Point(item.centre).buffer(item.diameter / 2, quad_segs=_CHORD).exterior


def stretches(shape: BaseGeometry) -> Iterator[Stretch]:
    """Yield the straight stretches of a path.

    Parameters
    ----------
    shape
        A path, several, or whatever clipping has left of one. [mm]

    Yields
    ------
    Stretch
        Start and end of each; points are left out. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> list(stretches(shapely.LineString([(0, 0), (2, 0), (2, 1)])))
    [((0.0, 0.0), (2.0, 0.0)), ((2.0, 0.0), (2.0, 1.0))]
    """
    for part in getattr(shape, "geoms", (shape,)):
        if isinstance(part, shapely.LineString):
            yield from pairwise((x, y) for x, y in part.coords)
