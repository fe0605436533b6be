import pytest

from gaugerod.core.takeoff.packages import share_of, whole_packages


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
    assert whole_packages(amount, per=per) == count


@pytest.mark.parametrize(
    ("count", "share", "whole"),
    [(36, 0.02, 1), (100, 0.07, 7), (20, 0.05, 1), (21, 0.05, 2), (36, 0.0, 0), (0, 0.05, 0)],
)
def test_a_share_is_taken_exactly_and_rounded_up(count: int, share: float, whole: int) -> None:
    assert share_of(count, share) == whole
