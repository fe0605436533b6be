"""No package is lost to floating point, and none is gained."""

from decimal import Decimal
from fractions import Fraction
from math import ceil

from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import OnHand
from gaugerod.core.takeoff.needs import Need, bought
from gaugerod.core.takeoff.packages import GUARD, packages_of, whole, written

PER = st.decimals(min_value="0.001", max_value=10_000, places=3)
COUNT = st.integers(min_value=1, max_value=5_000)


@given(PER, COUNT)
def test_full_packages_are_just_enough(per: Decimal, count: int) -> None:
    size = float(per)
    assert whole(packages_of(size * count, per=size)) == count


@given(PER, st.integers(min_value=1, max_value=500))
def test_a_sum_of_floats_needs_no_more_than_its_parts(per: Decimal, count: int) -> None:
    size = float(per)
    total = 0.0
    for _ in range(count):
        total += size
    assert whole(packages_of(total, per=size)) == count


@given(PER, COUNT, st.fractions(min_value="0.00001", max_value="0.99999"))
def test_a_bit_of_a_package_takes_a_whole_one(per: Decimal, count: int, bit: Fraction) -> None:
    size = float(per)
    assert whole(packages_of(size * (count + float(bit)), per=size)) == count + 1


@given(
    st.floats(min_value=0, max_value=1e9, allow_subnormal=False),
    st.floats(min_value=1e-3, max_value=1e6),
)
def test_packages_hold_what_is_needed_and_no_package_is_idle(amount: float, per: float) -> None:
    count = whole(packages_of(amount, per=per))
    exact = written(amount) / written(per)
    assert count + GUARD >= exact
    assert count == 0 or count - 1 + GUARD < exact


@given(
    st.fractions(min_value="0.01", max_value=1_000, max_denominator=1_000),
    st.decimals(min_value="0.001", max_value=1_000, places=3),
)
def test_what_is_on_hand_and_what_is_bought_are_just_enough(need: Fraction, held: Decimal) -> None:
    one = Need(
        id="sealant",
        name="Sealant",
        pack="cartridge",
        packages=need,
        unit_price=900,
        sum=Message("takeoff.invented"),
    )
    (line,) = bought([one], [OnHand(item="sealant", count=float(held))])
    short = need - Fraction(str(held))
    assert line.count == max(ceil(short - GUARD), 0)
