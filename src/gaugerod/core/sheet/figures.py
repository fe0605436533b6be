"""The figures of a cut card: each mark rounded once, the way that lets the piece fit."""

from gaugerod.core.base.lengths import Display, round_length
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.chain import bare_length

_OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}
STRAIGHT = frozenset({"bottom", "top", "left", "right"})
SLANTED = frozenset({"along bottom", "along top", "along left", "along right"})
"""Where a cut on the slant meets an edge of the module."""
POINTS = frozenset({"corner", "scribe"})
"""Points of cuts that are joined point by point."""
BITES = frozenset({"notch", "u-cut"})
"""Inner corners of what comes out of a corner or a side."""


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
    measured from gives what comes off, and is rounded up for the same reason. A notch is
    rounded the way that takes more out. Points and centres of holes are places and are rounded
    to the nearest step. A check is what the figure of its hole leaves of the whole, so that the
    two sum to the whole.
    Source: own design, after common practice.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import IMPERIAL
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> cut = Mark(what="bottom", start="right", value=225.1, detail="left")
    >>> figure(cut, sample_pieces()[0], IMPERIAL)
    '8 13/16"'
    """
    if mark.what in STRAIGHT | SLANTED | BITES:
        waste = mark.start in mark.detail.split() or _is_far(mark, piece)
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


def _is_far(mark: Mark, piece: Piece) -> bool:
    """Tell whether a mark is the far one of the two sides of a U: what comes out lies before it."""
    pair = [m.value for m in piece.marks if _key(m) == _key(mark)]
    return mark.what == "u-cut" and min(pair) < mark.value


def _key(mark: Mark) -> tuple[str, Side, str]:
    return mark.what, mark.start, mark.detail
