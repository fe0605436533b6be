"""Square feet of wall to a 50 lb bag of mortar, by the notch of the trowel.

Mean bed, and the yield of 0.63 cubic feet mixed to a bag: own derivation (calc). Published
coverage (found): 1/4 x 1/4 square notch 80 to 100 sq ft, another 85 to 95 (engineerfix.com/how-
much-thinset-do-i-need-per-square-foot; .../how-much-mortar-do-you-need-for-tile), 1/4 x 3/8 60 to
80, another 60 to 70 (.../how-many-bags-of-thinset-do-i-need-for-200-square-feet), 1/2 x 1/2 40 to
50. Geometry gives 57 for 1/4 x 3/8, just under what is printed. The last page works one out:
200 sq ft at 65 to a bag is 3.07, four bags (found and computed).
"""

import pytest

from gaugerod.core.takeoff.beds import mean_bed
from gaugerod.core.takeoff.packages import packages_of, whole

INCH = 25.4
BAG = 0.63 * (12 * INCH) ** 3
SQUARE_FOOT = (12 * INCH) ** 2

NOTCHES = [
    # depth, width = gap, mean bed in inches, square feet to a bag
    (1 / 4, 1 / 4, 0.088, 85.5),
    (3 / 8, 1 / 4, 0.133, 57.0),
    (1 / 2, 1 / 2, 0.177, 42.8),
]


@pytest.mark.parametrize(("depth", "width", "bed", "_coverage"), NOTCHES)
def test_the_mean_bed(depth: float, width: float, bed: float, _coverage: float) -> None:
    found = mean_bed(depth=depth * INCH, width=width * INCH, gap=width * INCH) / INCH
    assert found == pytest.approx(bed, abs=0.0005)


@pytest.mark.parametrize(("depth", "width", "_bed", "coverage"), NOTCHES)
def test_the_coverage(depth: float, width: float, _bed: float, coverage: float) -> None:
    bed = mean_bed(depth=depth * INCH, width=width * INCH, gap=width * INCH)
    assert BAG / bed / SQUARE_FOOT == pytest.approx(coverage, abs=0.1)


@pytest.mark.parametrize(
    ("depth", "width", "low", "high"),
    [(1 / 4, 1 / 4, 80, 100), (1 / 4, 1 / 4, 85, 95), (1 / 2, 1 / 2, 40, 50)],
)
def test_the_coverage_lies_where_it_is_published(
    depth: float, width: float, low: float, high: float
) -> None:
    bed = mean_bed(depth=depth * INCH, width=width * INCH, gap=width * INCH)
    assert low <= BAG / bed / SQUARE_FOOT <= high


def test_a_quarter_by_three_eighths_is_just_under_what_is_printed() -> None:
    bed = mean_bed(depth=3 / 8 * INCH, width=INCH / 4, gap=INCH / 4)
    coverage = BAG / bed / SQUARE_FOOT
    assert 0.94 * 60 <= coverage < 60


def test_the_bags_for_200_square_feet() -> None:
    bags = packages_of(200, per=65)
    assert float(bags) == pytest.approx(3.07, abs=0.01)
    assert whole(bags) == 4
