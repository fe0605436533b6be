import pytest
from tests.hand_alcove import lined_by_hand, tiled_by_hand

from gaugerod.core.checks.facts import Facts


@pytest.fixture
def facts() -> Facts:
    """The alcove planned by hand, in keyed modules."""
    return lined_by_hand()


@pytest.fixture
def tiled() -> Facts:
    """The same in grouted tile."""
    return tiled_by_hand()
