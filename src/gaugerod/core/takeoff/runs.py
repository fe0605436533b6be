"""Runs along the edges of the fields: what gets a trim, and what gets sealed."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import Literal

import numpy as np
from shapely.geometry import LineString, box

from gaugerod.core.base.geometry import Point, Ring, shape_of
from gaugerod.core.job.document import Corner
from gaugerod.core.job.materials import System, Trim, Use
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.survey.walls import FittedWall
from gaugerod.core.takeoff.field_edges import FieldEdges, Segment, field_edges
from gaugerod.core.takeoff.keep_off import beside
from gaugerod.core.takeoff.order import End, TrimRun

CLOSE = 1.0
"""A top this close under the ceiling's gap ends at the ceiling. [mm]"""

SEALED = ("butts", "trim", "laps")
"""Ends that are closed with sealant along their whole length."""

ROUND: tuple[Meeting, ...] = ("laps", "stops", "outside trim")
"""Ends at an outside corner: the top runs on round it."""

FRAME: frozenset[Use] = frozenset({"edge", "top"})
"""Trims that meet in a mitre at an open upper corner, if both are mitred at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeRuns:
    """What runs along the edges of one field. [mm].

    `edges` are its open ends, `tops` its tops below the ceiling, `corners` its ends in the
    trim of an inside corner, `outsides` in that of an outside corner; `sealed` is the length
    of all that is closed with sealant.
    """

    edges: tuple[TrimRun, ...]
    tops: tuple[TrimRun, ...]
    corners: tuple[TrimRun, ...]
    sealed: float
    outsides: tuple[TrimRun, ...] = ()


def edge_runs(field: SetField, wall: FittedWall, system: System) -> EdgeRuns:
    """Find what runs along the edges of one field.

    Parameters
    ----------
    field
        The field. [mm]
    wall
        The wall that it lies on. [mm]
    system
        The material, for its gaps. [mm]

    Returns
    -------
    EdgeRuns
        Runs of trim, and the length to seal. [mm]

    Notes
    -----
    Sealed: the deck with its steps, the end that butts, laps or stands in a trim of an
    inside corner, the rims of openings, the top where it meets the ceiling. Not sealed: an
    open end, an end under an outside trim, a top on a course line, and the end that runs
    behind or stops, which its neighbour closes. Source: own derivation; soft joints at
    every change of plane after TCNA EJ171 as quoted by *TileLetter*, 2018. Mitred, where the
    material says what a mitre adds: the top and the edge trim that meet at an open upper
    corner, and a top at an outside corner. Common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.setout.field import set_field
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall, system = fit_walls(sample_job()).walls[0], sample_system()
    >>> field = set_field(wall, ("open", "runs behind"), system, top=1000.0)
    >>> runs = edge_runs(field, wall, system)
    >>> [run.place for run in (*runs.edges, *runs.tops)]
    ['left', 'top']
    """
    outline = field_edges(field.gross.rings[0])
    open_tops = [top for top in outline.tops if _is_open(top, wall, system)]
    ceilings = [top for top in outline.tops if top not in open_tops]
    on = _On(field=field, outline=outline, wall=wall, system=system, open_tops=open_tops)
    return EdgeRuns(
        edges=tuple(_ends(on, "open", "edge")),
        tops=tuple(_top(on, top) for top in open_tops),
        corners=tuple(_ends(on, "trim", "inside corner")),
        outsides=tuple(_ends(on, "outside trim", "outside corner")),
        sealed=outline.seat
        + (outline.left if field.left in SEALED else 0.0)
        + (outline.right if field.right in SEALED else 0.0)
        + sum(LineString(top).length for top in ceilings)
        + sum(_rims(field, wall, system)),
    )


def trimmed(field: SetField, wall: FittedWall, system: System) -> tuple[tuple[Trim, Ring], ...]:
    """Return the trims of one wall, each with the line along which it runs.

    Parameters
    ----------
    field
        The field. [mm]
    wall
        The wall that it lies on. [mm]
    system
        The material, for its trims and gaps. [mm]

    Returns
    -------
    tuple of (Trim, Ring)
        Lines on the edge of the field: ends from the bottom up, then tops. [mm]

    Notes
    -----
    A corner trim stands on both walls of its corner. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.setout.field import set_field
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall, system = fit_walls(sample_job()).walls[0], sample_system()
    >>> field = set_field(wall, ("open", "runs behind"), system, top=1000.0)
    >>> [trim.use for trim, _ in trimmed(field, wall, system)]
    ['edge', 'top']
    """
    trims = {trim.use: trim for trim in system.trim}
    outline = field_edges(field.gross.rings[0])
    ends = ((field.left, outline.left_line), (field.right, outline.right_line))
    lines = [(_AT_END[met], line) for met, line in ends if line and met in _AT_END]
    lines += [("top", top) for top in outline.tops if _is_open(top, wall, system)]
    return tuple((trims[use], line) for use, line in lines if use in trims)


_AT_END: dict[Meeting, Use] = {
    "open": "edge",
    "trim": "inside corner",
    "outside trim": "outside corner",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _On:
    """A field, and what its runs depend on. [mm]."""

    field: SetField
    outline: FieldEdges
    wall: FittedWall
    system: System
    open_tops: list[Segment]


def _ends(on: _On, met: Meeting, use: Use) -> Iterator[TrimRun]:
    """Yield the runs of the ends that meet something, mitred where the top's trim turns down."""
    mitred: tuple[End, ...] = ("end",) if use == "edge" and _mitred(on.system) >= FRAME else ()
    tops = [point for top in on.open_tops for point in top]
    sides: tuple[tuple[Literal["left", "right"], Meeting, Ring], ...] = (
        ("left", on.field.left, on.outline.left_line),
        ("right", on.field.right, on.outline.right_line),
    )
    for place, meeting, line in sides:
        if meeting == met:
            corner = mitred if any(_meet(point, line[-1:]) for point in tops) else ()
            yield _run(on, LineString(line), use, place=place, mitred=corner)


def _top(on: _On, top: Segment) -> TrimRun:
    """Return the run of one open top, mitred where it turns down or round a corner."""
    uses = _mitred(on.system)
    turns = (*(ROUND if "top" in uses else ()), *(("open",) if uses >= FRAME else ()))
    left, right = sorted(top)
    mitred: list[End] = []
    if on.field.left in turns and _meet(left, on.outline.left_line[-1:]):
        mitred.append("start")
    if on.field.right in turns and _meet(right, on.outline.right_line[-1:]):
        mitred.append("end")
    return _run(on, LineString((left, right)), "top", place="top", mitred=tuple(mitred))


def _mitred(system: System) -> set[Use]:
    return {trim.use for trim in system.trim if trim.mitre is not None}


def _meet(point: Point, ends: Ring) -> bool:
    return any(dist(point, end) < CLOSE for end in ends)


def _run(
    on: _On,
    line: LineString,
    use: Use,
    *,
    place: Literal["left", "right", "top"],
    mitred: tuple[End, ...],
) -> TrimRun:
    clear = max((t.no_joint_from_hole for t in on.system.trim if t.use == use), default=0.0)
    return TrimRun(
        wall=on.wall.name,
        place=place,
        length=line.length,
        mitred=mitred,
        keep_off=beside(line, on.wall, clear=clear),
    )


def _is_open(top: Segment, wall: FittedWall, system: System) -> bool:
    (x0, y0), (x1, y1) = top
    xs, ys = zip(*wall.ceiling, strict=True)
    ceiling = float(np.interp((x0 + x1) / 2, xs, ys))
    return (y0 + y1) / 2 < ceiling - system.gaps.ceiling - CLOSE


def _rims(field: SetField, wall: FittedWall, system: System) -> Iterator[float]:
    gross = shape_of(field.gross)
    for opening in wall.openings:
        gap = system.gaps.opening if opening.gap is None else opening.gap
        b = opening.box
        rim = box(b.left - gap, b.bottom - gap, b.right + gap, b.top + gap).exterior
        yield rim.intersection(gross).length


def corner_runs(runs: tuple[EdgeRuns, ...], corner: Corner = "inside") -> tuple[TrimRun, ...]:
    """Return the runs of corner trim, one for each corner.

    Parameters
    ----------
    runs
        What runs along the edges of each field, walls from left to right. [mm]
    corner
        Which corners.

    Returns
    -------
    tuple of TrimRun
        The longer of the two ends that share each trim. [mm]

    Notes
    -----
    Both walls of a corner stand in the one trim. Source: own derivation.

    Examples
    --------
    >>> def wall(name, *ends):
    ...     corners = tuple(TrimRun(wall=name, place=p, length=l) for p, l in ends)
    ...     return EdgeRuns(edges=(), tops=(), corners=corners, sealed=0.0)
    >>> both = (wall("L", ("right", 1800.0)), wall("B", ("left", 1803.0)))
    >>> [run.length for run in corner_runs(both)]
    [1803.0]
    """
    nobody = EdgeRuns(edges=(), tops=(), corners=(), sealed=0.0)
    shared = []
    for before, after in pairwise((nobody, *runs, nobody)):
        ends = [run for run in _cornered(before, corner) if run.place == "right"]
        ends += [run for run in _cornered(after, corner) if run.place == "left"]
        shared += sorted(ends, key=lambda run: run.length)[-1:]
    return tuple(shared)


def _cornered(runs: EdgeRuns, corner: Corner) -> tuple[TrimRun, ...]:
    return runs.corners if corner == "inside" else runs.outsides
