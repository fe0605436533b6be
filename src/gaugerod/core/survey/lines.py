"""The lines that a straightedge is laid along, and the surface under each."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

import numpy as np

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.limits import Held
from gaugerod.core.survey.mesh import Indices, Mesh
from gaugerod.core.survey.sag import Profile


class Line(NamedTuple):
    """A line in plan: a point of it, and its direction, of length 1. [mm, 1]."""

    start: Array
    along: Array


def profiles(
    mesh: Mesh, heights: Array, *, held: Held, openings: Sequence[Box]
) -> Iterator[tuple[Line, Profile]]:
    """Yield the surface along every line that a straightedge is laid on.

    Parameters
    ----------
    mesh
        The spots of the surface in plan.
    heights
        Height of the surface at each place of the mesh, out of the wall. [mm]
    held
        Level or plumb through every spot, or in any direction through every two spots.
    openings
        Windows and niches: there is no wall in them.

    Yields
    ------
    tuple of Line and Profile
        The line, and the heights where it meets spots, edges of triangles and openings. [mm]

    Notes
    -----
    Source: own derivation, plane geometry.

    Examples
    --------
    >>> from gaugerod.core.survey.mesh import mesh_of
    >>> from gaugerod.core.survey.spots import Spot
    >>> corners = [(0.0, 0.0), (600.0, 0.0), (0.0, 600.0), (600.0, 600.0)]
    >>> mesh = mesh_of([Spot(x=x, y=y, z=0.0, sigma=1.0) for x, y in corners])
    >>> found = profiles(mesh, np.zeros(5), held="any", openings=[])
    >>> [len(profile.t) for _, profile in found]
    [2, 2, 3, 3, 2, 2]
    """
    sides = np.concatenate([mesh.triangles[:, pair] for pair in ([0, 1], [1, 2], [2, 0])])
    edges = np.unique(np.sort(sides, axis=1), axis=0)
    for line in _lines(mesh.places[: mesh.spots], held):
        t, z = _crossed(mesh.places, heights, edges, line)
        spans = [span for box in openings if (span := _through(box, line))]
        ends = np.array([end for span in spans for end in span if t[0] < end < t[-1]])
        every = np.unique(np.concatenate([t, ends]))
        middles = (every[1:] + every[:-1]) / 2
        solid = np.ones(len(middles), dtype=np.bool_)
        for first, last in spans:
            solid &= (middles < first) | (middles > last)
        yield line, Profile(t=every, z=np.interp(every, t, z), solid=solid)


def _lines(plan: Array, held: Held) -> Iterator[Line]:
    if held != "any":
        along, across = (0, 1) if held == "level" else (1, 0)
        for place in np.unique(np.round(plan[:, across], 4)):  # SNAP has as many decimals
            yield Line(start=np.eye(2)[across] * place, along=np.eye(2)[along])
        return
    for first, second in combinations(range(len(plan)), 2):
        out = plan[second] - plan[first]
        line = Line(start=plan[first], along=out / np.hypot(*out))
        on_it = np.flatnonzero(np.abs(_off(plan, line)) <= SNAP)
        if tuple(on_it[:2]) == (first, second):  # else it came up before
            yield line


def _off(places: Array, line: Line) -> Array:
    out = places - line.start
    off: Array = out @ np.array([-line.along[1], line.along[0]])
    return off


def _crossed(places: Array, heights: Array, edges: Indices, line: Line) -> tuple[Array, Array]:
    """Stations and heights where a line meets the places and edges of a mesh."""
    off = _off(places, line)
    t = (places - line.start) @ line.along
    on_it = np.abs(off) <= SNAP
    side = np.where(on_it, 0.0, np.sign(off))
    i, j = edges[side[edges[:, 0]] * side[edges[:, 1]] < 0].T
    share = off[i] / (off[i] - off[j])
    stations = np.concatenate([t[on_it], t[i] + share * (t[j] - t[i])])
    met = np.concatenate([heights[on_it], heights[i] + share * (heights[j] - heights[i])])
    order = np.argsort(stations)
    apart = np.diff(stations[order], prepend=-np.inf) > SNAP
    return stations[order][apart], met[order][apart]


def _through(box: Box, line: Line) -> tuple[float, float] | None:
    """Where a line enters and leaves a box; none where it only touches or misses it."""
    low = np.array([box.left, box.bottom]) - line.start
    high = np.array([box.right, box.top]) - line.start
    first, last = -np.inf, np.inf
    for near, far, rate in zip(low, high, line.along, strict=True):
        if abs(rate) < _PARALLEL:
            if near >= -SNAP or far <= SNAP:
                return None
        else:
            first = max(first, min(near / rate, far / rate))
            last = min(last, max(near / rate, far / rate))
    return (float(first), float(last)) if last - first > SNAP else None


_PARALLEL = 1e-9
