from math import hypot, pi

import pytest
from tests.laid_by_hand import rectangle

from gaugerod.core.base.geometry import Region, disc, regions_of, shape_of
from gaugerod.core.takeoff.beads import at_once, bead_on

MODULE = rectangle(left=0, bottom=0, right=600, top=300)


def bead(width: float, height: float, *, none_under: float = 0.0) -> float:
    piece = rectangle(left=40, bottom=70, right=40 + width, top=70 + height)
    return bead_on(piece, inset=25.0, infill=150.0, none_under=none_under)


def test_a_module_takes_a_ring_and_a_zigzag() -> None:
    # Ring 2 x (550 + 250); ceil(550 / 150) = 4 strokes of 137.5 across and 200 up.
    assert bead(600, 300) == pytest.approx(1600 + 4 * hypot(137.5, 200))


def test_the_way_it_stands_does_not_matter() -> None:
    assert bead(600, 300) == pytest.approx(bead(300, 600))


def test_a_rip_lower_than_the_infill_takes_the_ring_alone() -> None:
    assert bead(600, 200) == 2 * (550 + 150)
    assert bead(600, 201) > 2 * (550 + 151)


def test_a_strip_too_narrow_for_a_ring_takes_one_bead_along_its_middle() -> None:
    assert bead(40, 300) == 250
    assert bead(40, 40) == 0.0


def test_a_sliver_takes_no_bead() -> None:
    assert bead(12, 300, none_under=12.7) == 0.0
    assert bead(13, 300, none_under=12.7) == 250


def test_a_zigzag_with_no_room_left_across_runs_along() -> None:
    # Inset 100: ring 400 + 160; nothing is left inside it, so the strokes lie flat: 400 along.
    piece = rectangle(left=0, bottom=0, right=600, top=360)
    assert bead_on(piece, inset=100, infill=50) == pytest.approx(2 * (400 + 160) + 400)


def test_a_notch_takes_its_part_of_the_zigzag_off() -> None:
    # An L of 600 x 300 without 150 x 200 at its upper right: the ring is as long as round the
    # box; of the strokes, 137.5 across and 200 up from 50, the last two are cut off where the
    # ring turns at x = 425: of the third, 300 to 437.5 rising from 50, the part above y = 75
    # and past 425 is lost, and of the fourth, falling, all above y = 75.
    whole = shape_of(MODULE).difference(
        shape_of(rectangle(left=450, bottom=100, right=600, top=300))
    )
    third = 200 * (425 - 300) / 137.5  # how far it has risen where it leaves the ring
    fourth = 25  # of its fall of 200, from 75 to 50
    stroke = hypot(137.5, 200)
    assert bead_on(*regions_of(whole), inset=25, infill=150) == pytest.approx(
        1600 + 2 * stroke + stroke * (third + fourth) / 200
    )


def test_a_narrow_leg_takes_no_bead() -> None:
    # A leg 40 wide has no room for two insets of 25: the ring goes round the rest alone.
    leg = Region(rings=(((0, 0), (400, 0), (400, 100), (40, 100), (40, 500), (0, 500)),))
    assert bead_on(leg, inset=25, infill=150) == 2 * (350 + 50)


def test_a_hole_has_a_ring_of_its_own() -> None:
    # In a strip without a zigzag: round a hole of 60, an inset away, pi x 110.
    strip = rectangle(left=0, bottom=0, right=600, top=200)
    drilled = shape_of(strip).difference(disc(x=300, y=100, diameter=60))
    found = bead_on(*regions_of(drilled), inset=25, infill=150)
    assert found - 2 * (550 + 150) == pytest.approx(pi * 110, rel=0.01)


@pytest.mark.parametrize(
    ("bead_minutes", "hang_minutes", "pieces"),
    [
        (1, 2, 5),  # the last is pressed 1 + 5 x 2 = 11 minutes after its bead; a sixth, 13
        (2, 1, 5),  # the first is pressed 5 x 2 + 1 = 11 after its bead
        (2, 2, 5),  # 2 + 5 x 2 = 12: just in time
        (1, 20, 1),  # even one is late: there is no less than one
    ],
)
def test_how_many_may_be_buttered_at_once(
    bead_minutes: float, hang_minutes: float, pieces: int
) -> None:
    found = at_once(open_minutes=12, bead_minutes=bead_minutes, hang_minutes=hang_minutes)
    assert found == pieces
