"""The outline of a field taken apart: seat, ends and tops."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias

import shapely
from shapely.geometry import LineString, MultiLineString

from gaugerod.core.base.geometry import Point, Ring
from gaugerod.core.job.fields import Side

Segment: TypeAlias = tuple[Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldEdges:
    """An outline by what lies behind it. [mm].

    `left` and `right` are the lengths of the two ends, `left_line` and `right_line` their
    points from the bottom up; `seat` is the length along the deck,
    with the risers of its ledges and steps; `tops` are the stretches that look up.
    """

    left: float
    right: float
    seat: float
    tops: tuple[Segment, ...]
    left_line: tuple[Point, ...]
    right_line: tuple[Point, ...]


def field_edges(ring: Ring) -> FieldEdges:
    """Take the outline of a field apart.

    Parameters
    ----------
    ring
        The outline, anticlockwise, unclosed. [mm]

    Returns
    -------
    FieldEdges
        Lengths of ends and seat, and the stretches at the top. [mm]

    Notes
    -----
    A stretch steeper than 45 deg looks left or right, another up or down. The ends are the
    unbroken runs that reach furthest out; what else looks sideways is the riser of a step in
    the deck. Source: own derivation.

    Examples
    --------
    A wall 1500 wide whose deck steps up by 100 near its right end.

    >>> ring = ((0, 0), (1200, 0), (1200, 100), (1500, 100), (1500, 1800), (0, 1800))
    >>> edges = field_edges(ring)
    >>> edges.left, edges.right, edges.seat
    (1800.0, 1700.0, 1600.0)
    """
    facing: dict[Side, list[Segment]] = {"left": [], "right": [], "bottom": [], "top": []}
    for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
        facing[_side((start, end))].append((start, end))
    left = _outermost(facing["left"], lambda line: -line.bounds[0])
    right = _outermost(facing["right"], lambda line: line.bounds[2])
    low_and_risers = (*facing["bottom"], *facing["left"], *facing["right"])
    return FieldEdges(
        left=left.length,
        right=right.length,
        seat=sum(LineString(segment).length for segment in low_and_risers)
        - left.length
        - right.length,
        tops=tuple(facing["top"]),
        left_line=_upwards(left),
        right_line=_upwards(right),
    )


def _side(segment: Segment) -> Side:
    (x0, y0), (x1, y1) = segment
    if abs(y1 - y0) > abs(x1 - x0):
        return "right" if y1 > y0 else "left"
    return "bottom" if x1 > x0 else "top"


def _outermost(segments: Iterable[Segment], reach: Callable[[LineString], float]) -> LineString:
    runs = shapely.get_parts(shapely.line_merge(MultiLineString(list(segments))))
    # Under a sloping ceiling a field may end in a point, and then has no run there.
    return max(runs, key=lambda run: (reach(run), run.length), default=LineString())


def _upwards(run: LineString) -> tuple[Point, ...]:
    points = [(float(x), float(y)) for x, y in run.coords]
    return tuple(sorted(points, key=lambda point: point[1]))
