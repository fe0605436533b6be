"""Bricks for a wall, counted and with waste.

NAVEDTRA 14045, example to table 4-5 (public domain, found and computed:
constructionmanuals.tpub.com/14045/css/Structural-Clay-Tile-159.htm): a 4 in wall of 8 x 14 ft,
face with its joint 2-3/4 x 8-1/2 in, 6.16 bricks to the square foot, 690; a tenth more is 760 as
printed, 759 exactly, since the manual rounds to the ten.
"""

import pytest

from gaugerod.core.takeoff.packages import packages_of, share_of, whole

FACE = 2.75 * 8.5


def test_bricks_to_a_square_foot() -> None:
    assert pytest.approx(23.38, abs=0.005) == FACE
    assert float(packages_of(144, per=FACE)) == pytest.approx(6.16, abs=0.005)


def test_bricks_for_the_wall() -> None:
    assert whole(packages_of(8 * 14 * 144, per=FACE)) == 690


def test_with_waste_it_is_759_and_not_the_rounded_760() -> None:
    bricks = 690 + share_of(690, 0.1)
    assert bricks == 759
    assert round(bricks, -1) == 760
