"""What is seen of boxes into a wall and out of it, from three places."""

import pytest

from gaugerod.core.base.geometry import Box, bounds_of
from gaugerod.core.sheet.eye import Eye
from gaugerod.core.sheet.picture_box import boss, recess
from gaugerod.core.sheet.space import Frame, Vector

WALL = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
BOX = Box(left=-100.0, bottom=-50.0, right=100.0, top=50.0)
BACK, UP, DOWN, RIGHT, LEFT = (0, -1, 0), (0, 0, 1), (0, 0, -1), (1, 0, 0), (-1, 0, 0)


def eye(x: float, z: float) -> Eye:
    return Eye(at=(x, -1000.0, z), far=1000.0)


@pytest.mark.parametrize(
    ("at", "faces"),
    [
        ((0.0, 0.0), {BACK, UP, DOWN, RIGHT, LEFT}),
        ((-500.0, 0.0), {BACK, UP, DOWN, LEFT}),
        ((500.0, 400.0), {BACK, UP, RIGHT}),
    ],
)
def test_of_a_recess_the_far_sides_are_seen(at: tuple[float, float], faces: set[Vector]) -> None:
    assert {out for _, out in recess(eye(*at), WALL, BOX, deep=90.0)} == faces


@pytest.mark.parametrize(
    ("at", "faces"),
    [
        ((0.0, 0.0), {BACK}),
        ((-500.0, 0.0), {BACK, LEFT}),
        ((500.0, 400.0), {BACK, UP, RIGHT}),
        ((0.0, -400.0), {BACK, DOWN}),
    ],
)
def test_of_a_boss_the_near_sides_are_seen(at: tuple[float, float], faces: set[Vector]) -> None:
    assert {out for _, out in boss(eye(*at), WALL, BOX, proud=90.0)} == faces


def test_the_back_is_smaller_than_the_mouth_and_the_front_larger_than_the_foot() -> None:
    (back, _), *_ = recess(eye(0.0, 0.0), WALL, BOX, deep=1000.0)
    assert bounds_of(back.rings).width == pytest.approx(100.0)
    *_, (front, _) = boss(eye(0.0, 0.0), WALL, BOX, proud=500.0)
    assert bounds_of(front.rings).width == pytest.approx(400.0)
