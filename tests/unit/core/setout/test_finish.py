from dataclasses import replace

import pytest

from gaugerod.core.job.document import Choices
from gaugerod.core.job.sample import sample_job, sample_system
from gaugerod.core.setout.finish import finish_line, setting_order
from gaugerod.core.setout.variants import Finish
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls

SYSTEM = sample_system()
WALLS = fit_walls(sample_job())


def choices(**update: object) -> Choices:
    return sample_job().choices.model_copy(update=update)


def line_of(
    walls: Walls, first_course: float, *, finish: Finish = "line", **update: object
) -> float:
    return finish_line(
        walls, choices(**update), SYSTEM, finish=finish, first_course=first_course, pitch=300.0
    )


def test_the_order_is_the_setters_then_the_makers_then_left_to_right() -> None:
    assert setting_order(WALLS, choices(wall_order=("R", "B", "L")), SYSTEM, "lying") == (
        "R",
        "B",
        "L",
    )
    maker = SYSTEM.model_copy(update={"wall_order": ("B", "L", "R")})
    assert setting_order(WALLS, choices(), maker, "lying") == ("B", "L", "R")
    other = SYSTEM.model_copy(update={"wall_order": ("N", "E")})
    assert setting_order(WALLS, choices(), other, "lying") == ("L", "B", "R")


def test_standing_keyed_modules_are_set_the_other_way_round() -> None:
    assert setting_order(WALLS, choices(), SYSTEM, "standing") == ("R", "B", "L")
    tile = SYSTEM.model_copy(update={"kind": "grouted"})
    assert setting_order(WALLS, choices(), tile, "standing") == ("L", "B", "R")


# The floor is read 380 below a deck 760 below the datum: -1140. Lines at -470 + 300 n.
@pytest.mark.parametrize(
    ("update", "finish", "line"),
    [
        ({}, "line", 730.0),  # 1828.8 above the floor is 688.8
        ({"least_finish": 1871.0}, "line", 1030.0),
        ({"least_finish": 500.0}, "line", -170.0),  # the valve at -330 reaches -266.6
        ({}, "ceiling", 1400 - 9.525),
        ({}, 2000.0, 860.0),
        ({"least_finish": 2530.0}, "line", 1400 - 9.525),  # a line over the ceiling stops there
    ],
)
def test_where_the_lining_ends(update: dict[str, object], finish: Finish, line: float) -> None:
    assert line_of(WALLS, -470.0, finish=finish, **update) == pytest.approx(line, abs=0.05)


def test_an_unread_floor_is_taken_a_low_rim_below_the_deck() -> None:
    # -760 - 355.6 + 1828.8 = 713.2.
    unread = replace(WALLS, floor=None)
    assert line_of(unread, -470.0) == pytest.approx(730.0)
    assert line_of(unread, -490.0) == pytest.approx(1010.0)


def test_a_low_finish_is_never_under_the_first_course() -> None:
    bare = replace(WALLS, walls=(WALLS.walls[1],))
    assert line_of(bare, -470.0, least_finish=1.0) == -470.0
