import pytest

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import Key
from gaugerod.core.job.sample import sample_system
from gaugerod.core.setout.lattice import Lattice, hung, key_at

GRID = Lattice(
    face=(597.0, 297.0), pitch=(600.0, 300.0), first_course=290.0, phase=100.0, row_shift=200.0
)


def test_rows_and_cells() -> None:
    assert (GRID.row_top(1), GRID.row_bottom(1)) == (290.0, -7.0)
    assert GRID.row_start(3) == 500.0
    assert GRID.cell(2, -1) == Box(left=-300.0, bottom=293.0, right=297.0, top=590.0)


@pytest.mark.parametrize(
    ("bottom", "top", "courses"),
    [
        (0.0, 290.0, [1]),
        (0.0, 293.0, [1]),  # the joint above is no course
        (0.0, 293.1, [1, 2]),
        (290.0, 600.0, [2, 3]),
        (-50.0, 0.0, [0, 1]),
    ],
)
def test_courses_between_two_heights(bottom: float, top: float, courses: list[int]) -> None:
    assert list(GRID.courses(bottom=bottom, top=top)) == courses


@pytest.mark.parametrize(
    ("left", "right", "numbers"),
    [
        (100.0, 697.0, [0]),
        (97.0, 700.0, [0]),
        (96.9, 700.1, [-1, 0, 1]),
        (0.0, 1500.0, [-1, 0, 1, 2]),
    ],
)
def test_modules_in_a_stretch(left: float, right: float, numbers: list[int]) -> None:
    assert list(GRID.numbers(1, left=left, right=right)) == numbers


def test_a_standing_module_swaps_face_and_joint() -> None:
    system = sample_system().model_copy(update={"joint": (2.0, 3.0)})
    assert hung(system, "lying") == ((600.0, 300.0), (602.0, 303.0))
    assert hung(system, "standing") == ((300.0, 600.0), (303.0, 602.0))


# Tongues up and right lying; a quarter turn anticlockwise brings them up and left.
@pytest.mark.parametrize(
    ("side", "lying", "standing"),
    [
        ("left", "groove", "tongue"),
        ("right", "tongue", "groove"),
        ("bottom", "groove", "groove"),
        ("top", "tongue", "tongue"),
    ],
)
def test_keys_of_a_hung_module(side: Side, lying: Key, standing: Key) -> None:
    assert key_at(sample_system(), side, "lying") == lying
    assert key_at(sample_system(), side, "standing") == standing
