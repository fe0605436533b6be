"""Laws of balanced cuts."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.setout.balance import balance, end_cut, half_tile_rule, shared_sliver

tiles = st.floats(20.0, 1200.0)
joints = st.floats(0.0, 10.0)
gaps = st.floats(0.0, 15.0)
many = st.floats(1.0, 40.0)
CLOSE = 1e-9  # of a length in mm; a float has three digits to spare


@given(tile=tiles, times=many)
def test_the_half_tile_rule_gives_at_least_half_and_less_than_a_tile(
    tile: float, times: float
) -> None:
    length = tile * times
    found = half_tile_rule(length=length, tile=tile)
    if found.end:
        assert tile / 2 <= found.end < tile
        assert found.full * tile + 2 * found.end == pytest.approx(length, rel=CLOSE)
    else:
        assert found.full * tile == pytest.approx(length, abs=2 * SNAP)


@given(tile=tiles, number=st.integers(1, 40))
def test_where_whole_tiles_fit_nothing_is_cut(tile: float, number: int) -> None:
    found = half_tile_rule(length=tile * number, tile=tile)
    assert (found.full, found.end) == (number, 0.0)


@given(tile=tiles, joint=joints, gap=gaps, number=st.integers(1, 40))
def test_where_whole_tiles_and_joints_fit_nothing_is_cut(
    tile: float, joint: float, gap: float, number: int
) -> None:
    length = number * tile + (number - 1) * joint + 2 * gap
    found = balance(length=length, tile=tile, joint=joint, gap=gap)
    assert (found.full, found.end) == (number, 0.0)


@given(length=st.floats(0.0, 9000.0), tile=tiles, joint=joints, gap=gaps, full=st.integers(0, 40))
def test_two_ends_whole_tiles_joints_and_gaps_make_the_length(
    length: float, tile: float, joint: float, gap: float, full: int
) -> None:
    end = end_cut(length=length, tile=tile, joint=joint, gap=gap, full=full)
    total = 2 * end + full * tile + (full + 1) * joint + 2 * gap
    assert total == pytest.approx(length, abs=1e-7)


@given(length=st.floats(0.0, 9000.0), tile=tiles, joint=joints, gap=gaps, full=st.integers(1, 40))
def test_one_tile_less_gives_each_end_half_of_it_and_half_a_joint(
    length: float, tile: float, joint: float, gap: float, full: int
) -> None:
    course = {"length": length, "tile": tile, "joint": joint, "gap": gap}
    gained = end_cut(**course, full=full - 1) - end_cut(**course, full=full)
    assert gained == pytest.approx((tile + joint) / 2, abs=1e-7)


@given(tile=tiles, joint=joints, gap=gaps, times=many)
def test_no_other_number_of_whole_tiles_has_larger_ends_that_can_be_cut(
    tile: float, joint: float, gap: float, times: float
) -> None:
    course = {"length": tile * times + 2 * gap, "tile": tile, "joint": joint, "gap": gap}
    found = balance(**course)
    assume(found.end > 0.0)
    assert found.end == pytest.approx(end_cut(**course, full=found.full), rel=CLOSE)
    ends = [end_cut(**course, full=full) for full in range(42)]
    assert found.end == pytest.approx(max(end for end in ends if end <= tile), rel=CLOSE)


@given(tile=tiles, joint=joints, gap=gaps, times=many)
def test_ends_fall_short_of_half_by_less_than_half_a_joint(
    tile: float, joint: float, gap: float, times: float
) -> None:
    found = balance(length=tile * times + 2 * gap, tile=tile, joint=joint, gap=gap)
    assume(found.end > 0.0)
    assert found.end >= tile / 2 - joint / 2


@given(tile=tiles, joint=joints, one=st.floats(0.0, 50.0), other=st.floats(0.0, 50.0))
def test_shared_slivers_and_the_joint_set_free_fill_the_same_room(
    tile: float, joint: float, one: float, other: float
) -> None:
    # sliver, joint, tile, joint, sliver become cut, joint, cut
    before = one + joint + tile + joint + other
    cut = shared_sliver(parts=(one, tile, other), joint=joint)
    assert 2 * cut + joint == pytest.approx(before, rel=CLOSE)
