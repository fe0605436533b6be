"""The strips that lattices leave at the rims of a field, many lattices at a time.

All lattices of a batch share face, pitch, first course and bond; only their phase differs.
So courses are the same for all, and what depends on the phase is an array, one value for
each lattice.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.base.geometry import SNAP, Box, Edge, Point
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import Meets, System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.setout.openings import EASE, opening_boxes
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


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """An opening as each lattice of a batch meets it: eased onto joints that it nearly meets.

    `left` and `right` have one value for each lattice. [mm].
    """

    left: Array
    right: Array
    bottom: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Lattices on one wall that differ in their phase only, and the field by its rims. [mm]."""

    case: Case
    lattice: Lattice
    phases: Array
    box: Box
    left: Edge
    right: Edge

    @property
    def courses(self) -> range:
        """Courses of the field."""
        return self.lattice.courses(bottom=self.box.bottom, top=self.box.top)

    def starts(self, course: int) -> Array:
        """Return the left edge of some module of a course, for each lattice. [mm]."""
        return self.phases + (course - 1) * self.lattice.row_shift

    def first_left(self, course: int, left: Array | float) -> Array:
        """Return the left edge of the first module that reaches beyond a place.

        Parameters
        ----------
        course
            Number of the course.
        left
            The place, shape ``(n,)`` or one for all. [mm]

        Returns
        -------
        ndarray
            Left edge for each lattice, shape ``(n,)``. [mm]

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

    def last_left(self, course: int, right: Array | float) -> Array:
        """Return the left edge of the last module that begins before a place.

        Parameters
        ----------
        course
            Number of the course.
        right
            The place, shape ``(n,)`` or one for all. [mm]

        Returns
        -------
        ndarray
            Left edge for each lattice, shape ``(n,)``. [mm]

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

    def span(self, course: int) -> tuple[float, float]:
        """Return the heights of a course within the field. [mm]."""
        low = max(self.lattice.row_bottom(course), self.box.bottom)
        return low, min(self.lattice.row_top(course), self.box.top)

    def rims(self, course: int) -> tuple[list[float], list[float]]:
        """Return where the left and right rim of the field lie along a course. [mm]."""
        ys = self.span(course)
        lefts = [self.left.at(y) for y in _knots(self.left, ys)]
        return lefts, [self.right.at(y) for y in _knots(self.right, ys)]


def _knots(edge: Edge, ys: tuple[float, float]) -> list[float]:
    """Return the heights between which an edge is straight. [mm]."""
    return [*ys, *(y for y, _ in edge.bow if ys[0] < y < ys[1])]


def batch_of(case: Case, lattice: Lattice, phases: Array) -> Batch:
    """Return the batch of lattices with these phases.

    Parameters
    ----------
    case
        The wall and its field.
    lattice
        What the lattices share; its own phase does not count. [mm]
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
    bottom = min(_between(wall.deck, left, right)) + gaps.deck
    top = min(case.top, max(_between(wall.ceiling, left, right)) - gaps.ceiling)
    heights = (bottom, top)
    return Batch(
        case=case,
        lattice=lattice,
        phases=phases,
        box=Box(
            left=min(left.at(y) for y in heights),
            bottom=bottom,
            right=max(right.at(y) for y in heights),
            top=top,
        ),
        left=left,
        right=right,
    )


def _between(line: tuple[Point, ...], left: Edge, right: Edge) -> list[float]:
    """Return the heights of deck or ceiling where the field begins, ends and bends. [mm]."""
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
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> left, right = next(ends_of(sample_batch(455.0, 100.0)))
    >>> left.size.round().tolist(), right.size.round().tolist()
    ([441.0, 86.0], [442.0, 197.0])
    """
    face = batch.lattice.face[0]
    meets = _meets(batch.case.met[0]), _meets(batch.case.met[1])
    for course in batch.courses:
        lefts, rights = batch.rims(course)
        first, last = batch.first_left(course, min(lefts)), batch.last_left(course, max(rights))
        alone = np.full(len(batch.phases), min(rights) - max(lefts))
        single = np.abs(first - last) < SNAP
        left = np.where(single, alone, first + face - max(lefts))
        right = np.where(single, alone, min(rights) - last)
        lost = min(lefts) - first, last + face - max(rights)
        yield (
            _strips("left", np.minimum(left, face), lost[0], face, meets[0]),
            _strips("right", np.minimum(right, face), lost[1], face, meets[1]),
        )


def _strips(where: Side, size: Array, lost: Array, whole: float, meets: Meets) -> Strips:
    count = np.ones(len(size))
    return Strips(where=where, size=size, lost=lost, whole=whole, meets=meets, count=count)


def _meets(meeting: Meeting) -> Meets:
    if meeting in {"laps", "stops", "outside trim"}:
        return "outside"
    return "front" if meeting == "open" else "corner"


def levels_of(batch: Batch) -> Iterator[Strips]:
    """Yield the first and the last course where they are lowest.

    Parameters
    ----------
    batch
        The lattices.

    Yields
    ------
    Strips
        The first course, then the last. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> first, last = levels_of(sample_batch(450.0))
    >>> first.size.round().tolist(), last.size.round().tolist()
    ([281.0], [270.0])
    """
    lattice, gaps = batch.lattice, batch.case.system.gaps
    face, wall = lattice.face[1], batch.case.wall
    count = np.full(len(batch.phases), ceil(batch.box.width / lattice.pitch[0]))
    deck = max(y for _, y in wall.deck) + gaps.deck
    ceiling = min(batch.box.top, *(y - gaps.ceiling for _, y in wall.ceiling))
    first, last = batch.courses[0], batch.courses[-1]
    low = lattice.row_top(first) - deck, batch.box.bottom - lattice.row_bottom(first)
    high = ceiling - lattice.row_bottom(last), lattice.row_top(last) - batch.box.top
    sides: tuple[tuple[Side, Meets, tuple[float, float]], ...] = (
        ("bottom", "deck", low),
        ("top", "top", high),
    )
    for where, meets, (size, lost) in sides:
        same = np.ones(len(batch.phases))
        yield Strips(
            where=where,
            size=min(size, face) * same,
            lost=lost * same,
            whole=face,
            meets=meets,
            count=count,
        )


def holes_of(batch: Batch) -> list[Hole]:
    """Return the openings that reach into the field, as each lattice meets them.

    Parameters
    ----------
    batch
        The lattices.

    Returns
    -------
    list of Hole
        Openings, eased as `ease` does. [mm]

    Notes
    -----
    Source: own design; see `ease`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> holes_of(sample_batch(450.0))
    []
    """
    boxes = opening_boxes(batch.case.wall, batch.case.system)
    inside = (b for b in boxes if b.bottom < batch.box.top - SNAP)
    return [_eased(batch, opening) for opening in inside]


def _eased(batch: Batch, opening: Box) -> Hole:
    lattice = batch.lattice
    left, right = (np.full(len(batch.phases), x) for x in (opening.left, opening.right))
    bottom, top = opening.bottom, opening.top
    for course in lattice.courses(bottom=opening.bottom - EASE, top=opening.top + EASE):
        bottom = _near(bottom, lattice.row_top(course))
        top = _near(top, lattice.row_bottom(course))
        starts = batch.starts(course)
        left = _nearest(left, starts + lattice.face[0], lattice.pitch[0])
        right = _nearest(right, starts, lattice.pitch[0])
    return Hole(left=left, right=right, bottom=bottom, top=top)


def _near(edge: float, joint: float) -> float:
    return joint if abs(edge - joint) < EASE else edge


def _nearest(edge: Array, start: Array, pitch: float) -> Array:
    joint = start + np.round((edge - start) / pitch) * pitch
    return np.where(np.abs(edge - joint) < EASE, joint, edge)


def beside_of(batch: Batch, holes: list[Hole]) -> Iterator[Strips]:
    """Yield the strips and legs that an opening leaves on each of its sides.

    Parameters
    ----------
    batch
        The lattices.
    holes
        The openings as the lattices meet them. [mm]

    Yields
    ------
    Strips
        Left and right of the opening in each course, below and above it. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> batch = sample_batch(450.0)
    >>> middle = Hole(left=np.array([500.0]), right=np.array([900.0]), bottom=0.0, top=130.0)
    >>> [(strip.where, strip.size.tolist()) for strip in beside_of(batch, [middle])]
    [('right', [50.0]), ('left', [150.0]), ('top', [170.0]), ('bottom', [inf])]
    """
    lattice = batch.lattice
    face_w, face_h = lattice.face
    for hole in holes:
        low, high = max(hole.bottom, batch.box.bottom), min(hole.top, batch.box.top)
        rows = lattice.courses(bottom=low, top=high)
        bottom, top = lattice.row_bottom(rows[0]), lattice.row_top(rows[-1])
        clear = _clear(batch, holes, hole, bottom=bottom, top=top)
        for course in rows:
            left, right = batch.first_left(course, hole.left), batch.last_left(course, hole.right)
            size, lost = hole.left - np.maximum(left, clear.left), left + face_w - hole.left
            yield _beside("right", size, lost, face_w)
            size, lost = np.minimum(right + face_w, clear.right) - hole.right, hole.right - right
            yield _beside("left", size, lost, face_w)
        wide = np.ceil((hole.right - hole.left) / lattice.pitch[0])
        below = hole.bottom - np.maximum(bottom, clear.bottom)
        yield _beside("top", below, bottom + face_h - hole.bottom + 0 * below, face_h, wide)
        above = np.minimum(top, clear.top) - hole.top
        yield _beside("bottom", above, hole.top - top + face_h + 0 * above, face_h, wide)


def _beside(
    where: Side, size: Array, lost: Array, whole: float, count: Array | None = None
) -> Strips:
    """Return the strip beside an opening; where there is none its size is infinite."""
    return Strips(
        where=where,
        size=np.where(size > SNAP, size, np.inf),
        lost=np.where(size > SNAP, lost, np.inf),
        whole=whole,
        meets="opening",
        count=np.ones(len(size)) if count is None else count,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Clear:
    """How far the lining reaches round an opening, for each lattice. [mm]."""

    left: Array
    right: Array
    bottom: Array
    top: Array


def _clear(batch: Batch, holes: list[Hole], hole: Hole, *, bottom: float, top: float) -> _Clear:
    """Return how far the lining reaches: to the rim of the field, or to another opening."""
    ys = max(bottom, batch.box.bottom), min(top, batch.box.top)
    gaps, wall = batch.case.system.gaps, batch.case.wall
    same = np.zeros(len(batch.phases))
    left = max(batch.left.at(y) for y in _knots(batch.left, ys)) + same
    right = min(batch.right.at(y) for y in _knots(batch.right, ys)) + same
    low = max(y + gaps.deck for _, y in wall.deck) + same
    high = min(batch.box.top, *(y - gaps.ceiling for _, y in wall.ceiling)) + same
    for other in holes:
        level = other.bottom < ys[1] and other.top > ys[0]
        above = (other.left < hole.right) & (other.right > hole.left)
        left = np.where(level & (other.right <= hole.left), np.maximum(left, other.right), left)
        right = np.where(level & (other.left >= hole.right), np.minimum(right, other.left), right)
        low = np.where(above & (other.top <= hole.bottom), np.maximum(low, other.top), low)
        high = np.where(above & (other.bottom >= hole.top), np.minimum(high, other.bottom), high)
    return _Clear(left=left, right=right, bottom=low, top=high)
