"""Marks for a piece cut from a rest that may lack the module's edge they would start from."""

from collections.abc import Collection
from dataclasses import replace

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.cutting.edge_marks import along, off
from gaugerod.core.cutting.marks import OPPOSITE
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.corners import face_of
from gaugerod.core.sheet.figures import STRAIGHT

_AXES: tuple[tuple[Side, Side], ...] = (("left", "right"), ("bottom", "top"))


def from_own_edges(piece: Piece, bare: Collection[Side]) -> tuple[Piece, tuple[Side, ...]]:
    """Return a piece with its marks measured from its own edges, and the sides to cut first.

    Across the `bare` sides a first cut is made, square where the piece is, and all is measured
    from that.
    """
    marks, first = piece.marks, []
    for near, far in _AXES:
        on_axis = [mark for mark in marks if mark.start in {near, far}]
        if near not in bare or not on_axis:
            continue
        sizes, start = _sizes(on_axis, near, far, piece)
        across = tuple(m for m in marks if m.what in STRAIGHT and m not in on_axis)
        points = tuple(
            _moved(m, start, piece) if m in on_axis else m for m in marks if m.what not in STRAIGHT
        )
        # Length before height.
        marks = (*sizes, *across, *points) if near == "left" else (*across, *sizes, *points)
        first.append(start)
    return replace(piece, marks=marks), tuple(first)


def _sizes(marks: list[Mark], near: Side, far: Side, piece: Piece) -> tuple[tuple[Mark, ...], Side]:
    """Return the size at each end of the straight cuts, and the side it is measured from.

    Where neither side is square, a first cut is made beside the near one, and both are
    measured from that.
    """
    face, within = face_of(piece), piece.within
    cuts = {(m.detail, m.what): along(m.start, m.value, face) for m in marks if m.what in STRAIGHT}
    ends = tuple(dict.fromkeys(what for _, what in cuts))
    sawn = {edge.side for edge in piece.edges if edge.kind == "cut"}
    sawn -= {edge.side for edge in piece.edges if edge.kind != "cut"}

    def line(side: Side, edge: float) -> tuple[float, ...] | None:
        """Where a side lies at each end; nothing where it is cut point by point. [mm]."""
        if any(named == side for named, _ in cuts):
            return tuple(cuts[side, end] for end in ends)
        return None if side in sawn else (edge,) * len(ends)

    nears = line(near, 0.0)
    fars = line(far, face.width if near == "left" else face.height)
    found: list[tuple[Side, tuple[float, ...]]] = []
    start = near
    if _is_square(nears) or _is_square(fars):
        start, other = (near, far) if _is_square(nears) else (far, near)
        if nears is not None and fars is not None:
            found.append((other, tuple(b - a for a, b in zip(nears, fars, strict=True))))
    else:
        origin = within.left if near == "left" else within.bottom
        lines: tuple[tuple[Side, tuple[float, ...] | None], ...] = ((near, nears), (far, fars))
        found += [(side, tuple(a - origin for a in at)) for side, at in lines if at is not None]
    sizes = tuple(
        Mark(what=end, start=start, value=value, detail=side)
        for side, values in found
        for end, value in zip(ends, values, strict=True)
    )
    return sizes, start


def _is_square(line: tuple[float, ...] | None) -> bool:
    return line is not None and (not line or max(line) - min(line) < SNAP)


def _moved(mark: Mark, start: Side, piece: Piece) -> Mark:
    """Return a corner or a centre measured from the piece's edge that is cut first.

    A check is measured from the edge opposite.
    """
    face, within = face_of(piece), piece.within
    side = OPPOSITE[start] if mark.what == "check" else start
    at = along(mark.start, mark.value, face)
    return replace(mark, start=side, value=off(side, at, within))
