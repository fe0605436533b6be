"""Marks: what to measure on the module, face up, always from a kept factory edge."""

from collections.abc import Iterator, Sequence

from gaugerod.core.base.geometry import SNAP, Point, Region
from gaugerod.core.cutting.pieces import Mark, PieceEdge, PieceHole
from gaugerod.core.job.fields import Side

_OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}


def marks_of(
    region: Region,
    edges: Sequence[PieceEdge],
    holes: Sequence[PieceHole],
    keeps: Sequence[Side],
    face: tuple[float, float],
) -> tuple[Mark, ...]:
    """Return the measurements that make a piece from its module.

    Parameters
    ----------
    region
        The piece in the module's frame. [mm]
    edges
        Its outline. [mm]
    holes
        Its holes. [mm]
    keeps
        Factory edges that the piece keeps.
    face
        Width and height of the module. [mm]

    Returns
    -------
    tuple of Mark
        Widths and heights of straight cuts by two named measurements, cuts on the slant by one
        along each of the two edges that they meet, corners of notches by two offsets, hole
        centres from two edges and, as a check, from the two opposite.

    Notes
    -----
    A straight cut is read at both of its ends, so a taper has two measurements. Each
    length starts from a kept edge, or where none is kept from the module's own edge on
    that side before it is cut. Source: common practice, no source.

    Examples
    --------
    A piece 400 mm wide that keeps its right edge:

    >>> ring = ((200.0, 0.0), (600.0, 0.0), (600.0, 300.0), (200.0, 300.0))
    >>> edge = PieceEdge(side="left", kind="cut", start=(200.0, 300.0), end=(200.0, 0.0))
    >>> [(m.what, m.start, m.value) for m in
    ...     marks_of(Region(rings=(ring,)), (edge,), (), ("right", "top"), (600.0, 300.0))]
    [('bottom', 'right', 400.0), ('top', 'right', 400.0)]
    """
    across: Side = "right" if "right" in keeps and "left" not in keeps else "left"
    up: Side = "top" if "top" in keeps and "bottom" not in keeps else "bottom"
    found: list[Mark] = []
    cuts = [edge for edge in edges if edge.kind == "cut"]
    slanted = [edge for edge in cuts if _slants(edge, face)]
    others = [edge for edge in cuts if edge not in slanted]
    # A steep cut that ends inside the module can't be read at an edge of it.
    plain = len(region.rings[0]) == _QUADRILATERAL
    if plain and not any(_ends_inside(edge, face) for edge in others):
        for edge in others:
            found.extend(_straight(edge, across, up, face))
    else:
        found.extend(_corners(others, across, up, face))
    for edge in slanted:
        found.extend(_slanted(edge, across, up, face, keeps))
    for hole in holes:
        found.extend(_hole(hole, across, up, face))
    return tuple(found)


_QUADRILATERAL = 4
_UPRIGHT: frozenset[Side] = frozenset({"left", "right"})
_SLANT = 0.25
"""A cut whose run out of square is a larger share of its length is on the slant. [1]"""


def _from(side: Side, point: Point, face: tuple[float, float]) -> float:
    """Distance of a point from one edge of the module. [mm]."""
    x, y = point
    return {"left": x, "right": face[0] - x, "bottom": y, "top": face[1] - y}[side]


def _straight(edge: PieceEdge, across: Side, up: Side, face: tuple[float, float]) -> Iterator[Mark]:
    upright = edge.side in _UPRIGHT
    if _is_steep(edge):
        # At 45 degrees either side is as near: read it at the two edges that it meets.
        upright = not all(_UPRIGHT & {*_touched(end, face)} for end in (edge.start, edge.end))
    axis = 1 if upright else 0
    low, high = sorted((edge.start, edge.end), key=lambda point: point[axis])
    names = ("bottom", "top") if upright else ("left", "right")
    start = across if upright else up
    waste = _waste(edge)[0 if upright else 1]
    for name, point in zip(names, (low, high), strict=True):
        yield Mark(what=name, start=start, value=_from(start, point, face), detail=waste)


def _touched(point: Point, face: tuple[float, float]) -> list[Side]:
    """Return the edges of the module that a point lies on."""
    return [side for side in _OPPOSITE if abs(_from(side, point, face)) <= SNAP]


def _is_steep(edge: PieceEdge) -> bool:
    (x0, y0), (x1, y1) = edge.start, edge.end
    low, high = sorted((abs(x1 - x0), abs(y1 - y0)))
    return low > _SLANT * high


def _ends_inside(edge: PieceEdge, face: tuple[float, float]) -> bool:
    """Tell whether a cut on the slant has an end that is on no edge of the module."""
    return _is_steep(edge) and not all(_touched(end, face) for end in (edge.start, edge.end))


def _slants(edge: PieceEdge, face: tuple[float, float]) -> bool:
    """Tell whether a cut runs on the slant, from an upright edge of the module to a level one."""
    ends = [{side in _UPRIGHT for side in _touched(p, face)} for p in (edge.start, edge.end)]
    meets = (True in ends[0] and False in ends[1]) or (False in ends[0] and True in ends[1])
    return _is_steep(edge) and meets


def _waste(edge: PieceEdge) -> tuple[Side, Side]:
    """Return on which side of a cut the waste lies: across, and up.

    Outer rings run anticlockwise, so that it lies to the right of the way along.
    """
    (x0, y0), (x1, y1) = edge.start, edge.end
    return "right" if y1 > y0 else "left", "bottom" if x1 > x0 else "top"


def _slanted(
    edge: PieceEdge, across: Side, up: Side, face: tuple[float, float], keeps: Sequence[Side]
) -> Iterator[Mark]:
    """Yield where a cut on the slant meets an upright and a level edge of the module."""
    across_waste, up_waste = _waste(edge)
    ends = [(p, side) for p in (edge.start, edge.end) for side in _touched(p, face)]
    # From corner to corner of the module each end lies on two edges: one of them is kept.
    ends.sort(key=lambda end: end[1] not in keeps)
    for upright in (False, True):
        point, side = next(end for end in ends if (end[1] in _UPRIGHT) == upright)
        start = up if upright else across
        value = _from(start, point, face)
        yield Mark(
            what=f"along {side}",
            start=start,
            value=value,
            detail=up_waste if upright else across_waste,
        )


def _corners(
    cuts: Sequence[PieceEdge], across: Side, up: Side, face: tuple[float, float]
) -> Iterator[Mark]:
    """Yield two offsets for every corner that a cut makes."""
    points = dict.fromkeys(point for edge in cuts for point in (edge.start, edge.end))
    for number, point in enumerate(points, start=1):
        for start in (across, up):
            yield Mark(
                what="corner", start=start, value=_from(start, point, face), detail=str(number)
            )


def _hole(hole: PieceHole, across: Side, up: Side, face: tuple[float, float]) -> Iterator[Mark]:
    centre = (hole.x, hole.y)
    for what, sides in (("hole", (across, up)), ("check", (_OPPOSITE[across], _OPPOSITE[up]))):
        for side in sides:
            yield Mark(what=what, start=side, value=_from(side, centre, face), detail=hole.name)
