from dataclasses import replace
from math import cos, pi, sin

import pytest
from tests.unit.core.sheet.cuts import CELL, NOTCH, TAPER, mark

from gaugerod.core.cutting.edge_marks import along
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.corners import bites, corners, face_of, frame_of
from gaugerod.core.survey.walls import FittedHole


def hole(x: float, y: float) -> FittedHole:
    """A valve 76 mm wide, centred at a point of the module's frame."""
    return FittedHole(
        name="valve",
        x=CELL.left + x,
        y=CELL.bottom + y,
        diameter=76.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )


def bitten(x: float, y: float) -> Piece:
    """The notched piece with seven more corners on the rim of a hole, to its left."""
    angles = [pi / 2 + i * pi / 6 for i in range(7)]
    rim: list[Mark] = []
    for number, angle in enumerate(angles, start=1):
        rim += [
            mark("corner", "left", x + 38 * cos(angle), f"b{number}"),
            mark("corner", "bottom", y + 38 * sin(angle), f"b{number}"),
        ]
    return replace(NOTCH, marks=(*NOTCH.marks, *rim))


def test_corners_have_their_place_and_their_two_marks() -> None:
    found = corners(NOTCH, ())
    assert [(corner.name, corner.at) for corner in found] == [
        ("a1", (500.0, 0.0)),
        ("a2", (500.0, 120.0)),
        ("a3", (600.0, 120.0)),
    ]
    assert (found[1].across.start, found[1].up.start) == ("left", "bottom")


def test_a_round_bite_is_drilled_not_marked() -> None:
    valve = hole(600.0, 200.0)
    piece = bitten(600.0, 200.0)
    assert [corner.at for corner in corners(piece, (valve,))] == [c.at for c in corners(NOTCH, ())]
    (bite,) = bites(piece, (valve,))
    assert (bite.name, bite.at, bite.diameter) == ("valve", (600.0, 200.0), 76.0)
    assert (bite.across.value, bite.up.value) == (600.0, 200.0)


def test_a_centre_off_the_module_is_less_than_nought() -> None:
    piece = bitten(-21.0, 102.0)
    (bite,) = bites(piece, (hole(-21.0, 102.0),))
    assert (bite.across.start, bite.across.value) == ("left", -21.0)


def test_a_straight_cut_has_no_corners_and_a_far_hole_no_bite() -> None:
    assert corners(TAPER, (hole(300.0, 150.0),)) == ()
    assert bites(NOTCH, (hole(300.0, 200.0),)) == ()


@pytest.mark.parametrize(
    ("side", "at"), [("left", 20.0), ("right", 580.0), ("bottom", 20.0), ("top", 280.0)]
)
def test_a_mark_lies_at_its_distance_from_its_side(side: Side, at: float) -> None:
    assert along(side, 20.0, face_of(NOTCH)) == at


def test_a_standing_module_lies_on_its_right_side() -> None:
    standing = frame_of(replace(TAPER, turn=90))
    assert standing.to_module((CELL.right, CELL.bottom)) == (0.0, 0.0)
