"""Mark-up is a share of the cost, margin a share of the price; they are never the same.

Rule and table: "Markup vs margin explained", contractorcfo.org/articles/markup-vs-margin-explained,
January 2026 (found, and computed again): price = cost (1 + mark-up) = cost / (1 - margin);
margin = mark-up / (1 + mark-up). 67 % is 40.1 % exactly, where the table has 40.0. The inverse
table is computed (calc).
"""

import pytest
from tests.priced_by_hand import ALL_IN, priced, rates

# Per cent.
MARGINS = [
    (10, 9.1),
    (15, 13.0),
    (20, 16.7),
    (25, 20.0),
    (30, 23.1),
    (35, 25.9),
    (40, 28.6),
    (50, 33.3),
    (67, 40.1),
    (100, 50.0),
]
MARKUPS = [(10, 11.1), (20, 25.0), (30, 42.9), (35, 53.8), (40, 66.7), (50, 100.0)]


@pytest.mark.parametrize(("markup", "margin"), MARGINS)
def test_the_margin_of_a_markup(markup: int, margin: float) -> None:
    price = priced(rates(ALL_IN, markup=markup / 100))
    assert round(100 * price.margin, 1) == margin


@pytest.mark.parametrize(("margin", "markup"), MARKUPS)
def test_the_markup_of_a_margin(margin: int, markup: float) -> None:
    price = priced(rates(ALL_IN, markup=None, margin=margin / 100))
    assert round(100 * price.margin, 1) == margin
    assert round(100 * (price.price - price.cost) / price.cost, 1) == markup


@pytest.mark.parametrize(
    ("share", "by_markup", "by_margin"),
    # 1,824.00 of cost; worked by hand.
    [(0.5, 273_600, 364_800), (0.2, 218_880, 228_000), (0.0, 182_400, 182_400)],
)
def test_one_share_is_two_prices(share: float, by_markup: int, by_margin: int) -> None:
    assert priced(rates(ALL_IN, markup=share)).price == by_markup
    assert priced(rates(ALL_IN, markup=None, margin=share)).price == by_margin
