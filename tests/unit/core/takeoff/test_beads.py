from math import hypot

import pytest

from gaugerod.core.takeoff.beads import bead_on

INCH = 25.4


def bead(width: float, height: float) -> float:
    return bead_on(width=width, height=height, inset=25.0, infill=150.0)


def test_a_module_takes_a_ring_and_a_zigzag() -> None:
    # Ring 2 x (550 + 250); ceil(550 / 150) = 4 strokes of 137.5 across and 200 up.
    assert bead(600, 300) == pytest.approx(1600 + 4 * hypot(137.5, 200))


def test_the_way_it_stands_does_not_matter() -> None:
    assert bead(600, 300) == bead(300, 600)


def test_a_rip_lower_than_the_infill_takes_the_ring_alone() -> None:
    assert bead(600, 200) == 2 * (550 + 150)
    assert bead(600, 201) > 2 * (550 + 151)


def test_a_strip_too_narrow_for_a_ring_takes_two_beads() -> None:
    assert bead(40, 300) == 2 * 250
    assert bead(40, 40) == 0.0


def test_a_zigzag_with_no_room_left_across_runs_along() -> None:
    # Inset 100: ring 400 + 160; nothing is left inside it, so the strokes lie flat: 400 along.
    assert bead_on(width=600, height=360, inset=100, infill=50) == pytest.approx(
        2 * (400 + 160) + 400
    )
