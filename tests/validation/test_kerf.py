"""Pieces from one length: their sum and a kerf between each two, or for each where some is left.

n pieces need the sum and n - 1 kerfs; n kerfs where an offcut remains (from memory; general). All
sizes by hand, in inches, stock 96, kerf 1/8.
"""

import pytest
from tests.laid_by_hand import keyed

from gaugerod.core.job.materials import Trim
from gaugerod.core.takeoff.order import TrimRun
from gaugerod.core.takeoff.trims import TrimPlan, plan_trim

INCH = 25.4
TRIM = Trim(id="edge", name="Edge", use="edge", stock=96 * INCH, price=1)
SYSTEM = keyed(
    unit="in",
    cutting={"kerf": INCH / 8, "least": 50, "tool": "saw", "material": "plastic"},
)


def planned(*inches: float) -> TrimPlan:
    runs = [TrimRun(wall="B", place="left", length=length * INCH) for length in inches]
    return plan_trim(TRIM, runs, SYSTEM)


@pytest.mark.parametrize(
    ("lengths", "bars"),
    [
        ([47.9375, 47.9375], 1),  # 95 7/8 and one kerf: 96
        ([48.0, 47.9375], 2),  # 1/16 too long
        ([31.875, 31.875, 32.0], 1),  # 95 3/4 and two kerfs: 96
        ([31.875, 31.9375, 32.0], 2),
        ([96.0], 1),  # no kerf at all
    ],
)
def test_a_kerf_between_each_two(lengths: list[float], bars: int) -> None:
    assert len(planned(*lengths).lengths) == bars


def test_a_kerf_for_each_where_some_is_left() -> None:
    (bar,) = planned(30, 40).lengths
    assert bar.offcut == pytest.approx((96 - 30 - 40 - 2 / 8) * INCH)
