"""From a net amount to packages: waste first, then the package, then up.

``packages = ceil(net (1 + waste) / pack)``, with a guard against a float that makes 4.0000001 out
of 4 and buys a fifth package (from memory; general). Cases are reckoned by hand.
"""

from dataclasses import replace
from math import ceil

import pytest
from tests.laid_by_hand import grouted

from gaugerod.core.takeoff.needs import bought
from gaugerod.core.takeoff.packages import packages_of, whole
from gaugerod.core.takeoff.sample import sample_order
from gaugerod.core.takeoff.wet import wet_needs

CASES = [
    (100.0, 0.1, 11.0, 10),  # 110 / 11: in floats 110.00000000000001
    (100.0, 0.1, 10.9, 11),  # 10.09
    (3.0, 0.1, 1.1, 3),  # 3.3 / 1.1: in floats 3.0000000000000004 / 1.1 and the like
    (0.7, 0.15, 0.115, 7),  # 0.805 / 0.115
    (62.0, 0.0, 2.0, 31),
    (8.1, 0.1, 1.0, 9),  # 8.91; rounded first, nine and a tenth of nine: ten
]


@pytest.mark.parametrize(("net", "waste", "pack", "packages"), CASES)
def test_by_hand(net: float, waste: float, pack: float, packages: int) -> None:
    assert whole(packages_of(net * (1 + waste), per=pack)) == packages


@pytest.mark.parametrize(("net", "waste", "pack", "packages"), CASES)
def test_an_order_goes_by_it(net: float, waste: float, pack: float, packages: int) -> None:
    # A coat of a mm on a square metre is a litre.
    coat = {"name": "Membrane", "film": 1.0, "bucket": pack, "waste": waste, "price": 1}
    area = replace(sample_order().quantities, area=net * 1e6)
    lines = {line.id: line for line in bought(wet_needs(area, grouted(membrane=coat)))}
    assert lines["membrane"].count == packages


def test_the_guard() -> None:
    assert whole(packages_of(4.0000001, per=1)) == 4
    assert ceil(4.0000001) == 5


def test_the_trap_is_there() -> None:
    # Plain floats buy one more here, which shows that the cases above can fail.
    assert ceil(100.0 * 1.1 / 11.0) == 11
