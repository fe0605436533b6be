"""A wall with its lean, bow and fall made larger, so that they show on paper."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from gaugerod.core.base.geometry import SNAP, Box, Edge, Point, Ring
from gaugerod.core.survey.walls import FittedWall

FACTORS = (20, 10, 5, 2, 1)
_SHOWS = 0.07
"""The largest departure is drawn as this share of the wall's shorter side at most. [1]"""
_ONE_LEVEL = 25.0
"""Stretches of a deck that lie this close are one level; further apart it is a step. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A wall as drawn: what departs from plumb and level is `factor` times what it is. [mm].

    `wall` is the same wall with its openings, holes and fixtures moved along with its edges.
    """

    wall: FittedWall
    factor: int
    outline: Ring
    deck: tuple[Point, ...]
    ceiling: tuple[Point, ...]
    left: Edge
    right: Edge

    def x(self, x: float, y: float) -> float:
        """Return where a point of the wall is drawn along the level.

        Parameters
        ----------
        x, y
            The point. [mm]

        Returns
        -------
        float
            Position along the level; heights between deck and ceiling stay. [mm]

        Notes
        -----
        Each edge moves by its departure from plumb times the factor less one, what lies
        between them in proportion. Source: own design.

        Examples
        --------
        >>> from gaugerod.core.sheet.sample import sample_wall
        >>> shape_of_wall(sample_wall()).x(300.0, 0.0)
        300.0
        """
        left, right = self.left.at(y), self.right.at(y)
        share = (x - left) / (right - left)
        off = (left - self.left.offset) * (1 - share) + (right - self.right.offset) * share
        return x + (self.factor - 1) * off


def shape_of_wall(wall: FittedWall) -> Shape:
    """Return a wall as its survey is drawn.

    Parameters
    ----------
    wall
        The wall. [mm]

    Returns
    -------
    Shape
        The largest factor of `FACTORS` that leaves the wall a wall. [mm]

    Notes
    -----
    Edges turn about the datum, so that a width at the datum is drawn true. Deck and ceiling
    depart from their mean; where a deck steps, each side departs from its own, and the means
    stay as far apart as they are.
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> shape_of_wall(sample_wall()).factor
    20
    """
    deck, ceiling = _levels(wall.deck), _levels(wall.ceiling)
    least = min(wall.right.offset - wall.left.offset, ceiling[0] - deck[0])
    room = _SHOWS * least
    most = max(_departures(wall, deck, ceiling))
    factor = next((f for f in FACTORS if f * most <= room), FACTORS[-1])
    plain = Shape(
        wall=wall,
        factor=factor,
        outline=(),
        deck=(),
        ceiling=(),
        left=wall.left,
        right=wall.right,
    )
    low = _drawn(wall.deck, deck, plain)
    high = _drawn(wall.ceiling, ceiling, plain)
    knots = [[(plain.x(edge.at(y), y), y) for y, _ in edge.bow] for edge in (wall.right, wall.left)]
    return replace(
        plain,
        wall=_moved(wall, plain),
        outline=(*low, *knots[0], *reversed(high), *reversed(knots[1])),
        deck=low,
        ceiling=high,
    )


def _departures(
    wall: FittedWall, deck: Sequence[float], ceiling: Sequence[float]
) -> tuple[float, ...]:
    ends = (wall.deck[0][1], wall.ceiling[0][1])
    edges = [
        edge.at(y) - edge.offset
        for edge in (wall.left, wall.right)
        for y in (*ends, *(height for height, _ in edge.bow))
    ]
    levels = [
        y - level
        for line, plain in ((wall.deck, deck), (wall.ceiling, ceiling))
        for (_, y), level in zip(line, plain, strict=True)
    ]
    return tuple(abs(off) for off in (*edges, *levels))


def _levels(line: Sequence[Point]) -> tuple[float, ...]:
    """Return the level that each point of a line departs from. [mm]."""
    runs: list[list[float]] = [[line[0][1]]]
    for (before, _), (x, y) in itertools.pairwise(line):
        if x - before < SNAP:
            runs.append([])
        runs[-1].append(y)
    means = [sum(run) / len(run) for run in runs]
    levels = []
    for run, mean in zip(runs, means, strict=True):
        near = [other for other in means if abs(other - mean) <= _ONE_LEVEL]
        levels += [sum(near) / len(near)] * len(run)
    return tuple(levels)


def _drawn(line: Sequence[Point], levels: Sequence[float], shape: Shape) -> tuple[Point, ...]:
    return tuple(
        (shape.x(x, y), level + shape.factor * (y - level))
        for (x, y), level in zip(line, levels, strict=True)
    )


def _moved(wall: FittedWall, shape: Shape) -> FittedWall:
    def box(old: Box) -> Box:
        y = (old.bottom + old.top) / 2
        return replace(old, left=shape.x(old.left, y), right=shape.x(old.right, y))

    return replace(
        wall,
        holes=tuple(replace(hole, x=shape.x(hole.x, hole.y)) for hole in wall.holes),
        openings=tuple(replace(opening, box=box(opening.box)) for opening in wall.openings),
        fixtures=tuple(replace(fixture, box=box(fixture.box)) for fixture in wall.fixtures),
    )
