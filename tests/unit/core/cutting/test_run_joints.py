from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.cutting.run_joints import Span, joint_plans


@pytest.mark.parametrize(
    ("length", "plans"),
    [
        (1000, ((),)),
        (1000.0000001, ((),)),  # noise of a float is no reason for a joint
        (1001, ((500.5,), (1000.0,), (1.0,))),
        (2000, ((1000.0,),)),
        (3000, ((1000.0, 2000.0),)),
        (2400, ((800.0, 1600.0), (1000.0, 2000.0), (400.0, 1400.0))),
    ],
)
def test_as_few_joints_as_the_stock_allows(length: float, plans: tuple[object, ...]) -> None:
    found = joint_plans(length, stock=1000)
    assert found == tuple(pytest.approx(plan) for plan in plans)


def test_a_joint_keeps_off_the_ends() -> None:
    # By hand: 2600 from 2500. Even is 1300; 2500 and 100 would leave a joint 100 from an end.
    off = [(0, 150), (2450, 2600)]
    assert joint_plans(2600, stock=2500, keep_off=off) == ((1300,), (2450,), (150,))


def test_an_even_joint_moves_to_the_nearer_side_of_a_hole() -> None:
    # By hand: 3000 in two; 1500 lies between 1450 and 1600, and 1450 is nearer.
    assert joint_plans(3000, stock=2400, keep_off=[(1450, 1600)])[0] == (1450,)
    assert joint_plans(3000, stock=2400, keep_off=[(1400, 1550)])[0] == (1550,)


def test_stretches_that_overlap_are_one() -> None:
    assert joint_plans(3000, stock=2400, keep_off=[(1450, 1600), (1400, 1500)])[0] == (1400,)


def test_a_stretch_may_cost_a_joint_more() -> None:
    # One joint would have to lie from 600 to 1000; two will do.
    plans = joint_plans(1600, stock=1000, keep_off=[(550, 1050)])
    assert {len(plan) for plan in plans} == {2}


def test_no_joint_where_none_may_be() -> None:
    assert joint_plans(3000, stock=1000, keep_off=[(500, 1600)]) == ()
    assert joint_plans(3000, stock=1000, keep_off=[(0, 3000)]) == ()


STOCK = 100
LENGTHS = st.integers(101, 600)
STRETCHES = st.lists(st.tuples(st.integers(0, 600), st.integers(1, 60)), max_size=5)


@given(length=LENGTHS, stretches=STRETCHES)
def test_joints_are_where_they_may_be_and_none_is_too_many(
    length: int, stretches: list[tuple[int, int]]
) -> None:
    keep_off: list[Span] = [(start, start + width) for start, width in stretches]
    steps = [0, *(at for at in range(1, length) if may_be(at, keep_off)), length]
    fewest = fewest_steps(steps)
    plans = joint_plans(length, stock=STOCK, keep_off=keep_off)
    assert bool(plans) == (fewest is not None)
    for plan in plans:
        parts = [end - start for start, end in pairwise((0.0, *plan, float(length)))]
        assert all(0 < part <= STOCK + 1e-6 for part in parts)
        assert all(may_be(at, keep_off) for at in plan)
        assert len(parts) == fewest


def may_be(at: float, keep_off: list[Span]) -> bool:
    return not any(start + 1e-6 < at < end - 1e-6 for start, end in keep_off)


def fewest_steps(places: list[int]) -> int | None:
    """The fewest steps of at most the stock from the first place to the last, all tried."""
    least: dict[int, int] = {places[0]: 0}
    for place in places[1:]:
        before = [least[at] for at in least if place - at <= STOCK]
        if before:
            least[place] = min(before) + 1
    return least.get(places[-1])
