from dataclasses import replace

import pytest
from tests.unit.core.sheet.cuts import TAPER, mark

from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.cutting.pieces import Mark
from gaugerod.core.sheet.figures import figure


@pytest.mark.parametrize(
    ("cut", "shown"),
    [
        (mark("bottom", "right", 535.95, "left"), '21 1/16"'),  # 21.1004 in: 21 1/16 fits
        (mark("bottom", "left", 535.95, "left"), '21 1/8"'),  # what comes off: more fits
        (mark("corner", "left", 535.95, "1"), '21 1/8"'),  # the nearest: 21.1004 is 21 10/100
        (mark("hole", "left", 431.8, "valve"), '17"'),
    ],
)
def test_a_figure_is_rounded_once_the_way_that_fits(cut: Mark, shown: str) -> None:
    assert figure(cut, TAPER, IMPERIAL) == shown


def test_millimetres_round_like_sixteenths() -> None:
    assert figure(mark("left", "top", 285.9, "bottom"), TAPER, METRIC) == "285"
    assert figure(mark("left", "bottom", 285.1, "bottom"), TAPER, METRIC) == "286"


def test_a_hole_and_its_check_sum_to_the_module() -> None:
    """7 1/32 from one edge prints as 7 1/16; 16 31/32 from the other must print as 16 15/16."""
    hole, check = mark("hole", "right", 178.59375, "v"), mark("check", "left", 431.00625, "v")
    piece = replace(TAPER, marks=(hole, check))
    assert figure(hole, piece, IMPERIAL) == '7 1/16"'
    assert figure(check, piece, IMPERIAL) == '16 15/16"'
