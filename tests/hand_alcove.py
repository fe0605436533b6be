"""An alcove planned by hand: three walls, one valve, one window, a few pieces. Invented, in mm."""

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np

from gaugerod.core.base.geometry import Box, Edge, Region
from gaugerod.core.checks.facts import Facts
from gaugerod.core.cutting.pieces import CutPlan, Piece, PieceEdge
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_job, sample_system
from gaugerod.core.setout.layout import Layout, SetField, WallLayout
from gaugerod.core.survey.walls import FittedHole, FittedOpening, FittedWall, Walls
from gaugerod.core.takeoff.order import Order, Quantities
from gaugerod.core.works.days import Days, DayTask

WIDTHS = {"L": 800.0, "B": 1500.0, "R": 800.0}
DECKS = {"L": (-760.0, -758.0), "B": (-758.0, -754.0), "R": (-754.0, -754.0)}
PHASES = {"L": 0.0, "B": 450.0, "R": 200.0}

VALVE = FittedHole(
    name="valve",
    x=400.0,
    y=-330.0,
    diameter=76.0,
    pipe=28.0,
    plate=178.0,
    rough_in=80.0,
    rough_in_limits=(50.0, 75.0),
)
WINDOW = FittedOpening(
    name="window",
    kind="window",
    box=Box(left=450.0, bottom=250.0, right=1050.0, top=850.0),
    gap=None,
)


def _wall(name: str) -> FittedWall:
    width, (start, end) = WIDTHS[name], DECKS[name]
    deck = ((0.0, start), (width, end))
    ceiling = ((0.0, 1400.0), (width, 1400.0))
    return FittedWall(
        name=name,
        left=Edge(offset=0.0, slope=0.0),
        right=Edge(offset=width, slope=0.0),
        deck=deck,
        ceiling=ceiling,
        outline=(*deck, *reversed(ceiling)),
        holes=(VALVE,) if name == "L" else (),
        openings=(WINDOW,) if name == "B" else (),
        fixtures=(),
    )


def _lattice(name: str) -> WallLayout:
    outline = Region(rings=(((0.0, -757.0), (WIDTHS[name], -757.0), (WIDTHS[name], 730.0)),))
    field = SetField(
        wall=name,
        left="open",
        right="open",
        gross=outline,
        regions=(outline,),
        deck_low=DECKS[name][0],
    )
    return WallLayout(
        name=name,
        phase=PHASES[name],
        row_shift=0.0,
        field=field,
        centring="module",
        ends=(450.0, 450.0),
    )


def _piece(tag: str, size: tuple[float, float], edges: tuple[PieceEdge, ...]) -> Piece:
    box = Box(left=0.0, bottom=0.0, right=size[0], top=size[1])
    return Piece(
        tag=tag,
        wall=tag[0],
        course=1,
        place=1,
        product="sample",
        turn=0,
        face=size,
        region=Region(rings=(((0.0, 0.0), (size[0], 0.0), size),)),
        cell=box,
        within=box,
        whole=not edges,
        edges=edges,
        keeps=(),
        holes=(),
        marks=(),
        measure_in_place=False,
    )


# The left piece of course 1 on the back wall: 450 wide at its foot, 438 at its head, and on the
# deck 287 high at the left, 285 at the right.
TAPERED = _piece(
    "B1-1",
    (450.0, 287.0),
    (
        PieceEdge(side="left", kind="cut", start=(12.0, 287.0), end=(0.0, 0.0)),
        PieceEdge(side="bottom", kind="cut", start=(0.0, 0.0), end=(450.0, 2.0)),
        PieceEdge(side="right", kind="factory", start=(450.0, 2.0), end=(450.0, 287.0)),
        PieceEdge(side="top", kind="tongue off", start=(450.0, 287.0), end=(12.0, 287.0)),
    ),
)
NARROW = _piece(
    "L2-2",
    (200.0, 300.0),
    (PieceEdge(side="right", kind="cut", start=(200.0, 0.0), end=(200.0, 300.0)),),
)
WHOLE = _piece("B2-2", (600.0, 300.0), ())

SEALED = DayTask(
    id="seal",
    name="Seal",
    minutes=120,
    after=(),
    start=datetime(2026, 3, 5, 14, tzinfo=UTC),
    end=datetime(2026, 3, 5, 16, tzinfo=UTC),
    hold_minutes=1440,
    hold_until=datetime(2026, 3, 6, 16, tzinfo=UTC),
    critical=True,
)
TRIMMED = replace(
    SEALED,
    id="trim",
    hold_minutes=0,
    start=SEALED.hold_until,
    end=datetime(2026, 3, 6, 18, tzinfo=UTC),
)


def _order() -> Order:
    counted = Quantities(
        pieces=3,
        straight_cuts=2,
        shaped_cuts=0,
        holes=1,
        niches=0,
        area=4e6,
        key_length=1e4,
        joint_volume=0.0,
        seal_length=6e3,
        bead_length=5e4,
        edge_length=3e3,
    )
    return Order(quantities=counted, modules=3, spares=1, boxes=1, lines=())


def hand_job() -> Job:
    """The sample job, with the depth of its valve read from the backer."""
    document = sample_job().model_dump(by_alias=True)
    document["wall"][0]["readings"] += ({"kind": "rough-in", "of": "valve", "reads": 80},)
    return Job.model_validate(document)


def tile() -> System:
    """An invented tile: 597 by 297 with joints of 3."""
    return System.model_validate(
        {
            "format": 1,
            "id": "tile",
            "name": "Tile",
            "unit": "mm",
            "kind": "grouted",
            "face": (597, 297),
            "thickness": 9,
            "bed": 4,
            "joint": (3, 3),
            "weight": 3.6,
            "per_box": 8,
            "price": 38,
            "breakage": 0.05,
            "spares": 2,
            "cutting": {"kerf": 2, "least": 50, "tool": "wet saw", "material": "porcelain"},
            "gaps": {
                "deck": 3,
                "corner": 3,
                "butt": 3,
                "opening": 3,
                "ceiling": 2,
                "hole_clear": 25,
            },
            "sealant": {
                "name": "Sealant",
                "cartridge": 0.3,
                "fillet": 6,
                "usable": 0.8,
                "price": 7,
                "hold_hours": 24,
            },
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
    )


def lined_by_hand() -> Facts:
    """All of it, lined with the keyed sample module of 600 by 300: a sound plan."""
    return Facts(
        job=hand_job(),
        walls=Walls(
            walls=tuple(_wall(name) for name in WIDTHS),
            readings=(),
            suspects=(),
            parameters=(),
            covariance=np.zeros((0, 0)),
            sigma0=1.0,
            dof=9,
            floor=-1140.0,
            drain=-1100.0,
            fit_for="cut",
            reasons=(),
        ),
        layout=Layout(
            product="sample",
            turn="lying",
            bond="stack",
            face=(600.0, 300.0),
            pitch=(600.0, 300.0),
            first_course=-470.0,
            top=730.0,
            order=("L", "B", "R"),
            walls=tuple(_lattice(name) for name in WIDTHS),
            looks=0,
            reasons=(),
        ),
        pieces=(TAPERED, NARROW, WHOLE),
        cuts=CutPlan(stock=(), modules=3, lower_bound=3, proven=True, cuts=2),
        order=_order(),
        days=Days(tasks=(SEALED, TRIMMED), finish=TRIMMED.end, no_water_until=SEALED.hold_until),
        system=sample_system(),
    )


def tiled_by_hand() -> Facts:
    """The same alcove in tile of the same pitch: joints of 3 above and right of each tile."""
    facts = lined_by_hand()
    layout = replace(facts.layout, face=(597.0, 297.0), first_course=-473.0)
    return replace(facts, system=tile(), layout=layout)
