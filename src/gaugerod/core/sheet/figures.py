"""The figures of a cut card: each mark rounded once, the way that lets the piece fit."""

from gaugerod.core.base.lengths import Display, round_length
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.chain import bare_length

_OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}
STRAIGHT = frozenset({"bottom", "top", "left", "right"})
SLANTED = frozenset({"along bottom", "along top", "along left", "along right"})
"""Where a cut on the slant meets an edge of the module."""


def figure(mark: Mark, piece: Piece, display: Display) -> str:
    """Write a mark as card and picture show it.

    Parameters
    ----------
    mark
        The mark. [mm]
    piece
        The piece it is for.
    display
        The step that can be marked.

    Returns
    -------
    str
        Its figure.

    Notes
    -----
    A straight cut gives the size of the piece and is rounded down: a piece that is less than
    a step small goes in, and its joint takes up the rest. A cut on the side that it is
    measured from gives what comes off, and is rounded up for the same reason. Corners of
    notches and centres of holes are places and are rounded to the nearest step. A check is
    what the figure of its hole leaves of the whole, so that the two sum to the whole.
    Source: own design, after common practice.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import IMPERIAL
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> cut = Mark(what="bottom", start="right", value=225.1, detail="left")
    >>> figure(cut, sample_pieces()[0], IMPERIAL)
    '8 13/16"'
    """
    if mark.what in STRAIGHT | SLANTED:
        waste = mark.detail == mark.start
        return bare_length(mark.value, display, rounding="up" if waste else "down")
    if mark.what == "check":
        across = _OPPOSITE[mark.start]
        hole = next(
            other.value
            for other in piece.marks
            if (other.what, other.detail, other.start) == ("hole", mark.detail, across)
        )
        return bare_length(hole + mark.value - round_length(hole, display), display)
    return bare_length(mark.value, display)
