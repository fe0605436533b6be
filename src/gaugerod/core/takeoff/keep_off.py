"""Stretches of a run of trim with no joint in them: beside holes and openings."""

from collections.abc import Iterator

import shapely
from shapely.geometry import LineString, Point, box
from shapely.geometry.base import BaseGeometry

from gaugerod.core.cutting.run_joints import Span
from gaugerod.core.survey.walls import FittedWall


def beside(line: LineString, wall: FittedWall, *, clear: float) -> tuple[Span, ...]:
    """Find the stretches of a run that lie too near a hole or an opening for a joint.

    Parameters
    ----------
    line
        The run on its wall. [mm]
    wall
        The wall, with its holes and openings. [mm]
    clear
        How far a joint keeps from them. [mm]

    Returns
    -------
    tuple of tuple of float
        From where to where along the run. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    A run 20 below a hole of 60 across: nearer than 50 for 2 sqrt(80² - 50²).

    >>> from dataclasses import replace
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> walls = fit_walls(sample_job()).walls
    >>> pierced = next(wall for wall in walls if wall.holes)
    >>> hole = replace(pierced.holes[0], x=500.0, y=1050.0, diameter=60.0)
    >>> wall = replace(pierced, holes=(hole,), openings=())
    >>> [(start, end)] = beside(LineString([(0, 1000), (900, 1000)]), wall, clear=50.0)
    >>> round(start), round(end)
    (438, 562)
    """
    spans = (_spans(line, thing.buffer(clear)) for thing in _things(wall))
    return tuple(span for found in spans for span in found)


def _things(wall: FittedWall) -> Iterator[BaseGeometry]:
    for hole in wall.holes:
        yield Point(hole.x, hole.y).buffer(hole.diameter / 2)
    for opening in wall.openings:
        b = opening.box
        yield box(b.left, b.bottom, b.right, b.top)


def _spans(line: LineString, thing: BaseGeometry) -> Iterator[Span]:
    for part in shapely.get_parts(line.intersection(thing)):
        along = [line.project(Point(at)) for at in part.coords]
        if along:
            yield min(along), max(along)
