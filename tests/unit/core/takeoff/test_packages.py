from fractions import Fraction

import pytest

from gaugerod.core.takeoff.packages import packages_of, share_of, whole


@pytest.mark.parametrize(
    ("amount", "per", "count"),
    [
        (4.0, 1.0, 4),
        (4.0000001, 1.0, 4),  # what a sum of floats makes of 4: buys no fifth package
        (3.9999999, 1.0, 4),
        (4.00001, 1.0, 5),  # a hundred-thousandth more is a need
        (0.1 + 0.2, 0.1, 3),  # 3.0000000000000004 in floats
        (1.1 * 3, 1.1, 3),  # 3.3000000000000003 / 1.1
        (0.0, 5.0, 0),
        (1e-12, 5.0, 0),
        (0.01, 5.0, 1),
    ],
)
def test_packages_are_neither_lost_nor_gained_to_floats(
    amount: float, per: float, count: int
) -> None:
    assert whole(packages_of(amount, per=per)) == count


def test_the_division_is_exact() -> None:
    # In floats 0.3 / 0.1 is 2.9999999999999996, and 1.1 is not eleven tenths.
    assert packages_of(0.3, per=0.1) == 3
    assert packages_of(1.1, per=3) == Fraction(11, 30)


def test_more_on_hand_than_is_needed_buys_nothing() -> None:
    assert whole(Fraction(-5, 2)) == 0


@pytest.mark.parametrize(
    ("count", "share", "whole_share"),
    [(36, 0.02, 1), (100, 0.07, 7), (20, 0.05, 1), (21, 0.05, 2), (36, 0.0, 0), (0, 0.05, 0)],
)
def test_a_share_is_taken_exactly_and_rounded_up(
    count: int, share: float, whole_share: int
) -> None:
    assert share_of(count, share) == whole_share
