"""What stands on the rod, for rooms worked by hand."""

from dataclasses import replace
from math import isclose

import pytest
from tests.fixtures_plan import keyed_plan, tiled_plan
from tests.hand_alcove import WINDOW, lined_by_hand

from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.setout.layout import Layout
from gaugerod.core.sheet.rod import RodMark, rod_marks, stations
from gaugerod.core.survey.walls import FittedWall, Walls

FACTS = lined_by_hand()


def changed(walls: Walls, name: str, **changes: object) -> Walls:
    found = tuple(
        replace(wall, **changes) if wall.name == name else wall  # type: ignore[arg-type]  # fields by name
        for wall in walls.walls
    )
    return replace(walls, walls=found)


def of_kind(kind: str, walls: Walls, layout: Layout) -> list[RodMark]:
    return [mark for mark in rod_marks(walls, layout) if mark.kind == kind]


def mark(height: float) -> RodMark:
    return RodMark(kind="course", name="1", height=height, walls=("B",))


def test_marks_rise_and_are_each_told_once() -> None:
    for plan in (keyed_plan(), tiled_plan()):
        marks = rod_marks(plan.walls, plan.layout)
        assert [m.height for m in marks] == sorted(m.height for m in marks)
        assert len({(m.kind, m.name, m.walls) for m in marks}) == len(marks)


def test_course_lines_go_up_by_the_pitch_and_stop_short_of_the_finish() -> None:
    plan = keyed_plan()
    lines = of_kind("course", plan.walls, plan.layout)
    (finish,) = of_kind("finish", plan.walls, plan.layout)
    assert [line.name for line in lines] == ["1", "2", "3", "4", "5"]
    assert all(line.walls == ("L", "B", "R") for line in lines)
    for number, line in enumerate(lines):
        assert isclose(line.height, plan.layout.first_course + number * 304.8)
    assert isclose(finish.height, lines[-1].height + 304.8)
    assert finish.walls == ("L", "B", "R")


def test_what_pierces_a_wall_is_on_that_wall_alone() -> None:
    walls = changed(FACTS.walls, "R", openings=(WINDOW,))
    marks = rod_marks(walls, FACTS.layout)
    found = [(m.kind, m.name, m.height, m.walls) for m in marks]
    assert ("hole", "valve", -330.0, ("L",)) in found
    # Two windows of one name and height are two marks, each on its wall.
    for wall in ("B", "R"):
        assert ("sill", "window", 250.0, (wall,)) in found
        assert ("head", "window", 850.0, (wall,)) in found


def test_a_knee_wall_ends_sooner_and_loses_the_lines_above() -> None:
    knee = replace(FACTS.layout.walls[2], top=FACTS.layout.first_course + 310.0)
    layout = replace(FACTS.layout, walls=(*FACTS.layout.walls[:2], knee))
    lines = of_kind("course", FACTS.walls, layout)
    assert [line.walls for line in lines[:2]] == [("L", "B", "R")] * 2
    assert all(line.walls == ("L", "B") for line in lines[2:])
    finishes = of_kind("finish", FACTS.walls, layout)
    assert [finish.walls for finish in finishes] == [("R",), ("L", "B")]
    assert isclose(finishes[0].height, layout.first_course + 310.0)


def test_courses_go_on_down_a_leg() -> None:
    """A leg 380 below the rim takes one line more below the first: 300 of it, and not 600."""
    first = FACTS.layout.first_course
    leg = (*FACTS.walls.walls[0].deck, (800.0, first - 2 * FACTS.layout.rise + 1.0))
    walls = changed(FACTS.walls, "L", deck=leg, parts=("rim", "floor"))
    lines = of_kind("course", walls, FACTS.layout)
    assert [(line.name, line.walls) for line in lines[:2]] == [
        ("0", ("L",)),
        ("1", ("L", "B", "R")),
    ]
    assert isclose(lines[0].height, first - FACTS.layout.rise)


@pytest.mark.parametrize(
    ("heights", "numbers"),
    [
        ((-762.0, 1099.0), range(-4, 7)),
        ((-800.0, 1000.0), range(-4, 6)),
        ((310.0, 320.0), range(3)),
        ((-320.0, -310.0), range(-2, 1)),
        ((0.0,), range(2)),
    ],
)
def test_sub_datums_are_whole_steps_that_hold_all(
    heights: tuple[float, ...], numbers: range
) -> None:
    found = stations(tuple(map(mark, heights)), METRIC)
    assert [one.height for one in found] == [200.0 * number for number in numbers]
    assert [one.height for one in found if one.kind == "datum"] == [0.0]


def test_sub_datums_in_inches_are_eight_apart() -> None:
    assert [one.height / 25.4 for one in stations((mark(300.0),), IMPERIAL)] == [0.0, 8.0, 16.0]


def test_a_wall_without_a_leg_has_nothing_below_its_first_line() -> None:
    walls: tuple[FittedWall, ...] = FACTS.walls.walls
    assert all("floor" not in wall.parts for wall in walls)
    assert of_kind("course", FACTS.walls, FACTS.layout)[0].name == "1"
