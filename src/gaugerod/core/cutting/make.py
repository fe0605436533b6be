"""From a layout to pieces: each cell of the lattice cut to its field."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise
from math import cos, dist, radians, sqrt
from typing import TypeAlias

import numpy as np
import shapely
from shapely.geometry import LineString, box
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import (
    GRID,
    LEAST_AREA,
    SNAP,
    Box,
    Point,
    Region,
    Ring,
    bounds_of,
    is_box,
    regions_of,
    shape_of,
)
from gaugerod.core.cutting.doubts import Doubts, doubts_of
from gaugerod.core.cutting.frame import Frame, seated
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import EdgeKind, Piece, PieceEdge, PieceHole
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import (
    Layout,
    SetField,
    WallLayout,
    lattice_on,
    placed_pattern,
)
from gaugerod.core.setout.pattern import Pattern
from gaugerod.core.setout.turned_score import rims_of
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
        pieces.extend(pieces_on_wall(layout, layouts[name], by_name[name], system, doubts))
    return tuple(pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """One region of one cell, still on the wall. [mm]."""

    course: int
    cell: Box
    face: tuple[float, float]
    turn: int
    region: Region


@dataclass(frozen=True, slots=True, kw_only=True)
class _Face:
    """One wall with what its pieces are cut by. [mm]."""

    wall: FittedWall
    system: System
    net: BaseGeometry
    rims: tuple[LineString, LineString]
    pattern: bool
    turn: Turn
    doubts: Doubts


def pieces_on_wall(
    layout: Layout,
    wall_layout: WallLayout,
    wall: FittedWall,
    system: System,
    doubts: Doubts,
    *,
    thin: float = 0.0,
) -> Iterator[Piece]:
    """Cut every cell of a layout on one wall to its field.

    Parameters
    ----------
    layout
        The set-out. [mm]
    wall_layout
        Its lattice and field on the wall. [mm]
    wall
        The wall. [mm]
    system
        The material, for its edges. [mm]
    doubts
        What the survey leaves in doubt.
    thin
        Strips narrower than this are left out, alone or at the side of a piece, >= 0. [mm]

    Yields
    ------
    Piece
        Course by course, from left to right. [mm]

    Notes
    -----
    Source: as `make_pieces`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> doubts = doubts_of(walls, layout, system)
    >>> next(pieces_on_wall(layout, layout.walls[1], walls.walls[1], system, doubts)).tag
    'B1-1'
    """
    field = wall_layout.field
    net = shapely.union_all([shape_of(region) for region in field.regions])
    shapely.prepare(net)
    face = _Face(
        wall=wall,
        system=system,
        net=net,
        rims=rims_of(wall, (field.left, field.right), system, bounds_of(field.gross.rings)),
        pattern=layout.pattern is not None,
        turn=layout.turn,
        doubts=doubts,
    )
    pattern = placed_pattern(layout, wall_layout)
    if pattern:
        cuts = _cuts_of_pattern(pattern, field, net)
    else:
        cuts = _cuts(layout, wall_layout, system, net)
    cuts = (cut for cut in cuts if not is_chip(cut.region, wall.holes, system.cutting.least))
    if thin > 0:
        cuts = (stout for cut in cuts for stout in _stout(cut, thin))
    place: Counter[int] = Counter()
    for cut in cuts:
        place[cut.course] += 1
        yield _piece(face, cut, place[cut.course])


def _cuts(
    layout: Layout, wall_layout: WallLayout, system: System, net: BaseGeometry
) -> Iterator[_Cut]:
    lattice = lattice_on(layout, wall_layout)
    turn = 90 if layout.turn == "standing" else 0
    around = bounds_of(wall_layout.field.gross.rings)
    for course in lattice.courses(bottom=around.bottom, top=around.top):
        for number in lattice.numbers(course, left=around.left, right=around.right):
            cell = lattice.cell(course, number)
            shape = box(cell.left, cell.bottom, cell.right, cell.top)
            for region in regions_of(shapely.intersection(shape, net, grid_size=GRID)):
                yield _Cut(
                    course=course,
                    cell=cell,
                    face=system.face,
                    turn=turn,
                    region=_straightened(region),
                )


def _cuts_of_pattern(pattern: Pattern, field: SetField, net: BaseGeometry) -> Iterator[_Cut]:
    """Yield the cuts row by row, from left to right, as the lattice does.

    A module whose middle lies below the deck belongs to the first course.
    """
    found = [
        (max(pattern.course(module), 1), module)
        for _, module in pattern.modules(bounds_of(field.gross.rings))
    ]
    for course, module in sorted(found, key=lambda pair: (pair[0], pair[1].centre)):
        for region in regions_of(shapely.intersection(module.shape, net, grid_size=GRID)):
            yield _Cut(
                course=course,
                cell=module.around,
                face=module.face,
                turn=module.turn,
                region=_straightened(region),
            )


def _stout(cut: _Cut, thin: float) -> Iterator[_Cut]:
    """Yield what is left of a cut without its strips narrower than `thin`."""
    shape = shape_of(cut.region)
    mitre = partial(shapely.buffer, join_style="mitre")
    opened = shapely.intersection(shape, mitre(mitre(shape, -thin / 2), thin / 2 + SNAP))
    if opened.area > shape.area - LEAST_AREA:
        yield cut
        return
    for region in regions_of(shapely.set_precision(opened, SNAP)):
        yield replace(cut, region=_straightened(region))


def is_chip(region: Region, holes: Sequence[FittedHole], least: float) -> bool:
    """Tell whether a part of a module is but what a drill leaves at a crossing of joints.

    Parameters
    ----------
    region
        The part, on the wall. [mm]
    holes
        Holes of the wall. [mm]
    least
        No piece is narrower than this. [mm]

    Returns
    -------
    bool
        Whether it is: it lies between the rim of a hole and a corner of its module, and is
        nowhere as wide as `least`.

    Notes
    -----
    A hole that cuts off a corner of its module meets both edges of the corner, so the corner is
    no farther from the centre than that of a square round the hole. What is cut off falls
    out with the core; nobody sets it. Source: own derivation.

    Examples
    --------
    >>> hole = FittedHole(name="valve", x=0.0, y=0.0, diameter=100.0, pipe=None, plate=None,
    ...     rough_in=None, rough_in_limits=None)
    >>> is_chip(Region(rings=(((48.0, 14.0), (48.0, 48.0), (14.0, 48.0)),)), (hole,), 40.0)
    True
    >>> is_chip(Region(rings=(((48.0, 14.0), (90.0, 48.0), (14.0, 48.0)),)), (hole,), 40.0)
    False
    """
    ring = region.rings[0]
    beside = any(
        max(dist(point, (hole.x, hole.y)) for point in ring) < hole.diameter / sqrt(2) + SNAP
        for hole in holes
    )
    return beside and bool(shapely.buffer(shape_of(region), -least / 2).is_empty)


def _straightened(region: Region) -> Region:
    """Leave out corners on straight edges, which would make a notch of a plain cut."""
    if is_box(region):
        return region
    return regions_of(shapely.simplify(shape_of(region), SNAP))[0]


def _piece(face: _Face, cut: _Cut, place: int) -> Piece:
    wall, system = face.wall, face.system
    frame = seated(cut.cell, cut.face, cut.turn)
    edges = tuple(_edges(face, cut, frame))
    keeps = tuple(s for s in SIDES if any(e.side == s and e.kind == "factory" for e in edges))
    within = frame.box_of(cut.region)
    holes = tuple(_holes(wall, cut, frame))
    whole = not holes and all(edge.kind != "cut" for edge in edges)
    region = frame.region_to_module(cut.region)
    return Piece(
        tag=f"{wall.name}{cut.course}-{place}",
        wall=wall.name,
        course=cut.course,
        place=place,
        product=system.id,
        turn=cut.turn,
        face=cut.face,
        region=cut.region,
        cell=cut.cell,
        within=within,
        whole=whole,
        edges=edges,
        keeps=keeps,
        holes=holes,
        marks=marks_of(region, edges, holes, keeps, cut.face),
        measure_in_place=_in_doubt(face, cut, edges),
    )


def _in_doubt(face: _Face, cut: _Cut, edges: Iterable[PieceEdge]) -> bool:
    """Tell whether a piece is cut to an end or an opening whose place is in doubt."""
    wall, doubts = face.wall.name, face.doubts
    if face.pattern:
        outline = shape_of(cut.region)
        ends = tuple(shapely.dwithin(outline, rim, SNAP) for rim in face.rims)
        at_end = doubts.at_rim(wall, left=bool(ends[0]), right=bool(ends[1]))
    else:
        sawn = {edge.side for edge in edges if edge.kind == "cut"}
        at_end = doubts.at_end(wall, cut.course, cut.cell, face.turn, sawn)
    return at_end or doubts.at_opening(wall, cut.region, cut.cell)


def _edges(face: _Face, cut: _Cut, frame: Frame) -> Iterator[PieceEdge]:
    """Yield every straight stretch of the outline, the rims of drilled holes left out."""
    ring: Ring = tuple((x, y) for x, y in shape_of(cut.region).exterior.coords)
    for start, end in pairwise(ring):
        side, on_cell = side_of(frame.to_module(start), frame.to_module(end), cut.face)
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


def side_of(a: Point, b: Point, face: tuple[float, float]) -> tuple[Side, bool]:
    """Tell which side of a piece a stretch of its outline is, and whether it is the module's edge.

    Parameters
    ----------
    a, b
        Ends of the stretch, in the module's frame, on a ring that runs anticlockwise. [mm]
    face
        Width and height of the module. [mm]

    Returns
    -------
    tuple of str and bool
        The side, and whether the stretch lies on the module's own edge there.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> side_of((600.0, 0.0), (600.0, 300.0), (600.0, 300.0))
    ('right', True)
    """
    (x0, y0), (x1, y1) = a, b
    upright: Side = "right" if y1 > y0 else "left"
    level: Side = "bottom" if x1 > x0 else "top"
    # A cut on the diagonal must not change sides for a hair of rounding.
    side = upright if abs(y1 - y0) > abs(x1 - x0) + SNAP else level
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
