"""The finished alcove as bodies: every piece as thick as it is, on planes where it stands."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, TypeAlias

import shapely

from gaugerod.core.base.geometry import Point, Region, regions_of, shape_of
from gaugerod.core.sheet.lettering import region_of
from gaugerod.core.sheet.space import Alcove, Frame, Vector, linings, wall_frames
from gaugerod.core.sheet.tub import Block, Stand, stand
from gaugerod.core.survey.walls import FittedWall

Triangle: TypeAlias = tuple[int, int, int]
Stuff: TypeAlias = Literal["wall", "lining", "accent", "tub", "floor"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A named body of triangles, each anticlockwise for who sees its outer side. [mm]."""

    name: str
    stuff: Stuff
    points: tuple[Vector, ...]
    triangles: tuple[Triangle, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """Bodies in space: x to the right, y into the alcove, z up. [mm]."""

    title: str
    bodies: tuple[Body, ...]


def model_of(alcove: Alcove, title: str) -> Model:
    """Make the finished alcove of bodies.

    Parameters
    ----------
    alcove
        The alcove. [mm]
    title
        What it is called.

    Returns
    -------
    Model
        Bare walls as skins that are seen from the room alone, each piece as a closed body by
        its tag, the tub closed, its basin and the floor as skins; the floor is at nought. [mm]

    Notes
    -----
    A piece is its region on the wall, as thick as the module. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> alcove = Alcove(walls=walls, layout=layout, pieces=(), insides=(), system=system)
    >>> [body.name for body in model_of(alcove, "Alcove").bodies]
    ['wall L', 'wall B', 'wall R', 'tub', 'basin', 'floor']
    """
    frames = wall_frames(alcove.walls)
    below = stand(alcove.walls, frames)
    lift = -below.level
    walls = (
        skin(f"wall {wall.name}", "wall", region, _lifted(frames[wall.name], lift))
        for wall in alcove.walls.walls
        for region in _bare(wall)
    )
    pieces = (
        slab(
            piece.tag,
            piece.region,
            _lifted(one.frame, lift),
            thick=alcove.system.thickness,
            stuff="lining" if piece.product == alcove.system.id else "accent",
        )
        for one in linings(alcove, frames)
        for piece in one.pieces
    )
    return Model(title=title, bodies=(*walls, *pieces, *_standing(below, lift)))


def slab(name: str, region: Region, frame: Frame, *, thick: float, stuff: Stuff = "lining") -> Body:
    """Make a piece: a region on the plane of its face, with its thickness behind it.

    Parameters
    ----------
    name
        Its name.
    region
        What it covers. [mm]
    frame
        The plane of its face.
    thick
        Its thickness, > 0. [mm]
    stuff
        What it is.

    Returns
    -------
    Body
        A closed body. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> flat = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
    >>> square = Region(rings=(((0, 0), (9, 0), (9, 9), (0, 9)),))
    >>> len(slab("B1-1", square, flat, thick=2.0).triangles)
    12
    """
    face = [frame.at(x, y) for ring in region.rings for x, y in ring]
    back = [frame.at(x, y, -thick) for ring in region.rings for x, y in ring]
    return _closed(name, stuff, region, face, back)


def skin(name: str, stuff: Stuff, region: Region, frame: Frame) -> Body:
    """Make a surface without thickness, that is seen from its front alone.

    Parameters
    ----------
    name
        Its name.
    stuff
        What it is.
    region
        What it covers. [mm]
    frame
        Its plane.

    Returns
    -------
    Body
        An open body. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> flat = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
    >>> square = Region(rings=(((0, 0), (9, 0), (9, 9), (0, 9)),))
    >>> len(skin("floor", "floor", square, flat).triangles)
    2
    """
    points = tuple(frame.at(x, y) for ring in region.rings for x, y in ring)
    return Body(name=name, stuff=stuff, points=points, triangles=tuple(_filled(region)))


def _closed(
    name: str, stuff: Stuff, region: Region, face: list[Vector], back: list[Vector]
) -> Body:
    """Close the way from the points of a region's face to those behind them."""
    behind = len(face)
    front = list(_filled(region))
    rear = [(a + behind, c + behind, b + behind) for a, b, c in front]
    sides: list[Triangle] = []
    start = 0
    for ring in region.rings:
        numbers = range(start, start + len(ring))
        for p, q in pairwise((*numbers, start)):
            sides += [(p + behind, q + behind, q), (p + behind, q, p)]
        start += len(ring)
    return Body(name=name, stuff=stuff, points=(*face, *back), triangles=(*front, *rear, *sides))


def _filled(region: Region) -> Iterator[Triangle]:
    """Yield the triangles of a region by the numbers of its points, ring after ring."""
    places = (point for ring in region.rings for point in ring)
    numbers = {point: number for number, point in enumerate(places)}
    shape = shapely.constrained_delaunay_triangles(shape_of(region))
    for triangle in shapely.get_parts(shape):
        a, b, c = (numbers[x, y] for x, y in shapely.normalize(triangle).exterior.coords[:3])
        # Normalised rings run clockwise.
        yield a, c, b


def _bare(wall: FittedWall) -> tuple[Region, ...]:
    boxes = [shape_of(region_of(opening.box)) for opening in wall.openings]
    return regions_of(shape_of(Region(rings=(wall.outline,))) - shapely.union_all(boxes))


def _lifted(frame: Frame, by: float) -> Frame:
    x, y, z = frame.origin
    return Frame(origin=(x, y, z + by), along=frame.along, up=frame.up, out=frame.out)


def _plan(height: float) -> Frame:
    return Frame(origin=(0, 0, height), along=(1, 0, 0), up=(0, 1, 0), out=(0, 0, 1))


def _standing(below: Stand, lift: float) -> Iterator[Body]:
    if below.tub:
        yield _block("tub", below.tub, lift)
    if below.basin:
        yield skin("basin", "tub", below.basin.plan, _plan(below.basin.bottom + lift))
    for number, seat in enumerate(below.seats, 1):
        yield _block(f"seat {number}", seat, lift)
    yield skin("floor", "floor", below.floor, _plan(0.0))


def _block(name: str, block: Block, lift: float) -> Body:
    points: list[Point] = [point for ring in block.plan.rings for point in ring]
    top = [(x, y, block.height((x, y)) + lift) for x, y in points]
    foot = [(x, y, block.bottom + lift) for x, y in points]
    return _closed(name, "tub", block.plan, top, foot)
