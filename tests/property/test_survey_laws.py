"""Laws of the fit: the truth comes back, and nothing hangs on datum, hand, order or names."""

from collections.abc import Iterator, Sequence
from copy import deepcopy
from dataclasses import replace
from itertools import cycle
from random import Random

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.property.alcoves import (
    LEAN_SIGMA,
    Alcove,
    Raw,
    TrueWall,
    alcoves,
    lengths,
    share,
    span,
    surveyed,
)

from gaugerod.core.base.geometry import Box, Edge
from gaugerod.core.base.lengths import MM_PER_INCH
from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_job
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.steps import stepped
from gaugerod.core.survey.walls import FittedWall, Walls

NEAR = 1e-5
"""Far under what any tape reads, far over the noise of floating-point sums. [mm]"""
FINE = 1e-6
"""A millionth of a millimetre: only arithmetic is asked for. [mm]"""
HAIR = 0.05
"""What the belief in plumb edges and level decks may move a wall of exact readings. [mm]"""
TURNED = HAIR / 500
"""By how much that turns the partials of a wall of 500 mm or more. [1]"""
HEIGHTS = (-700.0, 0.0, 600.0, 1400.0)

ROUND = 1e-6
"""Variances are worked out at shapes that differ by a rounding. [1]"""

slips = st.lists(st.integers(-4, 4), min_size=1, max_size=30).map(
    lambda tenths: [part / 10 for part in tenths]
)
"""Errors of reading, of less than half a sigma: nothing for a test to find. [mm]"""


def fitted(raw: Raw) -> Walls:
    return fit_walls(Job.model_validate(raw))


def with_slips(raw: Raw, errors: Sequence[float]) -> Raw:
    """The job with an error added to every reading but the leans, which are read too well."""
    read = deepcopy(raw)
    error = cycle(errors)
    for reading in readings_of(read):
        if reading["kind"] != "lean":
            reading["reads"] += next(error)
    return read


def readings_of(raw: Raw) -> Iterator[Raw]:
    for wall in raw["wall"]:
        yield from wall["readings"]


# --- the truth comes back ----------------------------------------------------------------------


@given(alcoves())
def test_exact_readings_give_the_true_walls(alcove: Alcove) -> None:
    walls = fitted(surveyed(alcove))
    assert walls.suspects == ()
    assert walls.notes == ()
    assert walls.fit_for == "cut"
    for place, (true, found) in enumerate(zip(alcove.walls, walls.walls, strict=True)):
        for y in HEIGHTS:
            assert found.left.at(y) == pytest.approx(true.left_at(y), abs=HAIR)
            assert found.right.at(y) == pytest.approx(true.right_at(y), abs=HAIR)
        assert ends(found.deck) == pytest.approx(alcove.decks[place : place + 2], abs=HAIR)
        assert ends(found.ceiling) == pytest.approx(alcove.ceilings[place : place + 2], abs=HAIR)
        assert_pierced_alike(true, found)
    assert walls.floor == pytest.approx(alcove.floor, abs=HAIR)


@given(alcoves())
def test_an_alcove_that_is_plumb_and_level_comes_back_to_the_last_digit(alcove: Alcove) -> None:
    # The beliefs hold in it, so that nothing but the arithmetic stands between it and the fit.
    true = plumb_and_level(alcove)
    walls = fitted(surveyed(true))
    assert [reading.residual for reading in walls.readings] == pytest.approx(
        [0.0] * len(walls.readings), abs=FINE
    )
    for wall, found in zip(true.walls, walls.walls, strict=True):
        for y in HEIGHTS:
            assert found.left.at(y) == pytest.approx(0.0, abs=FINE)
            assert found.right.at(y) == pytest.approx(wall.width, abs=FINE)
        assert ends(found.deck) == pytest.approx([true.decks[0]] * 2, abs=FINE)
        assert ends(found.ceiling) == pytest.approx([true.ceilings[0]] * 2, abs=FINE)
        for hole, drilled in zip(wall.holes, found.holes, strict=True):
            assert (drilled.x, drilled.y) == pytest.approx((hole.x, hole.y), abs=FINE)


def plumb_and_level(alcove: Alcove) -> Alcove:
    left, back, right = (replace(wall, left=0.0, right=0.0) for wall in alcove.walls)
    return replace(
        alcove,
        walls=(left, back, right),
        decks=(alcove.decks[0],) * 4,
        ceilings=(alcove.ceilings[0],) * 4,
    )


def ends(line: Sequence[tuple[float, float]]) -> list[float]:
    return [line[0][1], line[-1][1]]


def assert_pierced_alike(true: TrueWall, found: FittedWall) -> None:
    for hole, drilled in zip(true.holes, found.holes, strict=True):
        assert (drilled.name, drilled.diameter) == (hole.name, hole.diameter)
        assert (drilled.x, drilled.y) == pytest.approx((hole.x, hole.y), abs=HAIR)
    for opening, framed in zip(true.openings, found.openings, strict=True):
        assert (framed.name, framed.kind) == (opening.name, opening.kind)
        assert sides(framed.box) == pytest.approx(sides(opening.box), abs=HAIR)


def sides(box: Box) -> list[float]:
    return [box.left, box.bottom, box.right, box.top]


@given(alcoves(), slips)
def test_what_is_tested_adds_up(alcove: Alcove, errors: list[float]) -> None:
    walls = fitted(with_slips(surveyed(alcove), errors))
    assume(not walls.suspects)
    assert sum(r.redundancy for r in walls.readings) == pytest.approx(walls.dof, abs=0.51)
    for reading in walls.readings:
        assert -1e-9 <= reading.redundancy <= 1 + 1e-9
        if reading.redundancy > 1e-3:
            # As lengths: w would be the less sure the less a reading is checked.
            expected = reading.w * reading.sigma * reading.redundancy**0.5
            assert reading.residual == pytest.approx(expected, abs=FINE)


@given(st.floats(-20, 20), st.floats(600, 1800), st.floats(-800, -700), st.floats(-800, -700))
def test_a_deck_without_steps_is_its_rim(start: float, width: float, y0: float, y1: float) -> None:
    left, right = Edge(offset=start, slope=0.0), Edge(offset=start + width, slope=0.0)
    rim = ((left.offset, y0), (right.offset, y1))
    assert stepped(sample_job().wall[1], rim, left, right, {}) == rim


# --- what nothing hangs on ---------------------------------------------------------------------


@given(alcoves(), lengths(-400, 400), slips)
def test_another_datum_moves_the_walls_and_nothing_else(
    alcove: Alcove, up: float, errors: list[float]
) -> None:
    jobs = (surveyed(alcove, datum=datum) for datum in (0.0, up))
    old, new = (fitted(with_slips(job, errors)) for job in jobs)
    assert new.sigma0 == pytest.approx(old.sigma0, abs=1e-6)
    assert [r.residual for r in new.readings] == pytest.approx(
        [r.residual for r in old.readings], abs=NEAR
    )
    for before, after in zip(old.walls, new.walls, strict=True):
        slid = before.left.at(up)  # x is nought where the left edge meets the datum
        for y in HEIGHTS:
            assert after.left.at(y - up) == pytest.approx(before.left.at(y) - slid, abs=NEAR)
            assert after.right.at(y - up) == pytest.approx(before.right.at(y) - slid, abs=NEAR)
        for name in ("deck", "ceiling"):
            moved = [y - up for y in ends(getattr(before, name))]
            assert ends(getattr(after, name)) == pytest.approx(moved, abs=NEAR)
        for drilled, hole in zip(after.holes, before.holes, strict=True):
            assert (drilled.x, drilled.y) == pytest.approx((hole.x - slid, hole.y - up), abs=NEAR)


@given(alcoves(), slips)
def test_in_a_mirror_the_walls_are_mirrored(alcove: Alcove, errors: list[float]) -> None:
    read = with_slips(surveyed(alcove), errors)
    here, there = fitted(read), fitted(in_mirror(read, alcove))
    assert there.sigma0 == pytest.approx(here.sigma0, abs=1e-3)
    for own, other in zip(here.walls, reversed(there.walls), strict=True):
        width = own.right.offset
        assert other.right.offset == pytest.approx(width, abs=HAIR)
        for y in HEIGHTS:
            assert width - other.right.at(y) == pytest.approx(own.left.at(y), abs=HAIR)
            assert width - other.left.at(y) == pytest.approx(own.right.at(y), abs=HAIR)
        for name in ("deck", "ceiling"):
            mirrored = ends(getattr(own, name))[::-1]
            assert ends(getattr(other, name)) == pytest.approx(mirrored, abs=HAIR)
        for drilled, hole in zip(other.holes, own.holes, strict=True):
            assert (width - drilled.x, drilled.y) == pytest.approx((hole.x, hole.y), abs=HAIR)


OPPOSITE = {"left": "right", "right": "left"}


def in_mirror(raw: Raw, alcove: Alcove) -> Raw:
    """The job as it reads in a mirror: left is right, and stations run the other way."""
    mirrored = deepcopy(raw)
    mirrored["wall"].reverse()
    for wall, place in zip(mirrored["wall"], (2, 1, 0), strict=True):
        true = alcove.walls[place]
        wall["name"] = {"L": "R", "B": "B", "R": "L"}[true.name]
        for reading in wall["readings"]:
            for key in {"edge", "from"} & reading.keys():
                reading[key] = OPPOSITE.get(reading[key], reading[key])
            if reading["kind"] in {"deck", "ceiling", "floor"}:
                line = alcove.ceilings if reading["kind"] == "ceiling" else alcove.decks
                reading["at"] = span(true, *line[place : place + 2]) - reading["at"]
            if reading["kind"] == "corner to corner":
                left, right = reading["left_at"], reading["right_at"]
                reading.update(left_at=right, right_at=left)
    return mirrored


@given(alcoves(), slips, st.randoms(use_true_random=False))
def test_the_order_of_readings_does_not_matter(
    alcove: Alcove, errors: list[float], lot: Random
) -> None:
    read = with_slips(surveyed(alcove), errors)
    shuffled = deepcopy(read)
    for wall in shuffled["wall"]:
        lot.shuffle(wall["readings"])
    assert_same_walls(fitted(read), fitted(shuffled))


@share(2)
@given(alcoves(), slips, st.sampled_from([float(MM_PER_INCH), 10.0]))
def test_the_unit_of_the_readings_does_not_matter(
    alcove: Alcove, errors: list[float], millimetres: float
) -> None:
    read = with_slips(surveyed(alcove), errors)
    unit = "cm" if millimetres == 10.0 else "in"
    other = {name: in_unit(part, millimetres) for name, part in read.items()} | {"unit": unit}
    old, new = fitted(read), fit_walls(Job.model_validate(other, context={"unit": unit}))
    assert [r.w for r in new.readings] == pytest.approx([r.w for r in old.readings], abs=1e-6)
    assert_same_walls(old, new)


def in_unit(value: object, millimetres: float) -> object:
    """Part of a job with every length in another unit; counts are whole numbers."""
    if isinstance(value, dict):
        return {name: in_unit(part, millimetres) for name, part in value.items()}
    if isinstance(value, list):
        return [in_unit(part, millimetres) for part in value]
    return value / millimetres if isinstance(value, float) else value


# --- how sure it is ----------------------------------------------------------------------------


@share(2)
@given(alcoves(), st.floats(1.1, 5.0))
def test_readings_with_larger_sigmas_leave_the_walls_and_widen_what_is_said_of_them(
    alcove: Alcove, times: float
) -> None:
    # The beliefs keep their sigmas, so the covariance grows by no more than the square, and the
    # walls move by what the beliefs weigh more.
    fine, coarse = surveyed(alcove), surveyed(alcove)
    for reading in readings_of(fine):
        reading["sigma"] = SIGMAS.get(reading["kind"], LEAN_SIGMA)
    for reading in readings_of(coarse):
        reading["sigma"] = times * SIGMAS.get(reading["kind"], LEAN_SIGMA)
    old, new = fitted(fine), fitted(coarse)
    assert new.parameters == old.parameters
    before, after = np.diag(old.covariance), np.diag(new.covariance)
    assert (after >= before * (1 - ROUND)).all()
    assert (after <= times**2 * before * (1 + ROUND)).all()
    at = [old.parameters.index(f"width {wall.name}") for wall in alcove.walls]
    assert after[at] == pytest.approx(times**2 * before[at], rel=0.05)
    for one, other in zip(old.walls, new.walls, strict=True):
        for y in HEIGHTS:
            assert other.left.at(y) == pytest.approx(one.left.at(y), abs=times**2 * HAIR)
            assert other.right.at(y) == pytest.approx(one.right.at(y), abs=times**2 * HAIR)


@share(2)
@given(alcoves(), st.integers(0, 2), st.data())
def test_a_reading_more_makes_nothing_less_sure(
    alcove: Alcove, place: int, data: st.DataObject
) -> None:
    # An exact one leaves the shape as it is but for what the beliefs let go, and the partials
    # are taken where the walls are found.
    read = surveyed(alcove)
    more = deepcopy(read)
    added = data.draw(st.sampled_from(read["wall"][place]["readings"]))
    more["wall"][place]["readings"].append(deepcopy(added))
    old, new = fitted(read), fitted(more)
    before = dict(zip(old.parameters, np.diag(old.covariance), strict=True))
    after = dict(zip(new.parameters, np.diag(new.covariance), strict=True))
    assert after.keys() == before.keys()
    for name, variance in after.items():
        assert variance <= before[name] * (1 + TURNED)


@given(alcoves(), slips, st.integers(2, 5))
def test_a_reading_taken_more_often_counts_as_a_better_one(
    alcove: Alcove, errors: list[float], times: int
) -> None:
    # n readings of the same value and sigma weigh as one with sigma over the root of n.
    often = with_slips(surveyed(alcove), errors)
    better = deepcopy(often)
    for wall in often["wall"]:
        wall["readings"] = [reading for reading in wall["readings"] for _ in range(times)]
    for reading in readings_of(better):
        reading["sigma"] = SIGMAS.get(reading["kind"], LEAN_SIGMA) / times**0.5
    for reading in readings_of(often):
        reading["sigma"] = SIGMAS.get(reading["kind"], LEAN_SIGMA)
    old, new = fitted(better), fitted(often)
    assume(not old.suspects and not new.suspects and not old.notes and not new.notes)
    assert_same_walls(old, new)


SIGMAS = {
    "width": 1.0,
    "corner to corner": 1.5,
    "deck": 0.7,
    "ceiling": 1.0,
    "floor": 1.0,
    "hole": 1.5,
    "opening": 1.5,
}
"""Any will do; these are a good setter's. [mm]"""


def assert_same_walls(old: Walls, new: Walls) -> None:
    for before, after in zip(old.walls, new.walls, strict=True):
        for y in HEIGHTS:
            assert after.left.at(y) == pytest.approx(before.left.at(y), abs=NEAR)
            assert after.right.at(y) == pytest.approx(before.right.at(y), abs=NEAR)
        for name in ("deck", "ceiling"):
            assert ends(getattr(after, name)) == pytest.approx(
                ends(getattr(before, name)), abs=NEAR
            )
        for drilled, hole in zip(after.holes, before.holes, strict=True):
            assert (drilled.x, drilled.y) == pytest.approx((hole.x, hole.y), abs=NEAR)
        for framed, opening in zip(after.openings, before.openings, strict=True):
            assert sides(framed.box) == pytest.approx(sides(opening.box), abs=NEAR)


# --- a bad reading -----------------------------------------------------------------------------


@given(alcoves(), slips, st.integers(0, 2), st.integers(0, 2))
def test_a_width_read_from_the_burned_inch_is_named_and_left_out(
    alcove: Alcove, errors: list[float], wall: int, which: int
) -> None:
    read = with_slips(surveyed(alcove), errors)
    good = fitted(read)
    reading = [r for r in read["wall"][wall]["readings"] if r["kind"] == "width"][which]
    reading["reads"] += 25.4  # an inch long
    reading["id"] = "burned"
    bad = fitted(read)
    assert [suspect.readings for suspect in bad.suspects] == [("burned",)]
    assert bad.fit_for == "price"
    for before, after in zip(good.walls, bad.walls, strict=True):
        for y in HEIGHTS:
            assert after.left.at(y) == pytest.approx(before.left.at(y), abs=1.0)
            assert after.right.at(y) == pytest.approx(before.right.at(y), abs=1.0)
