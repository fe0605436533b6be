"""From a layout to pieces: each cell of the lattice cut to its field."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians
from typing import TypeAlias

import numpy as np
import shapely
from shapely.geometry import LineString, box
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import (
    GRID,
    SNAP,
    Box,
    Point,
    Region,
    Ring,
    bounds_of,
    regions_of,
    shape_of,
)
from gaugerod.core.cutting.doubts import Doubts, doubts_of
from gaugerod.core.cutting.frame import Frame
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import EdgeKind, Piece, PieceEdge, PieceHole
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout, SetField, WallLayout, lattice_on
from gaugerod.core.survey.walls import FittedHole, FittedWall, Walls

SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")


def make_pieces(layout: Layout, walls: Walls, system: System) -> tuple[Piece, ...]:
    """Cut every cell of a layout to its field.

    Parameters
    ----------
    layout
        The set-out. [mm]
    walls
        The surveyed alcove. [mm]
    system
        The material, for its edges. [mm]

    Returns
    -------
    tuple of Piece
        Pieces in setting order: wall by wall, course by course, from left to right.

    Notes
    -----
    A piece is cell and field in common. A stretch of its outline on the cell's own edge is
    the factory's; where a tongue there has nothing to lock into, as under a window, it comes
    off for that stretch and the face edge stays. Everything else is cut. A piece whose fit the
    survey leaves in doubt is to be measured in place. Source: own derivation,
    ``docs/theory/pieces.md`` and ``docs/theory/odds.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.search import set_out
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job, system = sample_job(), sample_system()
    >>> walls = fit_walls(job)
    >>> layout = set_out(walls, job.choices, system, sample_rates().looks).layouts[0]
    >>> make_pieces(layout, walls, system)[0].tag
    'L1-1'
    """
    by_name = {wall.name: wall for wall in walls.walls}
    layouts = {wall.name: wall for wall in layout.walls}
    doubts = doubts_of(walls, layout, system)
    pieces: list[Piece] = []
    for name in layout.order:
        pieces.extend(_on_wall(layout, layouts[name], by_name[name], system, doubts))
    return tuple(pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """One region of one cell, still on the wall. [mm]."""

    course: int
    cell: Box
    region: Region


@dataclass(frozen=True, slots=True, kw_only=True)
class _Face:
    """One wall with what its pieces are cut by. [mm]."""

    layout: Layout
    wall: FittedWall
    system: System
    net: BaseGeometry
    doubts: Doubts


def _on_wall(
    layout: Layout, wall_layout: WallLayout, wall: FittedWall, system: System, doubts: Doubts
) -> Iterator[Piece]:
    field = wall_layout.field
    net = shapely.union_all([shape_of(region) for region in field.regions])
    shapely.prepare(net)
    face = _Face(layout=layout, wall=wall, system=system, net=net, doubts=doubts)
    lattice = lattice_on(layout, wall_layout)
    place: Counter[int] = Counter()
    for cut in _cuts(lattice, field, net):
        place[cut.course] += 1
        yield _piece(face, cut, place[cut.course])


def _cuts(lattice: Lattice, field: SetField, net: BaseGeometry) -> Iterator[_Cut]:
    around = bounds_of(field.gross.rings)
    for course in lattice.courses(bottom=around.bottom, top=around.top):
        for number in lattice.numbers(course, left=around.left, right=around.right):
            cell = lattice.cell(course, number)
            shape = box(cell.left, cell.bottom, cell.right, cell.top)
            for region in regions_of(shapely.intersection(shape, net, grid_size=GRID)):
                yield _Cut(course=course, cell=cell, region=_straightened(region))


def _straightened(region: Region) -> Region:
    """Leave out corners on straight edges, which would make a notch of a plain cut."""
    return regions_of(shapely.simplify(shape_of(region), SNAP))[0]


def _piece(face: _Face, cut: _Cut, place: int) -> Piece:
    wall, system = face.wall, face.system
    frame = Frame(cell=cut.cell, turn=face.layout.turn)
    edges = tuple(_edges(face, cut, frame))
    keeps = tuple(s for s in SIDES if any(e.side == s and e.kind == "factory" for e in edges))
    within = frame.box_to_module(bounds_of(cut.region.rings))
    holes = tuple(_holes(wall, cut, frame))
    whole = not holes and all(edge.kind != "cut" for edge in edges)
    region = frame.region_to_module(cut.region)
    sawn = {edge.side for edge in edges if edge.kind == "cut"}
    return Piece(
        tag=f"{wall.name}{cut.course}-{place}",
        wall=wall.name,
        course=cut.course,
        place=place,
        product=system.id,
        turn=frame.degrees,
        region=cut.region,
        cell=cut.cell,
        within=within,
        whole=whole,
        edges=edges,
        keeps=keeps,
        holes=holes,
        marks=marks_of(region, edges, holes, keeps, system.face),
        measure_in_place=face.doubts.at_end(wall.name, cut.course, cut.cell, frame.turn, sawn)
        or face.doubts.at_opening(wall.name, cut.region, cut.cell),
    )


def _edges(face: _Face, cut: _Cut, frame: Frame) -> Iterator[PieceEdge]:
    """Yield every straight stretch of the outline, the rims of drilled holes left out."""
    ring: Ring = tuple((x, y) for x, y in shape_of(cut.region).exterior.coords)
    for start, end in pairwise(ring):
        side, on_cell = _side(frame.to_module(start), frame.to_module(end), face.system.face)
        stretches: Iterable[_Stretch] = (("factory" if on_cell else "cut", start, end),)
        if on_cell and face.system.edges[side] == "tongue":
            stretches = _tongue(face.net, start, end)
        for kind, a, b in stretches:
            yield PieceEdge(side=side, kind=kind, start=frame.to_module(a), end=frame.to_module(b))


_Stretch: TypeAlias = tuple[EdgeKind, Point, Point]
BESIDE = 1.0
"""How far beyond a tongue there must be lining for it to lock into. [mm]"""


def _tongue(net: BaseGeometry, start: Point, end: Point) -> Iterator[_Stretch]:
    """Yield the stretches of a tongue: it stays where it locks into the next piece."""
    (x0, y0), (x1, y1) = start, end
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    # Outer rings run anticlockwise: outwards is to the right of the way along.
    dx, dy = (y1 - y0) / length * BESIDE, (x0 - x1) / length * BESIDE
    beyond = LineString([(x0 + dx, y0 + dy), (x1 + dx, y1 + dy)])
    ends = shapely.get_coordinates(beyond.intersection(net))
    stops = [0.0]
    for x, y in ends[np.argsort(ends @ (x1 - x0, y1 - y0))]:
        along = ((x - x0 - dx) ** 2 + (y - y0 - dy) ** 2) ** 0.5
        if stops[-1] + BESIDE < along < length - BESIDE:
            stops.append(along)
    for low, high in pairwise([*stops, length]):
        locks = net.contains(beyond.interpolate((low + high) / 2))
        a, b = ((x0 + (x1 - x0) * t / length, y0 + (y1 - y0) * t / length) for t in (low, high))
        yield "factory" if locks else "tongue off", a, b


def _side(a: Point, b: Point, face: tuple[float, float]) -> tuple[Side, bool]:
    """Tell which side of the piece a stretch is, and whether it is the module's own edge."""
    (x0, y0), (x1, y1) = a, b
    upright: Side = "right" if y1 > y0 else "left"
    level: Side = "bottom" if x1 > x0 else "top"
    side = upright if abs(y1 - y0) > abs(x1 - x0) else level
    limit = {"left": 0.0, "right": face[0], "bottom": 0.0, "top": face[1]}[side]
    ends = (x0, x1) if side == upright else (y0, y1)
    return side, all(abs(end - limit) <= SNAP for end in ends)


def _holes(wall: FittedWall, cut: _Cut, frame: Frame) -> Iterator[PieceHole]:
    """Yield the holes whose centre is inside the outer ring of the piece."""
    outer = shape_of(Region(rings=cut.region.rings[:1]))
    for hole in wall.holes:
        if _drilled(hole, cut.region) and outer.contains(ShapelyPoint(hole.x, hole.y)):
            x, y = frame.to_module((hole.x, hole.y))
            yield PieceHole(name=hole.name, x=x, y=y, diameter=hole.diameter)


def _drilled(hole: FittedHole, region: Region) -> bool:
    """Tell whether the hole is a ring of the piece, and not a bite out of its edge."""
    reach = hole.diameter / 2 / cos(radians(180 / 64)) + SNAP
    return any(
        all((x - hole.x) ** 2 + (y - hole.y) ** 2 <= reach**2 for x, y in ring)
        for ring in region.rings[1:]
    )
