"""Evenly pitched marks, each rounded once from the datum."""

import pytest

from gaugerod.core.base.lengths import FINE_METRIC, METRIC
from gaugerod.core.base.stations import rounded_stations


def test_each_mark_is_rounded_from_the_datum() -> None:
    # 0.4, 1.8, 3.2, 4.6 mm
    marks = rounded_stations(start=0.4, pitch=1.4, count=4, display=METRIC)
    assert [float(mark) for mark in marks] == [0.0, 2.0, 3.0, 5.0]


def test_marks_run_down_as_they_run_up() -> None:
    up = rounded_stations(start=0.4, pitch=1.4, count=4, display=FINE_METRIC)
    down = rounded_stations(start=-0.4, pitch=-1.4, count=4, display=FINE_METRIC)
    assert [float(mark) for mark in up] == [0.5, 2.0, 3.0, 4.5]
    assert [float(mark) for mark in down] == [-0.5, -2.0, -3.0, -4.5]


@pytest.mark.parametrize(("count", "expected"), [(0, []), (1, [7.0])])
def test_few_marks(count: int, expected: list[float]) -> None:
    marks = rounded_stations(start=7.0, pitch=3.0, count=count, display=METRIC)
    assert [float(mark) for mark in marks] == expected
