"""Odds by hand: covariances set down, chances from tables of the normal distribution."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest

from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.odds import Odds, odds_of
from gaugerod.core.setout.sample import sample_layout
from gaugerod.core.survey.walls import Walls

WALLS, LAYOUT, SYSTEM = sample_layout()
COUNTED = 0.03
"""Four standard errors of a share counted in 4000 draws. [1]"""


def only(**sigma: float) -> Walls:
    """The sample walls, certain but for a few parameters; underscores are spaces."""
    spread: Mapping[str, float] = {name.replace("_", " "): value for name, value in sigma.items()}
    # All others a millionth of a millimetre: a covariance has a root only if nothing is certain.
    sigmas = np.array([spread.get(name, 1e-6) for name in WALLS.parameters])
    return replace(WALLS, covariance=np.diag(sigmas**2))


def odds(walls: Walls, layout: Layout = LAYOUT) -> Odds:
    return odds_of(walls, layout, SYSTEM)


def lowered(by: float) -> Layout:
    return replace(LAYOUT, first_course=LAYOUT.first_course - by, top=LAYOUT.top - by)


@pytest.mark.parametrize(
    ("off", "chance"),
    # The share of a normal distribution below 0, 1 and 2 sigmas, from any table of it.
    [(0.0, 0.5), (1.0, 0.8413), (2.0, 0.9772)],
)
def test_a_limit_holds_as_often_as_its_margin_in_sigmas_says(off: float, chance: float) -> None:
    # The sample's first course leaves just its groove at the low corner of the deck, left on L.
    found = odds(only(deck_0=1.0), lowered(off))
    assert found.chance == pytest.approx(chance, abs=COUNTED)
    assert [(one.limit, one.wall) for one in found.limits] == [("groove-left", "L")]
    assert found.limits[0].chance == found.chance


def test_two_limits_that_hang_on_nothing_in_common_multiply() -> None:
    # One sigma of room at each: 1 on L, and on R 1 and the 6 by which its deck lies higher.
    found = odds(only(deck_0=1.0, deck_3=7.0), lowered(1.0))
    assert [(one.limit, one.wall) for one in found.limits] == [
        ("groove-left", "L"),
        ("groove-left", "R"),
    ]
    assert found.chance == pytest.approx(0.8413**2, abs=COUNTED)


def test_a_certain_survey_keeps_what_the_plan_keeps() -> None:
    walls = replace(WALLS, covariance=np.zeros_like(WALLS.covariance))
    found = odds(walls)
    assert (found.chance, found.limits) == (1.0, ())
    assert {end.sigma for end in found.ends} == {0.0}


def test_a_layout_that_breaks_a_limit_has_no_chance() -> None:
    # 10 up, only 2.7 come off the modules at the low corner, and 12.7 must.
    found = odds(only(deck_0=1.0), lowered(-10.0))
    assert found.chance == 0.0
    assert {(one.limit, one.chance) for one in found.limits} == {("groove-left", 0.0)}


def test_a_limit_that_is_set_aside_is_not_asked() -> None:
    signed = replace(lowered(-10.0), set_aside=("groove-left",))
    found = odds(only(deck_0=1.0), signed)
    assert (found.chance, found.limits) == (1.0, ())


def test_the_right_end_takes_the_whole_error_of_the_width() -> None:
    found = odds(only(width_B=2.0))
    spread = {end.side: end.sigma for end in found.ends if end.wall == "B"}
    assert spread["left"] == pytest.approx(0.0, abs=0.01)
    assert spread["right"] == pytest.approx(2.0, abs=0.01)


def test_a_lean_spreads_an_end_by_its_height() -> None:
    # One in a thousand; course 1 stands from 757 to 470 below the datum, course 5 over it.
    found = odds(only(right_B=0.001))
    by_course = {e.course: e.sigma for e in found.ends if (e.wall, e.side) == ("B", "right")}
    assert 0.469 < by_course[1] < 0.758
    assert 0.430 < by_course[5] < 0.731


def test_the_same_seed_gives_the_same_odds() -> None:
    walls = only(deck_0=1.0)
    assert odds(walls) == odds(walls)
    assert odds_of(walls, LAYOUT, SYSTEM, seed=1).chance != odds(walls).chance
