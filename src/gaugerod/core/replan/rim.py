"""The end of a wall moved to where it was found."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from gaugerod.core.base.geometry import Edge, Point

FAR = 1e5
"""Beyond any wall. [mm]"""


def moved_edge(edge: Edge, off: Sequence[Point]) -> Edge:
    """Return an edge moved by what was found at some heights.

    Parameters
    ----------
    edge
        The edge as surveyed. [mm]
    off
        Heights, ascending, and how far to the right the edge was found off there; at least
        one. [mm]

    Returns
    -------
    Edge
        The edge through what was found: between two heights in proportion, beyond the
        outermost moved as there. [mm]

    Notes
    -----
    What was found last counts most for what comes next: the courses above the highest height
    are moved as it is. Source: own design.

    Examples
    --------
    >>> edge = Edge(offset=1500.0, slope=0.01)
    >>> moved_edge(edge, [(300.0, 4.0)]).at(900.0)
    1513.0
    >>> two = moved_edge(edge, [(300.0, 4.0), (500.0, 2.0)])
    >>> [round(two.at(y) - edge.at(y), 6) for y in (0.0, 300.0, 400.0, 900.0)]
    [4.0, 4.0, 3.0, 2.0]
    """
    heights, moves = zip(*off, strict=True)
    last = moves[-1]
    ys = sorted({-FAR, *heights, *(y for y, _ in edge.bow)})
    plain = replace(edge, bow=())
    bow = [(y, edge.at(y) - plain.at(y) + float(np.interp(y, heights, moves)) - last) for y in ys]
    return Edge(offset=edge.offset + last, slope=edge.slope, bow=tuple(bow))
