from tests.laid_by_hand import grouted
from tests.two_colours import PLAIN, SLATE, accented, products

from gaugerod.core.job.own_figures import OwnPrice
from gaugerod.core.job.own_prices import at_own_prices, prices_of
from gaugerod.core.job.products import Products

OF = products(accented(SLATE, courses=(1,)), accented(PLAIN, courses=(2,)))


def own(**prices: float) -> list[OwnPrice]:
    return [
        OwnPrice.model_validate({"item": item.replace("_", "-"), "price": price})
        for item, price in prices.items()
    ]


def test_every_line_of_an_order_has_its_price() -> None:
    system = grouted()
    assert set(prices_of(Products(main=system))) == set(system.goods)
    assert set(prices_of(OF)) == {*PLAIN.goods, "modules-slate"}


def test_without_prices_of_its_own_nothing_changes() -> None:
    assert at_own_prices(OF, ()) == OF


def test_each_price_is_put_where_it_belongs_and_nowhere_else() -> None:
    given = own(modules=1.5, modules_slate=2.25, trim_edge=3, mortar=4)
    made = at_own_prices(OF, given)
    told = {"modules": 150, "modules-slate": 225, "trim-edge": 300, "mortar": 400}
    assert prices_of(made) == {**prices_of(OF), **told}
    assert made.accented[1].system is made.main
