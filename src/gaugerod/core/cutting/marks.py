"""Marks: what to measure on the module, face up, always from a kept factory edge."""

from collections.abc import Iterator, Sequence

from gaugerod.core.base.geometry import Point, Region
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
        Widths and heights of straight cuts by two named measurements, corners of notches by
        two offsets, hole centres from two edges and, as a check, from the two opposite.

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
    plain = len(region.rings[0]) == _QUADRILATERAL
    for edge in edges:
        if edge.kind == "cut":
            found.extend(_straight(edge, across, up, face) if plain else ())
    if not plain:
        found.extend(_corners(edges, across, up, face))
    for hole in holes:
        found.extend(_hole(hole, across, up, face))
    return tuple(found)


_QUADRILATERAL = 4


def _from(side: Side, point: Point, face: tuple[float, float]) -> float:
    """Distance of a point from one edge of the module. [mm]."""
    x, y = point
    return {"left": x, "right": face[0] - x, "bottom": y, "top": face[1] - y}[side]


def _straight(edge: PieceEdge, across: Side, up: Side, face: tuple[float, float]) -> Iterator[Mark]:
    upright = edge.side in {"left", "right"}
    axis = 1 if upright else 0
    low, high = sorted((edge.start, edge.end), key=lambda point: point[axis])
    names = ("bottom", "top") if upright else ("left", "right")
    start = across if upright else up
    for name, point in zip(names, (low, high), strict=True):
        yield Mark(what=name, start=start, value=_from(start, point, face), detail=edge.side)


def _corners(
    edges: Sequence[PieceEdge], across: Side, up: Side, face: tuple[float, float]
) -> Iterator[Mark]:
    """Yield two offsets for every corner that a cut makes."""
    points = dict.fromkeys(
        point for edge in edges if edge.kind == "cut" for point in (edge.start, edge.end)
    )
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
