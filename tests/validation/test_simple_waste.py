"""The simple rule, a tenth more, against an alcove that is counted.

Rule: tiledoctor.com/how-to-tile/layout-estimating (found). The alcove is a worked example of the
trade: 62 sq ft, 31 modules of 24 x 12 by area, of which 36 are cut up (common practice, no source).
"""

from gaugerod.core.takeoff.packages import packages_of, share_of, whole

NET = 31
COUNTED = 36


def test_the_net_count_is_the_area() -> None:
    assert whole(packages_of(62, per=2)) == NET


def test_a_tenth_more_runs_short() -> None:
    assert NET + share_of(NET, 0.1) == 35 < COUNTED


def test_fifteen_per_cent_leaves_no_spare() -> None:
    assert NET + share_of(NET, 0.15) == COUNTED


def test_the_count_is_sixteen_per_cent_over_the_net() -> None:
    assert round(100 * (COUNTED / NET - 1)) == 16
