"""What the rules measure at holes: the plate, the pipe, the depth, the nearest joint."""

from collections.abc import Iterator, Mapping
from math import ceil, inf
from types import MappingProxyType

import shapely

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.readings import RoughIn, Surface
from gaugerod.core.setout.layout import placed_pattern, top_of
from gaugerod.core.setout.pattern import Pattern
from gaugerod.core.survey.walls import FittedHole

ON_CENTRE = 1.0
"""A joint this near the centre of a hole runs through the centre: no mark is finer. [mm]"""


def _holes(facts: Facts) -> Iterator[tuple[str, str, FittedHole]]:
    """Every hole, with the name of its wall and the words for where it is."""
    for wall in facts.walls.walls:
        for hole in wall.holes:
            yield wall.name, f"{wall.name} {hole.name}", hole


def _plate_cover(facts: Facts) -> list[Measured]:
    return [
        Measured(where=where, value=(hole.plate - hole.diameter) / 2)
        for _, where, hole in _holes(facts)
        if hole.plate is not None
    ]


def _pipe_clearance(facts: Facts) -> list[Measured]:
    return [
        Measured(where=where, value=(hole.diameter - hole.pipe) / 2)
        for _, where, hole in _holes(facts)
        if hole.pipe is not None
    ]


def _valves(facts: Facts) -> Iterator[tuple[str, float | None, tuple[float, float]]]:
    """Where each valve is, how far it will stand proud, and the least and most it may. [mm]."""
    for wall, where, hole in _holes(facts):
        if hole.rough_in_limits is not None:
            yield where, proud(hole, wall, facts.job, facts.system), hole.rough_in_limits


def proud(hole: FittedHole, wall: str, job: Job, system: System) -> float | None:
    """Return how far a valve or pipe will stand out of the new face.

    Parameters
    ----------
    hole
        The hole that it comes through. [mm]
    wall
        Name of its wall.
    job
        The job, which says what surface its depth was read to.
    system
        What the wall is lined with. [mm]

    Returns
    -------
    float or None
        What was read, less the lining and its bed unless they were there already; none where
        that can't be known. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> valve = FittedHole(name="valve", x=400.0, y=-330.0, diameter=76.0, pipe=28.0, plate=178.0,
    ...     rough_in=None, rough_in_limits=(50.0, 75.0))
    >>> proud(valve, "L", sample_job(), sample_system()) is None
    True
    """
    read = frozenset(
        reading.surface or job.survey.surface
        for of_wall in job.wall
        for reading in of_wall.readings
        if of_wall.name == wall and isinstance(reading, RoughIn) and reading.of == hole.name
    )
    lining = system.bed + system.thickness
    covers: dict[frozenset[Surface], float] = {
        frozenset({"backer"}): lining,
        frozenset({"old tile"}): lining,
        frozenset({"new face"}): 0.0,
    }
    covered = covers.get(read)
    return None if hole.rough_in is None or covered is None else hole.rough_in - covered


def _valve_unread(facts: Facts) -> list[Measured]:
    return [Measured(where=where) for where, proud, _ in _valves(facts) if proud is None]


def _valve_over_least(facts: Facts) -> list[Measured]:
    return [
        Measured(where=where, value=proud, against=limits[0])
        for where, proud, limits in _valves(facts)
        if proud is not None
    ]


def _valve_over_most(facts: Facts) -> list[Measured]:
    return [
        Measured(where=where, value=proud, against=limits[1])
        for where, proud, limits in _valves(facts)
        if proud is not None
    ]


def _hole_to_joint(facts: Facts) -> list[Measured]:
    """Measure from the edge of each hole to the nearest joint; less than nought inside it.

    Under the plate of a grouted lining a joint through the very centre is a choice, not a fault.
    """
    layout, found = facts.layout, []
    lattices = {wall.name: wall for wall in layout.walls}
    for wall, where, hole in _holes(facts):
        if hole.y - hole.diameter / 2 > top_of(layout, wall):
            continue
        clear = facts.system.gaps.hole_clear
        pattern = placed_pattern(layout, lattices[wall])
        if pattern:
            near = _to_joint_of(pattern, (hole.x, hole.y))
            found.append(Measured(where=where, value=near - hole.diameter / 2, against=clear))
            continue
        course = ceil((hole.y - layout.first_course) / layout.pitch[1])  # from 0
        start = lattices[wall].phase + course * lattices[wall].row_shift
        offsets = (hole.x - start, hole.y - layout.first_course + layout.face[1])
        near = min(
            (
                _to_joint(*axis)
                for axis in zip(offsets, layout.face, layout.pitch, strict=True)
                if facts.system.kind != "grouted" or _to_middle(*axis) > ON_CENTRE
            ),
            default=inf,
        )
        found.append(Measured(where=where, value=near - hole.diameter / 2, against=clear))
    return found


def _to_joint_of(pattern: Pattern, point: Point) -> float:
    """From a point to the nearest joint of a pattern, nought where it lies in one. [mm].

    A joint through the very point is passed over, as in level courses.
    """
    x, y = point
    reach = max(max(unit.face) for unit in pattern.cell)
    _, modules = pattern.shapes(
        Box(left=x - reach, bottom=y - reach, right=x + reach, top=y + reach)
    )
    here = shapely.Point(x, y)
    middles = shapely.boundary(shapely.buffer(modules, pattern.joint / 2, join_style="mitre"))
    if shapely.distance(middles, here).min() <= ON_CENTRE:
        return inf
    inside = modules[shapely.contains(modules, here)]
    return min(shapely.distance(shapely.boundary(inside), here), default=0.0)


def _to_joint(offset: float, face: float, pitch: float) -> float:
    """From a point, so far past the start of some module, to the nearest joint. [mm]."""
    beyond = offset % pitch
    return max(min(beyond, face - beyond), 0.0)


def _to_middle(offset: float, face: float, pitch: float) -> float:
    """From the same point to the middle of the nearest joint. [mm]."""
    beyond = (offset + (pitch - face) / 2) % pitch
    return min(beyond, pitch - beyond)


HOLE_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "plate-cover": _plate_cover,
        "pipe-clearance": _pipe_clearance,
        "valve-unread": _valve_unread,
        "valve-over-least": _valve_over_least,
        "valve-over-most": _valve_over_most,
        "hole-to-joint": _hole_to_joint,
    }
)
