"""Marks for a piece cut from a rest that may lack the module's edge they would start from."""

from dataclasses import replace

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.corners import along, face_of
from gaugerod.core.sheet.figures import STRAIGHT

_AXES: tuple[tuple[Side, Side], ...] = (("left", "right"), ("bottom", "top"))


def from_own_edges(piece: Piece) -> tuple[Piece, tuple[Side, ...]]:
    """Return a piece with its marks measured from its own edges, and the sides to cut first.

    Where a piece keeps a factory edge the rest has it too, and nothing changes. Across the
    others a first cut is made, square where the piece is, and all is measured from that.
    """
    marks, first = piece.marks, []
    for near, far in _AXES:
        on_axis = [mark for mark in marks if mark.start in {near, far}]
        if {near, far} & set(piece.keeps) or not on_axis:
            continue
        sizes, start = _sizes(on_axis, near, far, face_of(piece))
        others = tuple(mark for mark in marks if mark not in on_axis)
        points = tuple(_moved(m, piece) for m in on_axis if m.what not in STRAIGHT)
        marks = (*others, *sizes, *points)
        first.append(start)
    return replace(piece, marks=marks), tuple(first)


def _sizes(marks: list[Mark], near: Side, far: Side, face: Box) -> tuple[tuple[Mark, ...], Side]:
    """Return the size at each end of the straight cuts, and the side it is measured from."""
    cuts = {(m.detail, m.what): along(m.start, m.value, face) for m in marks if m.what in STRAIGHT}
    ends = tuple(dict.fromkeys(what for _, what in cuts))
    low = 0.0
    high = face.width if near == "left" else face.height
    nears = [cuts.get((near, end), low) for end in ends]
    fars = [cuts.get((far, end), high) for end in ends]
    square = not nears or max(nears) - min(nears) < SNAP
    start, other = (near, far) if square else (far, near)
    sizes = tuple(
        Mark(what=end, start=start, value=b - a, detail=other)
        for end, a, b in zip(ends, nears, fars, strict=True)
    )
    return sizes, start


def _moved(mark: Mark, piece: Piece) -> Mark:
    """Return a corner or a centre measured from the piece's edge instead of the module's."""
    face, within = face_of(piece), piece.within
    inset = {
        "left": within.left,
        "right": face.right - within.right,
        "bottom": within.bottom,
        "top": face.top - within.top,
    }
    return replace(mark, value=mark.value - inset[mark.start])
