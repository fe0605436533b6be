from collections.abc import Sequence

import pytest
from shapely.geometry import box
from shapely.geometry.base import BaseGeometry
from tests.flat_by_hand import grid, spots

from gaugerod.core.survey.cover import Goal
from gaugerod.core.survey.mesh import mesh_of
from gaugerod.core.survey.patches import Patch, patch
from gaugerod.core.survey.plane import fit_plane
from gaugerod.core.survey.spots import Spot

WALL = box(0, 0, 600, 600)
CELL = 300.0**2
# A hollow of 4 mm in the middle.
HOLLOW = grid([0.0, 0.0, 0.0], [0.0, -4.0, 0.0], [0.0, 0.0, 0.0])
# The same with a hump of 6 mm at one side.
HUMP = grid([0.0, 0.0, 0.0], [0.0, -4.0, 6.0], [0.0, 0.0, 0.0])


def made(
    read: Sequence[Spot], within: BaseGeometry = WALL, *, goal: Goal = "flat", band: float = 1.0
) -> Patch | None:
    return patch(read, mesh_of(read), fit_plane(read), within=within, goal=goal, band=band)


def test_a_hollow_is_filled_to_the_high_points_or_to_the_band() -> None:
    found = made(HOLLOW)
    assert found is not None
    assert [spot.flush for spot in found.spots] == pytest.approx([0, 0, 0, 0, 4, 0, 0, 0, 0])
    assert [spot.least for spot in found.spots] == pytest.approx([0, 0, 0, 0, 3, 0, 0, 0, 0])
    # Four cells with one corner 4 deep, so 1 mm on average; 3/4 mm with 3.
    assert [cell.flush for cell in found.cells] == pytest.approx([CELL] * 4)
    assert (found.flush, found.least) == pytest.approx((4 * CELL, 3 * CELL))
    assert found.cells[0].ring == ((0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0))
    assert (found.goal, found.band, found.grind) == ("flat", 1.0, None)


def test_cells_without_fill_are_left_out() -> None:
    found = made(grid([0.0, 0.0, 0.0], [0.0, 0.0, -2.0]))
    assert found is not None
    # Depths of about 1e-15 are rounding noise, not fill.
    assert [cell.flush for cell in found.cells if cell.flush > 1.0] == pytest.approx([CELL / 2])


def test_an_opening_takes_no_compound() -> None:
    window = box(300, 0, 600, 600)
    found = made(HOLLOW, WALL.difference(window))
    assert found is not None
    assert found.flush == pytest.approx(2 * CELL)


def test_spots_round_an_opening_alone_have_nothing_to_fill() -> None:
    assert made(HOLLOW, box(700, 0, 900, 600)) is None


def test_a_hump_may_be_ground_instead() -> None:
    found = made(HUMP)
    assert found is not None
    assert found.grind is not None
    assert found.grind.at == (600.0, 300.0)
    # Down to the others, which are all level: then only the hollow of 4 mm is left. The hump
    # is a corner of two cells.
    assert found.grind.depth == pytest.approx(6.0)
    assert found.grind.dust == pytest.approx(2 * CELL * 6 / 4)
    assert found.grind.flush == pytest.approx(4 * CELL)
    assert found.flush > found.grind.flush


def test_of_two_humps_the_one_that_saves_more() -> None:
    # Two humps on a long wall: the higher one holds more of the plane up.
    row = [0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 7.0, 0.0, 0.0]
    flat = [0.0] * 9
    found = made(grid(flat, row, flat), box(0, 0, 2400, 600))
    assert found is not None
    assert found.grind is not None
    assert found.grind.at == (1800.0, 300.0)


def test_a_saving_of_a_millilitre_is_not_worth_grinding() -> None:
    found = made(grid([0.0, 0.0, 0.0], [0.0, -4.0, 0.005], [0.0, 0.0, 0.0]))
    assert found is not None
    assert found.grind is None


def test_a_corner_that_holds_the_wall_up_alone_is_not_ground_away() -> None:
    # Of three spots none can go: the other two are no plane.
    found = made(spots({(0.0, 0.0): 9.0, (600.0, 0.0): 0.0, (0.0, 600.0): 0.0}), goal="plumb")
    assert found is not None
    assert found.grind is None


def test_plumb_takes_more_than_flat() -> None:
    # Leans in by 6 mm over 600: the plumb plane stands on the top row, and every cell is
    # filled by 0 to 3 or 3 to 6 mm.
    leaning = grid([6.0, 6.0, 6.0], [3.0, 3.0, 3.0], [0.0, 0.0, 0.0])
    flat, plumb = made(leaning, band=0.0), made(leaning, goal="plumb", band=0.0)
    assert flat is not None
    assert plumb is not None
    assert flat.flush == pytest.approx(0.0, abs=1e-3)
    assert plumb.flush == pytest.approx((4.5 + 4.5 + 1.5 + 1.5) * CELL)
    assert plumb.least == plumb.flush
    assert (plumb.target.offset, plumb.target.up) == pytest.approx((6.0, 0.0))
