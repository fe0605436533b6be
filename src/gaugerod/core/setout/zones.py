"""Zones on a wall that joints should keep out of: round holes, and where fixtures sit."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.materials import System
from gaugerod.core.survey.walls import FittedWall

ZoneKind: TypeAlias = Literal["hole", "close", "fixture"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A box that joints should keep out of. [mm].

    ``hole`` is a hole with its clearance, ``close`` the same with a little to spare, which is
    what the day may take; ``fixture`` is a fixture with its clear zone.
    """

    kind: ZoneKind
    box: Box


def zones_of(wall: FittedWall, system: System) -> tuple[Zone, ...]:
    """Return the zones of a wall.

    Parameters
    ----------
    wall
        The wall. [mm]
    system
        The material, for what holes keep clear of. [mm]

    Returns
    -------
    tuple of Zone
        Two for each hole, one for each fixture. [mm]

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> [zone.kind for zone in zones_of(fit_walls(sample_job()).walls[0], sample_system())]
    ['hole', 'close']
    """
    zones = []
    for hole in wall.holes:
        reach = hole.diameter / 2 + system.gaps.hole_clear
        around = Box(left=hole.x, bottom=hole.y, right=hole.x, top=hole.y)
        zones.append(Zone(kind="hole", box=grown(around, reach)))
        zones.append(Zone(kind="close", box=grown(around, reach + system.gaps.hole_spare)))
    zones += [Zone(kind="fixture", box=grown(one.box, one.clear)) for one in wall.fixtures]
    return tuple(zones)


def grown(box: Box, by: float) -> Box:
    """Return a box with a margin round it.

    Parameters
    ----------
    box
        The box. [mm]
    by
        The margin; negative makes it smaller. [mm]

    Returns
    -------
    Box
        The larger box. [mm]

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> grown(Box(left=0.0, bottom=0.0, right=10.0, top=5.0), 2.0)
    Box(left=-2.0, bottom=-2.0, right=12.0, top=7.0)
    """
    return Box(left=box.left - by, bottom=box.bottom - by, right=box.right + by, top=box.top + by)


def clear_lines(wall: FittedWall, system: System, joint: float) -> Iterator[tuple[str, float]]:
    """Yield the heights at which a course line is just clear of a zone.

    Parameters
    ----------
    wall
        The wall. [mm]
    system
        The material. [mm]
    joint
        Joint between courses, >= 0. [mm]

    Yields
    ------
    tuple of (str, float)
        Why, and the top of a course. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    The valve at -330 takes 38 and keeps 25.4 clear.

    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> lines = clear_lines(fit_walls(sample_job()).walls[0], sample_system(), 0.0)
    >>> [round(line, 1) for _, line in lines]
    [-393.4, -266.6, -396.6, -263.4]
    """
    for zone in zones_of(wall, system):
        why = "clear-of-fixture" if zone.kind == "fixture" else "clear-of-hole"
        yield why, zone.box.bottom - joint
        yield why, zone.box.top
