import numpy as np
import pytest
from tests.flat_by_hand import grid, spots

from gaugerod.core.survey.cover import Target, below, cover

# A wall that leans in by 6 mm over 600 and stands back by 3 mm at the right.
TILTED = spots(
    {(0.0, 0.0): 0.0, (300.0, 0.0): -3.0, (0.0, 600.0): 6.0, (300.0, 600.0): 3.0, (150.0, 300.0): 0}
)
MIDDLE = (150.0, 300.0)


def test_a_free_plane_lies_on_a_tilted_one() -> None:
    target = cover(TILTED, goal="flat", middle=MIDDLE)
    assert (target.offset, target.across, target.up) == pytest.approx((0.0, -0.01, 0.01))
    assert below(target, TILTED) == pytest.approx([0.0, 0.0, 0.0, 0.0, 1.5])


def test_a_plumb_plane_stands_on_the_tops() -> None:
    target = cover(TILTED, goal="plumb", middle=MIDDLE)
    assert (target.offset, target.across, target.up) == pytest.approx((6.0, -0.01, 0.0))


def test_a_parallel_plane_stands_on_the_proudest() -> None:
    assert cover(TILTED, goal="parallel", middle=MIDDLE) == Target(offset=6.0, across=0.0, up=0.0)


def test_no_spot_stands_above_the_plane() -> None:
    waves = grid([0.1, 2.3, 0.7], [1.9, -0.4, 3.1], [0.3, 1.1, 0.2])
    assert below(cover(waves, goal="flat", middle=(310.0, 290.0)), waves).min() >= 0.0


def test_of_planes_as_low_the_one_most_like_another_is_taken() -> None:
    # One spike in the middle: any plane through its tip that clears the rest is as low there.
    spike = grid([0.0, 0.0, 0.0], [0.0, 9.0, 0.0], [0.0, 0.0, 0.0])
    for like in [(0.0, 0.0), (0.005, 0.0), (-0.01, 0.02)]:
        target = cover(spike, goal="flat", middle=(300.0, 300.0), like=like)
        assert (target.across, target.up) == pytest.approx(like, abs=1e-9)
        assert target.offset + 300 * (target.across + target.up) == pytest.approx(9.0)


def test_one_spot_alone() -> None:
    target = cover(spots({(5.0, 5.0): 2.0}), goal="flat", middle=(5.0, 5.0))
    assert np.array([target.offset, target.across, target.up]) == pytest.approx([2.0, 0.0, 0.0])
