"""A builder's level: what its accuracy comes to, and the test that needs no other level.

Sources, each with how sure it is:

- Accuracy of 0.5 mm/m, 0.029 degrees:
  https://www.sourcebyspec.com/encyclopedia/spirit-level.html. Found. What it comes to over 72 in
  (0.036 in), and that 1.0 mm/m is 0.057 degrees and 0.072 in, is calculated.
- Sensitivity of a vial: the angle is the arc sine of x in 1000. A vial maker's notes. Found.
- Read, turn the level end for end on the same spot, read again: the method at
  https://home.washerhouse.com/en/7456-kak-proverit-stroitelnyj-uroven-ne-vyhodja-iz-magazina.html.
  Found. True slope half the sum, error of the level half the difference: formula from memory.
"""

import math

import pytest

from gaugerod.core.survey.level_check import level_drift, reversed_level

INCH = 25.4


@pytest.mark.parametrize(
    ("mm_per_m", "degrees", "inches"), [(0.5, 0.0286, 0.036), (1.0, 0.057, 0.072)]
)
def test_what_the_accuracy_comes_to(mm_per_m: float, degrees: float, inches: float) -> None:
    # A level on a true surface shows its own error, one way and the other.
    over = 72 * INCH
    shown = mm_per_m / 1000 * over
    found = reversed_level(first=shown, second=-shown, over=over)
    assert found.slope == 0.0
    assert math.degrees(found.angle) == pytest.approx(degrees, abs=0.0005)
    assert level_drift(error=found.error, over=over) / INCH == pytest.approx(inches, abs=0.0005)


@pytest.mark.parametrize("mm_per_m", [0.5, 1.0])
def test_the_angle_of_a_vial(mm_per_m: float) -> None:
    found = reversed_level(first=mm_per_m, second=-mm_per_m, over=1000.0)
    # Arc tangent here, arc sine there: they part at 1e-10.
    assert found.angle == pytest.approx(math.asin(mm_per_m / 1000), abs=1e-9)


@pytest.mark.parametrize(
    ("first", "second", "slope", "error"),
    [
        (2.0, 2.0, 2.0, 0.0),  # a true level on a slope
        (1.0, -1.0, 0.0, 1.0),  # a level that is out, on a true surface
        (5.0, 1.0, 3.0, 2.0),  # both
        (-4.0, 1.0, -1.5, -2.5),
    ],
)
def test_turned_end_for_end(first: float, second: float, slope: float, error: float) -> None:
    found = reversed_level(first=first, second=second, over=1000.0)
    assert found.slope * 1000 == pytest.approx(slope)
    assert found.error * 1000 == pytest.approx(error)
