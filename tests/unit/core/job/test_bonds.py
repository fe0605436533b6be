import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.bonds import refused
from gaugerod.core.job.materials import Kind
from gaugerod.core.job.sample import sample_system


@pytest.mark.parametrize("kind", ["keyed", "sheet"])
def test_only_grouted_tile_leaves_the_level_courses(kind: Kind) -> None:
    system = sample_system().model_copy(update={"kind": kind})
    assert refused(system, "diagonal") == Message(f"job.bond-{kind}", read="diagonal")
