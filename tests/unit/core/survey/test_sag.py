import numpy as np
import pytest

from gaugerod.core.survey.sag import Profile, Sag, deepest, worst_sag


def profile(*points: tuple[float, float]) -> Profile:
    """Heights at stations."""
    t, z = np.array(points).T
    return Profile(t=t, z=z, solid=np.ones(len(t) - 1, dtype=np.bool_))


def gap(line: Profile, length: float) -> Sag | None:
    return worst_sag(line, [length], lambda spans: np.where(spans > length, np.inf, 0.0))


VALLEY = profile((0.0, 4.0), (1000.0, 0.0), (2000.0, 8.0))


def test_between_two_high_points() -> None:
    # The chord from 4 to 8 stands at 6 over the bottom.
    assert gap(VALLEY, 2000.0) == Sag(start=0.0, at=1000.0, end=2000.0, gap=6.0, excess=6.0)


def test_resting_on_both_ends_within_stretches() -> None:
    # Slopes of 0.004 and 0.008: with a to the left of 1000, the gap is 0.012 a (1000 - a) / 1000,
    # most at a = 500: 3 mm.
    found = gap(VALLEY, 1000.0)
    assert found is not None
    assert (found.start, found.at, found.end) == pytest.approx((500.0, 1000.0, 1500.0))
    assert found.gap == pytest.approx(3.0)


def test_a_pit_too_wide_for_the_straightedge() -> None:
    # 600 mm from edge to edge, slopes of 0.01: with 400 mm the gap is 0.02 a (400 - a) / 400,
    # most at a = 200: 2 mm.
    pit = profile((0.0, -2.0), (300.0, 0.0), (600.0, -3.0), (900.0, 0.0), (1200.0, -2.0))
    found = gap(pit, 400.0)
    assert found is not None
    assert (found.start, found.at, found.end) == pytest.approx((400.0, 600.0, 800.0))
    assert found.gap == pytest.approx(2.0)


def test_over_a_hump_there_is_no_gap() -> None:
    found = gap(profile((0.0, 0.0), (300.0, 2.0), (600.0, 0.0)), 600.0)
    assert found is not None
    assert found.gap == 0.0


def test_a_short_straightedge_rocks_on_a_hump() -> None:
    found = gap(profile((0.0, 0.0), (300.0, 2.0), (600.0, 0.0)), 100.0)
    assert found is not None
    assert found.gap == 0.0


def test_nothing_lies_between_two_stations() -> None:
    assert gap(profile((0.0, 0.0), (300.0, 2.0)), 300.0) is None
    assert deepest(profile((0.0, 0.0), (300.0, 2.0))) == 0.0


def test_a_straightedge_bridges_an_opening_and_finds_nothing_in_it() -> None:
    # The bottom at 600 lies inside the opening from 300 to 900, which is two stretches.
    line = profile((0.0, 0.0), (300.0, -1.0), (600.0, -9.0), (900.0, -1.0), (1200.0, 0.0))
    line = Profile(t=line.t, z=line.z, solid=np.array([True, False, False, True]))
    found = gap(line, 1200.0)
    assert found == Sag(start=0.0, at=300.0, end=1200.0, gap=1.0, excess=1.0)
    # One of 500 mm can only rest across a jamb, where one end would hang in the opening.
    assert gap(line, 500.0) is None


def test_the_excess_counts_and_not_the_gap() -> None:
    # 2 mm between points 200 mm apart, 3 mm between points 2 m apart.
    line = profile((0.0, 0.0), (100.0, -2.0), (200.0, 0.0), (1200.0, -3.0), (2200.0, 0.0))
    found = worst_sag(line, [200.0, 2000.0], lambda spans: spans / 1000)
    assert found is not None
    assert (found.start, found.end) == (0.0, 200.0)
    assert found.excess == pytest.approx(1.8)


def test_the_whole_line_shows_the_deepest_gap() -> None:
    assert deepest(VALLEY) == 6.0
