"""Walls, fields and pieces laid out by hand, in mm, to count on. Invented."""

from collections.abc import Iterable, Sequence

import numpy as np

from gaugerod.core.base.geometry import Box, Edge, Point, Region
from gaugerod.core.cutting.pieces import CutPlan, Piece, PieceEdge, PieceHole
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout, Meeting, SetField, WallLayout
from gaugerod.core.survey.walls import FittedOpening, FittedWall, Walls

PARTS: dict[str, object] = {
    "format": 1,
    "id": "hand",
    "name": "Module",
    "unit": "mm",
    "per_box": 8,
    "price": 200,
    "spares": 1,
    "sealant": {
        "name": "Sealant",
        "cartridge": 0.3,
        "key_bead": 4,
        "fillet": 6,
        "usable": 0.8,
        "price": 9,
        "hold_hours": 24,
    },
    "trim": [
        {"id": "edge", "name": "Edge trim", "use": "edge", "stock": 2400, "price": 18},
        {"id": "top", "name": "Top trim", "use": "top", "stock": 2400, "price": 16},
        {"id": "corner", "name": "Corner", "use": "inside corner", "stock": 2400, "price": 21},
    ],
    "gaps": {
        "deck": 3,
        "corner": 3,
        "butt": 3,
        "opening": 3,
        "ceiling": 10,
        "hole_clear": 25,
    },
}


def keyed(**changes: object) -> System:
    """A keyed module of 600 by 300."""
    return System.model_validate(
        PARTS
        | {
            "kind": "keyed",
            "face": (600, 300),
            "thickness": 9,
            "bed": 2,
            "key_depth": 9,
            "edges": {"left": "groove", "right": "tongue", "bottom": "groove", "top": "tongue"},
            "joint": (0, 0),
            "weight": 1.5,
            "breakage": 0.02,
            "cutting": {"kerf": 3, "least": 50, "tool": "saw", "material": "plastic"},
            "adhesive": {
                "name": "Adhesive",
                "cartridge": 0.8,
                "bead": 6,
                "inset": 25,
                "infill": 150,
                "usable": 0.85,
                "price": 12,
                "open_minutes": 12,
                "hold_hours": 24,
            },
        }
        | changes
    )


def grouted(**changes: object) -> System:
    """A tile of 597 by 297 with joints of 3."""
    return System.model_validate(
        PARTS
        | {
            "kind": "grouted",
            "face": (597, 297),
            "thickness": 10,
            "bed": 4,
            "joint": (3, 3),
            "weight": 3.6,
            "breakage": 0.05,
            "cutting": {"kerf": 2, "least": 50, "tool": "wet saw", "material": "porcelain"},
            "mortar": {
                "name": "Mortar",
                "notch_depth": 10,
                "notch_width": 10,
                "notch_gap": 10,
                "bag_yield": 13.5,
                "price": 21,
                "hold_hours": 24,
            },
            "grout": {
                "name": "Grout",
                "density": 1.6,
                "bag": 5,
                "price": 12,
                "hold_hours": 72,
            },
        }
        | changes
    )


def rectangle(*, left: float, bottom: float, right: float, top: float) -> Region:
    """An upright rectangle."""
    return Region(rings=(((left, bottom), (right, bottom), (right, top), (left, top)),))


def rectangles(
    *, across: Sequence[tuple[float, float]], up: Sequence[tuple[float, float]]
) -> tuple[Region, ...]:
    """Every rectangle of a grid, given by the stretches it takes across and up."""
    return tuple(
        rectangle(left=left, bottom=bottom, right=right, top=top)
        for bottom, top in up
        for left, right in across
    )


def wall(
    name: str, *, width: float, ceiling: float, openings: tuple[FittedOpening, ...] = ()
) -> FittedWall:
    """A plumb wall from a level deck at the datum up to a level ceiling."""
    deck: tuple[Point, ...] = ((0.0, 0.0), (width, 0.0))
    top: tuple[Point, ...] = ((0.0, ceiling), (width, ceiling))
    return FittedWall(
        name=name,
        left=Edge(offset=0.0, slope=0.0),
        right=Edge(offset=width, slope=0.0),
        deck=deck,
        ceiling=top,
        outline=(*deck, *reversed(top)),
        holes=(),
        openings=openings,
        fixtures=(),
    )


def opening(kind: str, *, left: float, bottom: float, right: float, top: float) -> FittedOpening:
    """A window or niche."""
    box = Box(left=left, bottom=bottom, right=right, top=top)
    return FittedOpening(
        name=kind, kind="niche" if kind == "niche" else "window", box=box, gap=None
    )


def walls(*fitted: FittedWall) -> Walls:
    """The surveyed alcove."""
    return Walls(
        walls=fitted,
        readings=(),
        suspects=(),
        parameters=(),
        covariance=np.zeros((0, 0)),
        sigma0=0.0,
        dof=0,
        floor=None,
        drain=None,
        fit_for="cut",
        reasons=(),
    )


def field(
    name: str, gross: Region, regions: tuple[Region, ...] = (), *, ends: tuple[Meeting, Meeting]
) -> SetField:
    """The field of a wall; net of nothing where `regions` is left out."""
    return SetField(
        wall=name,
        left=ends[0],
        right=ends[1],
        gross=gross,
        regions=regions or (gross,),
        deck_low=0.0,
    )


def layout(*fields: SetField) -> Layout:
    """The set-out, of which only the fields count."""
    return Layout(
        product="hand",
        turn="lying",
        bond="stack",
        face=(600.0, 300.0),
        pitch=(600.0, 300.0),
        first_course=300.0,
        top=1200.0,
        order=tuple(field.wall for field in fields),
        walls=tuple(
            WallLayout(
                name=field.wall,
                phase=0.0,
                row_shift=0.0,
                field=field,
                centring="module",
                ends=(450.0, 450.0),
            )
            for field in fields
        ),
        looks=0,
        reasons=(),
    )


def piece(
    region: Region,
    *,
    edges: Iterable[PieceEdge] = (),
    within: Box | None = None,
    holes: tuple[PieceHole, ...] = (),
) -> Piece:
    """A piece of a rectangular region; its edges as they are needed."""
    (left, bottom), _, (right, top), _ = region.rings[0][:4]
    box = within or Box(left=0.0, bottom=0.0, right=right - left, top=top - bottom)
    return Piece(
        tag="B1-1",
        wall="B",
        course=1,
        place=1,
        product="hand",
        turn=0,
        face=(box.width, box.height),
        region=region,
        cell=box,
        within=box,
        whole=not edges,
        edges=tuple(edges),
        keeps=(),
        holes=holes,
        marks=(),
        measure_in_place=False,
    )


def cut_plan(*, modules: int, cuts: int = 0) -> CutPlan:
    """A cut plan of which only the counts matter."""
    return CutPlan(stock=(), modules=modules, lower_bound=modules, proven=True, cuts=cuts)
