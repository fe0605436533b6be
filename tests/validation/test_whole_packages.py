"""From a net amount to packages: waste first, then the package, then up.

``packages = ceil(net (1 + waste) / pack)``, with a guard against a float that makes 4.0000001 out
of 4 and buys a fifth package (from memory; general). Cases are reckoned by hand.
"""

from math import ceil

import pytest

from gaugerod.core.takeoff.packages import packages_of, whole


@pytest.mark.parametrize(
    ("net", "waste", "pack", "packages"),
    [
        (100.0, 0.1, 11.0, 10),  # 110 / 11: in floats 110.00000000000001
        (100.0, 0.1, 10.9, 11),  # 10.09
        (3.0, 0.1, 1.1, 3),  # 3.3 / 1.1: in floats 3.0000000000000004 / 1.1 and the like
        (0.7, 0.15, 0.115, 7),  # 0.805 / 0.115
        (62.0, 0.0, 2.0, 31),
    ],
)
def test_by_hand(net: float, waste: float, pack: float, packages: int) -> None:
    assert whole(packages_of(net * (1 + waste), per=pack)) == packages


def test_the_guard() -> None:
    assert whole(packages_of(4.0000001, per=1)) == 4
    assert ceil(4.0000001) == 5


def test_the_trap_is_there() -> None:
    # Plain floats buy one more here, which shows that the cases above can fail.
    assert ceil(100.0 * 1.1 / 11.0) == 11


def test_waste_before_rounding_not_after() -> None:
    # 9.2 packages and a tenth are 10.12: eleven. Rounded first, ten and one: eleven as well;
    # but 9.0 and a tenth are 9.9, ten, and 8.1 and a tenth 8.91, nine: rounded first, ten.
    assert whole(packages_of(8.1 * 1.1, per=1)) == 9
