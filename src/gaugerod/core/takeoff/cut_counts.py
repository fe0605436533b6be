"""Cuts counted on the pieces: straight ones, and those that must be marked out twice."""

from collections.abc import Iterable, Iterator

import shapely
from shapely.geometry import LineString, MultiLineString

from gaugerod.core.cutting.pieces import Piece, PieceEdge

MARK = 0.5
"""Nobody marks out of square by less than this over one piece: it is cut straight. [mm]"""


def count_cuts(pieces: Iterable[Piece]) -> tuple[int, int]:
    """Count the straight and the shaped cuts of all pieces.

    Parameters
    ----------
    pieces
        The pieces, with the stretches of their edges. [mm]

    Returns
    -------
    tuple of int
        Straight cuts: sides cut square, from end to end. Shaped cuts: tapers and notches.

    Notes
    -----
    A cut along a side of the box round the piece, out by `MARK` at most, is straight; all
    else is shaped. Shaped stretches that join are one cut, as an L or a U is, but each side
    of which more than half runs out of square is one of its own: a piece tapered on two sides
    takes two cuts. A tongue taken off is no cut. Source: own derivation.

    Examples
    --------
    >>> count_cuts([])
    (0, 0)
    """
    straight = shaped = 0
    for piece in pieces:
        cuts = [edge for edge in piece.edges if edge.kind == "cut"]
        square = {edge.side for edge in cuts if _lies_on_box(edge, piece)}
        straight += len(square)
        shaped += sum(_shapes([edge for edge in cuts if not _lies_on_box(edge, piece)], piece))
    return straight, shaped


def _lies_on_box(edge: PieceEdge, piece: Piece) -> bool:
    axis = 0 if edge.side in {"left", "right"} else 1
    level = getattr(piece.within, edge.side)
    return all(abs(point[axis] - level) <= MARK for point in (edge.start, edge.end))


def _shapes(edges: list[PieceEdge], piece: Piece) -> Iterator[int]:
    """Yield how many cuts each unbroken run of stretches takes."""
    lines = MultiLineString([(edge.start, edge.end) for edge in edges])
    for run in shapely.get_parts(shapely.line_merge(lines)):
        on_it = (edge for edge in edges if run.covers(LineString([edge.start, edge.end])))
        yield max(len({edge.side for edge in on_it if _is_taper(edge, piece)}), 1)


def _is_taper(edge: PieceEdge, piece: Piece) -> bool:
    rise, run = abs(edge.end[1] - edge.start[1]), abs(edge.end[0] - edge.start[0])
    upright = edge.side in {"left", "right"}
    along, askew = (rise, run) if upright else (run, rise)
    return askew > MARK and along > piece.size[upright] / 2
