"""Laws of the odds: margins agree with the score, and spread follows the sigmas."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from tests.property.alcoves import Alcove, Lined, alcoves, job_of, lined, share

from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.margins import margins, planned
from gaugerod.core.setout.odds import Odds, odds_of
from gaugerod.core.setout.score import score_phases

HAIR = 0.2
"""Score and margins read deck and ceiling at slightly different stations. [mm]"""


def moved(layout: Layout, *, up: float, along: float) -> Layout:
    """The layout on other lines: most often one that breaks a limit."""
    walls = tuple(replace(wall, phase=wall.phase + along) for wall in layout.walls)
    return replace(layout, first_course=layout.first_course + up, walls=walls)


def least(alcove: Lined, layout: Layout) -> Iterator[tuple[dict[str, float], set[str]]]:
    """The least margin of each limit on each wall, and what the score refuses there."""
    for on_wall, wall in zip(layout.walls, alcove.walls.walls, strict=True):
        plan = planned(layout, on_wall, wall, alcove.system)
        found: dict[str, float] = {}
        for margin in margins(plan, wall):
            if margin.there and margin.limit != "no-lift":
                found[margin.limit] = min(margin.value, found.get(margin.limit, np.inf))
        (scored,) = score_phases(plan.batch)
        yield found, set(scored.refused)


@share(2)
@given(alcoves(), st.integers(-40, 40), st.integers(-200, 200))
def test_a_margin_is_negative_just_where_the_score_refuses(
    alcove: Alcove, up: int, along: int
) -> None:
    found = lined(job_of(alcove), alcove.system)
    there = moved(found.short.layouts[0], up=up * 2.3, along=along * 1.7)
    for margin, refused in least(found, there):
        assert refused - {"shifted-too-far"} <= margin.keys()
        for limit, value in margin.items():
            if abs(value) > HAIR:
                assert (value < 0) == (limit in refused), (limit, value, margin, refused)


@share(2)
@given(alcoves())
def test_a_layout_of_the_short_list_keeps_every_limit(alcove: Alcove) -> None:
    found = lined(job_of(alcove), alcove.system)
    for layout in found.short.layouts[:3]:
        for margin, _ in least(found, layout):
            assert min(margin.values()) > -HAIR


def rougher(alcove: Lined, layout: Layout, times: float) -> Odds:
    """The odds when every sigma is so many times larger."""
    walls = replace(alcove.walls, covariance=alcove.walls.covariance * times**2)
    return odds_of(walls, layout, alcove.system)


DRAWS_ERROR = 0.02
"""A chance counted in 4000 draws is within this of the true one. [1]"""


@share(4)
@given(alcoves(), st.floats(1.0, 4.0))
def test_larger_sigmas_never_raise_the_chance_of_limits_kept(alcove: Alcove, times: float) -> None:
    found = lined(job_of(alcove), alcove.system)
    layout = found.short.layouts[0]
    near, far = rougher(found, layout, 1.0), rougher(found, layout, times)
    assert 0.0 <= far.chance <= 1.0
    # A limit that is just met stays at one half: only its draws may differ.
    assert far.chance <= near.chance + DRAWS_ERROR
    chances = {(one.limit, one.wall): one.chance for one in near.limits}
    for one in far.limits:
        assert 0.0 <= one.chance <= chances.get((one.limit, one.wall), 1.0) + DRAWS_ERROR


@share(4)
@given(alcoves(), st.floats(0.1, 10.0))
def test_the_spread_of_an_end_cut_grows_as_the_sigmas(alcove: Alcove, times: float) -> None:
    found = lined(job_of(alcove), alcove.system)
    layout = found.short.layouts[0]
    near, far = rougher(found, layout, 1.0), rougher(found, layout, times)
    for one, other in zip(near.ends, far.ends, strict=True):
        assert other.width == one.width
        assert abs(other.sigma - times * one.sigma) <= 1e-9 * max(1.0, other.sigma)
