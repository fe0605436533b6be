"""Laws of the price: it closes to the cent, whatever the shop and the order."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from random import Random

from hypothesis import given
from hypothesis import strategies as st
from tests.priced_by_hand import bought, priced, rates

from gaugerod.core.job.places import DepositCap, Place
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.terms import Terms
from gaugerod.core.pricing.money import half_up
from gaugerod.core.pricing.spread import spread_of
from gaugerod.core.pricing.terms import payments_of
from gaugerod.core.takeoff.order import OrderLine

SHARES = st.integers(0, 9000).map(lambda n: n / 10_000)
WHOLE = st.integers(0, 3000)
PER = st.sampled_from(("alcove", "piece", "hole", "square metre", "straight cut"))
Task = dict[str, object]


@st.composite
def tasks(draw: st.DrawFn, *, least: int = 0) -> tuple[Task, ...]:
    found: list[Task] = []
    for number in range(draw(st.integers(least, 5))):
        low, likely, high = sorted(draw(st.integers(0, 400)) / 100 for _ in range(3))
        hours = {"low": low, "hours": likely, "high": high}
        people = draw(st.integers(1, 2))
        found.append({"id": f"t{number}", "per": draw(PER), "people": people, **hours})
    return tuple(found)


@st.composite
def shops(draw: st.DrawFn, *, least: int = 0) -> tuple[tuple[Task, ...], Mapping[str, object]]:
    rot = {
        "id": "rot",
        "name": "Framing",
        "unit": "sq ft",
        "included": draw(st.integers(0, 80)) / 4,
        "cost": draw(WHOLE),
        "beyond": 1,
    }
    by_margin = draw(st.booleans())
    return draw(tasks(least=least)), {
        "labour": str(draw(st.decimals(min_value=0, max_value=150, places=2))),
        "markup": None if by_margin else draw(SHARES),
        "margin": draw(SHARES) if by_margin else None,
        "contingency": draw(SHARES),
        "tax": draw(SHARES),
        "freight": draw(WHOLE),
        "freight_taxed": draw(st.booleans()),
        "subs": draw(WHOLE),
        "permit": draw(WHOLE),
        "disposal": draw(WHOLE),
        "together": draw(SHARES),
        "allowance": [rot],
    }


@st.composite
def orders(draw: st.DrawFn) -> list[OrderLine]:
    lines = draw(st.lists(st.tuples(st.integers(1, 40), st.integers(1, 30_000)), max_size=6))
    return [
        bought(f"item-{number}", count=count, cents=cents)
        for number, (count, cents) in enumerate(lines)
    ]


def table_of(shop: tuple[tuple[Task, ...], Mapping[str, object]]) -> RateTable:
    return rates(*shop[0], **shop[1])


@given(shop=shops(), lines=orders())
def test_sums_close_to_the_cent(
    shop: tuple[tuple[Task, ...], Mapping[str, object]], lines: list[OrderLine]
) -> None:
    price = priced(table_of(shop), *lines)
    assert sum(line.cost for line in price.lines) == price.price
    assert price.cost == (
        price.labour
        + price.material
        + price.freight
        + price.tax
        + price.other
        + price.contingency
        + price.allowances
    )
    assert all(isinstance(line.cost, int) for line in price.lines)


@given(shop=shops(), lines=orders())
def test_tax_is_taken_on_rounded_lines(
    shop: tuple[tuple[Task, ...], Mapping[str, object]], lines: list[OrderLine]
) -> None:
    table = table_of(shop)
    price = priced(table, *lines)
    named = {line.id: line.cost for line in price.lines}
    taxed = sum(named.get(line.id, 0) for line in lines)
    taxed += named.get("freight", 0) if table.freight_taxed else 0
    assert price.tax == half_up(taxed * Decimal(str(table.tax)))


@given(shop=shops(), lines=orders(), order=st.randoms(use_true_random=False))
def test_the_order_of_lines_and_tasks_changes_no_amount(
    shop: tuple[tuple[Task, ...], Mapping[str, object]],
    lines: list[OrderLine],
    order: Random,
) -> None:
    table = table_of(shop)
    price = priced(table, *lines)
    mixed_tasks, mixed_lines = list(table.task), list(lines)
    order.shuffle(mixed_tasks)
    order.shuffle(mixed_lines)
    mixed = table.model_copy(update={"task": tuple(mixed_tasks)})
    again = priced(mixed, *mixed_lines)
    assert (again.cost, again.price, again.minutes) == (price.cost, price.price, price.minutes)
    assert sorted(line.cost for line in again.lines) == sorted(line.cost for line in price.lines)
    assert spread_of(again, mixed, draws=200) == spread_of(price, table, draws=200)


@given(shop=shops(), lines=orders())
def test_markup_and_margin_say_the_same_of_one_price(
    shop: tuple[tuple[Task, ...], Mapping[str, object]], lines: list[OrderLine]
) -> None:
    table = table_of(shop)
    price = priced(table, *lines)
    if price.cost == 0:
        assert price.price == 0
        return
    markup = (price.price - price.cost) / price.cost
    assert abs(price.margin - markup / (1 + markup)) < 1e-9
    if table.margin is None:
        assert abs(price.price - price.cost * (1 + (table.markup or 0))) <= 0.5 + 1e-6
    else:
        assert abs(price.price * (1 - table.margin) - price.cost) <= 0.5 + 1e-6


@given(shop=shops(), lines=orders(), seed=st.integers(0, 99))
def test_low_likely_and_high_are_in_order(
    shop: tuple[tuple[Task, ...], Mapping[str, object]], lines: list[OrderLine], seed: int
) -> None:
    table = table_of(shop)
    spread = spread_of(priced(table, *lines), table, draws=200, seed=seed)
    assert spread.low <= spread.likely <= spread.high
    assert spread.low_minutes <= spread.likely_minutes <= spread.high_minutes
    assert 0 <= spread.over <= 1
    assert spread == spread_of(priced(table, *lines), table, draws=200, seed=seed)


@given(shop=shops(least=1), seed=st.integers(0, 99), wider=st.integers(2, 4))
def test_widening_the_hours_widens_the_spread(
    shop: tuple[tuple[Task, ...], Mapping[str, object]], seed: int, wider: int
) -> None:
    # About the likely hours, far enough from nought that low stays above it. Tenths of hours
    # are whole minutes for every count of the order, so that no rounding comes between.
    listed: list[Task] = [
        task | {name: round(float(str(task[name])), 1) + 20 for name in ("low", "hours", "high")}
        for task in shop[0]
    ]
    wide = [task | _widened(task, by=wider) for task in listed]
    narrow_table, wide_table = rates(*listed, **shop[1]), rates(*wide, **shop[1])
    narrow = spread_of(priced(narrow_table), narrow_table, draws=200, seed=seed)
    widened = spread_of(priced(wide_table), wide_table, draws=200, seed=seed)
    assert widened.high - widened.low >= narrow.high - narrow.low
    assert widened.high_minutes - widened.low_minutes >= narrow.high_minutes - narrow.low_minutes


def _widened(task: Task, *, by: int) -> dict[str, float]:
    low, likely, high = (float(str(task[name])) for name in ("low", "hours", "high"))
    return {
        "low": round(likely - by * (likely - low), 1),
        "high": round(likely + by * (high - likely), 1),
    }


@given(
    total=st.integers(0, 10**8),
    shares=st.lists(st.integers(1, 100), min_size=2, max_size=6),
    cap=st.none() | st.tuples(st.integers(0, 10_000), st.none() | st.integers(0, 2000)),
)
def test_payments_close_to_the_cent_and_never_run_ahead(
    total: int, shares: list[int], cap: tuple[int, int | None] | None
) -> None:
    # Shares in hundredths that add up to 1: the last takes the rest.
    parts = [share // len(shares) for share in shares[:-1]]
    rest = 100 - sum(parts)
    deposit, *draws = (part / 100 for part in (*parts, rest))
    asked = [{"name": f"Draw {n}", "share": share} for n, share in enumerate(draws)]
    terms = Terms.model_validate({"deposit": deposit, "draw": asked})
    place = None
    if cap is not None:
        raw = {"share": cap[0] / 10_000, "most": cap[1], "source": "A law", "sure": "found"}
        law = DepositCap.model_validate(raw)
        place = Place(id="US-XX", name="Somewhere", currency="USD", deposit=law)
    made = payments_of(total, terms, place)
    assert sum(one.due for one in made.payments) == total == made.payments[-1].paid
    assert all(one.due >= 0 for one in made.payments)
    if cap is not None:
        allowed = Fraction(cap[0], 10_000) * total
        assert made.payments[0].due <= allowed
        assert cap[1] is None or made.payments[0].due <= 100 * cap[1]
