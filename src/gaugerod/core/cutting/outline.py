"""What is sawn off a module, told apart: straight cuts, bites of corners and sides, the rest."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import TypeAlias

import shapely

from gaugerod.core.base.geometry import SNAP, Box, Point, Region, bounds_of, shape_of
from gaugerod.core.cutting.pieces import PieceEdge
from gaugerod.core.job.fields import Side

SLANT = 0.25
"""A cut whose run out of square is a larger share of its length is on the slant. [1]"""
LONG = 0.05
"""A straight cut is longer than this share of the piece. [1]"""
UPRIGHT: frozenset[Side] = frozenset({"left", "right"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Bite:
    """A square bite out of a module, from its `sides`: two at a corner, one where it is a U.

    `corners` are its inner corners, one or two. [mm].
    """

    sides: tuple[Side, ...]
    corners: tuple[Point, ...]


Run: TypeAlias = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The cuts of a piece: `straight` ones go right through, `runs` are joined point by point.

    A run in `scribed` stays on the side named, as a cut to an uneven deck does. [mm].
    """

    straight: tuple[PieceEdge, ...]
    bites: tuple[Bite, ...]
    scribed: tuple[tuple[Side, Run], ...]
    runs: tuple[Run, ...]


def is_steep(edge: PieceEdge) -> bool:
    """Tell whether a cut is on the slant.

    Parameters
    ----------
    edge
        The cut. [mm]

    Returns
    -------
    bool
        Whether it runs out of square by more than `SLANT` of its length.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> is_steep(PieceEdge(side="left", kind="cut", start=(0.0, 300.0), end=(4.0, 0.0)))
    False
    """
    (x0, y0), (x1, y1) = edge.start, edge.end
    low, high = sorted((abs(x1 - x0), abs(y1 - y0)))
    return low > SLANT * high


def outline_of(region: Region, cuts: Sequence[PieceEdge], face: tuple[float, float]) -> Outline:
    """Tell the cuts of a piece apart.

    Parameters
    ----------
    region
        The piece in the module's frame. [mm]
    cuts
        The cut edges of its outline, in turn. [mm]
    face
        Width and height of the module. [mm]

    Returns
    -------
    Outline
        Straight cuts, bites and runs. [mm]

    Notes
    -----
    A cut goes right through if it is no mere stub, the whole piece lies on one side of its
    line, and no other cut on that side of the module does so along another line or joins it in
    a bend. What is left is a square bite, if nothing of the piece lies in it, or a run of
    points. Source: own derivation, ``docs/theory/pieces.md``.

    Examples
    --------
    >>> ring = ((0.0, 0.0), (500.0, 0.0), (500.0, 120.0), (600.0, 120.0), (600.0, 300.0),
    ...     (0.0, 300.0))
    >>> up = PieceEdge(side="right", kind="cut", start=ring[1], end=ring[2])
    >>> along = PieceEdge(side="bottom", kind="cut", start=ring[2], end=ring[3])
    >>> outline_of(Region(rings=(ring,)), (up, along), (600.0, 300.0)).bites
    (Bite(sides=('right', 'bottom'), corners=((500.0, 120.0),)),)
    """
    straight = tuple(_through(region, cuts))
    left = [cut for cut in cuts if not any(_lies_on(cut, other) for other in straight)]
    shape = shape_of(Region(rings=region.rings[:1]))
    bites: list[Bite] = []
    scribed: list[tuple[Side, Run]] = []
    runs: list[Run] = []
    for run in _runs(left):
        bite = _bite(run)
        points = (run[0].start, *(edge.end for edge in run))
        if bite and shapely.intersection(box_of(bite, face), shape).area < SNAP:
            bites.append(bite)
        elif len({edge.side for edge in run}) == 1 and not any(map(is_steep, run)):
            scribed.append((run[0].side, points))
        else:
            runs.append(points)
    return Outline(straight=straight, bites=tuple(bites), scribed=tuple(scribed), runs=tuple(runs))


def _through(region: Region, cuts: Sequence[PieceEdge]) -> Iterator[PieceEdge]:
    """Yield the straight cuts, one for each side; what interrupts one is left out of it."""
    ring, around = region.rings[0], bounds_of(region.rings)
    span = (around.width, around.height)
    for side in ("left", "right", "bottom", "top"):
        level = [cut for cut in cuts if cut.side == side and not is_steep(cut)]
        own = [cut for cut in level if all(_off(point, cut) > -SNAP for point in ring)]
        bent = any(a.end == b.start for a in level for b in level)
        if own and not bent and all(_lies_on(cut, own[0]) for cut in own):
            # Outer rings run anticlockwise: bottom and right cuts forward, the others back.
            axis, sign = (1 if side in UPRIGHT else 0), (1 if side in {"right", "bottom"} else -1)
            ends = sorted((p for c in own for p in (c.start, c.end)), key=lambda p: sign * p[axis])
            # What is short can't be drawn out to where it would be measured.
            if abs(ends[-1][axis] - ends[0][axis]) > LONG * span[axis]:
                yield PieceEdge(side=own[0].side, kind="cut", start=ends[0], end=ends[-1])


def _off(point: Point, cut: PieceEdge) -> float:
    """Distance of a point from the line of a cut, to the side on which the piece is. [mm]."""
    (x0, y0), (x1, y1) = cut.start, cut.end
    cross = (x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)
    return cross / dist(cut.start, cut.end)


def _lies_on(cut: PieceEdge, line: PieceEdge) -> bool:
    return all(abs(_off(point, line)) < SNAP for point in (cut.start, cut.end))


def _runs(cuts: Sequence[PieceEdge]) -> list[list[PieceEdge]]:
    """Part cuts into runs that hang together; the ring they come from is closed."""
    runs: list[list[PieceEdge]] = []
    for cut in cuts:
        if runs and runs[-1][-1].end == cut.start:
            runs[-1].append(cut)
        else:
            runs.append([cut])
    if len(runs) > 1 and runs[-1][-1].end == runs[0][0].start:
        runs[0] = runs.pop() + runs[0]
    return runs


_SIDES_OF_A_U = 3


def _bite(run: Sequence[PieceEdge]) -> Bite | None:
    """Return the square bite whose sides a run is, if it is one."""
    square = all(
        min(abs(edge.end[axis] - edge.start[axis]) for axis in (0, 1)) < SNAP for edge in run
    )
    left_turns = any(_off(b.end, a) > -SNAP for a, b in pairwise(run))
    if not square or left_turns or len(run) not in {2, _SIDES_OF_A_U}:
        return None
    corners = tuple(edge.end for edge in run[:-1])
    # The middle side of a U faces where it opens; at a corner both sides do.
    if len(run) == _SIDES_OF_A_U:
        return Bite(sides=(run[1].side,), corners=corners)
    across, up = sorted((edge.side for edge in run), key=lambda side: side not in UPRIGHT)
    return Bite(sides=(across, up), corners=corners)


def box_of(bite: Bite, face: tuple[float, float]) -> shapely.Polygon:
    """Return what a bite takes out of the module.

    Parameters
    ----------
    bite
        The bite. [mm]
    face
        Width and height of the module. [mm]

    Returns
    -------
    Polygon
        From its inner corners out to the edges of the module. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> box_of(Bite(sides=("right", "bottom"), corners=((500.0, 120.0),)), (600.0, 300.0)).bounds
    (500.0, 0.0, 600.0, 120.0)
    """
    edge = {"left": 0.0, "right": face[0], "bottom": 0.0, "top": face[1]}
    across = [x for x, _ in bite.corners] + [edge[side] for side in bite.sides if side in UPRIGHT]
    up = [y for _, y in bite.corners] + [edge[s] for s in bite.sides if s not in UPRIGHT]
    around = Box(left=min(across), bottom=min(up), right=max(across), top=max(up))
    return shapely.box(around.left, around.bottom, around.right, around.top)
