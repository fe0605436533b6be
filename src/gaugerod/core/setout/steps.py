"""The steps of a deck as a field meets them: ledges, platforms, legs down to the floor."""

from dataclasses import dataclass
from itertools import pairwise
from math import inf

import numpy as np

from gaugerod.core.base.geometry import Box, Edge, Point
from gaugerod.core.survey.decks import Stretch, deck_stretches
from gaugerod.core.survey.walls import FittedWall


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A stretch of the deck with its joint round it. [mm].

    It takes the field from `left` to `right`, endless where it goes on to the end of the
    wall, up to between `low` and `high`.
    """

    left: float
    right: float
    low: float
    high: float


def steps_of(wall: FittedWall, gap: float, *, left: Edge, right: Edge) -> tuple[Step, ...]:
    """Return the steps of a deck from left to right.

    Parameters
    ----------
    wall
        The wall. [mm]
    gap
        Joint between deck and lining, also beside a step. [mm]
    left, right
        Rims of the field. [mm]

    Returns
    -------
    tuple of Step
        One for each stretch of the deck. [mm]

    Notes
    -----
    The lowest height counts between the rims of the field, the highest for the whole
    stretch. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall = fit_walls(sample_job()).walls[2]
    >>> [round(step.high) for step in steps_of(wall, 3.0, left=wall.left, right=wall.right)]
    [-751]
    """
    stretches = deck_stretches(wall)
    ends = [-inf, *(_boundary(a, b, gap) for a, b in pairwise(stretches)), inf]
    start, end = left.at(wall.deck[0][1]), right.at(wall.deck[-1][1])
    return tuple(
        Step(
            left=ends[number],
            right=ends[number + 1],
            low=min(_heights(stretch.points, start, end)) + gap,
            high=stretch.high + gap,
        )
        for number, stretch in enumerate(stretches)
    )


def _boundary(before: Stretch, after: Stretch, gap: float) -> float:
    """Return where the higher of two stretches begins to take the field. [mm]."""
    (x, y), (_, next_y) = before.points[-1], after.points[0]
    return x - gap if next_y > y else x + gap


def _heights(line: tuple[Point, ...], start: float, end: float) -> list[float]:
    """Return the heights of a line where it begins, ends and bends between two places."""
    xs, ys = zip(*line, strict=True)
    inside = [y for x, y in line if start < x < end]
    return [*inside, *(float(np.interp(x, xs, ys)) for x in (start, end) if xs[0] <= x <= xs[-1])]


def risers(wall: FittedWall, gap: float, *, below: float) -> tuple[Box, ...]:
    """Return the joints that stand beside the steps of a deck.

    Parameters
    ----------
    wall
        The wall. [mm]
    gap
        Joint between deck and lining. [mm]
    below
        A height under everything. [mm]

    Returns
    -------
    tuple of Box
        One for each step, on its lower side, up to the joint on top of it. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> risers(fit_walls(sample_job()).walls[1], 3.0, below=-1000.0)
    ()
    """
    boxes = []
    for before, after in pairwise(deck_stretches(wall)):
        (x, y), (_, next_y) = before.points[-1], after.points[0]
        left, right = (x - gap, x) if next_y > y else (x, x + gap)
        boxes.append(Box(left=left, bottom=below, right=right, top=max(y, next_y) + gap))
    return tuple(boxes)
