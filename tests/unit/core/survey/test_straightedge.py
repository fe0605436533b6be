import numpy as np
import pytest
from tests.flat_by_hand import grid, spots, surface, tolerance

from gaugerod.core.base.geometry import Box
from gaugerod.core.survey.lines import profiles
from gaugerod.core.survey.straightedge import straightedge, worst_gap

# One hollow of 4 mm in the middle of a flat grid of 600 by 600.
HOLLOW = grid([0.0, 0.0, 0.0], [0.0, -4.0, 0.0], [0.0, 0.0, 0.0])


@pytest.mark.parametrize("held", ["level", "plumb"])
def test_a_hollow_in_the_middle(held: str) -> None:
    mesh, heights = surface(HOLLOW)
    found = worst_gap(mesh, heights, length=600.0, held="level" if held == "level" else "plumb")
    assert found is not None
    assert found.at == pytest.approx((300.0, 300.0))
    assert (found.way, found.held, found.by, found.span) == ("straightedge", held, -4.0, 600.0)
    ends = {"level": [(0.0, 300.0), (600.0, 300.0)], "plumb": [(300.0, 0.0), (300.0, 600.0)]}
    assert [found.start, found.end] == [pytest.approx(end) for end in ends[held]]


def test_any_direction_takes_in_the_diagonal() -> None:
    # A fault along one diagonal, and the other diagonal all high: only a straightedge across
    # finds it, from corner to corner.
    mesh, heights = surface(grid([5.0, 0.0], [0.0, 5.0]))
    along = worst_gap(mesh, heights, length=900.0, held="level")
    across = worst_gap(mesh, heights, length=900.0, held="any")
    assert along is None  # nothing was read between two spots
    assert across is not None
    assert across.by == -2.5  # the middle is the mean of its corners
    assert across.span == pytest.approx(300.0 * 2**0.5)


def test_spots_off_a_grid_are_met_between() -> None:
    # The line through the two high spots crosses the valley between the two low ones.
    mesh, heights = surface(
        spots({(0.0, 0.0): 0.0, (400.0, 0.0): 0.0, (200.0, 150.0): -3.0, (200.0, -160.0): -3.0})
    )
    found = worst_gap(mesh, heights, length=400.0, held="level")
    assert found is not None
    assert (*found.at, found.by) == pytest.approx((200.0, 0.0, -3.0))


def test_an_opening_is_bridged() -> None:
    mesh, heights = surface(HOLLOW)
    window = Box(left=200.0, bottom=200.0, right=400.0, top=400.0)
    found = worst_gap(mesh, heights, length=600.0, held="level", openings=[window])
    assert found is not None
    # On the jambs of the window the surface has come down by two thirds.
    assert found.by == pytest.approx(-4 * 2 / 3)
    assert abs(found.at[0] - 300.0) == pytest.approx(100.0)


def test_openings_elsewhere_change_nothing() -> None:
    mesh, heights = surface(HOLLOW)
    beside = [
        Box(left=100.0, bottom=700.0, right=500.0, top=900.0),
        Box(left=-900.0, bottom=100.0, right=-500.0, top=500.0),
        Box(left=0.0, bottom=-300.0, right=600.0, top=0.0),  # its head is the lowest row
    ]
    for held in ("level", "plumb"):
        found = worst_gap(mesh, heights, length=600.0, held=held, openings=beside)
        assert found is not None
        assert found.by == -4.0


def test_a_slanted_line_misses_an_opening_that_it_passes_by() -> None:
    mesh, heights = surface(grid([0.0, 0.0], [0.0, 0.0], step=600.0))
    corner = Box(left=0.0, bottom=500.0, right=100.0, top=600.0)
    stretches = [
        len(profile.solid)
        for line, profile in profiles(mesh, heights, held="any", openings=[corner])
        if abs(line.along[0] * line.along[1]) > 0.1
    ]
    # One diagonal runs through the corner (cut once more), the other passes it.
    assert sorted(stretches) == [2, 3]


def test_each_limit_is_judged_where_it_is_worst() -> None:
    # A short dip of 2 mm at the left, a long one of 3 mm at the right.
    row = [0.0, -2.0, 0.0, -1.5, -3.0, -1.5, 0.0]
    mesh, heights = surface(grid(row, row))
    short = tolerance(id="short", allows=[{"over": 600, "at_most": 1}])
    long = tolerance(id="long", allows=[{"over": 2000, "at_most": 4}])
    near, far = straightedge(mesh, heights, [short, long], sigma=0.5, held="level")
    assert (near.tolerance.id, near.verdict) == ("short", "out")
    assert near.over == pytest.approx(1.0)
    assert near.departure.at[0] == pytest.approx(300.0)
    assert (far.tolerance.id, far.verdict) == ("long", "within")
    assert far.over == pytest.approx(-1.0)
    assert far.departure.at[0] == pytest.approx(1200.0)
    # Half-way between two high spots: 0.5 * sqrt(1 + 1/4 + 1/4)
    assert near.departure.sigma == pytest.approx(0.5 * 1.5**0.5)


def test_limits_that_grow_with_the_distance_of_the_points() -> None:
    row = [0.0, -2.0, 0.0, -1.5, -3.0, -1.5, 0.0]
    mesh, heights = surface(grid(row, row))
    grows = tolerance(
        allows=[{"over": 100, "at_most": 0.5}, {"over": 1200, "at_most": 2.7}],
        scales="straight line",
    )
    (found,) = straightedge(mesh, heights, [grows], sigma=0.5, held="level")
    # Over 600 mm 1.5 are allowed and 2 found; over 1200 mm 2.7 and 3.
    assert found.limit == pytest.approx(1.5)
    assert found.over == pytest.approx(0.5)


def test_too_few_spots_to_lay_a_straightedge_on() -> None:
    mesh, heights = surface(grid([0.0, 0.0], [0.0, 0.0]))
    assert straightedge(mesh, heights, [tolerance()], sigma=0.4, held="level") == ()


def test_lines_run_through_every_two_spots_once() -> None:
    mesh, heights = surface(HOLLOW)
    lines = [line for line, _ in profiles(mesh, heights, held="any", openings=[])]
    # 3 rows, 3 columns, 2 long and 4 short diagonals, 8 knight's moves.
    assert len(lines) == 20
    assert all(np.hypot(*line.along) == pytest.approx(1.0) for line in lines)
