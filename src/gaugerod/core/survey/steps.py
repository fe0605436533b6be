"""Ledges and platforms: a deck that is a line of steps."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, pairwise

import numpy as np

from gaugerod.core.base.geometry import SNAP, Edge, Point
from gaugerod.core.job.document import Wall
from gaugerod.core.job.readings import Deck

State = Mapping[str, float]
Stretch = tuple[str, float, float]


def stretches(wall: Wall, width: float) -> tuple[Stretch, ...]:
    """Return the parts of a deck from left to right.

    Parameters
    ----------
    wall
        The wall with its deck readings.
    width
        Its width. [mm]

    Returns
    -------
    tuple of (str, float, float)
        Part, and the stations where it begins and ends. [mm]

    Notes
    -----
    A part ends where the next one was read at the same station; where the two were read
    apart, half way between: read a step on both of its sides. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> stretches(sample_job().wall[1], 1500.0)
    (('rim', 0.0, 1500.0),)
    """
    decks = sorted(_decks(wall), key=lambda reading: reading.at)
    runs = [(part, list(run)) for part, run in groupby(decks, key=lambda reading: reading.part)]
    breaks = [(a[1][-1].at + b[1][0].at) / 2 for a, b in pairwise(runs)]
    parts = [part for part, _ in runs] or ["rim"]
    ends = [0.0, *breaks, width]
    return tuple(
        (part, start, end) for part, (start, end) in zip(parts, pairwise(ends), strict=True)
    )


def unread_steps(wall: Wall) -> tuple[float, ...]:
    """Return the stations of steps that were not read on both sides.

    Parameters
    ----------
    wall
        The wall with its deck readings.

    Returns
    -------
    tuple of float
        Where each such step is taken to be. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> unread_steps(sample_job().wall[1])
    ()
    """
    decks = sorted(_decks(wall), key=lambda reading: reading.at)
    return tuple((a.at + b.at) / 2 for a, b in pairwise(decks) if a.part != b.part and a.at != b.at)


def stepped(
    wall: Wall, rim: Sequence[Point], left: Edge, right: Edge, state: State
) -> tuple[Point, ...]:
    """Return the deck of a wall with its ledges and platforms.

    Parameters
    ----------
    wall
        The wall with its deck readings.
    rim
        The rim from corner to corner. [mm]
    left, right
        Edges of the wall. [mm]
    state
        Value of every unknown. [mm]

    Returns
    -------
    tuple of Point
        The deck from left to right, upright where it steps. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> left, right = Edge(offset=0.0, slope=0.0), Edge(offset=1500.0, slope=0.0)
    >>> stepped(sample_job().wall[1], ((0.0, -700.0), (1500.0, -690.0)), left, right, {})
    ((0.0, -700.0), (1500.0, -690.0))
    """
    x0, x1 = rim[0][0], rim[-1][0]
    points: list[Point] = []
    for part, start, end in stretches(wall, x1 - x0):
        if part == "rim":
            points.extend(_cut(rim, x0 + start, x0 + end))
        else:
            level, fall = state[f"{part} {wall.name} level"], state[f"{part} {wall.name} fall"]
            half = state[f"width {wall.name}"] / 2
            ends = ((x, level + fall * (x - half)) for x in (x0 + start, x0 + end))
            points.extend(ends)
    first, last = points[0][1], points[-1][1]
    return ((left.at(first), first), *points[1:-1], (right.at(last), last))


def _cut(line: Sequence[Point], start: float, end: float) -> Iterator[Point]:
    """Yield the part of a line between two stations. [mm]."""
    xs, ys = zip(*line, strict=True)
    inside = [point for point in line if start + SNAP < point[0] < end - SNAP]
    for x, y in ((start, None), *inside, (end, None)):
        yield (x, float(np.interp(x, xs, ys)) if y is None else y)


def _decks(wall: Wall) -> Iterator[Deck]:
    return (reading for reading in wall.readings if isinstance(reading, Deck))
