"""Clear width of a niche, worked by hand on a lining of 9.525 with a bed of 1.5875."""

import pytest

from gaugerod.core.job.sample import sample_system
from gaugerod.core.setout.niche import clear_width


@pytest.mark.parametrize(
    ("bay", "board", "shim", "clear"),
    [
        (400.0, 12.0, 2.0, 349.775),  # 400 - 2 (12 + 9.525 + 1.5875 + 2)
        (400.0, 12.0, 0.0, 353.775),  # plumb studs
        (400.0, 0.0, 0.0, 377.775),  # lined on the studs
        (40.0, 12.0, 2.0, -10.225),  # no niche there
    ],
)
def test_each_side_loses_board_lining_bed_and_shim(
    bay: float, board: float, shim: float, clear: float
) -> None:
    found = clear_width(sample_system(), bay=bay, board=board, shim=shim)
    assert found == pytest.approx(clear)
