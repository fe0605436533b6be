"""How small a piece is where it is smallest, by chords across it."""

from collections.abc import Iterator
from itertools import pairwise

import shapely
from shapely.geometry import LineString, Polygon

CLOSE = 0.05
"""How near a corner a chord is taken. [mm]"""
SLOPE = 1 / 12
"""An edge steeper than this, and not plumb, runs along a sloping ceiling. [1]"""


def narrowest(piece: Polygon) -> float:
    """The narrowest chord of a piece along the level or the plumb; under a slope its box. [mm]."""
    left, bottom, right, top = piece.bounds
    steep = (
        abs(y1 - y0) > SLOPE * abs(x1 - x0) and abs(x1 - x0) > 1
        for (x0, y0), (x1, y1) in pairwise(piece.exterior.coords)
    )
    if any(steep):
        return float(min(right - left, top - bottom))
    return min(_chords(piece))


def _chords(piece: Polygon) -> Iterator[float]:
    for turned in (piece, shapely.transform(piece, lambda at: at[:, ::-1])):
        left, _, right, _ = turned.bounds
        heights = sorted(y for _, y in turned.exterior.coords)
        for low, high in pairwise(heights):
            # A level edge out of level by a hair is no corner.
            for y in (low + CLOSE, high - CLOSE) if high - low > 1 else ():
                cut = LineString([(left - 1, y), (right + 1, y)]).intersection(turned)
                yield from (part.length for part in getattr(cut, "geoms", [cut]))
