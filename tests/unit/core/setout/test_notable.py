"""Heights and phases worth a stop, in the sample alcove, by hand.

Its deck lies 760 to 754 mm under the datum and 380 mm over the floor, the joint on the deck is
3 mm, a module 300 mm high, a strip at least 50 mm.
"""

import pytest

from gaugerod.core.job.document import Override
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.notable import Heights, heights_of, phases_of
from gaugerod.core.survey.fit import fit_walls

JOB, SYSTEM, LOOKS = sample_job(), sample_system(), sample_rates().looks
WALLS = fit_walls(JOB)
LOW = 50 + 6
"""Where the deck is highest the first course is 6 mm less. [mm]"""
TALLEST = 300 - 12.7
"""The groove at the deck has to go. [mm]"""


def heights(*, finish: float | str, allowed: tuple[Override, ...] = ()) -> Heights:
    update = {"finish": finish, "override": allowed, "first_height": 100.0}
    return heights_of(WALLS, JOB.choices.model_copy(update=update), SYSTEM, LOOKS)


def near(*ranges: tuple[float, float]) -> list[object]:
    return [pytest.approx(one, abs=0.01) for one in ranges]


def test_a_finish_on_a_course_line_leaves_all_from_the_least_to_the_tallest() -> None:
    assert list(heights(finish="line").allowed) == near((LOW, TALLEST))


def test_a_fixed_finish_takes_out_what_leaves_too_low_a_strip_under_it() -> None:
    # 2000 mm over a floor 1140 mm down is 1617 mm over the joint: 117 mm more than five courses.
    assert list(heights(finish=2000.0).allowed) == near((LOW, 117 - 50), (117, TALLEST))


def test_a_fixed_finish_may_cut_off_the_tallest() -> None:
    # 1900 mm leaves 1517: from 17 on a strip of 317 less the height.
    assert list(heights(finish=1900.0).allowed) == near((LOW, 317 - 50))


def test_a_limit_that_is_set_aside_takes_nothing_out() -> None:
    signed = Override.model_validate(
        {"limit": "under-least", "by": "Somebody", "on": "2026-03-01", "why": "A ledge hides it."}
    )
    assert list(heights(finish=2000.0, allowed=(signed,)).allowed) == near((50, TALLEST))


def test_notable_heights_are_allowed_and_have_a_name() -> None:
    line, fixed = dict(heights(finish="line").notable), dict(heights(finish=1900.0).notable)
    assert line["tallest"] == pytest.approx(TALLEST)
    assert "tallest" not in fixed
    assert "strip" not in line
    # A line clear of the valve, 330 mm under the datum: under it by its half and 25.4 mm.
    under = 757 - 330 - 76 / 2 - 25.4
    heights_there = [at for name, at in heights(finish="line").notable if name == "clear-of-hole"]
    assert any(abs(under - 300 - at) < 0.01 for at in heights_there)


def test_a_joint_in_a_hole_is_no_place_worth_a_stop() -> None:
    # The valve, 76 mm wide, has its centre 400 mm from either corner of the 800 mm wall.
    low = JOB.choices.model_copy(update={"first_height": 287.3})
    left, back, _ = phases_of(WALLS, low, SYSTEM, LOOKS)
    assert "joint" not in dict(left)
    assert {"module", "joint"} <= {*dict(back)}
    # Where the middle of a module is, a joint lies half a module of 600 mm away.
    apart = dict(back)["module"] - dict(back)["joint"]
    assert abs(apart) == pytest.approx(600 / 2)
