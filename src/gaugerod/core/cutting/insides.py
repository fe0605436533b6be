"""The inside faces of niches and of lined window reveals, as pieces."""

from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import shapely

from gaugerod.core.base.geometry import SNAP, Box, Region, bounds_of, regions_of, shape_of
from gaugerod.core.cutting.faces import FaceOutline, outlines
from gaugerod.core.cutting.frame import seated
from gaugerod.core.cutting.make import side_of
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import EdgeKind, Inside, Piece, PieceEdge
from gaugerod.core.job.fields import InsideFace, Side, Turn
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Accented
from gaugerod.core.setout.lattice import hung, module_side
from gaugerod.core.setout.layout import Layout, WallLayout, lattice_on
from gaugerod.core.survey.walls import FittedOpening, Walls


def make_insides(
    layout: Layout, walls: Walls, system: System, *, accented: Sequence[Accented] = ()
) -> tuple[Inside, ...]:
    """Make the inside faces of every lined opening whose depth was read.

    Parameters
    ----------
    layout
        The set-out, for the joints of its walls. [mm]
    walls
        The surveyed alcove. [mm]
    system
        The material. [mm]
    accented
        Where other products stand; of two for one face the later one counts. [mm]

    Returns
    -------
    tuple of Inside
        The faces in the order of setting; none where no opening is lined.

    Raises
    ------
    LayoutError
        Nothing is left between the linings of an opening.

    Notes
    -----
    A face larger than the module is parted on the joints of its wall where that gives pieces
    that can be cut, else in equal parts. No piece keeps a factory edge: all can come out of
    offcuts. The back is measured in place. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> make_insides(layout, walls, system)
    ()
    """
    layouts = {wall.name: wall for wall in layout.walls}
    found: list[Inside] = []
    for wall in walls.walls:
        for opening in wall.openings:
            if opening.lined and opening.depth is not None:
                for face in outlines(opening, opening.depth, system, wall=wall.name):
                    of = _product(accented, wall.name, opening.name, face.face) or system
                    on = _On(layout=layout, wall=layouts[wall.name], system=of, opening=opening)
                    found.append(_inside(on, face))
    return tuple(found)


def pieces_inside(insides: Iterable[Inside]) -> tuple[Piece, ...]:
    """Return the pieces of inside faces, in the order of setting.

    Parameters
    ----------
    insides
        The faces.

    Returns
    -------
    tuple of Piece
        Their pieces.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> pieces_inside(())
    ()
    """
    return tuple(piece for inside in insides for piece in inside.pieces)


def _product(
    accented: Sequence[Accented], wall: str, opening: str, face: InsideFace
) -> System | None:
    """Return the last product that is to stand on a face, if any is."""
    found = [
        one.system
        for one in accented
        if one.where.inside == opening
        and wall in (one.where.walls or (wall,))
        and face in (one.where.faces or (face,))
    ]
    return found[-1] if found else None


@dataclass(frozen=True, slots=True, kw_only=True)
class _On:
    """One opening with the set-out of the wall that it is in. [mm]."""

    layout: Layout
    wall: WallLayout
    system: System
    opening: FittedOpening


@dataclass(frozen=True, slots=True, kw_only=True)
class _Parts:
    """A face in rows and columns, by the start and end of each. [mm]."""

    turn: Turn
    columns: tuple[tuple[float, float], ...]
    rows: tuple[tuple[float, float], ...]


def _inside(on: _On, outline: FaceOutline) -> Inside:
    wall, opening = on.wall.name, on.opening
    region = Region(rings=(outline.ring,))
    turns: tuple[Turn, Turn] = ("lying", "standing")
    # As the wall's own modules hang, unless the other way takes fewer.
    hangs = sorted(turns, key=lambda turn: turn != on.layout.turn)
    parts = min(
        (_parts(on, outline, bounds_of(region.rings), turn) for turn in hangs),
        key=lambda parts: len(parts.columns) * len(parts.rows),
    )
    return Inside(
        name=f"{wall} {opening.name} {outline.face}",
        wall=wall,
        opening=opening.name,
        kind=opening.kind,
        face=outline.face,
        region=region,
        pieces=tuple(_pieces(on, outline, region, parts)),
        sealed=outline.sealed,
    )


def _parts(on: _On, outline: FaceOutline, around: Box, turn: Turn) -> _Parts:
    face, pitch = hung(on.system, turn)
    joints = (pitch[0] - face[0], pitch[1] - face[1])
    across = _Axis(size=around.width, face=face[0], joint=joints[0], sides=("left", "right"))
    up = _Axis(size=around.height, face=face[1], joint=joints[1], sides=("bottom", "top"))
    return _Parts(
        turn=turn,
        columns=_split(on, across, turn, outline.lapped, _upright_joints(on, outline)),
        rows=_split(on, up, turn, outline.lapped, _level_joints(on, outline)),
    )


def _shed(system: System, side: Side, turn: Turn) -> float:
    """Return what comes off with the groove at a side of a piece as it lies. [mm]."""
    grooved = system.edges[module_side(side, turn)] == "groove"
    return system.cutting.groove_off if grooved else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Axis:
    """One way along a face: its size, that of the module and its joint there. [mm]."""

    size: float
    face: float
    joint: float
    sides: tuple[Side, Side]


def _split(
    on: _On, axis: _Axis, turn: Turn, lapped: frozenset[Side], lines: Sequence[float]
) -> tuple[tuple[float, float], ...]:
    """Part a face on lines where every part can be cut, else in equal parts. [mm]."""
    size, joint = axis.size, axis.joint
    shed = {side: _shed(on.system, side, turn) for side in axis.sides}
    if size <= axis.face - sum(shed[side] for side in axis.sides if side not in lapped) + SNAP:
        return ((0.0, size),)
    room = axis.face - sum(shed.values())
    parts = _parted(size, joint, [line for line in lines if 0 < line < size])
    sizes = [high - low for low, high in parts]
    if on.system.cutting.least <= min(sizes) <= max(sizes) <= room + SNAP:
        return parts
    count = ceil((size + joint - SNAP) / (room + joint))
    return _parted(size, joint, [(size + joint) / count * k - joint / 2 for k in range(1, count)])


def _parted(size: float, joint: float, middles: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """Part a length by joints on given middles. [mm]."""
    ends = [0.0, *(x for m in middles for x in (m - joint / 2, m + joint / 2)), size]
    return tuple(zip(ends[::2], ends[1::2], strict=True))


def _upright_joints(on: _On, outline: FaceOutline) -> list[float]:
    """Return where the upright joints of the wall meet a face, seen along it. [mm]."""
    box = on.opening.box
    if on.layout.pattern or outline.face in {"left", "right"}:
        return []
    lattice = lattice_on(on.layout, on.wall)
    middle = (box.bottom + box.top) / 2
    course = lattice.courses(bottom=middle, top=middle + on.layout.pitch[1])[0]
    numbers = lattice.numbers(course, left=box.left, right=box.right)
    half = (lattice.pitch[0] - lattice.face[0]) / 2
    return [lattice.cell(course, n).right + half - box.left - outline.along for n in numbers]


def _level_joints(on: _On, outline: FaceOutline) -> list[float]:
    """Return where the course lines of the wall meet an upright face. [mm]."""
    box = on.opening.box
    if on.layout.pattern or outline.face in {"sill", "head"}:
        return []
    lattice = lattice_on(on.layout, on.wall)
    half = (lattice.pitch[1] - lattice.face[1]) / 2
    courses = lattice.courses(bottom=box.bottom, top=box.top)
    return [lattice.row_top(course) + half - box.bottom - outline.up for course in courses]


def _pieces(on: _On, outline: FaceOutline, region: Region, parts: _Parts) -> Iterator[Piece]:
    alone = len(parts.columns) * len(parts.rows) == 1
    name = f"{on.wall.name}-{on.opening.name}-{outline.face}"
    for course, (bottom, top) in enumerate(parts.rows, start=1):
        for place, (left, right) in enumerate(parts.columns, start=1):
            cell = shapely.box(left, bottom, right, top)
            (part,) = regions_of(shape_of(region).intersection(cell))
            tag = name if alone else f"{name}-{course}-{place}"
            yield _piece(on, outline, part, parts.turn, (tag, course, place))


def _piece(
    on: _On, outline: FaceOutline, part: Region, turn: Turn, named: tuple[str, int, int]
) -> Piece:
    system = on.system
    tag, course, place = named
    lapped = _lapped(outline, bounds_of(part.rings))
    cell = _cell(bounds_of(part.rings), system, turn, lapped)
    degrees = 90 if turn == "standing" else 0
    frame = seated(cell, system.face, degrees)
    region = frame.region_to_module(part)
    edges = tuple(_edges(region, system, {module_side(side, turn) for side in lapped}))
    # The top of a side is square where its bottom is not: measure from that.
    squared = tuple(module_side(side, turn) for side in ("left", "top"))
    return Piece(
        tag=tag,
        wall=f"{on.wall.name} {on.opening.name} {outline.face}",
        course=course,
        place=place,
        product=system.id,
        turn=degrees,
        face=system.face,
        region=part,
        cell=cell,
        within=frame.box_of(part),
        whole=all(edge.kind != "cut" for edge in edges),
        edges=edges,
        keeps=(),
        holes=(),
        marks=marks_of(region, edges, (), squared, system.face),
        measure_in_place=outline.face == "back",
    )


def _lapped(outline: FaceOutline, part: Box) -> frozenset[Side]:
    """Return the sides at which a part of a face ends under another face: a groove may stay."""
    whole = bounds_of((outline.ring,))
    gone = {
        "left": part.left - whole.left,
        "right": whole.right - part.right,
        "bottom": part.bottom - whole.bottom,
        "top": whole.top - part.top,
    }
    return frozenset(side for side in outline.lapped if gone[side] < SNAP)


def _cell(part: Box, system: System, turn: Turn, lapped: AbstractSet[Side]) -> Box:
    """Seat a module so that the part has its upper left corner, clear of grooves. [mm]."""
    (width, height), _ = hung(system, turn)
    left = part.left - (0.0 if "left" in lapped else _shed(system, "left", turn))
    top = part.top + (0.0 if "top" in lapped else _shed(system, "top", turn))
    return Box(left=left, bottom=top - height, right=left + width, top=top)


def _edges(region: Region, system: System, lapped: AbstractSet[Side]) -> Iterator[PieceEdge]:
    """Yield the outline in the module's frame; a tongue goes, a groove that shows is cut off."""
    ring = region.rings[0]
    for start, end in pairwise((*ring, ring[0])):
        side, on_module = side_of(start, end, system.face)
        key = system.edges[side]
        kind: EdgeKind = "cut"
        if on_module and (key == "plain" or side in lapped):
            kind = "factory"
        if on_module and key == "tongue":
            kind = "tongue off"
        yield PieceEdge(side=side, kind=kind, start=start, end=end)
