"""Sales tax, rounded half up on the third decimal place.

Rule: Streamlined Sales and Use Tax Agreement, section 324: "the tax computation must be carried
to the third decimal place, and the tax must be rounded to a whole cent using a method that rounds
up to the next cent whenever the third decimal place is greater than four"; the seller may choose
to round by item or by invoice. As enacted in R.I. Gen. Laws 44-18.1-25 (found:
webserver.rilegislature.gov/Statutes/TITLE44/44-18.1/44-18.1-25.HTM), K.S.A. 79-3676,
N.D.C.C. 57-39.4-25, Mass. G.L. 64I s. 5.

Cases: computed by hand after that rule (calc).
"""

from dataclasses import replace
from decimal import Decimal

import pytest
from tests.laid_by_hand import cut_plan

from gaugerod.core.base.messages import Message
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.sample import sample_rates, sample_system
from gaugerod.core.pricing.job import price_job
from gaugerod.core.pricing.money import half_up, times
from gaugerod.core.takeoff.order import OrderLine
from gaugerod.core.takeoff.sample import sample_order

# cents, rate, tax in cents, and what round() makes of it in binary floats.
TIES = [
    (1000, "0.0625", 63, 62),  # 0.625
    (1000, "0.0725", 73, 72),  # 0.725
    (1592, "0.0625", 100, 99),  # 0.995
    (3590, "0.05", 180, 179),  # 1.795
]


@pytest.mark.parametrize(("cents", "rate", "tax", "binary"), TIES)
def test_a_tie_is_rounded_up(cents: int, rate: str, tax: int, binary: int) -> None:
    assert times(cents, rate) == tax
    # The trap: the same sum in floats, rounded to the cent, loses the cent.
    assert round(cents / 100 * float(rate), 2) == binary / 100


@pytest.mark.parametrize(("cents", "rate", "tax", "binary"), TIES)
def test_a_rate_read_as_a_float_loses_nothing(cents: int, rate: str, tax: int, binary: int) -> None:
    assert times(cents, float(rate)) == tax
    assert binary == tax - 1


def test_what_is_no_tie() -> None:
    assert times(123_456, "0.0725") == 8951  # 89.5056


@pytest.mark.parametrize(("third", "cents"), [(0, 62), (4, 62), (5, 63), (9, 63)])
def test_the_third_decimal_place_decides(third: int, cents: int) -> None:
    assert half_up(Decimal(f"62.{third}")) == cents


def test_by_item_and_by_invoice() -> None:
    assert 3 * times(110, "0.05") == 18
    assert times(3 * 110, "0.05") == 17


@pytest.mark.parametrize(("cents", "rate", "tax", "binary"), TIES)
def test_a_job_is_taxed_so(cents: int, rate: str, tax: int, binary: int) -> None:
    line = OrderLine(
        id="modules",
        name="Modules",
        pack="box",
        count=1,
        unit_price=cents,
        arithmetic=Message("takeoff.invented"),
    )
    rates = RateTable.model_validate(sample_rates().model_dump() | {"tax": float(rate)})
    order = replace(sample_order(), lines=(line,))
    priced = price_job(order, cut_plan(modules=1), rates, sample_system())
    assert priced.tax == tax != binary
