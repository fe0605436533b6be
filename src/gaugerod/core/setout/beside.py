"""The strips that lattices leave beside openings and beside the steps of a deck."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import Meets
from gaugerod.core.setout.openings import EASE, opening_boxes
from gaugerod.core.setout.strips import Array, Batch, Strips


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """An opening as each lattice of a batch meets it: eased onto joints that it nearly meets.

    `left` and `right` have one value for each lattice. [mm].
    """

    left: Array
    right: Array
    bottom: float
    top: float


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
    """Yield the strips and legs that openings and steps leave beside them.

    Parameters
    ----------
    batch
        The lattices.
    holes
        The openings as the lattices meet them. [mm]

    Yields
    ------
    Strips
        Left and right of each opening in each course, below and above it; then beside each
        step of the deck. [mm]

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
    face_h = lattice.face[1]
    around = [*holes, *_steps(batch)]
    for hole in holes:
        low, high = max(hole.bottom, batch.box.bottom), min(hole.top, batch.box.top)
        rows = lattice.courses(bottom=low, top=high)
        bottom, top = lattice.row_bottom(rows[0]), lattice.row_top(rows[-1])
        for course in rows:
            yield _before(batch, around, hole.left, course, "opening")
            yield _after(batch, around, hole.right, course, "opening")
        wide = np.ceil((hole.right - hole.left) / lattice.pitch[0])
        floor, roof = _over(batch, around, hole)
        below = hole.bottom - np.maximum(bottom, floor)
        yield _beside("top", below, bottom + face_h - hole.bottom + 0 * below, face_h, wide)
        above = np.minimum(top, roof) - hole.top
        yield _beside("bottom", above, hole.top - top + face_h + 0 * above, face_h, wide)
    yield from at_steps(batch, holes)


def at_steps(batch: Batch, holes: list[Hole]) -> Iterator[Strips]:
    """Yield the strips beside the steps of the deck.

    Parameters
    ----------
    batch
        The lattices.
    holes
        The openings as the lattices meet them. [mm]

    Yields
    ------
    Strips
        On the lower side of each step, in each course that it stands in. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> list(at_steps(sample_batch(450.0), []))
    []
    """
    around = [*holes, *_steps(batch)]
    for before, after in pairwise(batch.steps):
        lower, higher = sorted((before, after), key=lambda step: step.low)
        at = np.full(len(batch.phases), before.right)
        side = _before if lower is before else _after
        top = min(higher.high, batch.box.top)
        for course in batch.lattice.courses(bottom=lower.low, top=top):
            yield side(batch, around, at, course, "deck")


def _steps(batch: Batch) -> list[Hole]:
    """Return the steps of the deck as the holes that they are to the lattices."""
    same = np.ones(len(batch.phases))
    return [
        Hole(left=step.left * same, right=step.right * same, bottom=-np.inf, top=step.high)
        for step in batch.steps
    ]


def _before(batch: Batch, around: list[Hole], stop: Array, course: int, meets: Meets) -> Strips:
    """Return the strip that a course leaves left of a place, and what it meets there."""
    face = batch.lattice.face[0]
    clear, _ = _reach(batch, around, course, stop)
    left = batch.first_left(course, stop)
    return _beside("right", stop - np.maximum(left, clear), left + face - stop, face, meets=meets)


def _after(batch: Batch, around: list[Hole], start: Array, course: int, meets: Meets) -> Strips:
    """Return the strip that a course leaves right of a place, and what it meets there."""
    face = batch.lattice.face[0]
    _, clear = _reach(batch, around, course, start)
    right = batch.last_left(course, start)
    size = np.minimum(right + face, clear) - start
    return _beside("left", size, start - right, face, meets=meets)


def _beside(
    where: Side,
    size: Array,
    lost: Array,
    whole: float,
    count: Array | None = None,
    *,
    meets: Meets = "opening",
) -> Strips:
    """Return the strip beside an opening; where there is none its size is infinite."""
    return Strips(
        where=where,
        size=np.where(size > SNAP, size, np.inf),
        lost=np.where(size > SNAP, lost, np.inf),
        whole=whole,
        meets=meets,
        count=np.ones(len(size)) if count is None else count,
    )


def _reach(batch: Batch, around: list[Hole], course: int, place: Array) -> tuple[Array, Array]:
    """Return how far a course reaches left and right of a place: to a rim or another hole."""
    low, high = batch.span(course)
    lefts, rights = batch.rims(course)
    left, right = (np.full(len(batch.phases), x) for x in (max(lefts), min(rights)))
    for other in around:
        if other.bottom < high - SNAP and other.top > low + SNAP:
            before, after = other.right <= place, other.left >= place
            left = np.where(before, np.maximum(left, other.right), left)
            right = np.where(after, np.minimum(right, other.left), right)
    return left, right


def _over(batch: Batch, around: list[Hole], hole: Hole) -> tuple[Array, Array]:
    """Return how far the lining reaches below and above an opening. [mm]."""
    same = np.ones(len(batch.phases))
    xs, ys = zip(*batch.ceiling[1:-1], strict=True)
    left, right = float(hole.left.min()), float(hole.right.max())
    ceiling = [float(np.interp(x, xs, ys)) for x in (left, right)]
    ceiling += [y for x, y in batch.ceiling if left < x < right]
    low, high = -np.inf * same, min(batch.box.top, *ceiling) * same
    for other in around:
        above = (other.left < hole.right) & (other.right > hole.left)
        low = np.where(above & (other.top <= hole.bottom), np.maximum(low, other.top), low)
        high = np.where(above & (other.bottom >= hole.top), np.minimum(high, other.bottom), high)
    return low, high
