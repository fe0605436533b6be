"""A small invented wall with its pieces, to draw in examples and at the prompt."""

from dataclasses import replace

import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Box, Edge, Region, disc, regions_of
from gaugerod.core.cutting.pieces import Piece, PieceEdge, PieceHole
from gaugerod.core.setout.layout import Layout, SetField, WallLayout
from gaugerod.core.survey.walls import FittedHole, FittedOpening, FittedWall

_WIDTH, _FACE = 2100.0, (600.0, 300.0)
_LINES = (40.0, 340.0, 640.0)
_FIELD = shapely.Polygon([(14, -247), (2086, -243), (2086, 640), (14, 640)])
_NICHE = Box(left=153.0, bottom=303.0, right=897.0, top=640.0)


def sample_wall() -> FittedWall:
    """Return an invented back wall: a deck 4 mm out of level, a niche, a valve.

    Returns
    -------
    FittedWall
        The wall. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_wall().right.at(0.0)
    2100.0
    """
    return FittedWall(
        name="B",
        left=Edge(offset=0.0, slope=0.0),
        right=Edge(offset=_WIDTH, slope=0.0),
        deck=((0.0, -250.0), (_WIDTH, -246.0)),
        ceiling=((0.0, 700.0), (_WIDTH, 700.0)),
        outline=((0.0, -250.0), (_WIDTH, -246.0), (_WIDTH, 700.0), (0.0, 700.0)),
        holes=(
            FittedHole(
                name="valve",
                x=1650.0,
                y=150.0,
                diameter=76.0,
                pipe=28.0,
                plate=178.0,
                rough_in=None,
                rough_in_limits=None,
            ),
        ),
        openings=(FittedOpening(name="niche", kind="niche", box=_NICHE, gap=3.0),),
        fixtures=(),
    )


def sample_layout() -> Layout:
    """Return a set-out of that wall: three courses of 600 by 300 mm, stacked.

    Returns
    -------
    Layout
        The set-out. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_layout().walls[0].phase
    150.0
    """
    field = SetField(
        wall="B",
        left="butts",
        right="runs behind",
        gross=regions_of(_FIELD)[0],
        regions=regions_of(_net()),
        deck_low=-250.0,
    )
    return Layout(
        product="sample",
        turn="lying",
        bond="stack",
        face=_FACE,
        pitch=_FACE,
        first_course=_LINES[0],
        top=_LINES[-1],
        order=("B",),
        walls=(
            WallLayout(
                name="B",
                phase=150.0,
                row_shift=0.0,
                field=field,
                centring="joint",
                ends=(136.0, 136.0),
            ),
        ),
        looks=0,
        reasons=(),
    )


def sample_pieces() -> tuple[Piece, ...]:
    """Return the pieces of that set-out, by course and place, without marks.

    Returns
    -------
    tuple of Piece
        The pieces. [mm]

    Notes
    -----
    Source: invented; each is its cell cut to the field.

    Examples
    --------
    >>> [piece.tag for piece in sample_pieces() if piece.whole]
    ['B2-4', 'B3-4']
    """
    net = _net()
    pieces: list[Piece] = []
    for course, line in enumerate(_LINES, 1):
        cells = [
            Box(left=left, bottom=line - _FACE[1], right=left + _FACE[0], top=line)
            for left in (-450.0, 150.0, 750.0, 1350.0, 1950.0)
        ]
        pieces += [
            _piece(cell, region, course, place)
            for place, cell in enumerate(cells, 1)
            for region in regions_of(net.intersection(_box(cell)))
        ]
    return tuple(pieces)


def sample_drilled() -> tuple[Piece, tuple[FittedHole, ...]]:
    """Return a module that is whole but for a hole, and the holes of its wall.

    Returns
    -------
    tuple of Piece and tuple of FittedHole
        The piece, 600 by 300 mm, which keeps its left and its bottom edge; a valve of 76 mm is
        200 mm from the left and 110 mm from the bottom. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> piece, holes = sample_drilled()
    >>> piece.keeps, [hole.name for hole in holes]
    (('left', 'bottom'), ['valve'])
    """
    wall = sample_wall()
    (valve,) = wall.holes
    left, bottom = valve.x - 200.0, valve.y - 110.0
    cell = Box(left=left, bottom=bottom, right=left + _FACE[0], top=bottom + _FACE[1])
    net = _box(cell).difference(disc(x=valve.x, y=valve.y, diameter=valve.diameter))
    piece = _piece(cell, regions_of(net)[0], 2, 4)
    edges = (
        PieceEdge(side="left", kind="factory", start=(0.0, 300.0), end=(0.0, 0.0)),
        PieceEdge(side="bottom", kind="factory", start=(0.0, 0.0), end=(600.0, 0.0)),
    )
    hole = PieceHole(name=valve.name, x=200.0, y=110.0, diameter=valve.diameter)
    return replace(piece, edges=edges, keeps=("left", "bottom"), holes=(hole,)), wall.holes


def _net() -> BaseGeometry:
    grown = shapely.box(_NICHE.left - 3, _NICHE.bottom - 3, _NICHE.right + 3, _NICHE.top)
    return _FIELD.difference(grown).difference(disc(x=1650.0, y=150.0, diameter=76.0))


def _box(cell: Box) -> shapely.Polygon:
    return shapely.box(cell.left, cell.bottom, cell.right, cell.top)


def _piece(cell: Box, region: Region, course: int, place: int) -> Piece:
    xs, ys = zip(*region.rings[0], strict=True)
    within = Box(
        left=min(xs) - cell.left,
        bottom=min(ys) - cell.bottom,
        right=max(xs) - cell.left,
        top=max(ys) - cell.bottom,
    )
    outer = shapely.Polygon(region.rings[0])
    return Piece(
        tag=f"B{course}-{place}",
        wall="B",
        course=course,
        place=place,
        product="sample",
        turn=0,
        face=_FACE,
        region=region,
        cell=cell,
        within=within,
        whole=outer.equals(_box(cell)),
        edges=(),
        keeps=(),
        holes=(),
        marks=(),
        measure_in_place=False,
    )
