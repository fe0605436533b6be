"""The first and the last course of each stretch of deck and ceiling, where they are lowest."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import numpy as np

from gaugerod.core.base.geometry import SNAP, Point
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import Meets
from gaugerod.core.setout.strips import Array, Batch, Strips
from gaugerod.core.survey.walls import FittedWall

RAKE = 1 / 12
"""A ceiling that climbs faster than this is no ceiling out of level but a slope. [1]"""


def levels_of(batch: Batch) -> Iterator[Strips]:
    """Yield the first course over each stretch of the deck, and the last under the ceiling.

    Parameters
    ----------
    batch
        The lattices.

    Yields
    ------
    Strips
        First courses from left to right, then last ones. [mm]

    Notes
    -----
    Each where it is lowest; no phase changes them. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> first, last = levels_of(sample_batch(450.0))
    >>> first.size.round().tolist(), last.size.round().tolist()
    ([281.0], [270.0])
    """
    yield from _firsts(batch)
    yield from _lasts(batch)


def is_rake(start: Point, end: Point) -> bool:
    """Tell whether a line between two points is a slope, and not just out of level.

    Parameters
    ----------
    start, end
        The points. [mm]

    Returns
    -------
    bool
        Whether it climbs faster than `RAKE`.

    Notes
    -----
    Source: own design; one in twelve is far beyond any ceiling meant to be level.

    Examples
    --------
    >>> is_rake((0.0, 1400.0), (1500.0, 1390.0)), is_rake((0.0, 1400.0), (1500.0, 1100.0))
    (False, True)
    """
    return abs(end[1] - start[1]) > RAKE * abs(end[0] - start[0])


def _firsts(batch: Batch) -> Iterator[Strips]:
    lattice, box = batch.lattice, batch.box
    for step in batch.steps:
        width = min(step.right, box.right) - max(step.left, box.left)
        if step.low < box.top - SNAP:
            first = lattice.courses(bottom=step.low, top=box.top)[0]
            size = min(lattice.row_top(first), box.top) - step.high
            lost = step.low - lattice.row_bottom(first)
            yield _level(batch, "bottom", "deck", size=size, lost=lost, width=width)


def _lasts(batch: Batch) -> Iterator[Strips]:
    """Yield the last course under what is level: parts of the ceiling, or the finish line."""
    lattice, box = batch.lattice, batch.box
    ceiling = batch.ceiling[1:-1]
    level = [y for ends in pairwise(ceiling) if not is_rake(*ends) for _, y in ends]
    if batch.case.top < box.top + SNAP:  # the finish line stops the field, not the ceiling
        level += [box.top for _, y in ceiling if y > box.top + SNAP]
    if not level:
        return
    low, high = min(*level, box.top), min(max(level), box.top)
    last = lattice.courses(bottom=box.bottom, top=high)[-1]
    size, lost = low - lattice.row_bottom(last), lattice.row_top(last) - high
    yield _level(batch, "top", "top", size=size, lost=lost, width=box.width)


def slopes_of(batch: Batch) -> Iterator[Strips]:
    """Yield the pieces in which courses end under a sloping ceiling.

    Parameters
    ----------
    batch
        The lattices.

    Yields
    ------
    Strips
        One for each course that a slope crosses. [mm]

    Notes
    -----
    Every such piece ends in a point or nearly so, whatever the layout, and counts by its tall
    side. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> list(slopes_of(sample_batch(450.0)))
    []
    """
    face = batch.lattice.face[1]
    for foot in feet(batch):
        height = np.abs(_tall_side(batch, foot) - foot.x) * abs(foot.climb) + foot.low
        yield Strips(
            where="top",
            size=np.minimum(height, face),
            lost=np.maximum(face - height, 0.0),
            whole=face,
            meets="top",
            count=np.ones(len(batch.phases)),
        )


def tall_sides(batch: Batch, wall: FittedWall) -> tuple[float, ...]:
    """Return the heights of the pieces that end under a slope, on a wall that has moved.

    Parameters
    ----------
    batch
        One lattice on the wall as planned.
    wall
        The wall as it is. [mm]

    Returns
    -------
    tuple of float
        For each course that a slope crosses, the height of the piece on its tall side, which
        stays where it is planned. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> batch = sample_batch(450.0)
    >>> tall_sides(batch, batch.case.wall)
    ()
    """
    xs, ys = zip(*wall.ceiling, strict=True)
    gap = batch.case.system.gaps.ceiling
    return tuple(
        float(np.interp(_tall_side(batch, foot)[0], xs, ys))
        - gap
        - batch.lattice.row_bottom(foot.course)
        for foot in feet(batch)
    )


def _tall_side(batch: Batch, foot: "Foot") -> Array:
    """Return where the piece that ends at a foot has its tall side, for each lattice. [mm]."""
    if foot.climb > 0:
        edge = batch.first_left(foot.course, foot.x) + batch.lattice.face[0]
    else:
        edge = batch.last_left(foot.course, foot.x)
    # No farther than the rim of the field.
    return np.clip(edge, batch.box.left, batch.box.right)


@dataclass(frozen=True, slots=True, kw_only=True)
class Foot:
    """Where a course ends under a slope: at `x` the piece is `low` high. [mm].

    `climb` is how fast the ceiling rises to the right. [1].
    """

    course: int
    x: float
    low: float
    climb: float


def feet(batch: Batch) -> Iterator[Foot]:
    """Yield where courses end under the slopes of the ceiling.

    Parameters
    ----------
    batch
        The lattices.

    Yields
    ------
    Foot
        One for each course that a slope crosses. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> list(feet(sample_batch(450.0)))
    []
    """
    lattice, box = batch.lattice, batch.box
    for start, end in pairwise(batch.ceiling[1:-1]):
        if is_rake(start, end):
            climb = (end[1] - start[1]) / (end[0] - start[0])
            x0, x1 = (min(max(x, box.left), box.right) for x, _ in (start, end))
            (low, x), (high, _) = sorted((start[1] + (x - start[0]) * climb, x) for x in (x0, x1))
            for course in lattice.courses(bottom=max(low, box.bottom), top=min(high, box.top)):
                base = lattice.row_bottom(course)
                moved = max(base - low, 0.0) / climb
                left = max(low - base, 0.0)
                yield Foot(course=course, x=x + moved, low=left, climb=climb)


def _level(
    batch: Batch, where: Side, meets: Meets, *, size: float, lost: float, width: float
) -> Strips:
    face, pitch = batch.lattice.face[1], batch.lattice.pitch[0]
    same = np.ones(len(batch.phases))
    return Strips(
        where=where,
        size=min(size, face) * same,
        lost=lost * same,
        whole=face,
        meets=meets,
        count=ceil(width / pitch) * same,
    )
