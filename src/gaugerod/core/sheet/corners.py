"""Corners to mark on a notched piece, and the bites that a hole on a joint takes out of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.cutting.edge_marks import along
from gaugerod.core.cutting.frame import Frame, seated
from gaugerod.core.cutting.outline import UPRIGHT
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.figures import BITES, POINTS
from gaugerod.core.survey.walls import FittedHole

_ROUND = 0.01  # a hole is a polygon drawn round its circle: its corners stand out by less


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A corner of a cut, named as on its card, with its distances from two edges. [mm].

    The inner corners of a bite have no name; `sides` are those at which the waste lies.
    """

    name: str
    sides: tuple[Side, ...]
    at: Point
    across: Mark
    up: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Bite:
    """A hole that a joint runs through, in the module's frame. [mm].

    Its centre may lie beyond an edge; it is measured as the corners are.
    """

    name: str
    at: Point
    diameter: float
    across: Mark
    up: Mark


def frame_of(piece: Piece) -> Frame:
    """Return where the module of a piece lies on the wall.

    Parameters
    ----------
    piece
        The piece.

    Returns
    -------
    Frame
        Its frame. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> frame_of(sample_pieces()[0]).turn
    0.0
    """
    return seated(piece.cell, piece.face, piece.turn + piece.tilt)


def face_of(piece: Piece) -> Box:
    """Return the module of a piece in its own frame.

    Parameters
    ----------
    piece
        The piece. [mm]

    Returns
    -------
    Box
        The whole face, its lower left at the origin. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> face_of(sample_pieces()[0])
    Box(left=0.0, bottom=0.0, right=600.0, top=300.0)
    """
    return Box(left=0.0, bottom=0.0, right=piece.face[0], top=piece.face[1])


def corners(piece: Piece, holes: Sequence[FittedHole]) -> tuple[Corner, ...]:
    """Return the corners to mark, without those of round bites.

    Parameters
    ----------
    piece
        The piece, with its marks. [mm]
    holes
        Holes of its wall. [mm]

    Returns
    -------
    tuple of Corner
        In the order of the marks.

    Notes
    -----
    A hole that runs over a joint bites an arc out of each piece. The arc is drilled from its
    centre, so its many corners are not marked. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces, sample_wall
    >>> corners(sample_pieces()[0], sample_wall().holes)
    ()
    """
    return tuple(
        Corner(
            name=across.detail.split()[-1] if across.what in POINTS else "",
            sides=_sides(across),
            at=at,
            across=across,
            up=up,
        )
        for at, across, up in _pairs(piece)
        if _bitten(at, piece, holes) is None
    )


def _sides(mark: Mark) -> tuple[Side, ...]:
    return tuple(side for side in _SIDES if side in mark.detail.split())


_SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")


def bites(piece: Piece, holes: Sequence[FittedHole]) -> tuple[Bite, ...]:
    """Return the holes that bite into the outline of a piece.

    Parameters
    ----------
    piece
        The piece, with its marks. [mm]
    holes
        Holes of its wall. [mm]

    Returns
    -------
    tuple of Bite
        Each with its centre measured as the corners are; a negative distance lies beyond
        the edge.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces, sample_wall
    >>> bites(sample_pieces()[0], sample_wall().holes)
    ()
    """
    frame = frame_of(piece)
    face = face_of(piece)
    found: dict[str, Bite] = {}
    for at, across, up in _pairs(piece):
        hole = _bitten(at, piece, holes)
        if hole is None:
            continue
        x, y = frame.to_module((hole.x, hole.y))
        far = {"left": x, "right": face.right - x, "bottom": y, "top": face.top - y}
        found[hole.name] = Bite(
            name=hole.name,
            at=(x, y),
            diameter=hole.diameter,
            across=Mark(what="bite", start=across.start, value=far[across.start], detail=hole.name),
            up=Mark(what="bite", start=up.start, value=far[up.start], detail=hole.name),
        )
    return tuple(found.values())


def _pairs(piece: Piece) -> Iterator[tuple[Point, Mark, Mark]]:
    """Each marked corner with its two marks: across first, then up."""
    face = face_of(piece)
    marks: dict[tuple[str, str], list[Mark]] = {}
    for mark in piece.marks:
        if mark.what in POINTS | BITES:
            marks.setdefault((mark.what, mark.detail), []).append(mark)
    for found in marks.values():
        across, up = (
            [m for m in found if (m.start in UPRIGHT) == first] for first in (True, False)
        )
        for a, u in zip(across, up, strict=True):
            yield (along(a.start, a.value, face), along(u.start, u.value, face)), a, u


def _bitten(at: Point, piece: Piece, holes: Sequence[FittedHole]) -> FittedHole | None:
    """Return the hole whose rim a corner stands on."""
    frame = frame_of(piece)
    for hole in holes:
        radius = hole.diameter / 2
        if abs(dist(at, frame.to_module((hole.x, hole.y))) - radius) <= _ROUND * radius:
            return hole
    return None
