"""Outlines in a module of 600 by 300, made by hand."""

from gaugerod.core.base.geometry import Box, Point, Region, bounds_of
from gaugerod.core.cutting.make import side_of
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import Piece, PieceEdge
from gaugerod.core.job.fields import Side

FACE = (600.0, 300.0)
SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")
U_BELOW: tuple[Point, ...] = (
    (0.0, 0.0),
    (200.0, 0.0),
    (200.0, 120.0),
    (400.0, 120.0),
    (400.0, 0.0),
    (600.0, 0.0),
    (600.0, 300.0),
    (0.0, 300.0),
)
"""A U from 200 to 400 across and 120 deep, open at the bottom."""


def edges_of(ring: tuple[Point, ...]) -> tuple[PieceEdge, ...]:
    found = []
    for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
        side, on_module = side_of(start, end, FACE)
        kind = "factory" if on_module else "cut"
        found.append(PieceEdge(side=side, kind=kind, start=start, end=end))  # type: ignore[arg-type]  # of two words
    return tuple(found)


def cut_edges(ring: tuple[Point, ...]) -> tuple[PieceEdge, ...]:
    return tuple(edge for edge in edges_of(ring) if edge.kind == "cut")


def piece_of(ring: tuple[Point, ...]) -> Piece:
    """A lying piece whose cell's lower left is the origin of the wall."""
    edges = edges_of(ring)
    keeps = tuple(s for s in SIDES if any((e.side, e.kind) == (s, "factory") for e in edges))
    region = Region(rings=(ring,))
    return Piece(
        tag="B1-1",
        wall="B",
        course=1,
        place=1,
        product="tile",
        turn=0,
        face=FACE,
        region=region,
        cell=Box(left=0.0, bottom=0.0, right=600.0, top=300.0),
        within=bounds_of(region.rings),
        whole=False,
        edges=edges,
        keeps=keeps,
        holes=(),
        marks=marks_of(region, edges, (), keeps, FACE),
        measure_in_place=False,
    )
