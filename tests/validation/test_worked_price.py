"""A price worked by hand, line by line.

38 h at 48.00 = 1,824; material 1,650; subs 650; permit and dump 275: 4,399.00; with 5 % 4,618.95;
times 1.5 = 6,928.425, half up 6,928.43; gross 2,309.48, which is 33.3 % of the price.
Source: common practice, no source; every step worked by hand (calc).
"""

from tests.priced_by_hand import ALL_IN, bought, priced, rates

from gaugerod.core.pricing.price import Price

MATERIAL = bought("modules", count=5, cents=33_000)


def worked(**changes: object) -> Price:
    shop = {"contingency": 0.05, "markup": 0.5, "subs": 650, "permit": 120, "disposal": 155}
    return priced(rates(ALL_IN, **(shop | changes)), MATERIAL)


def test_line_by_line() -> None:
    assert [(line.id, line.cost) for line in worked().lines] == [
        ("labour", 182_400),
        ("modules", 165_000),
        ("subs", 65_000),
        ("permit", 12_000),
        ("disposal", 15_500),
        ("contingency", 21_995),
        ("markup", 230_948),
    ]


def test_step_by_step() -> None:
    price = worked()
    assert price.minutes == 38 * 60
    assert price.labour + price.material + price.other == 439_900
    assert price.cost == 461_895
    assert price.price == 692_843
    assert price.price - price.cost == 230_948
    assert round(100 * price.margin, 1) == 33.3


def test_a_third_as_margin_is_the_same_to_the_cent() -> None:
    # 4,618.95 / (2/3) is 6,928.425 again; 0.3333 is a shade less than a third:
    # 4,618.95 / 0.6667 = 6,928.07859...
    assert worked(markup=None, margin=0.3333).price == 692_808


def test_binary_sums_would_lose_the_cent() -> None:
    assert round(4618.95 * 1.5, 2) == 6928.42
    assert worked().price == 692_843
