"""A piece as it is marked on what the cuts right through have left of its module."""

from dataclasses import dataclass, replace

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.cutting.edge_marks import along, off
from gaugerod.core.cutting.marks import OPPOSITE
from gaugerod.core.cutting.pieces import Mark, Piece, Placed, Stock
from gaugerod.core.job.fields import Side


def blank_of(piece: Piece, placed: Placed) -> Box | None:
    """Return the part of the module that a piece is marked on, in the piece's own frame.

    Parameters
    ----------
    piece
        The piece. [mm]
    placed
        Where it lies in its module. [mm]

    Returns
    -------
    Box or None
        The part; nothing where that is the whole module. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> piece, blank = sample_pieces()[0], Box(left=0.0, bottom=0.0, right=160.0, top=300.0)
    >>> placed = Placed(tag=piece.tag, at=(0.0, 0.0), size=piece.size, blank=blank)
    >>> piece.within.left, blank_of(piece, placed).left
    (464.0, 464.0)
    """
    blank, own = placed.blank, piece.within
    if blank is None:
        return None
    (x, y), (width, height) = placed.at, placed.size
    if placed.turned:
        return Box(
            left=own.left + x + width - blank.right,
            bottom=own.bottom + y + height - blank.top,
            right=own.left + x + width - blank.left,
            top=own.bottom + y + height - blank.bottom,
        )
    return Box(
        left=own.left + blank.left - x,
        bottom=own.bottom + blank.bottom - y,
        right=own.left + blank.right - x,
        top=own.bottom + blank.top - y,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBlank:
    """A piece with the marks that are made on its part of the module.

    `bare` are the sides of pairs that offer nothing to measure from: left and right, bottom and
    top. Marks there still start from edges of the module that the part has lost.
    """

    piece: Piece
    bare: tuple[Side, ...]


def on_blank(piece: Piece, placed: Placed, stock: Stock) -> OnBlank:
    """Return a piece with its marks as they are made on its part of the module.

    Parameters
    ----------
    piece
        The piece, its marks read on a whole module. [mm]
    placed
        Where it lies in its module, or in an offcut. [mm]
    stock
        That module or offcut, with the factory edges it has. [mm]

    Returns
    -------
    OnBlank
        The same piece, and where a first edge is to be cut. [mm]

    Notes
    -----
    Where the piece keeps no edge, a factory edge that the part still has is measured from, if
    the piece is cut at both sides or ends there.
    Widths are read at the bottom and the top of the part: a taper is a straight line, so its
    width there is in proportion. Checks of holes run to the part's own edges, so that hole and
    check sum to its size. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> piece = sample_pieces()[0]
    >>> module = Stock(id="M-1", source="module", product="sample", size=piece.face, keeps=(),
    ...     lot="", pieces=(), offcuts=())
    >>> on_blank(piece, Placed(tag=piece.tag, at=(0.0, 0.0), size=piece.size), module).bare
    ()
    """
    blank = blank_of(piece, placed)
    if blank is None:
        return OnBlank(piece=piece, bare=())
    standing = _standing(placed.blank or blank, stock, turned=placed.turned)
    sawn = {edge.side for edge in piece.edges if edge.kind == "cut"}
    sawn -= {edge.side for edge in piece.edges if edge.kind != "cut"}
    starts: dict[Side, Side] = {}
    bare: list[Side] = []
    for pair in _PAIRS:
        if set(pair) & set(piece.keeps):
            continue
        found = [side for side in pair if side in standing]
        # An edge that is only bared lies on the module's own, and ends the piece there.
        ended = [side for side in found if _at(piece.within, blank, side)]
        if found and all(side in sawn or side in ended for side in pair):
            starts |= dict.fromkeys(pair, found[0])
        else:
            bare += pair
    level = piece.within if "bottom" in bare else blank
    ends = {"bottom": level.bottom, "top": level.top}
    marks = tuple(
        _on_part(_read_at(mark, ends, piece), blank, starts, bare, piece) for mark in piece.marks
    )
    return OnBlank(piece=replace(piece, marks=marks), bare=tuple(bare))


_PAIRS: tuple[tuple[Side, Side], ...] = (("left", "right"), ("bottom", "top"))


def _at(box: Box, blank: Box, side: Side) -> bool:
    """Tell whether a box ends with its part of the module at a side."""
    ends = {
        "left": (box.left, blank.left),
        "right": (box.right, blank.right),
        "bottom": (box.bottom, blank.bottom),
        "top": (box.top, blank.top),
    }[side]
    return abs(ends[0] - ends[1]) < SNAP


def _standing(blank: Box, stock: Stock, *, turned: bool) -> set[Side]:
    """Return the sides of its part of the module that are the factory's, as the piece lies."""
    width, height = stock.size
    reach: dict[Side, float] = {
        "left": blank.left,
        "right": width - blank.right,
        "bottom": blank.bottom,
        "top": height - blank.top,
    }
    found = {side for side in stock.keeps if reach[side] < SNAP}
    return {OPPOSITE[side] for side in found} if turned else found


def _on_part(
    mark: Mark, blank: Box, starts: dict[Side, Side], bare: list[Side], piece: Piece
) -> Mark:
    """Return a mark measured from its part of the module, if that has an edge for it."""
    check = mark.what == "check"
    if mark.start in bare or not (check or mark.start in starts):
        return mark
    start = starts.get(mark.start, mark.start)
    if check and mark.start in starts:
        start = OPPOSITE[start]
    face = Box(left=0.0, bottom=0.0, right=piece.face[0], top=piece.face[1])
    at = along(mark.start, mark.value, face)
    return replace(mark, start=start, value=off(start, at, blank))


def _read_at(mark: Mark, ends: dict[str, float], piece: Piece) -> Mark:
    """Return a width read at the height given for its end; any other mark as it is."""
    if mark.what not in ends:
        return mark
    low, high = (
        next(
            m.value
            for m in piece.marks
            if (m.what, m.start, m.detail) == (what, mark.start, mark.detail)
        )
        for what in ("bottom", "top")
    )
    return replace(mark, value=low + (high - low) * ends[mark.what] / piece.face[1])
