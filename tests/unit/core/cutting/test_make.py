"""Pieces of small hand-made walls."""

from dataclasses import replace

import pytest

from gaugerod.core.base.geometry import Box, Edge, Region, regions_of, shape_of
from gaugerod.core.cutting.frame import seated
from gaugerod.core.cutting.make import is_chip, make_pieces
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_job, sample_system
from gaugerod.core.setout.field import set_field
from gaugerod.core.setout.lattice import hung
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.setout.pattern import Module
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedHole, FittedOpening, FittedWall

KEYED = sample_system()
NO_GAPS = KEYED.model_copy(
    update={
        "gaps": KEYED.gaps.model_copy(
            update={"deck": 0.0, "corner": 0.0, "opening": 0.0, "ceiling": 0.0}
        )
    }
)


def pieces(
    wall: FittedWall,
    *,
    phase: float = 0.0,
    first: float = 300.0,
    top: float = 600.0,
    shift: float = 0.0,
    turn: Turn = "lying",
    system: System = NO_GAPS,
) -> dict[str, Piece]:
    face, pitch = hung(system, turn)
    field = set_field(wall, ("open", "open"), system, top=top)
    on_wall = WallLayout(
        name="B", phase=phase, row_shift=shift, field=field, centring="module", ends=(0.0, 0.0)
    )
    layout = Layout(
        product=system.id,
        turn=turn,
        bond="stack",
        face=face,
        pitch=pitch,
        first_course=first,
        top=top,
        order=("B",),
        walls=(on_wall,),
        looks=0,
        reasons=(),
    )
    walls = replace(fit_walls(sample_job()), walls=(wall,), moved=())
    return {piece.tag: piece for piece in make_pieces(layout, walls, system)}


def wall(
    *, width: float = 1200.0, fall: float = 0.0, window: Box | None = None, hole: float = 0.0
) -> FittedWall:
    deck = ((0.0, fall), (width, 0.0))
    ceiling = ((0.0, 2000.0), (width, 2000.0))
    valve = FittedHole(
        name="valve",
        x=hole,
        y=450.0,
        diameter=80.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    return FittedWall(
        name="B",
        left=Edge(offset=0.0, slope=0.0),
        right=Edge(offset=width, slope=0.0),
        deck=deck,
        ceiling=ceiling,
        outline=(*deck, *reversed(ceiling)),
        holes=(valve,) if hole else (),
        openings=(FittedOpening(name="w", kind="window", box=window, gap=None),) if window else (),
        fixtures=(),
    )


def kinds(piece: Piece) -> dict[str, str]:
    return {edge.side: edge.kind for edge in piece.edges}


def marks(piece: Piece) -> list[tuple[str, str, float]]:
    return [(mark.what, mark.start, round(mark.value, 6)) for mark in piece.marks]


def test_whole_modules_lose_only_the_tongues_that_point_at_nothing() -> None:
    found = pieces(wall())
    assert list(found) == ["B1-1", "B1-2", "B2-1", "B2-2"]
    assert all(piece.whole for piece in found.values())
    assert kinds(found["B1-1"]) == dict.fromkeys(("left", "right", "bottom", "top"), "factory")
    assert kinds(found["B2-2"]) == {
        "left": "factory",
        "bottom": "factory",
        "right": "tongue off",
        "top": "tongue off",
    }
    assert found["B2-2"].keeps == ("left", "bottom")
    assert found["B2-2"].size == (600.0, 300.0)


def test_end_pieces_keep_the_edge_towards_the_row() -> None:
    found = pieces(wall(width=1000.0), phase=200.0)
    left, right = found["B2-1"], found["B2-3"]
    assert left.size == (200.0, 300.0)
    assert left.keeps == ("right", "bottom")
    assert left.within == Box(left=400.0, bottom=0.0, right=600.0, top=300.0)
    assert marks(left) == [("bottom", "right", 200.0), ("top", "right", 200.0)]
    assert right.keeps == ("left", "bottom")
    assert marks(right) == [("bottom", "left", 200.0), ("top", "left", 200.0)]


def test_a_first_course_over_a_falling_deck_is_a_taper_marked_from_its_top() -> None:
    # The deck is 12 higher at the left, straight over 1200: 300 - 12 + x / 100.
    found = pieces(wall(fall=12.0))
    assert marks(found["B1-1"]) == [("left", "top", 288.0), ("right", "top", 294.0)]
    assert marks(found["B1-2"]) == [("left", "top", 294.0), ("right", "top", 300.0)]
    assert found["B1-1"].keeps == ("left", "right", "top")
    assert not found["B1-1"].whole


def test_a_hole_is_marked_from_two_edges_and_checked_from_the_others() -> None:
    piece = pieces(wall(hole=250.0))["B2-1"]
    (hole,) = piece.holes
    assert (hole.name, hole.x, hole.y) == ("valve", 250.0, 150.0)
    # The tongue on top comes off, the piece keeps left, right and bottom.
    assert marks(piece) == [
        ("hole", "left", 250.0),
        ("hole", "bottom", 150.0),
        ("check", "right", 350.0),
        ("check", "top", 150.0),
    ]
    assert not piece.whole
    assert len(piece.region.rings) == 2


def test_a_hole_across_a_joint_is_a_bite_out_of_both_pieces() -> None:
    found = pieces(wall(hole=600.0))
    assert found["B2-1"].holes == found["B2-2"].holes == ()
    assert kinds(found["B2-1"])["right"] in {"factory", "cut"}
    bitten = shape_of(found["B2-1"].region).area
    assert bitten == pytest.approx(600 * 300 - 3.14159 * 40**2 / 2, rel=1e-4)


def test_what_a_drill_cuts_off_a_corner_of_a_module_is_no_piece() -> None:
    # The corner at (600, 480) is 30 right of and 30 above the centre: 42.4 off, the rim is 40 off.
    found = pieces(wall(hole=570.0), first=480.0, top=780.0)
    assert sorted(found) == ["B0-1", "B0-2", "B1-1", "B1-2", "B2-1", "B2-2"]
    # By Pythagoras the rim leaves the top at 26.46 from the centre, each way.
    row = found["B1-1"].region.rings[0]
    tops = [x for x, y in row if y == 480.0]
    assert max(tops) == pytest.approx(570 - (40**2 - 30**2) ** 0.5, abs=0.1)


def test_a_wide_corner_beside_a_large_hole_stays_a_piece() -> None:
    # The corner at (600, 540) is 127 off the centre and the rim 90: a triangle with legs
    # of 90 each way holds a circle 52.7 wide, which is wider than 40.
    corner = ((600.0, 450.0), (600.0, 540.0), (510.0, 540.0))
    (valve,) = wall(hole=510.0).holes
    hole = replace(valve, diameter=180.0)
    assert not is_chip(Region(rings=(corner,)), (hole,), 40.0)
    assert is_chip(Region(rings=(corner,)), (hole,), 60.0)


def test_an_opening_in_a_corner_of_a_piece_leaves_a_notch() -> None:
    piece = pieces(wall(window=Box(left=450.0, bottom=200.0, right=900.0, top=700.0)))["B1-1"]
    assert len(piece.region.rings[0]) == 6
    cut = sorted((edge.side, edge.start, edge.end) for edge in piece.edges if edge.kind == "cut")
    assert cut == [
        ("right", (450.0, 200.0), (450.0, 300.0)),
        ("top", (600.0, 200.0), (450.0, 200.0)),
    ]
    # Right and top are still the factory's where the notch leaves them.
    assert piece.keeps == ("left", "right", "bottom", "top")
    assert marks(piece) == [("notch", "left", 450.0), ("notch", "bottom", 200.0)]
    assert {mark.detail for mark in piece.marks} == {"right top"}


def test_a_cell_that_an_opening_splits_is_two_pieces() -> None:
    found = pieces(wall(window=Box(left=200.0, bottom=250.0, right=400.0, top=650.0)))
    assert [tag for tag in found if tag.startswith("B2")] == ["B2-1", "B2-2", "B2-3"]
    assert found["B2-1"].size == (200.0, 300.0)
    assert found["B2-2"].size == (200.0, 300.0)
    assert found["B2-2"].within.left == 400.0


def test_standing_modules_are_turned_a_quarter_anticlockwise() -> None:
    found = pieces(wall(width=900.0), first=600.0, turn="standing", top=700.0)
    piece = found["B1-3"]
    assert piece.turn == 90
    assert piece.size == (600.0, 300.0)
    # The groove at the bottom of the lying module now points right.
    assert kinds(piece) == dict.fromkeys(("left", "right", "bottom", "top"), "factory")
    # The upper course is 100 high: of the module's width, from its left, the groove end.
    upper = found["B2-1"]
    assert upper.size == (100.0, 300.0)
    assert upper.keeps == ("left", "bottom")
    assert kinds(upper) == {
        "left": "factory",
        "right": "cut",
        "bottom": "factory",
        "top": "tongue off",
    }


def test_joints_lie_between_the_pieces_of_grouted_tile() -> None:
    tile = NO_GAPS.model_copy(
        update={
            "face": (597.0, 297.0),
            "joint": (3.0, 3.0),
            "kind": "grouted",
            "edges": NO_GAPS.edges.model_copy(
                update=dict.fromkeys(("left", "right", "bottom", "top"), "plain")
            ),
        }
    )
    found = pieces(wall(width=1197.0), system=tile, first=297.0, top=597.0)
    assert all(piece.whole for piece in found.values())
    first, second = (shape_of(found[tag].region) for tag in ("B1-1", "B1-2"))
    assert first.distance(second) == pytest.approx(3.0)


@pytest.mark.parametrize("turn", [0, 45, 90, 135, 180, 225, 270, 315, 30])
def test_a_frame_carries_a_region_to_the_module(turn: int) -> None:
    module = Module(at=(100.0, 50.0), face=(600.0, 300.0), turn=turn)
    frame = seated(module.around, module.face, turn)
    assert frame.at == pytest.approx(module.at)
    (region,) = regions_of(module.shape)
    assert shape_of(frame.region_to_module(region)).area == pytest.approx(180_000.0)
    around = frame.box_of(region)
    assert (around.left, around.bottom) == pytest.approx((0.0, 0.0), abs=1e-9)
    assert (around.right, around.top) == pytest.approx((600.0, 300.0))


def test_a_point_of_a_standing_cell_by_hand() -> None:
    # The module lies 600 by 300; standing its right points up and its top points left.
    frame = seated(Box(left=0.0, bottom=0.0, right=300.0, top=600.0), (600.0, 300.0), 90)
    assert frame.to_module((300.0, 0.0)) == (0.0, 0.0)
    assert frame.to_module((300.0, 600.0)) == (600.0, 0.0)
    assert frame.to_module((0.0, 0.0)) == (0.0, 300.0)
