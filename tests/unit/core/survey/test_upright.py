import math

import pytest
from tests.flat_by_hand import fitted, spots, tolerance

from gaugerod.core.survey.level_check import level_drift, reversed_level
from gaugerod.core.survey.plane import fit_plane
from gaugerod.core.survey.upright import deck_fall, edge_leans, plane_lean

PLUMB = tolerance(
    id="plumb", about="plumb", scales="in proportion", allows=[{"over": 2400, "at_most": 3}]
)
LEVEL = tolerance(id="level", about="level", allows=[{"over": 6000, "at_most": 3}])


def corners(lean: float, *, height: float) -> dict[tuple[float, float], float]:
    return {(0.0, 0.0): 0.0, (600.0, 0.0): 0.0, (0.0, height): lean, (600.0, height): lean}


def test_a_lean_over_the_height_that_was_read() -> None:
    read = spots(corners(2.0, height=1200.0), sigma=1.0)
    (judged,) = plane_lean(fit_plane(read), read, [PLUMB])
    found = judged.departure
    assert (found.way, found.held, found.span) == ("plane", "plumb", 1200.0)
    assert found.by == pytest.approx(2.0)
    assert found.sigma == pytest.approx(1.0)
    assert (found.start, found.end, found.at) == ((300.0, 0.0), (300.0, 1200.0), (300.0, 1200.0))
    assert judged.limit == pytest.approx(1.5)
    assert judged.verdict == "out"


def test_a_lean_over_more_than_the_limit_is_for() -> None:
    read = spots(corners(-3.0, height=3000.0))
    (judged,) = plane_lean(fit_plane(read), read, [PLUMB])
    assert judged.departure.span == 2400.0
    assert judged.departure.by == pytest.approx(-2.4)  # out of the alcove
    assert judged.verdict == "within"


def test_edges_lean_into_the_alcove_from_both_sides() -> None:
    # 2000 mm high; left runs 4 mm to the right, right 4 mm to the left, both inwards.
    wall = fitted(left=0.002, right=-0.002)
    left, right = edge_leans(wall, [PLUMB])
    assert (left.departure.by, right.departure.by) == pytest.approx((4.0, 4.0))
    assert left.departure.way == "edge"
    assert left.departure.start == pytest.approx((-1.5, -750.0))
    assert right.departure.end == pytest.approx((1500 - 2.5, 1250.0))
    assert left.limit == pytest.approx(2.5)
    assert left.verdict == "out"


def test_a_short_limit_is_held_against_the_foot_of_a_high_edge() -> None:
    short = tolerance(about="plumb", allows=[{"over": 1000, "at_most": 2}])
    left, _ = edge_leans(fitted(left=-0.001), [short])
    assert left.departure.span == 1000.0
    assert left.departure.by == pytest.approx(-1.0)


@pytest.mark.parametrize(
    ("deck", "by", "low", "verdict"),
    [
        ((-750.0, -746.0), 4.0, 0.0, "out"),
        ((-746.0, -750.0), -4.0, 1500.0, "out"),
        ((-750.0, -748.0), 2.0, 0.0, "within"),
    ],
)
def test_the_fall_of_a_deck(deck: tuple[float, float], by: float, low: float, verdict: str) -> None:
    (judged,) = deck_fall(fitted(deck=deck), [LEVEL])
    assert judged.departure.by == by
    assert judged.departure.at[0] == low
    assert judged.verdict == verdict


def test_a_level_turned_end_for_end() -> None:
    found = reversed_level(first=1.0, second=-2.0, over=500.0)
    assert found.slope == pytest.approx(-0.001)
    assert found.error == pytest.approx(0.003)
    assert found.angle == pytest.approx(math.atan(0.003))
    assert level_drift(error=found.error, over=2000.0) == pytest.approx(6.0)
