from collections.abc import Callable
from dataclasses import replace
from math import inf

import pytest

from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.hole_measures import HOLE_MEASURES
from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_tile
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.setout.pattern import rotated
from gaugerod.core.survey.walls import FittedHole

Measuring = Callable[[str, Facts], list[Measured]]


@pytest.fixture
def measure() -> Measuring:
    return lambda name, facts: list(HOLE_MEASURES[name](facts))


def drilled(facts: Facts, *holes: FittedHole) -> Facts:
    left, back, right = facts.walls.walls
    walls = replace(facts.walls, walls=(replace(left, holes=holes), back, right))
    return replace(facts, walls=walls)


def valve(facts: Facts) -> FittedHole:
    return facts.walls.walls[0].holes[0]


def read_to(facts: Facts, *surfaces: str) -> Facts:
    """The same valve with its depth read to these surfaces."""
    document = facts.job.model_dump(by_alias=True)
    kept = [r for r in document["wall"][0]["readings"] if r["kind"] != "rough-in"]
    document["wall"][0]["readings"] = [
        *kept,
        *({"kind": "rough-in", "of": "valve", "reads": 80, "surface": s} for s in surfaces),
    ]
    return replace(facts, job=Job.model_validate(document))


def test_what_a_plate_covers_and_a_pipe_leaves(facts: Facts, measure: Measuring) -> None:
    # half of 178 less 76, half of 76 less 28
    assert measure("plate-cover", facts) == [Measured(where="L valve", value=51.0)]
    assert measure("pipe-clearance", facts) == [Measured(where="L valve", value=24.0)]
    bare = drilled(facts, replace(valve(facts), pipe=None, plate=None))
    assert measure("plate-cover", bare) == measure("pipe-clearance", bare) == []


@pytest.mark.parametrize(
    ("surface", "proud"),
    [("backer", 68.8875), ("old tile", 68.8875), ("new face", 80.0)],  # 80 - 9.525 - 1.5875
)
def test_a_valve_stands_less_proud_of_the_new_face(
    facts: Facts, measure: Measuring, surface: str, proud: float
) -> None:
    valves = read_to(facts, surface)
    least, most = measure("valve-over-least", valves), measure("valve-over-most", valves)
    assert [(one.where, one.against) for one in least] == [("L valve", 50.0)]
    assert [(one.where, one.against) for one in most] == [("L valve", 75.0)]
    assert [one.value for one in (*least, *most)] == pytest.approx([proud, proud])
    assert measure("valve-unread", valves) == []


def test_the_survey_says_the_surface_where_the_reading_does_not(
    facts: Facts, measure: Measuring
) -> None:
    assert measure("valve-over-least", facts)[0].value == pytest.approx(68.8875)


@pytest.mark.parametrize("surfaces", [(), ("stud",), ("backer", "new face")])
def test_a_depth_that_cannot_be_known(
    facts: Facts, measure: Measuring, surfaces: tuple[str, ...]
) -> None:
    valves = read_to(facts, *surfaces)
    assert measure("valve-unread", valves) == [Measured(where="L valve")]
    assert measure("valve-over-least", valves) == measure("valve-over-most", valves) == []


def test_a_pipe_without_a_window_of_depth_is_no_valve(facts: Facts, measure: Measuring) -> None:
    assert len(measure("valve-over-least", facts)) == 1
    arm = drilled(facts, replace(valve(facts), rough_in_limits=None))
    assert measure("valve-over-least", arm) == measure("valve-unread", arm) == []


@pytest.mark.parametrize(
    ("x", "y", "clear"),
    [
        (400.0, -330.0, 102.0),  # 140 over the line at -470, less 38
        (300.0, -320.0, 112.0),  # 150 from both lines, 300 from both joints
        (570.0, -320.0, -8.0),  # 30 from the joint at 600: it runs through the hole
        (300.0, -470.0, -38.0),  # a joint through the very centre
        (300.0, -600.0, 92.0),  # in course 1: 130 under its line
    ],
)
def test_from_a_hole_to_the_nearest_joint(
    facts: Facts, measure: Measuring, x: float, y: float, clear: float
) -> None:
    moved = drilled(facts, replace(valve(facts), x=x, y=y))
    (found,) = measure("hole-to-joint", moved)
    assert (found.where, found.against) == ("L valve", 25.4)
    assert found.value == pytest.approx(clear)


def test_courses_of_a_bond_are_shifted(facts: Facts, measure: Measuring) -> None:
    # Course 2 starts 200 further right: its joint at 200 is 100 from the hole's centre.
    walls = tuple(replace(wall, row_shift=200.0) for wall in facts.layout.walls)
    bond = replace(facts, layout=replace(facts.layout, walls=walls))
    moved = drilled(bond, replace(valve(facts), x=300.0, y=-320.0))
    assert measure("hole-to-joint", moved)[0].value == pytest.approx(62.0)


@pytest.mark.parametrize(
    ("x", "y", "clear"),
    [
        (300.0, -471.5, 259.0),  # level joint through the centre; 297 to the upright one, less 38
        (
            598.5,
            -320.0,
            109.0,
        ),  # upright joint through the centre; 150 and 147 to the level ones, less 38
        (598.5, -471.5, inf),  # the crossing of two joints
        (300.0, -450.0, -18.0),  # off the joint by more than a mark: 20 from its edge at -470
        (300.0, -472.9, -38.0),  # in the joint, but 1.4 off its middle
    ],
)
def test_under_the_plate_of_a_tile_a_joint_may_run_through_the_centre(
    tiled: Facts, measure: Measuring, x: float, y: float, clear: float
) -> None:
    # Tile 597 x 297; course 1 ends at -473, course 2 starts at -470.
    moved = drilled(tiled, replace(valve(tiled), x=x, y=y))
    assert measure("hole-to-joint", moved)[0].value == pytest.approx(clear)


def test_a_hole_above_the_lining_meets_no_joint(facts: Facts, measure: Measuring) -> None:
    arm = drilled(facts, replace(valve(facts), y=769.0))  # its edge is 1 above the finish
    assert measure("hole-to-joint", arm) == []


@pytest.mark.parametrize(
    ("along", "up", "clear"),
    [
        (300.0, 150.0, 110.5),  # the middle of a module: 148.5 to its long sides, less 38
        (100.0, 150.0, 60.5),  # 98.5 to its end
        (0.0, 0.0, inf),  # a crossing of joints, under the plate
        (300.0, 0.4, inf),  # a joint, through the centre to a mark
        (300.0, 1.4, -38.0),  # in a joint, 1.4 off its middle
        (300.0, 11.5, -28.0),  # 10 from the edge of the module
    ],
)
def test_joints_of_a_pattern_are_measured_as_they_lie(
    tiled: Facts, measure: Measuring, along: float, up: float, clear: float
) -> None:
    """`along` and `up` run with the module, at 45 degrees, from the origin of the pattern."""
    diagonal = pattern_of(sample_tile(), "diagonal", "lying")
    facts = replace(tiled, layout=replace(tiled.layout, pattern=diagonal))
    x, y = rotated((along, up), 45)
    at = (facts.layout.walls[0].phase + x, facts.layout.first_course + y)
    moved = drilled(facts, replace(valve(tiled), x=at[0], y=at[1]))
    assert measure("hole-to-joint", moved)[0].value == pytest.approx(clear)
