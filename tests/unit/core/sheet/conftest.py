import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import METRIC


@pytest.fixture
def words() -> Catalogue:
    return Catalogue(
        display=METRIC,
        sentences={
            "sheet.wall": "Wall {name}",
            "sheet.datum": "datum",
            "sheet.above": "{n} up {height}",
            "sheet.below": "{n} down {height}",
            "sheet.measure-in-place": "{tag}*",
        },
    )
