"""A U round an opening, and a piece that one nearly severs: better made as two."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

import shapely

from gaugerod.core.base.geometry import SNAP, Region, bounds_of, regions_of, shape_of
from gaugerod.core.cutting.outline import UPRIGHT, Bite, box_of, outline_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System

Why: TypeAlias = Literal["key", "narrow", "hole"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoPieces:
    """A piece with a U, in the module's frame; `neck` is what holds it together. [mm].

    `start` and `at` are where the middle of a joint would be: straight on from a corner or the
    middle of the opening. Where none can be had, `why` says so, and `at` is nothing.
    """

    tag: str
    opens: Side
    neck: float
    start: Side
    at: float | None
    why: Why | None


def two_pieces(piece: Piece, region: Region, system: System) -> tuple[TwoPieces, ...]:
    """Return where a piece with a U is better made as two.

    Parameters
    ----------
    piece
        The piece. [mm]
    region
        The same in the module's frame. [mm]
    system
        The material. [mm]

    Returns
    -------
    tuple of TwoPieces
        One for each U; none where there is no U. [mm]

    Notes
    -----
    The joint runs from the bottom of the U to the far side: in the middle of the opening if it
    may, else from one of its corners. Hard limits hold: neither part narrower than the least,
    nor a joint nearer to a hole than its clear distance. Two parts of a keyed module would meet
    in cut edges without a key: there is no joint to be had. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> piece = sample_pieces()[0]
    >>> two_pieces(piece, piece.region, sample_system())
    ()
    """
    cuts = [edge for edge in piece.edges if edge.kind == "cut"]
    return tuple(
        _split(piece, region, bite, system)
        for bite in outline_of(region, cuts, piece.face).bites
        if len(bite.sides) == 1
    )


def _split(piece: Piece, region: Region, bite: Bite, system: System) -> TwoPieces:
    opens = bite.sides[0]
    axis = 1 if opens in UPRIGHT else 0
    ends = sorted(corner[axis] for corner in bite.corners)
    places = (sum(ends) / 2, *ends)
    why: Why | None = "key" if system.kind == "keyed" else None
    at = None
    if why is None:
        whys = [_against(piece, region, place, axis, system) for place in places]
        at = next((p for p, no in zip(places, whys, strict=True) if no is None), None)
        why = None if at is not None else whys[0]
    return TwoPieces(
        tag=piece.tag,
        opens=opens,
        neck=_neck(piece, region, bite),
        start="left" if axis == 0 else "bottom",
        at=at,
        why=why,
    )


def _neck(piece: Piece, region: Region, bite: Bite) -> float:
    """Return how much is left of the piece behind a U. [mm]."""
    around, taken = bounds_of(region.rings), box_of(bite, piece.face).bounds
    return {
        "left": around.right - taken[2],
        "right": taken[0] - around.left,
        "bottom": around.top - taken[3],
        "top": taken[1] - around.bottom,
    }[bite.sides[0]]


def _against(piece: Piece, region: Region, place: float, axis: int, system: System) -> Why | None:
    """Return what speaks against a joint at a place."""
    # Joints are as they hang; a module that stands has them the other way about.
    half = system.joint[1 - axis if piece.turn in {90, 270} else axis] / 2
    far = max(piece.face) * 2
    low, high = place - half, place + half
    strip = (low, -far, high, far) if axis == 0 else (-far, low, far, high)
    parts = regions_of(shapely.difference(shape_of(region), shapely.box(*strip)))
    if any(_least(parts_of) < system.cutting.least - SNAP for parts_of in parts):
        return "narrow"
    clear = system.gaps.hole_clear
    for hole in piece.holes:
        if abs((hole.x, hole.y)[axis] - place) < hole.diameter / 2 + clear + half:
            return "hole"
    return None


def _least(region: Region) -> float:
    around = bounds_of(region.rings)
    return min(around.width, around.height)
