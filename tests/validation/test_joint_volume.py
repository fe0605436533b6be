"""Grout by the exact volume of the joints.

Published yield: 300 x 300 x 10 mm tile with joints of 2 mm, 23 to 24 m2 to 5 kg of cement grout
(packet data gathered at www.sweatlodgeradio.com/how-do-you-calculate-epoxy-grout; found and
computed).

The same page prints about 200 sq ft to 25 lb for 4-1/4 x 4-1/4 x 1/4 in tile with joints of 1/8
(found and computed: 204 by the usual estimate, 213 by exact geometry, at 1.6 kg/L).

The usual estimate, (a + b) / (a b) x depth x joint x 1.6 kg/L (general trade formula, from memory
and found in many places), against exact geometry, 1 - a b / ((a + j)(b + j)) of the wall (calc).
"""

import pytest
from tests.laid_by_hand import rectangle, rectangles

from gaugerod.core.base.geometry import shape_of
from gaugerod.core.takeoff.beds import joint_area

DENSITY = 1.6
"""Cement grout, kg in a litre of joint."""


def exact(a: float, b: float, depth: float, joint: float) -> float:
    """Kilograms of grout to a square metre, from three by three tiles, each with its joints."""
    across = [(n * (a + joint), n * (a + joint) + a) for n in range(3)]
    up = [(n * (b + joint), n * (b + joint) + b) for n in range(3)]
    wall = rectangle(left=0, bottom=0, right=3 * (a + joint), top=3 * (b + joint))
    area = joint_area([wall], rectangles(across=across, up=up))
    litres_in_m2 = area / shape_of(wall).area * depth
    return litres_in_m2 * DENSITY


def estimate(a: float, b: float, depth: float, joint: float) -> float:
    return (a + b) / (a * b) * depth * joint * DENSITY


def test_a_published_yield() -> None:
    assert 23 <= 5 / exact(300, 300, 10, 2) <= 24


def test_the_usual_estimate_of_it() -> None:
    assert estimate(300, 300, 10, 2) == pytest.approx(0.2133, abs=0.00005)
    assert 23 <= 5 / estimate(300, 300, 10, 2) <= 24


def test_a_published_yield_in_inches() -> None:
    inch, pound, square_foot = 25.4, 0.45359237, 0.3048**2
    tile = (4.25 * inch, 4.25 * inch, 0.25 * inch, 0.125 * inch)
    usual, by_volume = (
        25 * pound / kilograms / square_foot for kilograms in (estimate(*tile), exact(*tile))
    )
    assert usual == pytest.approx(204, abs=0.5)
    assert by_volume == pytest.approx(213, abs=0.5)
    assert usual == pytest.approx(200, rel=0.025)  # as printed, "about"
    # In cubic inches to the square foot, by the usual estimate: 2.118.
    cubic_inches = estimate(*tile) / DENSITY * 1e6 * square_foot / inch**3
    assert cubic_inches == pytest.approx(2.118, abs=0.0005)


def test_the_usual_estimate_is_a_quarter_high_for_mosaic() -> None:
    # 3/8 in mosaic with joints of 1/16: two sides of 1/6 each, against 1 - (6/7)^2 = 13/49.
    mosaic = (9.525, 9.525, 4.0, 1.5875)
    assert estimate(*mosaic) / exact(*mosaic) == pytest.approx((1 / 3) / (13 / 49))
    assert 100 * (estimate(*mosaic) / exact(*mosaic) - 1) == pytest.approx(26, abs=0.5)


CASES = [
    ((100, 100, 8, 3), 0.735, 0.768, 4.5),
    ((150, 150, 7, 2), 0.293, 0.299, 2.0),
    ((300, 300, 8, 3), 0.252, 0.256, 1.5),
    ((300, 600, 10, 2), 0.1588, 0.160, 0.8),
]


@pytest.mark.parametrize(("tile", "by_volume", "usual", "percent"), CASES)
def test_exact_against_the_usual_estimate(
    tile: tuple[float, float, float, float], by_volume: float, usual: float, percent: float
) -> None:
    # To the last place printed in each case.
    assert exact(*tile) == pytest.approx(by_volume, abs=0.0005)
    assert estimate(*tile) == pytest.approx(usual, abs=0.0005)
    assert 100 * (estimate(*tile) / exact(*tile) - 1) == pytest.approx(percent, abs=0.05)
