"""Set fields: what of each wall the lining covers, once gaps and laps are taken off."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import GRID, LEAST_AREA, Box, Edge, Point, disc, regions_of
from gaugerod.core.job.materials import System
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.setout.openings import ease, opening_boxes
from gaugerod.core.setout.steps import risers
from gaugerod.core.survey.decks import deck_stretches
from gaugerod.core.survey.walls import FittedWall, Walls

FAR = 1e5
"""Farther than any wall reaches. [mm]"""


def meetings(
    walls: Sequence[FittedWall], order: tuple[str, ...], system: System
) -> dict[str, tuple[Meeting, Meeting]]:
    """Return how each wall meets its neighbours, left and right.

    Parameters
    ----------
    walls
        Walls from left to right.
    order
        Their names in the order of setting.
    system
        The material: has it trims that corners end in?

    Returns
    -------
    dict
        For each wall what happens at its left and right edge. In an inside corner the wall
        set first runs behind, the other butts; or both stand in a channel that is set before
        them, and nobody laps. At an outside corner the wall set first
        stops, the other laps it; or both end in a trim. The outer edges are open.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> meetings(fit_walls(sample_job()).walls, ("L", "B", "R"), sample_system())["B"]
    ('butts', 'runs behind')
    """
    met: dict[str, list[Meeting]] = {wall.name: [] for wall in walls}
    met[walls[0].name].append("open")
    for left, right in pairwise(walls):
        sooner, later = _corner(left, system)
        first = order.index(left.name) < order.index(right.name)
        met[left.name].append(sooner if first else later)
        met[right.name].append(later if first else sooner)
    met[walls[-1].name].append("open")
    return {name: (left, right) for name, (left, right) in met.items()}


def _corner(wall: FittedWall, system: System) -> tuple[Meeting, Meeting]:
    """Return what the wall set first does in the corner at the right of a wall, and the other."""
    if wall.corner == "inside":
        return ("runs behind", "butts") if system.gaps.inside is None else ("trim", "trim")
    return ("stops", "laps") if system.gaps.outside is None else ("outside trim", "outside trim")


def deduct(meeting: Meeting, system: System) -> float:
    """Return what a meeting takes off the width of a field at one edge.

    Parameters
    ----------
    meeting
        What happens at the edge.
    system
        The material.

    Returns
    -------
    float
        Deduct; negative where the lining runs past the edge. [mm]

    Notes
    -----
    A wall that butts loses the lining and the bed of the wall it butts, and the joint. One
    that laps gains them, to lie flush with the face of the lining whose edge it covers.
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> deduct("butts", sample_system())
    14.2875
    """
    gaps, lining = system.gaps, system.thickness + system.bed
    return {
        "runs behind": gaps.corner,
        "butts": lining + gaps.butt,
        "trim": gaps.inside or 0.0,
        "laps": -lining,
        "stops": 0.0,
        "outside trim": gaps.outside or 0.0,
        "open": gaps.front,
    }[meeting]


def set_field(
    wall: FittedWall,
    met: tuple[Meeting, Meeting],
    system: System,
    *,
    top: float,
    lattice: Lattice | None = None,
) -> SetField:
    """Return the set field of a wall.

    Parameters
    ----------
    wall
        The fitted wall. [mm]
    met
        How it meets what is left and right of it.
    system
        The material, for gaps and laps. [mm]
    top
        Height of the finish line from the datum; the ceiling may stop the field lower. [mm]
    lattice
        The lattice over it, if known: an opening whose edge misses a joint by less than can
        be cut is then taken to lie on it.

    Returns
    -------
    SetField
        The field with and without what pierces it. [mm]

    Notes
    -----
    Leaning edges keep their lean, deck and ceiling their slope. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall = fit_walls(sample_job()).walls[0]
    >>> field = set_field(wall, ("open", "runs behind"), sample_system(), top=1000.0)
    >>> len(field.regions)
    1
    """
    gross = gross_of(wall, met, system, top=top)
    openings = eased(wall, system, lattice) if lattice else opening_boxes(wall, system)
    return field_of(
        wall,
        met,
        gross=gross,
        net=net_of(gross, wall, openings),
        openings=openings,
        lattice=lattice,
    )


def eased(wall: FittedWall, system: System, lattice: Lattice) -> tuple[Box, ...]:
    """Return the openings of a wall, each edge on the joint that it misses by a hair.

    Parameters
    ----------
    wall
        The wall. [mm]
    system
        The material, for the joint round an opening. [mm]
    lattice
        The lattice over it. [mm]

    Returns
    -------
    tuple of Box
        One for each opening. [mm]

    Notes
    -----
    Source: as `ease`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> grid = Lattice(face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=300.0,
    ...     phase=450.0, row_shift=0.0)
    >>> eased(fit_walls(sample_job()).walls[1], sample_system(), grid)
    ()
    """
    return tuple(ease(opening, lattice) for opening in opening_boxes(wall, system))


def net_of(gross: BaseGeometry, wall: FittedWall, openings: tuple[Box, ...]) -> BaseGeometry:
    """Return the outline of a field without its openings and holes.

    Parameters
    ----------
    gross
        The outline. [mm]
    wall
        The wall, for its holes. [mm]
    openings
        Its openings with their joints. [mm]

    Returns
    -------
    BaseGeometry
        What is left. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall = fit_walls(sample_job()).walls[1]
    >>> net_of(box(0, 0, 100, 100), wall, (Box(left=10, bottom=10, right=20, top=20),)).area
    9900.0
    """
    drilled = [disc(x=hole.x, y=hole.y, diameter=hole.diameter) for hole in wall.holes]
    pierced = shapely.union_all([*(_box(opening) for opening in openings), *drilled])
    return shapely.difference(gross, pierced, grid_size=GRID)


def field_of(
    wall: FittedWall,
    met: tuple[Meeting, Meeting],
    *,
    gross: BaseGeometry,
    net: BaseGeometry,
    openings: tuple[Box, ...],
    lattice: Lattice | None,
) -> SetField:
    """Return a set field from its outlines.

    Parameters
    ----------
    wall
        The wall. [mm]
    met
        How it meets what is left and right of it.
    gross, net
        The outline with and without what pierces it. [mm]
    openings
        The openings, with their joints. [mm]
    lattice
        The lattice over it, if known: rests of joints at the rim are then left out. [mm]

    Returns
    -------
    SetField
        The field. [mm]

    Notes
    -----
    Without joints the modules reach everything. Source: as `set_field`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall, square = fit_walls(sample_job()).walls[1], box(0, 0, 100, 100)
    >>> len(field_of(wall, ("open", "open"), gross=square, net=square, openings=(),
    ...     lattice=None).regions)
    1
    """
    if lattice and lattice.pitch != lattice.face:
        net = shapely.intersection(net, _reached(net, lattice), grid_size=GRID)
    return SetField(
        wall=wall.name,
        left=met[0],
        right=met[1],
        gross=regions_of(gross)[0],
        regions=regions_of(net),
        deck_low=min(y for _, y in wall.deck),
        openings=openings,
    )


def gross_of(
    wall: FittedWall, met: tuple[Meeting, Meeting], system: System, *, top: float
) -> BaseGeometry:
    """Return the outline of a set field, with nothing that pierces it taken out.

    Parameters
    ----------
    wall
        The fitted wall. [mm]
    met
        How it meets what is left and right of it.
    system
        The material, for gaps and laps. [mm]
    top
        Height of the finish line from the datum. [mm]

    Returns
    -------
    BaseGeometry
        The outline. [mm]

    Notes
    -----
    Source: own derivation; see `set_field`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall = fit_walls(sample_job()).walls[0]
    >>> gross_of(wall, ("open", "runs behind"), sample_system(), top=1000.0).bounds[3]
    1000.0
    """
    left, right = deduct(met[0], system), deduct(met[1], system)
    # No farther than the wall itself: edges that lean apart cross somewhere below it.
    span = min(y for _, y in wall.deck), max(y for _, y in wall.ceiling)
    sides = Polygon([*_side(wall.left, left, span), *reversed(_side(wall.right, -right, span))])
    gross = shapely.intersection_all(
        [
            sides,
            _half(wall.deck, system.gaps.deck, FAR),
            _half(wall.ceiling, -system.gaps.ceiling, -FAR),
            box(-FAR, -FAR, FAR, top),
        ]
    )
    beside = risers(wall, system.gaps.deck, below=-FAR)
    gross = shapely.difference(gross, shapely.union_all([_box(joint) for joint in beside]))
    return shapely.set_precision(gross, GRID)


def _reached(net: BaseGeometry, lattice: Lattice) -> BaseGeometry:
    """Return what the modules reach, each with half a joint round it.

    Where a rim falls within a joint, no module could fill the rest of that joint: it belongs
    to the gap at the rim.
    """
    left, bottom, right, top = net.bounds
    across, up = ((lattice.pitch[i] - lattice.face[i]) / 2 for i in (0, 1))
    cells = [
        lattice.cell(course, number)
        for course in lattice.courses(bottom=bottom, top=top)
        for number in lattice.numbers(course, left=left, right=right)
    ]
    corners = np.array([(c.left, c.bottom, c.right, c.top) for c in cells])
    # Part by part: a piece left of an opening does not reach the joint at its right.
    parts = shapely.get_parts(shapely.intersection(shapely.box(*corners.T), net))
    low_x, low_y, high_x, high_y = shapely.bounds(parts[shapely.area(parts) > LEAST_AREA]).T
    return shapely.union_all(shapely.box(low_x - across, low_y - up, high_x + across, high_y + up))


def _box(b: Box) -> Polygon:
    return box(b.left, b.bottom, b.right, b.top)


def _side(edge: Edge, shift: float, span: tuple[float, float]) -> list[Point]:
    """Return an edge over a span of heights, moved along the level. [mm]."""
    low, high = span
    heights = (low, *(y for y, _ in edge.bow if low < y < high), high)
    return [(edge.at(y) + shift, y) for y in heights]


def _half(line: tuple[Point, ...], shift: float, towards: float) -> Polygon:
    """Return all that lies above (or below) a line from corner to corner, prolonged both ways."""
    before = _prolonged(line[1], line[0], -FAR)
    after = _prolonged(line[-2], line[-1], FAR)
    moved = [(x, y + shift) for x, y in (before, *line, after)]
    return Polygon([*moved, (FAR, towards), (-FAR, towards)])


def _prolonged(near: Point, end: Point, x: float) -> Point:
    """Return where a line through two points is at a far place."""
    return (x, end[1] + (end[1] - near[1]) / (end[0] - near[0]) * (x - end[0]))


def low_point(walls: Walls) -> tuple[str, float]:
    """Return the wall with the lowest point of the deck, and its height.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]

    Returns
    -------
    tuple of str and float
        Name of the wall; height of its lowest deck point from the datum. [mm]

    Notes
    -----
    The floor under a leg beside the tub is no deck, unless there is nothing else.
    Source: US Navy, *Builder* training manual, NAVEDTRA 14044, p. 7-23, step 1.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> low_point(fit_walls(sample_job()))[0]
    'L'
    """
    every = [(one, wall.name) for wall in walls.walls for one in deck_stretches(wall)]
    decks = [(one, name) for one, name in every if one.part != "floor"] or every
    lowest, name = min(decks, key=lambda found: found[0].low)
    return name, lowest.low
