"""Joints that run through holes and fixtures, counted by hand."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

import pytest

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.sample import sample_tile
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.setout.clearance import clear_starts, joints_met
from gaugerod.core.setout.sample import sample_batch
from gaugerod.core.setout.score import scores_of
from gaugerod.core.setout.strips import Batch, batch_of
from gaugerod.core.setout.turned_score import ground_of, score_pattern
from gaugerod.core.setout.zones import clear_lines
from gaugerod.core.survey.walls import FittedFixture, FittedHole

# The sample: face and pitch 600 x 300, first course -470, so course lines at -470 and -170;
# joints of course 2 at the phase and every 600 from it.
BAR = FittedFixture(
    name="bar", kind="bar", box=Box(left=500.0, bottom=-400.0, right=700.0, top=-350.0), clear=10.0
)
VALVE = FittedHole(
    name="valve",
    x=600.0,
    y=-320.0,
    diameter=76.0,
    pipe=None,
    plate=None,
    rough_in=None,
    rough_in_limits=None,
)


def with_bar(
    *phases: float,
    bar: FittedFixture = BAR,
    holes: tuple[FittedHole, ...] = (),
    looks: Mapping[str, int] = MappingProxyType({}),
) -> Batch:
    batch = sample_batch(*phases)
    wall = replace(batch.case.wall, fixtures=(bar,), holes=holes)
    priced = batch.case.looks.model_copy(update=looks)
    case = replace(batch.case, wall=wall, looks=priced)
    return batch_of(case, batch.lattice, batch.phases)


def test_a_joint_counts_in_the_clear_zone_too() -> None:
    # The zone runs from 490 to 710: joints at 491 and 709 are in it, at 489 and 711 not.
    batch = with_bar(491.0, 709.0, 489.0, 711.0, 600.0)
    assert joints_met(batch)["fixture"].tolist() == [1, 1, 0, 0, 1]


def test_a_course_line_counts_once() -> None:
    # Raised by 230 the zone runs from -180 to -110 and holds the line at -170. The courses on
    # both sides of it have a joint at 600 each.
    raised = replace(BAR, box=replace(BAR.box, bottom=-170.0, top=-120.0))
    assert joints_met(with_bar(600.0, 200.0, bar=raised))["fixture"].tolist() == [3, 1]


def test_a_fixture_over_the_finish_line_meets_nothing() -> None:
    over = replace(BAR, box=replace(BAR.box, bottom=5000.0, top=5050.0))
    assert joints_met(with_bar(600.0, bar=over))["fixture"].tolist() == [0]


def test_what_a_joint_under_a_fixture_costs() -> None:
    assert (
        scores_of(with_bar(600.0, looks={"near_fixture": 1234})).faults(0)["near-fixture"] == 1234
    )


def test_a_joint_just_clear_of_a_hole_is_close() -> None:
    # Reach 38 + 25.4 = 63.4 and 3.175 to spare: clear from 536.6 down, close until 533.425.
    batch = with_bar(536.5, 533.5, 533.4, 540.0, holes=(VALVE,))
    assert joints_met(batch)["hole"].tolist() == [0, 0, 0, 1]
    assert joints_met(batch)["close"].tolist() == [1, 1, 0, 1]
    priced = scores_of(with_bar(536.5, holes=(VALVE,), looks={"close_to_hole": 700})).faults(0)
    assert priced["close-to-hole"] == 700


def test_events_clear_a_fixture() -> None:
    batch = with_bar(0.0)
    # Joint 3 wide between courses: 490 - 600, 710, and the same less or plus no joint across.
    assert set(clear_starts(batch, low=-470.0, high=-170.0)) == {490.0 - 600.0, 710.0}
    lines = dict.fromkeys(line for _, line in clear_lines(batch.case.wall, batch.case.system, 3.0))
    assert list(lines) == pytest.approx([-413.0, -340.0])
    assert [zone.kind for zone in batch.zones] == ["fixture"]


@pytest.mark.parametrize(("bottom", "met"), [(-400.0, True), (5000.0, False)])
def test_a_pattern_pays_for_joints_under_a_fixture_that_it_reaches(
    bottom: float, *, met: bool
) -> None:
    # Tiles of 597 by 297 on the diagonal: none is wide enough to hold a bar of 600 clear of joints.
    bar = replace(BAR, box=replace(BAR.box, right=1100.0, bottom=bottom, top=bottom + 50.0))
    case = with_bar(0.0, bar=bar, looks={"near_fixture": 500}).case
    ground = ground_of(replace(case, system=sample_tile()))
    pattern = pattern_of(ground.case.system, "diagonal", "lying")
    _, priced = score_pattern(ground, pattern.at((ground.centre, ground.box.bottom)))
    assert (priced.get("near-fixture", 0) >= 500) is met
