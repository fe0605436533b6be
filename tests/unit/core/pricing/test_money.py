from decimal import Decimal

import pytest

from gaugerod.core.pricing.money import counted, exact, half_up, times


@pytest.mark.parametrize(
    ("amount", "cents"),
    [("0.5", 1), ("1.5", 2), ("2.5", 3), ("-2.5", -3), ("2.4999999999", 2), ("2", 2), ("0", 0)],
)
def test_a_tie_goes_away_from_zero(amount: str, cents: int) -> None:
    assert half_up(Decimal(amount)) == cents


def test_a_float_is_the_decimal_that_was_written() -> None:
    assert exact(0.1) + exact(0.2) == Decimal("0.3")
    assert exact(3) == Decimal(3)
    assert exact("0.0725") == exact(0.0725) == exact(Decimal("0.0725"))


def test_a_quantity_loses_the_noise_of_its_floats() -> None:
    assert counted(5.7599999999999998) == Decimal("5.76")
    assert counted(1.1 * 3) == Decimal("3.3")
    assert counted(12) == Decimal(12)


def test_a_product_is_rounded_once() -> None:
    # Rounding 4.5 % of 1.11 to 0.05 first, and half of that then, would give 0.03.
    assert times(111, exact("0.045") * exact("0.5")) == 2


def test_a_quantity_may_be_negative() -> None:
    assert times(-1000, "0.0725") == -73
