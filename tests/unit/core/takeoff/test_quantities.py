from math import hypot, pi

import pytest
from tests.laid_by_hand import (
    field,
    grouted,
    keyed,
    opening,
    piece,
    rectangle,
    rectangles,
    wall,
    walls,
)

from gaugerod.core.base.geometry import Box, Region, disc, regions_of, shape_of
from gaugerod.core.cutting.pieces import Inside, Piece, PieceEdge, PieceHole
from gaugerod.core.job.fields import InsideFace
from gaugerod.core.job.materials import System
from gaugerod.core.survey.walls import FittedOpening
from gaugerod.core.takeoff.order import Quantities
from gaugerod.core.takeoff.quantities import count_quantities
from gaugerod.core.takeoff.runs import edge_runs

FIELD = rectangle(left=0, bottom=0, right=1500, top=1200)
COURSES = [(0, 300), (300, 600), (600, 900), (900, 1200)]
KEYED = rectangles(across=[(0, 450), (450, 1050), (1050, 1500)], up=COURSES)
# The same with joints of 3: every piece but those at right and top gives them up.
GROUTED = rectangles(
    across=[(0, 447), (450, 1047), (1050, 1500)],
    up=[(0, 297), (300, 597), (600, 897), (900, 1200)],
)


def counted(
    pieces: list[Piece],
    system: System,
    *,
    regions: tuple[Region, ...] = (FIELD,),
    openings: tuple[FittedOpening, ...] = (),
    insides: tuple[Inside, ...] = (),
) -> Quantities:
    on = wall("B", width=1500, ceiling=1400, openings=openings)
    lined = field("B", FIELD, regions, ends=("open", "runs behind"))
    runs = (edge_runs(lined, on, system),)
    return count_quantities(tuple(pieces), (lined,), runs, walls(on), system, insides=insides)


def test_keyed_modules_on_a_back_wall() -> None:
    found = counted([piece(region) for region in KEYED], keyed())
    assert found.pieces == 12
    assert found.area == 1500 * 1200
    assert found.key_length == 2 * 1200 + 3 * 1500
    assert found.joint_volume == 0
    assert found.seal_length == 1500
    assert found.edge_length == 1200
    assert (found.straight_cuts, found.shaped_cuts, found.holes, found.niches) == (0, 0, 0, 0)


def test_the_bead_is_that_of_every_piece() -> None:
    found = counted([piece(region) for region in KEYED], keyed())
    whole = 2 * (550 + 250) + 4 * hypot(550 / 4, 200)
    cut = 2 * (400 + 250) + 3 * hypot(400 / 3, 200)
    assert found.bead_length == pytest.approx(4 * whole + 8 * cut)
    assert found.buttered == 12
    assert found.longest_bead == pytest.approx(whole)


def test_a_hole_on_a_joint_is_one_hole() -> None:
    hole = PieceHole(name="valve", x=300, y=0, diameter=80)
    found = counted([piece(region, holes=(hole,)) for region in KEYED[:2]], keyed())
    assert found.hole_sizes == ((80, 1),)


def test_a_sliver_takes_no_bead() -> None:
    sliver = rectangle(left=0, bottom=0, right=10, top=300)
    found = counted([piece(KEYED[0]), piece(sliver)], keyed())
    assert (found.pieces, found.buttered) == (2, 1)


def test_grouted_tile_on_a_back_wall() -> None:
    found = counted([piece(region) for region in GROUTED], grouted())
    crossing_once = 2 * 3 * 1200 + 3 * 3 * 1500 - 6 * 3 * 3
    assert found.joint_volume == pytest.approx(crossing_once * 10)
    assert found.key_length == 0
    assert found.bead_length == 0


def test_a_niche_is_no_joint_and_no_area() -> None:
    # Exactly the middle pieces of the second and third course, and the joint between them.
    niche = opening("niche", left=453, bottom=303, right=1044, top=894)
    net = regions_of(
        shape_of(FIELD).difference(
            shape_of(rectangle(left=450, bottom=300, right=1047, top=897)),
        )
    )
    pieces = [piece(region) for place, region in enumerate(GROUTED) if place not in {4, 7}]
    found = counted(pieces, grouted(), regions=net, openings=(niche,))
    assert found.niches == 1
    assert found.area == pytest.approx(1500 * 1200 - 597 * 597)
    crossing_once = 2 * 3 * 1200 + 3 * 3 * 1500 - 6 * 3 * 3
    assert found.joint_volume == pytest.approx((crossing_once - 597 * 3) * 10)
    assert found.seal_length == pytest.approx(1500 + 4 * 597)


def test_a_window_is_no_niche() -> None:
    window = opening("window", left=450, bottom=303, right=1047, top=894)
    assert counted([], keyed(), openings=(window,)).niches == 0


def test_a_hole_is_in_piece_and_field_alike() -> None:
    bore = disc(x=750, y=150, diameter=80)
    drilled = regions_of(shape_of(KEYED[1]).difference(bore))[0]
    hole = PieceHole(name="valve", x=300, y=150, diameter=80)
    pieces = [piece(KEYED[0]), piece(drilled, holes=(hole,)), *map(piece, KEYED[2:])]
    found = counted(pieces, keyed(), regions=regions_of(shape_of(FIELD).difference(bore)))
    assert found.holes == 1
    assert found.hole_sizes == ((80, 1),)
    assert found.ring_length == pytest.approx(pi * 80)
    assert found.key_length == pytest.approx(2 * 1200 + 3 * 1500)
    assert found.area == pytest.approx(1500 * 1200 - pi * 40**2, rel=1e-5)


def test_one_piece_on_a_wall_has_no_key() -> None:
    assert counted([piece(FIELD)], keyed()).key_length == 0


def test_cuts_are_counted_on_the_pieces() -> None:
    cut = PieceEdge(side="right", kind="cut", start=(450, 0), end=(450, 300))
    box = Box(left=0, bottom=0, right=450, top=300)
    found = counted([piece(KEYED[0], edges=[cut], within=box)] * 2, keyed())
    assert (found.straight_cuts, found.shaped_cuts) == (2, 0)
    assert found.cut_length == 2 * 300


def inside(
    face: InsideFace, width: float, height: float, *parts: Region, window: bool = False
) -> Inside:
    """A face of a niche on wall B, or of a window, of one piece where no parts are given."""
    whole = rectangle(left=0, bottom=0, right=width, top=height)
    return Inside(
        name=f"B it {face}",
        wall="B",
        opening="it",
        kind="window" if window else "niche",
        face=face,
        region=whole,
        pieces=tuple(map(piece, parts or (whole,))),
        sealed=100.0,
    )


def test_inside_faces_are_bought_with_the_rest_and_kept_apart() -> None:
    walls_only = counted([piece(region) for region in GROUTED], grouted())
    low = rectangle(left=0, bottom=0, right=400, top=297)
    high = rectangle(left=0, bottom=300, right=400, top=500)
    faces = (inside("sill", 406, 100), inside("back", 400, 500, low, high))
    found = counted([piece(region) for region in GROUTED], grouted(), insides=faces)
    assert (found.inside_pieces, found.inside_area) == (3, 406 * 100 + 400 * 500)
    assert (found.inside_seal, found.reveals) == (200.0, 0)
    # The joint of 3 between the two parts of the back, and nothing else inside.
    more = found.joint_volume - walls_only.joint_volume
    assert more == pytest.approx(400 * 3 * grouted().thickness)
    for name in ("pieces", "straight_cuts", "area", "seal_length", "niches"):
        assert getattr(found, name) == getattr(walls_only, name)


def test_beads_and_keys_of_inside_faces() -> None:
    system = keyed()
    sill = inside("sill", 400, 100)
    halves = (
        rectangle(left=0, bottom=0, right=200, top=100),
        rectangle(left=200, bottom=0, right=400, top=100),
    )
    plain = counted([], system, regions=(), insides=(sill,))
    # A strip of 350 by 50 inside the inset is a ring and no zigzag.
    assert plain.bead_length == 2 * (350 + 50)
    assert counted([], system, insides=(inside("sill", 400, 100, *halves),)).inside_pieces == 2


def test_a_window_with_its_four_faces_is_one_reveal() -> None:
    faces: tuple[InsideFace, ...] = ("sill", "head", "left", "right")
    lined = tuple(inside(face, 300, 100, window=True) for face in faces)
    assert counted([], keyed(), insides=lined).reveals == 1
