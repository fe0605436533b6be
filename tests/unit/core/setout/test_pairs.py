"""Ends that share a module, against every way to pair them."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.setout.pairs import Row, modules_for, paired_phases
from gaugerod.core.setout.sample import sample_batch

FACE, KERF = 600.0, 3.0
sizes = st.integers(50, 600).map(float)


def most_pairs(lefts: list[float], rights: list[float]) -> int:
    """The most pairs of one left and one right end that fit a module, by trying all."""
    short, long = sorted((lefts, rights), key=len)
    return max(
        sum(a + b + KERF <= FACE for a, b in zip(short, order, strict=False))
        for order in permutations(long)
    )


@given(st.lists(st.tuples(sizes, sizes), min_size=1, max_size=5))
def test_no_pairing_gives_more(ends: list[tuple[float, float]]) -> None:
    # One row each, two whole modules between the ends.
    rows = [Row(courses=1, width=a + b + 1200.0, left=a, right=b) for a, b in ends]
    cut = [sorted(x for x in side if x < FACE) for side in zip(*ends, strict=True)]
    wholes = 2 * len(rows) + sum(x == FACE for pair in ends for x in pair)
    alone = len(cut[0]) + len(cut[1])
    expected = wholes + alone - most_pairs(cut[0], cut[1])
    assert modules_for(rows, pitch=FACE, face=FACE, kerf=KERF) == expected


def test_phases_leave_just_a_kerf() -> None:
    # The sample wall is lined from 14.2875 to 1497 at the height of course 1, but for its lean.
    other = Row(courses=5, width=800.0, left=250.0, right=200.0)
    batch = sample_batch(0.0)
    lefts, rights = batch.rims(1)
    left_end, right_end = paired_phases(batch, [other])
    assert left_end + FACE - max(lefts) == pytest.approx(600 - 3 - 200)
    assert min(rights) - right_end == pytest.approx(600 - 3 - 250)


def test_no_end_is_cut_to_less_than_the_least() -> None:
    # 600 - 3 - 560 = 37 is under the least of 50; a whole end leaves nothing.
    other = Row(courses=5, width=800.0, left=560.0, right=600.0)
    assert list(paired_phases(sample_batch(0.0), [other])) == []
