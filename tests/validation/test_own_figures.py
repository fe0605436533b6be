"""A price with figures of the job's own, worked by hand, line by line (calc).

The shop: 38 h at 48.00, five boxes at 330.00, subs 650, permit 120, dump 155, 5 %, mark-up a half:
6,928.43, as in the worked price. The job says otherwise: 24, 30 or 42 h, so (24 + 4 * 30 + 42) / 6
= 31 h, at 52.00; subs 600; tax 8 %; contingency 10 %; 8 sq ft of framing at 12.50; a margin of
35 %; 150.00 off, 45.00 on.

    31 * 52.00                                  1,612.00
    5 * 330.00                                  1,650.00
    8 % of 1,650.00                               132.00
    600 + 120 + 155                               875.00
                                                4,269.00
    10 %                                          426.90
    8 * 12.50                                     100.00
                                                4,795.90
    4,795.90 / 0.65 = 7,378.3077                7,378.31
    - 150.00 + 45.00                            7,273.31

(7,273.31 - 4,795.90) / 7,273.31 = 2,477.41 / 7,273.31 = 0.34062 of it is no cost.
Rules: common practice, no source; margin = (price - cost) / price, "Markup vs margin explained",
contractorcfo.org, 2026 (found).
"""

import pytest
from tests.priced_by_hand import ALL_IN, bought, priced, rates

from gaugerod.core.base.errors import PriceError
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.own_figures import Pricing
from gaugerod.core.job.own_order import Extra
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import plan
from gaugerod.core.pricing.conditions import rates_for
from gaugerod.core.pricing.price import Price
from gaugerod.core.pricing.spread import spread_of

FRAMING = {"id": "framing", "name": "Framing", "unit": "sq ft", "included": 8, "beyond": 30}
SHOP = rates(
    ALL_IN,
    contingency=0.05,
    markup=0.5,
    subs=650,
    permit=120,
    disposal=155,
    factor=[{"id": "slow", "name": "Slow", "times": 2}],
    allowance=[FRAMING | {"cost": 99}],
    charge=[{"what": "Discount of the month", "price": -150}],
)
OWN = {
    "labour": 52,
    "subs": 600,
    "tax": 0.08,
    "contingency": 0.1,
    "margin": 0.35,
    "task": [{"task": "all", "low": 24, "hours": 30, "high": 42, "why": "Two in a narrow house"}],
    "allowance": [FRAMING | {"cost": 12.5}],
    "charge": [{"what": "Parking", "price": 45}],
}
MATERIAL = bought("modules", count=5, cents=33_000)


def job_with(own: dict[str, object], *factors: str) -> Job:
    return sample_job().model_copy(
        update={"pricing": Pricing.model_validate(own), "factors": factors}
    )


def worked(own: dict[str, object], *factors: str) -> Price:
    return priced(rates_for(SHOP, job_with(own, *factors)), MATERIAL)


def test_line_by_line() -> None:
    # The factor would double the hours of the shop; hours of the job's own are as they are said.
    assert [(line.id, line.cost) for line in worked(OWN, "slow").lines] == [
        ("labour", 161_200),
        ("modules", 165_000),
        ("tax", 13_200),
        ("subs", 60_000),
        ("permit", 12_000),
        ("disposal", 15_500),
        ("contingency", 42_690),
        ("framing", 10_000),
        ("markup", 258_241),
        ("charge-1", -15_000),
        ("charge-2", 4_500),
    ]


def test_the_price() -> None:
    price = worked(OWN)
    assert (price.cost, price.price, price.charges) == (479_590, 727_331, -10_500)
    assert round(price.margin, 5) == 0.34062


def test_what_is_left_out_is_as_the_shop_has_it() -> None:
    # 4,618.95 and 8 * 99.00 = 5,410.95; half of it on top is 8,116.425; 150.00 off.
    assert worked({}).price == 796_643


def test_a_price_is_not_below_nought() -> None:
    with pytest.raises(PriceError) as caught:
        worked({"charge": [{"what": "All of it", "price": -9000}]})
    assert caught.value.message.key == "pricing.below-nought"


def test_what_comes_on_top_comes_on_every_price_of_the_spread() -> None:
    made = rates_for(SHOP, job_with({"task": [{"task": "all", "hours": 38}]}))
    spread = spread_of(priced(made, MATERIAL), made)
    assert spread.low == spread.likely == spread.high == 796_643


def test_a_price_got_from_the_supplier_is_in_the_order_the_price_and_every_option() -> None:
    materials = Materials(systems={"sample": sample_system()})
    own = job_with({"item": [{"item": "modules", "price": 79.5}]})
    made = plan(own, materials, Rules(format=1, unit="mm", rule=()), sample_rates())
    (line,) = (line for line in made.order.lines if line.id == "modules")
    (priced_line,) = (line for line in made.price.lines if line.id == "modules")
    assert (line.unit_price, priced_line.cost) == (7950, line.count * 7950)
    assert made.chosen.price == made.price.price


def test_one_more_line_is_ordered_and_paid_with_the_rest_in_every_option() -> None:
    valve = {"id": "valve", "name": "Valve trim", "count": 2, "price": 129.5}
    job = job_with({}).model_copy(update={"extra": (Extra.model_validate(valve),)})
    materials = Materials(systems={"sample": sample_system()})
    made = plan(job, materials, Rules(format=1, unit="mm", rule=()), sample_rates())
    (line,) = (line for line in made.order.lines if line.id == "valve")
    (paid,) = (line for line in made.price.lines if line.id == "valve")
    # 2 * 129.50 = 259.00.
    assert (line.count, line.pack, paid.cost) == (2, "single", 25_900)
    assert made.chosen.price == made.price.price
