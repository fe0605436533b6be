from math import sqrt

import pytest
from shapely.geometry import Polygon

from gaugerod.core.base.widths import has_thin_leg, narrowest


@pytest.mark.parametrize(
    ("ring", "width"),
    [
        ([(0, 0), (300, 0), (300, 100), (0, 100)], 100.0),
        ([(0, 0), (300, 300), (230, 370), (-70, 70)], 70 * sqrt(2)),
        # An equilateral triangle of side 200 is as wide as it is high.
        ([(0, 0), (200, 0), (100, 100 * sqrt(3))], 100 * sqrt(3)),
        # A notch does not make a hull narrower: here it is 100 high.
        (
            [(0, 0), (300, 0), (300, 100), (200, 100), (200, 50), (100, 50), (100, 100), (0, 100)],
            100,
        ),
    ],
)
def test_the_least_width_by_hand(ring: list[tuple[float, float]], width: float) -> None:
    assert narrowest(Polygon(ring)) == pytest.approx(width)


ELL = Polygon([(0, 0), (300, 0), (300, 90), (60, 90), (60, 300), (0, 300)])
"""Legs of 60 upright and 90 level."""


@pytest.mark.parametrize(("least", "thin"), [(50.0, False), (59.0, False), (61.0, True)])
def test_a_leg_narrower_than_the_least(least: float, thin: bool) -> None:
    assert has_thin_leg(ELL, least) is thin


def test_all_legs_may_be_thin() -> None:
    assert has_thin_leg(ELL, 200.0)


def test_a_shape_that_runs_to_a_point_has_no_leg() -> None:
    assert not has_thin_leg(Polygon([(0, 0), (300, 0), (0, 300)]), 80.0)


def test_a_point_beside_a_notch_is_no_leg() -> None:
    """Half a tile on the diagonal, bitten in the middle of its long side."""
    bite = [(270, 0), (270, 60), (330, 60), (330, 0)]
    bitten = Polygon([(0, 0), *bite, (600, 0), (300, 300)])
    assert not has_thin_leg(bitten, 50.0)
