import pytest

from gaugerod.core.base.geometry import Point
from gaugerod.core.sheet.drawing import Dimension, Text

LABEL = Text(layer="dimension", at=(0, 0), text="5", height=1.0, anchor="middle", turn=0)


@pytest.mark.parametrize(
    ("end", "line"),
    [
        ((10.0, 0.0), ((0.0, 2.0), (10.0, 2.0))),  # to the right: left of the way is up
        ((0.0, 10.0), ((-2.0, 0.0), (-2.0, 10.0))),  # upwards: left of the way is left
        ((-10.0, 0.0), ((0.0, -2.0), (-10.0, -2.0))),
    ],
)
def test_a_dimension_line_is_set_off_to_the_left_of_its_way(
    end: Point, line: tuple[Point, Point]
) -> None:
    drawn = Dimension(layer="dimension", start=(0.0, 0.0), end=end, offset=2.0, label=LABEL)
    assert drawn.line == line
