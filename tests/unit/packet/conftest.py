import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, keyed_plan, tiled_plan, words_in

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan


@pytest.fixture
def keyed() -> Plan:
    return keyed_plan()


@pytest.fixture
def tiled() -> Plan:
    return tiled_plan()


@pytest.fixture
def inches() -> Catalogue:
    return words_in(INCHES)


@pytest.fixture
def millimetres() -> Catalogue:
    return words_in(MILLIMETRES)
