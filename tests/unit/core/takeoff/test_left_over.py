from typing import Literal

from tests.laid_by_hand import keyed
from tests.priced_by_hand import order
from tests.two_colours import PLAIN, SLATE, accented, products

from gaugerod.core.cutting.pieces import CutPlan, Offcut, Stock
from gaugerod.core.job.document import OffcutAtHand, OnHand
from gaugerod.core.job.products import Products
from gaugerod.core.takeoff.left_over import (
    LeftModules,
    LeftOffcut,
    left_modules,
    left_offcuts,
)
from gaugerod.core.takeoff.order import Order, ProductOrder

MAIN = Products(main=keyed(per_box=8))


def stock(
    id_: str,
    *offcuts: Offcut,
    source: Literal["module", "offcut"] = "module",
    product: str = MAIN.main.id,
    lot: str = "",
) -> Stock:
    return Stock(
        id=id_,
        source=source,
        product=product,
        size=(600.0, 300.0),
        keeps=(),
        lot=lot,
        pieces=(),
        offcuts=offcuts,
    )


def left(id_: str, width: float, height: float) -> Offcut:
    return Offcut(id=id_, at=(0.0, 0.0), size=(width, height), keeps=("left", "top"))


def cuts(*stocks: Stock) -> CutPlan:
    return CutPlan(stock=stocks, modules=len(stocks), lower_bound=0, proven=False, cuts=0)


def ordered(*rows: ProductOrder) -> Order:
    plain = order()
    return Order(quantities=plain.quantities, modules=0, spares=0, boxes=0, lines=(), products=rows)


def test_offcuts_go_by_size_with_their_edges_and_lot() -> None:
    brought = stock("H-hall-3", left("O-9a", 500, 100), source="offcut", lot="A113")
    found = left_offcuts(cuts(stock("M1", left("O-1a", 200, 300)), brought), MAIN)
    # 60,000 and 50,000 square mm.
    assert [(one.tag, one.size, one.keeps, one.lot) for one in found] == [
        ("O-1a", (200, 300), ("left", "top"), ""),
        ("O-9a", (500, 100), ("left", "top"), "A113"),
    ]


def test_what_came_and_was_not_begun_is_left_as_it_came() -> None:
    held = [
        OffcutAtHand.model_validate({"name": name, "size": [100, 80], "lot": "B"} | more)
        for name, more in (("hall-3", {}), ("hall-4", {}), ("hall-5", {"material": "slate"}))
    ]
    of = products(accented(SLATE, courses=(1,)))
    begun = cuts(stock("H-hall-3", source="offcut", product=PLAIN.id))
    assert left_offcuts(begun, of, held) == tuple(
        LeftOffcut(tag=tag, product=product, size=(100, 80), keeps=(), lot="B")
        for tag, product in (("hall-4", PLAIN.id), ("hall-5", "slate"))
    )


def test_what_is_too_small_for_any_piece_is_not_left() -> None:
    # No piece is narrower or lower than 50 mm.
    made = stock("M1", left("O-1a", 50, 300), left("O-1b", 49.9, 300), left("O-1c", 300, 49.9))
    assert [one.tag for one in left_offcuts(cuts(made), MAIN)] == ["O-1a"]


def test_whole_modules_are_those_of_the_boxes_less_what_is_used_and_broke() -> None:
    # Two boxes of eight and three that were there: 19; five used, one broke: 13.
    made = cuts(*(stock(f"M{n}") for n in range(5)), stock("H-a", source="offcut"))
    row = ProductOrder(product=MAIN.main.id, modules=5, spares=2, boxes=2)
    there = [OnHand(item="modules", count=3, same_lot=True)]
    broken = {MAIN.main.id: 1}
    found = left_modules(made, ordered(row), MAIN, on_hand=there, broken=broken)
    assert found == (LeftModules(product=MAIN.main.id, line="modules", count=13),)
    other_lot = [OnHand(item="modules", count=3)]
    (fewer,) = left_modules(made, ordered(row), MAIN, on_hand=other_lot, broken=broken)
    assert fewer.count == 10


def test_each_product_has_its_own_and_none_of_which_none_are_left() -> None:
    of = products(accented(SLATE, courses=(1,)))
    used = cuts(
        *(stock(f"M{n}", product=PLAIN.id) for n in range(PLAIN.per_box)),
        stock("X1", product="slate"),
    )
    rows = (
        ProductOrder(product=PLAIN.id, modules=0, spares=0, boxes=1),
        ProductOrder(product="slate", modules=1, spares=0, boxes=1),
    )
    assert left_modules(used, ordered(*rows), of) == (
        LeftModules(product="slate", line="modules-slate", count=SLATE.per_box - 1),
    )
