import numpy as np
import pytest

from gaugerod.core.job.sample import sample_job
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.moved import STEP

WALLS = fit_walls(sample_job())


def moved_by(parameter: str) -> list[int]:
    number = WALLS.parameters.index(parameter)
    return [moved.place for moved in WALLS.moved if moved.parameter == number]


@pytest.mark.parametrize(
    ("parameter", "places"),
    [
        ("width B", [1]),
        ("deck 0", [0]),
        ("deck 2", [1, 2]),
        ("ceiling 3", [2]),
        ("hole L/valve x", [0]),
        ("floor", []),
    ],
)
def test_a_parameter_moves_the_walls_that_it_shapes(parameter: str, places: list[int]) -> None:
    assert moved_by(parameter) == places


def test_a_width_moves_the_right_edge_and_nothing_of_the_left() -> None:
    number = WALLS.parameters.index("width B")
    (moved,) = [moved for moved in WALLS.moved if moved.parameter == number]
    was = WALLS.walls[1]
    assert moved.wall.left == was.left
    assert moved.wall.right.offset - was.right.offset == pytest.approx(STEP, rel=1e-6)
    assert np.isclose(moved.wall.right.slope, was.right.slope)
