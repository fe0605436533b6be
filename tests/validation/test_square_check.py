"""Corner-to-corner readings of square walls: whole-number triangles near this work.

Sources, each with how sure it is:

- 60 x 32 x 68 (15-8-17 times four) and the other whole-number triangles: Pythagoras. Calculated.
- Equal diagonals prove a wall square only where opposite sides are equal: plane geometry. From
  memory; the wall here that leans in alike on both sides is calculated.
"""

from math import sqrt

import pytest

from gaugerod.core.job.readings import CornerToCorner, Width
from gaugerod.core.survey.model import predict

PLUMB = {"left B": 0.0, "right B": 0.0}


def diagonals(state: dict[str, float], height: float) -> tuple[float, float]:
    """What both diagonals of wall B read, from the datum up to a height."""
    rising, falling = (
        CornerToCorner(kind="corner to corner", left_at=left, right_at=right, reads=1.0)
        for left, right in ((0.0, height), (height, 0.0))
    )
    return predict(rising, "B", 1, state).value, predict(falling, "B", 1, state).value


@pytest.mark.parametrize(
    ("width", "height", "diagonal"),
    [
        (60.0, 32.0, 68.0),  # a common tub
        (40.0, 30.0, 50.0),
        (48.0, 36.0, 60.0),
        (80.0, 60.0, 100.0),
        (60.0, 45.0, 75.0),
        (60.0, 25.0, 65.0),
        (30.0, 72.0, 78.0),
        (54.0, 72.0, 90.0),
        (60.0, 11.0, 61.0),
        (32.0, 24.0, 40.0),
    ],
)
def test_both_diagonals_of_a_square_wall(width: float, height: float, diagonal: float) -> None:
    state = {"width B": width * 25.4, **PLUMB}
    assert diagonals(state, height * 25.4) == pytest.approx([diagonal * 25.4] * 2, rel=1e-12)


def test_a_wall_of_60_by_72() -> None:
    rising, _ = diagonals({"width B": 60.0, **PLUMB}, 72.0)
    assert rising == pytest.approx(93.723, abs=0.0005)


def test_a_wall_that_leans_one_way_has_unequal_diagonals() -> None:
    # Both edges run 3 to the right over 72: sqrt(63^2 + 72^2) and sqrt(57^2 + 72^2)
    state = {"width B": 60.0, "left B": 3 / 72, "right B": 3 / 72}
    assert diagonals(state, 72.0) == pytest.approx([sqrt(9153), sqrt(8433)], rel=1e-12)


def test_equal_diagonals_alone_prove_nothing() -> None:
    # Both edges lean in by 3 over 72: the diagonals agree, the widths do not.
    state = {"width B": 60.0, "left B": 3 / 72, "right B": -3 / 72}
    rising, falling = diagonals(state, 72.0)
    assert rising == pytest.approx(falling, rel=1e-12)
    widths = [
        predict(Width(kind="width", at=at, reads=1.0), "B", 1, state).value for at in (0.0, 72.0)
    ]
    assert widths == pytest.approx([60.0, 54.0], rel=1e-12)
