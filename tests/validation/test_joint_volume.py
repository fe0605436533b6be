"""Grout by the exact volume of the joints.

Published yield: 300 x 300 x 10 mm tile with joints of 2 mm, 23 to 24 m2 to 5 kg of cement grout
(packet data gathered at www.sweatlodgeradio.com/how-do-you-calculate-epoxy-grout; found and
computed).

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
