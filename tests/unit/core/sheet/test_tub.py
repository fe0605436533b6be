"""The tub and what is on it, from rooms whose plans are worked by hand."""

from dataclasses import replace
from typing import Literal

import pytest
from tests.laid_by_hand import wall, walls

from gaugerod.core.base.geometry import Point, bounds_of, shape_of
from gaugerod.core.sheet.space import wall_frames
from gaugerod.core.sheet.tub import Stand, stand
from gaugerod.core.survey.walls import FittedWall, Walls

L, B, R = (
    wall(name, width=width, ceiling=2000.0)
    for name, width in (("L", 800.0), ("B", 1500.0), ("R", 800.0))
)
Part = Literal["rim", "floor", "ledge", "platform"]


def decked(one: FittedWall, *stretches: tuple[Part, float, float, float]) -> FittedWall:
    """A wall whose deck has parts, each from and to a station, at a height."""
    deck: list[Point] = []
    for _, start, end, height in stretches:
        deck += [(start, height), (end, height)]
    return replace(one, deck=tuple(deck), parts=tuple(part for part, *_ in stretches))


def stood(*fitted: FittedWall, floor: float | None = None) -> Stand:
    alcove: Walls = replace(walls(*fitted), floor=floor)
    return stand(alcove, wall_frames(alcove))


def size(made: Stand) -> tuple[float, float]:
    assert made.tub
    box = bounds_of(made.tub.plan.rings)
    return box.width, box.height


def test_a_tub_fills_the_alcove_from_its_walls_to_its_front() -> None:
    made = stood(L, B, R)
    assert size(made) == (1500.0, 800.0)
    assert made.tub
    assert made.tub.height((700.0, 300.0)) == pytest.approx(0.0)
    # The basin: 70 mm of rim all round, corners rounded to 130.
    assert made.basin
    box = bounds_of(made.basin.plan.rings)
    assert (box.width, box.height) == pytest.approx((1360.0, 660.0))
    assert shape_of(made.basin.plan).area < 1360 * 660
    assert made.seats == ()


def test_the_floor_is_where_it_was_read_else_400_below_the_rim() -> None:
    assert stood(L, B, R, floor=-350.0).level == -350.0
    assert stood(L, B, R).level == -400.0


def test_the_rim_is_the_plane_nearest_to_the_deck() -> None:
    """The deck falls by 3 mm to the right over 1500."""
    fallen = replace(B, deck=((0.0, 0.0), (1500.0, -3.0)))
    low = replace(R, deck=((0.0, -3.0), (800.0, -3.0)))
    tub = stood(L, fallen, low).tub
    assert tub
    assert tub.height((1500.0, 0.0)) == pytest.approx(-3.0)
    assert tub.height((750.0, 400.0)) == pytest.approx(-1.5)


def test_before_one_wall_the_tub_is_as_deep_as_tubs_are() -> None:
    assert size(stood(B)) == pytest.approx((1500.0, 760.0))


def test_its_front_is_straight_at_the_foremost_end() -> None:
    longer = wall("R", width=900.0, ceiling=2000.0)
    assert size(stood(L, B, longer)) == (1500.0, 900.0)


def test_a_leg_to_the_floor_stands_before_the_tub() -> None:
    leg = decked(
        wall("L", width=920.0, ceiling=2000.0),
        ("floor", 0.0, 120.0, -380.0),
        ("rim", 120.0, 920.0, 0.0),
    )
    made = stood(leg, B, R)
    assert size(made) == (1500.0, 800.0)
    assert bounds_of(made.floor.rings).height == pytest.approx(920.0 + 250.0)


def test_walls_that_all_go_to_the_floor_have_no_tub() -> None:
    to_floor = [decked(one, ("floor", 0.0, one.right.offset, 0.0)) for one in (L, B, R)]
    made = stood(*to_floor, floor=0.0)
    assert (made.tub, made.basin, made.seats) == (None, None, ())
    assert bounds_of(made.floor.rings).height == pytest.approx(800.0 + 250.0)


def test_a_tub_too_narrow_for_a_basin_has_none() -> None:
    short = [wall(name, width=300.0, ceiling=2000.0) for name in ("L", "R")]
    made = stood(short[0], B, short[1])
    assert made.basin is None
    assert made.tub
    assert len(made.tub.plan.rings) == 1


def test_a_seat_round_a_corner_is_a_parallelogram() -> None:
    back = decked(B, ("rim", 0.0, 1000.0, 0.0), ("platform", 1000.0, 1500.0, 120.0))
    right = decked(R, ("platform", 0.0, 300.0, 120.0), ("rim", 300.0, 800.0, 0.0))
    (seat,) = stood(L, back, right).seats
    box = bounds_of(seat.plan.rings)
    assert (box.left, box.right, box.width, box.height) == (1000.0, 1500.0, 500.0, 300.0)
    assert shape_of(seat.plan).area == pytest.approx(500 * 300)
    assert (seat.bottom, seat.height((0.0, 0.0))) == pytest.approx((0.0, 120.0))


@pytest.mark.parametrize(("length", "reach"), [(400.0, 200.0), (1000.0, 250.0)])
def test_a_ledge_on_one_wall_stands_out_by_half_its_length_at_most(
    length: float, reach: float
) -> None:
    back = decked(
        B,
        ("rim", 0.0, 250.0, 0.0),
        ("ledge", 250.0, 250.0 + length, 400.0),
        ("rim", 250.0 + length, 1500.0, 0.0),
    )
    (seat,) = stood(L, back, R).seats
    box = bounds_of(seat.plan.rings)
    assert (box.width, box.height, box.top) == pytest.approx((length, reach, 800.0))


def test_a_seat_along_three_walls_fills_the_plan_between_them() -> None:
    left = decked(L, ("rim", 0.0, 500.0, 0.0), ("platform", 500.0, 800.0, 100.0))
    back = decked(B, ("platform", 0.0, 1500.0, 100.0))
    right = decked(R, ("platform", 0.0, 300.0, 100.0), ("rim", 300.0, 800.0, 0.0))
    (seat,) = stood(left, back, right).seats
    assert shape_of(seat.plan).area == pytest.approx(1500 * 300)
