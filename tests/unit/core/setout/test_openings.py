import pytest

from gaugerod.core.base.geometry import Box
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.openings import ease

GRID = Lattice(
    face=(597.0, 297.0), pitch=(600.0, 300.0), first_course=300.0, phase=100.0, row_shift=0.0
)
# Modules end at 697 and 1297 and begin at 700 and 1300; courses end at 300 and 600 and begin
# at 303 and 603.


@pytest.mark.parametrize(
    ("opening", "eased"),
    [
        (
            Box(left=697.8, bottom=299.2, right=1299.2, top=603.8),
            Box(left=697.0, bottom=300.0, right=1300.0, top=603.0),
        ),
        # Just out of reach on every side.
        (
            Box(left=698.0, bottom=301.0, right=1299.0, top=604.0),
            Box(left=698.0, bottom=301.0, right=1299.0, top=604.0),
        ),
        # In the middle of a module.
        (
            Box(left=350.0, bottom=400.0, right=500.0, top=500.0),
            Box(left=350.0, bottom=400.0, right=500.0, top=500.0),
        ),
    ],
)
def test_edges_that_nearly_meet_a_joint_are_taken_to_lie_on_it(opening: Box, eased: Box) -> None:
    assert ease(opening, GRID) == eased
