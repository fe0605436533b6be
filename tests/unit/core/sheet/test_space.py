"""Walls stand corner to corner; leans, turns and insides worked by hand."""

from dataclasses import replace
from math import hypot, isclose

import pytest
from tests.fixtures_plan import tiled_plan
from tests.laid_by_hand import wall, walls

from gaugerod.core.base.geometry import Edge, bounds_of
from gaugerod.core.sheet.space import Alcove, Frame, Lining, linings, wall_frames
from gaugerod.core.survey.walls import FittedWall

L, B, R = (
    wall(name, width=width, ceiling=2000.0)
    for name, width in (("L", 800.0), ("B", 1500.0), ("R", 800.0))
)


def leaning(one: FittedWall, *, left: float = 0.0, right: float = 0.0) -> FittedWall:
    """A wall whose edges move to the right by so much for each millimetre up."""
    ends = Edge(offset=0.0, slope=left), Edge(offset=one.right.offset, slope=right)
    return replace(one, left=ends[0], right=ends[1])


def right_handed(frame: Frame) -> bool:
    (a, b, c), (d, e, f) = frame.along, frame.up
    cross = (b * f - c * e, c * d - a * f, a * e - b * d)
    return all(isclose(x, y, abs_tol=1e-12) for x, y in zip(cross, frame.out, strict=True))


def test_each_wall_begins_where_the_last_one_ends() -> None:
    frames = wall_frames(walls(L, B, R))
    assert frames["B"].origin == (0.0, 800.0, 0.0)
    assert frames["R"].origin == (1500.0, 800.0, 0.0)
    assert frames["R"].at(800.0, 0.0) == (1500.0, 0.0, 0.0)
    assert frames["L"].out == (1.0, 0.0, 0.0)


def test_an_outside_corner_turns_to_the_left() -> None:
    side, front = wall("C", width=250.0, ceiling=2000.0), wall("F", width=500.0, ceiling=2000.0)
    frames = wall_frames(walls(L, B, replace(side, corner="outside"), front, R))
    assert frames["C"].along == (0, -1, 0)
    assert (frames["F"].origin, frames["F"].along) == ((1500.0, 550.0, 0.0), (1, 0, 0))


def test_without_a_back_wall_the_widest_view_is_looked_at() -> None:
    deep = [replace(one, name=name) for one, name in ((B, "P"), (L, "Q"), (B, "S"))]
    assert wall_frames(walls(*deep))["Q"].along == (1, 0, 0)


def test_a_wall_leans_as_its_neighbours_edges_do() -> None:
    """8 mm and 4 mm over 2000 mm, both back: 6 mm in the mean."""
    left, right = leaning(L, right=8 / 2000), leaning(R, left=-4 / 2000)
    frame = wall_frames(walls(left, B, right))["B"]
    _, back, up = frame.at(0.0, 2000.0)
    assert (back - 800.0) / up == pytest.approx(6 / 2000)
    assert hypot(*frame.up) == pytest.approx(1.0)
    assert right_handed(frame)


def test_an_end_wall_leans_as_its_one_neighbour_says() -> None:
    frame = wall_frames(walls(leaning(B, right=5 / 2000), R))["R"]
    x, _, up = frame.at(0.0, 2000.0)
    assert (x - 1500.0) / up == pytest.approx(5 / 2000)


def test_round_an_outside_corner_the_same_lean_is_the_other_way() -> None:
    before = replace(leaning(B, right=5 / 2000), corner="outside")
    side = wall_frames(walls(before, R))["R"]
    # Moving to the right along the wall before is now toward who faces the side.
    assert side.along == (0, 1, 0)
    assert side.at(0.0, 2000.0)[0] - 1500.0 == pytest.approx(5.0, abs=1e-3)
    after = leaning(R, left=5 / 2000)
    assert wall_frames(walls(replace(B, corner="outside"), after))["B"].at(0.0, 2000.0)[1] > 0


def inside_of_the_niche() -> tuple[dict[str, Lining], Frame, float]:
    made = tiled_plan()
    alcove = Alcove(
        walls=made.walls,
        layout=made.layout,
        pieces=made.pieces,
        insides=made.insides,
        system=made.system,
    )
    frames = wall_frames(made.walls)
    found = {str(one.face): one for one in linings(alcove, frames) if one.opening}
    return found, frames["B"], made.system.thickness + made.system.bed


def test_inside_faces_are_right_handed_and_face_into_the_niche() -> None:
    faces, wall_, _ = inside_of_the_niche()
    assert faces.keys() == {"sill", "head", "left", "right", "back"}
    assert all(right_handed(face.frame) for face in faces.values())
    assert faces["left"].frame.out == wall_.along
    assert faces["back"].frame.out == wall_.out
    assert faces["head"].frame.out[2] < -0.99
    assert faces["sill"].frame.out[2] > 0.99


def test_their_front_edges_lie_on_the_face_of_the_lining() -> None:
    faces, wall_, thick = inside_of_the_niche()
    front = {
        "sill": (0.0, "bottom"),
        "head": (1.0, "top"),
        "left": (0.0, "left"),
        "right": (1.0, "right"),
    }
    level = wall_.at(0.0, 0.0, thick)
    for name, (far, side) in front.items():
        box = bounds_of(faces[name].regions[0].rings)
        upright = side in {"left", "right"}
        x, y = (box.right * far, 0.0) if upright else (0.0, box.top * far)
        place = faces[name].frame.at(x, y)
        off = sum((p - q) * n for p, q, n in zip(place, level, wall_.out, strict=True))
        assert off == pytest.approx(0.0, abs=1e-6), name


def test_the_sill_falls_to_the_room_by_an_eighth_of_six_inches() -> None:
    """1/4 in per ft: 1 in 48."""
    faces, wall_, _ = inside_of_the_niche()
    up = faces["sill"].frame.up
    into = -sum(p * q for p, q in zip(up, wall_.out, strict=True))
    rise = sum(p * q for p, q in zip(up, wall_.up, strict=True))
    assert rise / into == pytest.approx(1 / 48)
