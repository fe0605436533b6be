"""Bricks by the square foot, with breakage.

Griffith, *Carpentry* (found: chestofbooks.com/home-improvement/woodworking/Ira-S-Griffith/
Carpentry/Brickwork.html): seven bricks to the square foot, or seven and a half, and 5 % for
breakage; openings over two feet square are deducted.
"""

import pytest

from gaugerod.core.takeoff.packages import packages_of, share_of, whole


@pytest.mark.parametrize(
    ("to_the_foot", "opening", "net", "broken"),
    [
        # A wall of 8 x 14 ft; by hand.
        (7.0, 0, 784, 40),  # 39.2
        (7.5, 0, 840, 42),  # 42 exactly: not 43 for a float's last bit
        (7.0, 12, 700, 35),  # a window of 3 x 4 ft taken out
        (7.5, 12, 750, 38),  # 37.5
    ],
)
def test_a_wall(to_the_foot: float, opening: int, net: int, broken: int) -> None:
    bricks = whole(packages_of((8 * 14 - opening) * to_the_foot, per=1))
    assert (bricks, share_of(bricks, 0.05)) == (net, broken)
