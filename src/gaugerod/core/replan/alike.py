"""When two pieces are one and the same to who cuts them."""

import shapely

from gaugerod.core.base.geometry import shape_of
from gaugerod.core.cutting.frame import seated
from gaugerod.core.cutting.pieces import Piece

HAIR = 25.4 / 32
"""No mark is moved for less than half the step that marks are rounded to. [mm]"""


def alike(one: Piece, other: Piece) -> bool:
    """Tell whether two pieces are cut alike, wherever they hang.

    Parameters
    ----------
    one, other
        The pieces. [mm]

    Returns
    -------
    bool
        Whether no point of one's outline lies farther than `HAIR` from the other's, and they
        keep the same edges.

    Notes
    -----
    Source: Hausdorff distance of the outlines in the frame of the module; marks go by
    sixteenths of an inch or by millimetres.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> alike(sample_pieces()[0], sample_pieces()[0])
    True
    """
    if (one.keeps, len(one.region.rings)) != (other.keeps, len(other.region.rings)):
        return False
    return differs_by(one, other) <= HAIR


def differs_by(one: Piece, other: Piece) -> float:
    """Return how far the outlines of two pieces lie apart at most, as they are cut.

    Parameters
    ----------
    one, other
        The pieces. [mm]

    Returns
    -------
    float
        The distance, >= 0. [mm]

    Notes
    -----
    Source: Hausdorff distance.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> differs_by(sample_pieces()[0], sample_pieces()[0])
    0.0
    """
    first, second = (_as_cut(piece).boundary for piece in (one, other))
    return float(shapely.hausdorff_distance(first, second))


def _as_cut(piece: Piece) -> shapely.Polygon:
    frame = seated(piece.cell, piece.face, piece.turn + piece.tilt)
    return shape_of(frame.region_to_module(piece.region))
