import pytest
from pydantic import ValidationError
from tests.flat_by_hand import LIMITS, tolerance

from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_system
from gaugerod.core.job.tolerances import fixing_of


@pytest.mark.parametrize(
    "rows", [[(4000, 10), (1000, 5)], [(1000, 5), (1000, 5)], [(1000, 5), (4000, 4)]]
)
def test_the_rows_of_a_limit_grow(rows: list[tuple[float, float]]) -> None:
    with pytest.raises(ValidationError) as caught:
        tolerance(allows=[{"over": over, "at_most": most} for over, most in rows])
    (wrong,) = caught.value.errors()
    assert wrong["ctx"]["message"].key == "flatness.not-growing"
    assert wrong["ctx"]["message"].values["tolerance"] == "by-hand"


def test_a_limit_allows_something() -> None:
    with pytest.raises(ValidationError, match="allows"):
        tolerance(allows=[])


def grouted(bed: float) -> System:
    return sample_system().model_copy(update={"kind": "grouted", "bed": bed})


@pytest.mark.parametrize(
    ("system", "fixing"),
    [
        (sample_system(), "bead"),
        (sample_system().model_copy(update={"kind": "sheet"}), "bead"),
        (grouted(5.0), "thin bed"),
        (grouted(6.0), "thick bed"),
    ],
)
def test_how_a_module_is_fixed(system: System, fixing: str) -> None:
    assert fixing_of(system) == fixing


def test_packaged_limits_have_names_of_their_own() -> None:
    names = [row.id for row in LIMITS.tolerance]
    assert len(set(names)) == len(names)
