"""The strips that lattices leave at the rims of a field, many lattices at a time.

All lattices of a batch share face, pitch and first course; only their phase differs, and by
how much their courses are shifted. So courses are the same for all, and what depends on the
phase is an array, one value for each lattice.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.base.geometry import SNAP, Box, Edge, Point
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import Meets, System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.setout.steps import Step, steps_of
from gaugerod.core.setout.zones import Zone, zones_of
from gaugerod.core.survey.walls import FittedWall

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What a wall is scored against: how it meets its neighbours, and its finish line. [mm].

    `allowed` are limits that somebody has signed to set aside.
    """

    wall: FittedWall
    met: tuple[Meeting, Meeting]
    top: float
    system: System
    turn: Turn
    looks: Looks
    allowed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Strips:
    """One cut piece of each lattice: its least size, the least cut off it, where it is. [mm].

    `size` and `lost` have one value for each lattice; a size that is not finite means that
    the lattice leaves no such strip. `count` is how many pieces are alike.
    """

    where: Side
    size: Array
    lost: Array
    whole: float
    meets: Meets
    count: Array


Rims: TypeAlias = tuple[list[float], list[float]]
"""Where the left and the right rim of the field lie along a course, at every bend. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Lattices on one wall that differ in phase and shift only, and the field by its rims. [mm].

    `shifts` are by how much each lattice moves a course against the one below. `sides` are the
    rims of its courses, from the lowest up.
    """

    case: Case
    lattice: Lattice
    phases: Array
    shifts: Array
    box: Box
    left: Edge
    right: Edge
    steps: tuple[Step, ...]
    ceiling: tuple[Point, ...]
    zones: tuple[Zone, ...]
    sides: tuple[Rims, ...]

    @property
    def courses(self) -> range:
        """Courses of the field."""
        return self.lattice.courses(bottom=self.box.bottom, top=self.box.top)

    def starts(self, course: NDArray[np.int_] | int) -> Array:
        """Return the left edge of some module of a course, for each lattice.

        Parameters
        ----------
        course
            Number of the course, or of several, shape ``(m, 1)``. [1]

        Returns
        -------
        ndarray
            Left edge for each lattice, shape ``(n,)`` or ``(m, n)``. [mm]

        Notes
        -----
        Source: own derivation, as `Lattice.row_start`.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> sample_batch(450.0, 100.0).starts(2).tolist()
        [450.0, 100.0]
        """
        return self.phases + (course - 1) * self.shifts

    def first_left(self, course: NDArray[np.int_] | int, left: Array | float) -> Array:
        """Return the left edge of the first module that reaches beyond a place.

        Parameters
        ----------
        course
            Number of the course, or of several, shape ``(m, 1)``. [1]
        left
            The place, one for each course or for all, shape ``(m, 1)``. [mm]

        Returns
        -------
        ndarray
            Left edge for each lattice, shape ``(n,)`` or ``(m, n)``. [mm]

        Notes
        -----
        Source: own derivation, as `Lattice.numbers`.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> sample_batch(450.0, 100.0).first_left(1, 14.0).tolist()
        [-150.0, -500.0]
        """
        pitch, face = self.lattice.pitch[0], self.lattice.face[0]
        starts = self.starts(course)
        return starts + (np.floor((left - starts - face + SNAP) / pitch) + 1) * pitch

    def last_left(self, course: NDArray[np.int_] | int, right: Array | float) -> Array:
        """Return the left edge of the last module that begins before a place.

        Parameters
        ----------
        course
            Number of the course, or of several, shape ``(m, 1)``. [1]
        right
            The place, one for each course or for all, shape ``(m, 1)``. [mm]

        Returns
        -------
        ndarray
            Left edge for each lattice, shape ``(n,)`` or ``(m, n)``. [mm]

        Notes
        -----
        Source: own derivation, as `Lattice.numbers`.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> sample_batch(450.0, 100.0).last_left(1, 1497.0).tolist()
        [1050.0, 1300.0]
        """
        pitch = self.lattice.pitch[0]
        starts = self.starts(course)
        return starts + (np.ceil((right - starts - SNAP) / pitch) - 1) * pitch

    def at(self, phases: Sequence[float]) -> "Batch":
        """Return the lattice of a batch, with other phases.

        Parameters
        ----------
        phases
            Left edge of some module of course 1, shape ``(n,)``. [mm]

        Returns
        -------
        Batch
            The batch, all with the shift of its first. [mm]

        Notes
        -----
        Source: none needed.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> sample_batch(450.0).at([30.0, 60.0]).phases.tolist()
        [30.0, 60.0]
        """
        return replace(self, phases=np.array(phases), shifts=np.full(len(phases), self.shifts[0]))

    def span(self, course: int) -> tuple[float, float]:
        """Return the heights of a course within the field. [mm]."""
        return _span(self.lattice, self.box, course)

    def rims(self, course: int) -> Rims:
        """Return where the left and right rim of the field lie along one of its courses. [mm]."""
        return self.sides[course - self.courses[0]]

    def taken(self, course: int) -> Iterator[tuple[float, float]]:
        """Yield from where to where deck or ceiling leave nothing of a course. [mm]."""
        low, high = self.span(course)
        yield from ((step.left, step.right) for step in self.steps if step.low > high - SNAP)
        for (x0, y0), (x1, y1) in pairwise(self.ceiling):
            if min(y0, y1) < low + SNAP:
                bare = sorted((x for x, y in ((x0, y0), (x1, y1)) if y < low + SNAP))
                if max(y0, y1) >= low + SNAP:
                    bare.append(x0 + (low - y0) / (y1 - y0) * (x1 - x0))
                yield min(bare), max(bare)


def _span(lattice: Lattice, box: Box, course: int) -> tuple[float, float]:
    return max(lattice.row_bottom(course), box.bottom), min(lattice.row_top(course), box.top)


def _rim(edge: Edge, ys: tuple[float, float]) -> list[float]:
    """Return where an edge lies at two heights and at every bend between them. [mm]."""
    return [edge.at(y) for y in (*ys, *(y for y, _ in edge.bow if ys[0] < y < ys[1]))]


def batch_of(case: Case, lattice: Lattice, phases: Array) -> Batch:
    """Return the batch of lattices with these phases.

    Parameters
    ----------
    case
        The wall and its field.
    lattice
        What the lattices share, their shift too; its own phase does not count. [mm]
    phases
        Left edge of some module of course 1, shape ``(n,)``. [mm]

    Returns
    -------
    Batch
        The batch. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> round(sample_batch(450.0).left.at(0.0), 4)
    14.2875
    """
    wall, gaps = case.wall, case.system.gaps
    moved_left, moved_right = (deduct(meeting, case.system) for meeting in case.met)
    left = replace(wall.left, offset=wall.left.offset + moved_left)
    right = replace(wall.right, offset=wall.right.offset - moved_right)
    steps = steps_of(wall, gaps.deck, left=left, right=right)
    bottom = min(step.low for step in steps)
    top = min(case.top, max(_between(wall.ceiling, left, right)) - gaps.ceiling)
    heights = (bottom, top)
    box = Box(
        left=min(left.at(y) for y in heights),
        bottom=bottom,
        right=max(right.at(y) for y in heights),
        top=top,
    )
    spans = (_span(lattice, box, c) for c in lattice.courses(bottom=bottom, top=top))
    return Batch(
        case=case,
        lattice=lattice,
        phases=phases,
        shifts=np.full(len(phases), lattice.row_shift),
        box=box,
        left=left,
        right=right,
        steps=steps,
        ceiling=tuple((x, y - gaps.ceiling) for x, y in _endless(wall.ceiling)),
        zones=zones_of(wall, case.system),
        sides=tuple((_rim(left, ys), _rim(right, ys)) for ys in spans),
    )


def _endless(line: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return a line drawn out level beyond both ends."""
    return ((-inf, line[0][1]), *line, (inf, line[-1][1]))


def _between(line: tuple[Point, ...], left: Edge, right: Edge) -> list[float]:
    """Return the heights of a line where the field begins, ends and bends. [mm]."""
    xs, ys = zip(*line, strict=True)
    start, end = left.at(ys[0]), right.at(ys[-1])
    inside = [y for x, y in line if start < x < end]
    return [float(np.interp(start, xs, ys)), *inside, float(np.interp(end, xs, ys))]


Ends = tuple[Strips, Strips]


def ends_of(batch: Batch) -> Iterator[Ends]:
    """Yield the end pieces of every course, at the height where each is narrowest.

    Parameters
    ----------
    batch
        The lattices.

    Yields
    ------
    tuple of Strips
        Left and right end of one course. [mm]

    Notes
    -----
    Where a step of the deck or a sloping ceiling takes a course up to the end of the wall
    there is no end piece: its size is infinite. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> left, right = next(ends_of(sample_batch(455.0, 100.0)))
    >>> left.size.round().tolist(), right.size.round().tolist()
    ([441.0, 86.0], [442.0, 197.0])
    """
    face = batch.lattice.face[0]
    meets = meets_at(batch.case.met[0]), meets_at(batch.case.met[1])
    courses = np.array(batch.courses)[:, np.newaxis]
    (left_min, left_max), (right_min, right_max) = (
        (_column(min, rims), _column(max, rims)) for rims in zip(*batch.sides, strict=True)
    )
    taken = [list(batch.taken(course)) for course in batch.courses]
    stop = _column(min, [[inf, *(left for left, _ in row)] for row in taken])
    begin = _column(max, [[-inf, *(right for _, right in row)] for row in taken])
    first, last = batch.first_left(courses, left_min), batch.last_left(courses, right_max)
    whole = (np.abs(first - last) < SNAP) & (stop == inf)
    lefts = np.minimum(first + face, stop) - np.maximum(first, left_max)
    lefts = np.where(stop == -inf, inf, lefts)
    rights = np.minimum(last + face, right_min) - np.maximum(last, begin)
    rights = np.where(begin == inf, inf, rights)
    lost = np.where(stop == -inf, inf, left_min - first)
    lost_right = np.where(begin == inf, inf, last + face - right_max)
    one: Array = np.ones(len(batch.phases))
    # One piece from rim to rim is one piece.
    counts = np.where(whole, 0.0, one)
    for row in range(len(courses)):
        if whole[row].any():
            across = _across(batch, batch.courses[row], first[row])
            lefts[row], rights[row] = (
                np.where(whole[row], across, sizes[row]) for sizes in (lefts, rights)
            )
        yield (
            Strips("left", lefts[row], lost[row], face, meets[0], one),
            Strips("right", rights[row], lost_right[row], face, meets[1], counts[row]),
        )


def _column(pick: Callable[[Iterable[float]], float], rows: Iterable[Sequence[float]]) -> Array:
    return np.array([[pick(row)] for row in rows])


def _across(batch: Batch, course: int, first: Array) -> Array:
    """Return the least width of one piece from rim to rim, where it is that. [mm]."""
    span, until = batch.span(course), first + batch.lattice.face[0]
    bends = [y for edge in (batch.left, batch.right) for y, _ in edge.bow]
    ys = [*span, *(y for y in bends if span[0] < y < span[1])]
    widths = [
        np.minimum(until, batch.right.at(y)) - np.maximum(first, batch.left.at(y)) for y in ys
    ]
    least: Array = np.min(widths, axis=0)
    return least


def meets_at(meeting: Meeting) -> Meets:
    """Return what the end pieces of a wall meet at one of its edges.

    Parameters
    ----------
    meeting
        How the wall meets its neighbour there.

    Returns
    -------
    str
        ``front``, ``corner`` or ``outside``.

    Notes
    -----
    Source: trade definition.

    Examples
    --------
    >>> meets_at("butts"), meets_at("laps"), meets_at("open")
    ('corner', 'outside', 'front')
    """
    if meeting in {"laps", "stops", "outside trim"}:
        return "outside"
    return "front" if meeting == "open" else "corner"
