"""Where the pattern comes out of a corner, worked by hand."""

import pytest

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.setout.wrap import after_corner


@pytest.mark.parametrize(
    ("last", "first"),
    [
        (300.0, 285.0),  # 600 - 300 - (3 + 12)
        (584.0, 1.0),  # the least that is still of the same module
        (585.0, 600.0),  # the corner takes all that is left: a whole one follows
        (590.0, 595.0),  # and 5 of the next
        (600.0, 585.0),  # a whole one ends at the corner
    ],
)
def test_the_corner_takes_its_joint_and_its_lap(last: float, first: float) -> None:
    assert after_corner(pitch=600.0, last=last, joint=3.0, lap=12.0) == pytest.approx(first)


def test_noise_is_no_piece() -> None:
    found = after_corner(pitch=600.0, last=585.0 - SNAP / 2, joint=3.0, lap=12.0)
    assert found == pytest.approx(600.0, abs=SNAP)


def test_nothing_is_lost_where_nothing_laps() -> None:
    assert after_corner(pitch=600.0, last=450.0, joint=0.0, lap=0.0) == pytest.approx(150.0)
