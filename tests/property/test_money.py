"""Laws of money: exact, rounded once, half up."""

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from tests.laid_by_hand import cut_plan

from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.sample import sample_rates, sample_system
from gaugerod.core.pricing.job import price_job
from gaugerod.core.pricing.money import exact, half_up, times
from gaugerod.core.pricing.price import Price
from gaugerod.core.takeoff.sample import sample_order

CENTS = st.integers(0, 10**9)
AMOUNTS = st.decimals(min_value=-(10**9), max_value=10**9, places=6)
RATES = st.decimals(min_value=0, max_value=5, places=6)


@given(amount=AMOUNTS)
def test_rounding_moves_no_amount_by_more_than_half(amount: Decimal) -> None:
    assert abs(half_up(amount) - amount) <= Decimal("0.5")


@given(amount=AMOUNTS)
def test_a_debt_rounds_as_the_same_credit(amount: Decimal) -> None:
    assert half_up(-amount) == -half_up(amount)


@given(whole=st.integers(-(10**9), 10**9))
def test_whole_cents_stay(whole: int) -> None:
    assert half_up(Decimal(whole)) == whole


@given(whole=CENTS)
def test_a_tie_is_never_lost(whole: int) -> None:
    assert half_up(Decimal(whole) + Decimal("0.5")) == whole + 1


@given(cents=CENTS, rate=RATES)
def test_a_product_is_the_exact_one_rounded(cents: int, rate: Decimal) -> None:
    product = cents * Fraction(rate)
    assert times(cents, rate) == (product + Fraction(1, 2)).__floor__()


@given(cents=CENTS, rate=RATES)
def test_how_a_rate_is_written_does_not_matter(cents: int, rate: Decimal) -> None:
    assert times(cents, float(rate)) == times(cents, str(rate)) == times(cents, rate)


@given(rate=RATES)
def test_a_float_reads_back_as_it_was_written(rate: Decimal) -> None:
    assert exact(float(rate)) == rate


@given(cents=CENTS, more=CENTS, rate=RATES)
def test_more_never_costs_less(cents: int, more: int, rate: Decimal) -> None:
    assert times(cents + more, rate) >= times(cents, rate)


SHARES = st.decimals(min_value=0, max_value=1, places=4).map(float)


@st.composite
def prices(draw: st.DrawFn) -> Price:
    """The sample order at rates of any shop."""
    changes = {
        "labour": draw(st.decimals(min_value=0, max_value=200, places=2)),
        "markup": draw(SHARES),
        "contingency": draw(SHARES),
        "tax": draw(SHARES),
        "subs": draw(st.integers(0, 5000)),
    }
    plain = {key: str(value) if key == "labour" else value for key, value in changes.items()}
    dumped = sample_rates().model_dump() | plain
    rates = RateTable.model_validate(dumped)
    return price_job(sample_order(), cut_plan(modules=36), rates, sample_system())


@given(price=prices())
def test_the_lines_add_up(price: Price) -> None:
    assert sum(line.cost for line in price.lines) == price.price
    parts = (price.labour, price.material, price.tax, price.other, price.contingency)
    assert sum(parts) == price.cost <= price.price


@given(price=prices())
def test_the_margin_is_below_one_and_gives_the_cost_back(price: Price) -> None:
    assert 0 <= price.margin < 1
    assert round(price.price * (1 - price.margin)) == price.cost
