from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.takeoff.order import TrimRun
from gaugerod.core.takeoff.packages import pack_runs, share_of, whole_packages


def run(length: float) -> TrimRun:
    return TrimRun(wall="B", place="top", length=length)


def packed(*lengths: float, stock: float = 2400.0, kerf: float = 3.0) -> list[list[float]]:
    found = pack_runs([run(length) for length in lengths], stock=stock, kerf=kerf)
    return [[part.length for part in taken] for taken in found]


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


def test_a_cut_takes_its_kerf() -> None:
    assert packed(1200, 1200) == [[1200], [1200]]
    assert packed(1198.5, 1198.5) == [[1198.5, 1198.5]]


def test_the_last_run_needs_no_cut_after_it() -> None:
    assert packed(2400) == [[2400]]


def test_a_run_that_is_stock_length_but_for_noise_is_one_length() -> None:
    assert len(packed(2400.0000001)) == 1
    assert len(packed(4800.0000001)) == 2


def test_a_long_run_is_split_into_whole_lengths_and_a_rest() -> None:
    assert packed(5000) == [[2400], [2400], [200]]


def test_longest_first() -> None:
    assert packed(600, 1700, 690) == [[1700, 690], [600]]


def test_a_rest_shares_its_length_with_another_run() -> None:
    assert packed(2600, 1000) == [[2400], [1000, 200]]


def test_nothing_needs_nothing() -> None:
    assert packed() == []
    assert packed(0.0) == []


LENGTHS = st.lists(st.integers(1, 6000), max_size=12)


@given(lengths=LENGTHS)
def test_what_is_packed_is_what_was_asked_and_fits(lengths: list[int]) -> None:
    found = packed(*lengths)
    assert sum(sum(taken) for taken in found) == sum(lengths)
    assert all(sum(taken) + 3.0 * (len(taken) - 1) <= 2400 for taken in found)


@given(lengths=LENGTHS)
def test_no_two_neighbouring_lengths_would_have_fitted_in_one(lengths: list[int]) -> None:
    assert all(sum(a) + sum(b) + 3.0 * len(a + b[1:]) > 2400 for a, b in pairwise(packed(*lengths)))
