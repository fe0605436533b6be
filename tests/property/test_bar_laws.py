"""Laws of stock lengths: what a plan of bars claims is true, and never gets worse by less."""

import random
from collections.abc import Callable, Sequence
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.bars import faults, fewest, first_fit

from gaugerod.core.cutting.bars import BarPlan, fewest_bars

STOCK = 60
LISTS = st.lists(st.integers(1, STOCK), max_size=40)
KERFS = st.integers(0, 4)


def planned(lengths: Sequence[int], *, kerf: int, stock: int = STOCK) -> BarPlan:
    return fewest_bars(lengths, stock=stock, kerf=kerf, step=Fraction(1))


def test_no_set_of_bars_beats_a_proven_plan(count: Callable[[int, int], int]) -> None:
    for seed in range(count(60, 300)):
        draw = random.Random(seed)  # noqa: S311  # lots for a test, not secrets
        size, stock, kerf = draw.randint(4, 10), draw.randint(20, 400), draw.randint(0, 3)
        lengths = [draw.randint(1 + stock // 8, stock * 2 // 3) for _ in range(size)]
        plan = planned(lengths, kerf=kerf, stock=stock)
        assert faults(plan, lengths, stock=stock, kerf=kerf) == []
        assert (len(plan.bars), plan.proven) == (fewest(lengths, stock=stock, kerf=kerf), True)


@given(lengths=LISTS, kerf=KERFS)
def test_a_plan_can_be_sawn_and_is_no_worse_than_first_fit(lengths: list[int], kerf: int) -> None:
    plan = planned(lengths, kerf=kerf)
    assert faults(plan, lengths, stock=STOCK, kerf=kerf) == []
    assert plan.lower_bound <= len(plan.bars) <= first_fit(lengths, stock=STOCK, kerf=kerf)


@given(lengths=LISTS, kerf=KERFS)
def test_a_wider_cut_never_saves_a_bar(lengths: list[int], kerf: int) -> None:
    thin, thick = planned(lengths, kerf=kerf), planned(lengths, kerf=kerf + 1)
    assert thin.lower_bound <= len(thick.bars)
    assert not (thin.proven and thick.proven) or len(thin.bars) <= len(thick.bars)


@given(lengths=LISTS, more=st.integers(1, STOCK), kerf=KERFS)
def test_one_more_piece_never_saves_a_bar(lengths: list[int], more: int, kerf: int) -> None:
    few, many = planned(lengths, kerf=kerf), planned([*lengths, more], kerf=kerf)
    assert few.lower_bound <= len(many.bars)
    assert not (few.proven and many.proven) or len(few.bars) <= len(many.bars) <= len(few.bars) + 1


@given(lengths=LISTS, kerf=KERFS, data=st.data())
def test_the_order_of_the_list_does_not_matter(
    lengths: list[int], kerf: int, data: st.DataObject
) -> None:
    def shown(plan: BarPlan) -> list[list[tuple[float, float]]]:
        return [[(cut.start, cut.length) for cut in bar.cuts] for bar in plan.bars]

    other = data.draw(st.permutations(lengths))
    one, two = planned(lengths, kerf=kerf), planned(other, kerf=kerf)
    assert (shown(one), one.lower_bound) == (shown(two), two.lower_bound)


@given(lengths=LISTS.filter(bool), kerf=KERFS)
def test_no_piece_lies_where_the_offcut_is(lengths: list[int], kerf: int) -> None:
    for bar in planned(lengths, kerf=kerf).bars:
        used = sum(cut.length for cut in bar.cuts) + kerf * (len(bar.cuts) - 1)
        assert bar.offcut == max(0, STOCK - used - kerf)
