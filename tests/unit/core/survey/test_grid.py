import pytest
from tests.flat_by_hand import grid, spots

from gaugerod.core.survey.grid import grid_departures, missing_spots


def test_a_whole_grid_lacks_nothing() -> None:
    assert missing_spots(grid([0.0, 0.0], [0.0, 0.0])) == ()


def test_what_a_grid_lacks() -> None:
    read = [spot for spot in grid([0.0] * 3, [0.0] * 3) if (spot.x, spot.y) != (300.0, 0.0)]
    assert missing_spots(read) == ((300.0, 0.0),)


def test_scattered_spots_are_no_grid() -> None:
    scattered = {(0.0, 0.0): 0.0, (310.0, 40.0): 0.0, (590.0, 320.0): 0.0, (20.0, 610.0): 0.0}
    assert missing_spots(spots(scattered)) == ()


def test_rows_then_columns() -> None:
    found = grid_departures(grid([0.0, 0.0, 0.0], [0.0, 6.0, 2.0], [0.0, -1.0, 0.0]))
    assert [(d.held, d.at, d.by) for d in found] == [
        ("level", (300.0, 0.0), -1.0),
        ("level", (300.0, 300.0), 5.0),
        ("level", (300.0, 600.0), 0.0),
        ("plumb", (0.0, 300.0), 0.0),
        ("plumb", (300.0, 300.0), 6.5),
        ("plumb", (600.0, 300.0), 2.0),
    ]
    assert (found[1].start, found[1].end, found[1].span) == ((0.0, 300.0), (600.0, 300.0), 600.0)
    assert found[1].way == "grid"


def test_neighbours_at_unequal_distances() -> None:
    # The line from 0 at 0 to 9 at 900 stands at 3 over 300.
    (found,) = grid_departures(
        spots({(0.0, 0.0): 0.0, (300.0, 0.0): 5.0, (900.0, 0.0): 9.0}, sigma=1.0)
    )
    assert (found.by, found.span) == pytest.approx((2.0, 900.0))
    assert found.sigma == pytest.approx((1 + 4 / 9 + 1 / 9) ** 0.5)


def test_spots_of_other_rows_are_no_neighbours() -> None:
    assert grid_departures(spots({(0.0, 0.0): 0.0, (300.0, 0.0): 1.0, (300.0, 300.0): 0.0})) == ()
