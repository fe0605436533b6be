"""Pieces of a module 600 by 300 mm, made by hand."""

from gaugerod.core.base.geometry import Box, Point, Region
from gaugerod.core.cutting.pieces import Mark, Piece, PieceEdge, PieceHole
from gaugerod.core.job.fields import Side

CELL = Box(left=1000.0, bottom=400.0, right=1600.0, top=700.0)


def edge(side: Side, start: Point, end: Point, *, cut: bool = False) -> PieceEdge:
    return PieceEdge(side=side, kind="cut" if cut else "factory", start=start, end=end)


def mark(what: str, start: Side, value: float, detail: str) -> Mark:
    return Mark(what=what, start=start, value=value, detail=detail)


def piece(ring: tuple[Point, ...], *marks: Mark, keeps: tuple[Side, ...] = ()) -> Piece:
    """A lying piece; `ring` is in the module's frame."""
    xs, ys = zip(*ring, strict=True)
    return Piece(
        tag="B2-1",
        wall="B",
        course=2,
        place=1,
        product="sample",
        turn=0,
        face=(CELL.width, CELL.height),
        region=Region(rings=(tuple((x + CELL.left, y + CELL.bottom) for x, y in ring),)),
        cell=CELL,
        within=Box(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys)),
        whole=False,
        edges=(),
        keeps=keeps,
        holes=(),
        marks=marks,
        measure_in_place=False,
    )


TAPER = piece(
    ((200.0, 0.0), (600.0, 0.0), (600.0, 300.0), (195.0, 300.0)),
    mark("bottom", "right", 400.0, "left"),
    mark("top", "right", 405.0, "left"),
    keeps=("right", "bottom", "top"),
)
"""Cut at the left with a lean, kept at the right."""

NOTCH = piece(
    ((0.0, 0.0), (500.0, 0.0), (500.0, 120.0), (600.0, 120.0), (600.0, 300.0), (0.0, 300.0)),
    mark("corner", "left", 500.0, "a1"),
    mark("corner", "bottom", 0.0, "a1"),
    mark("corner", "left", 500.0, "a2"),
    mark("corner", "bottom", 120.0, "a2"),
    mark("corner", "left", 600.0, "a3"),
    mark("corner", "bottom", 120.0, "a3"),
    keeps=("left", "right", "bottom", "top"),
)
"""The lower right corner is out, 100 wide and 120 high."""

VALVE = PieceHole(name="valve", x=250.0, y=100.0, diameter=76.0)
