"""Several products: which piece is of which, and that none comes from another's module."""

from collections import Counter
from dataclasses import replace

import pytest
from tests.checkers.cut_plan import faults
from tests.two_colours import GREEN, PLAIN, SLATE, accented, on_one_wall, products

from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.pieces import CutPlan, Piece
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.cutting.products import nowhere, plan_products, with_products
from gaugerod.core.job.document import OffcutAtHand
from gaugerod.core.job.products import Products

WIDTH = 1490.0


def counted(cuts: CutPlan) -> dict[str, tuple[int, int]]:
    return {one.product: (one.modules, one.lower_bound) for one in cuts.counts}


def pieces_of(found: tuple[Piece, ...]) -> dict[str, list[str]]:
    by: dict[str, list[str]] = {}
    for piece in found:
        by.setdefault(piece.product, []).append(piece.tag)
    return by


# --- a band, counted by hand --------------------------------------------------------------------

# Every course of 1490 is two whole tiles, 0 to 597 and 600 to 1197, and one cut to 290, 1200 to
# 1490, that keeps the left edge of its tile. A tile may be turned upside down, so two cut ones
# come out of one: 290 + 2 + 290 = 582 of 597. Three do not: 874.


def test_one_product_on_six_courses_takes_fifteen() -> None:
    # 6 x 2 whole ones, and 6 cut ones in pairs: 12 + 3.
    cuts = on_one_wall(products(), width=WIDTH).cuts
    assert (cuts.modules, cuts.lower_bound, cuts.counts) == (15, 15, ())


def test_a_band_of_two_courses_takes_no_more() -> None:
    # Slate 2 x 2 + 1 = 5, plain 4 x 2 + 2 = 10.
    made = on_one_wall(products(accented(SLATE, courses=(3, 4))), width=WIDTH)
    assert counted(made.cuts) == {"tile": (10, 10), "slate": (5, 5)}
    assert (made.cuts.modules, made.cuts.lower_bound, made.cuts.proven) == (15, 15, True)
    tags = pieces_of(made.pieces)
    assert tags["slate"] == ["B3-1", "B3-2", "B3-3", "B4-1", "B4-2", "B4-3"]
    assert len(tags["tile"]) == 12


def test_a_band_of_one_course_takes_one_more() -> None:
    # Slate 2 + 1 = 3; plain 5 x 2 whole ones and 5 cut ones in 3 tiles, so 13: 16 in all.
    made = on_one_wall(products(accented(SLATE, courses=(3,))), width=WIDTH)
    assert counted(made.cuts) == {"tile": (13, 13), "slate": (3, 3)}
    assert made.cuts.modules == 16


def test_two_bands_take_one_more_each() -> None:
    # Course 2 of slate and course 5 of green: 3 and 3; plain 4 courses, 8 + 2.
    rows = accented(SLATE, courses=(2,)), accented(GREEN, courses=(5,))
    made = on_one_wall(products(*rows), width=WIDTH)
    assert counted(made.cuts) == {"tile": (10, 10), "slate": (3, 3), "green": (3, 3)}


def test_cuts_are_those_of_all_products() -> None:
    # A cut takes a cut one out of its tile; the second of a pair needs one more, to its size.
    band = on_one_wall(products(accented(SLATE, courses=(3, 4))), width=WIDTH).cuts
    assert band.cuts == on_one_wall(products(), width=WIDTH).cuts.cuts


# --- which piece is of which --------------------------------------------------------------------


def test_the_later_of_two_rows_counts() -> None:
    rows = (
        accented(SLATE, walls=("B",)),
        accented(PLAIN, courses=(2,)),
        accented(GREEN, courses=(6,)),
    )
    tags = pieces_of(on_one_wall(products(*rows), width=WIDTH).pieces)
    assert {tag[:2] for tag in tags["slate"]} == {"B1", "B3", "B4", "B5"}
    assert {tag[:2] for tag in tags["tile"]} == {"B2"}
    assert {tag[:2] for tag in tags["green"]} == {"B6"}


def test_a_row_of_another_wall_changes_nothing() -> None:
    made = on_one_wall(products(accented(SLATE, walls=("L",), courses=(2,))), width=WIDTH)
    assert set(pieces_of(made.pieces)) == {"tile"}
    assert counted(made.cuts) == {"tile": (15, 15)}


def test_a_product_that_covers_all_leaves_none_of_the_main_one() -> None:
    made = on_one_wall(products(accented(SLATE, walls=("B",))), width=WIDTH)
    assert counted(made.cuts) == {"slate": (15, 15)}


def test_what_is_inside_an_opening_is_not_on_the_wall() -> None:
    made = on_one_wall(products(accented(SLATE, inside="niche")), width=WIDTH)
    assert set(pieces_of(made.pieces)) == {"tile"}


def test_a_product_changes_nothing_else_of_a_piece() -> None:
    of = products(accented(SLATE, courses=(1,)))
    bare = on_one_wall(products(), width=WIDTH).pieces
    assert tuple(replace(one, product="tile") for one in with_products(bare, of)) == bare


@pytest.mark.parametrize(
    ("where", "said"),
    [
        ({"courses": (6, 7)}, ("cutting.no-course", 7)),
        ({"courses": (0,)}, ("cutting.no-course", 0)),
        ({"courses": (9,), "walls": ("B",)}, ("cutting.no-course-on", 9)),
    ],
)
def test_a_course_that_is_not_there_is_named(
    where: dict[str, object], said: tuple[str, int]
) -> None:
    of = products(accented(GREEN, courses=(1,)), accented(SLATE, **where))
    (found,) = nowhere(on_one_wall(products(), width=WIDTH).pieces, of)
    wall = "B" if "walls" in where else ""
    assert found == Message(said[0], n=2, wall=wall, read=said[1], first=1, last=6)


def test_courses_that_are_there_are_not_named() -> None:
    rows = accented(SLATE, courses=(1, 6)), accented(SLATE, courses=(2,), walls=("B",))
    assert list(nowhere(on_one_wall(products(), width=WIDTH).pieces, products(*rows))) == []


def test_a_wall_without_pieces_has_no_course() -> None:
    pieces = on_one_wall(products(), width=WIDTH).pieces
    (found,) = nowhere(pieces, products(accented(SLATE, walls=("L",), courses=(1,))))
    assert (found.values["first"], found.values["last"]) == (0, 0)


# --- the stock ----------------------------------------------------------------------------------


def test_modules_of_all_products_have_one_run_of_numbers_in_the_order_of_setting() -> None:
    made = on_one_wall(products(accented(SLATE, courses=(1, 4))), width=WIDTH)
    names = [stock.id for stock in made.cuts.stock]
    assert names == [f"M-{number}" for number in range(1, made.cuts.modules + 1)]
    rank = {piece.tag: place for place, piece in enumerate(made.pieces)}
    first = [min(rank[placed.tag] for placed in stock.pieces) for stock in made.cuts.stock]
    assert first == sorted(first)


def test_offcuts_go_by_their_module() -> None:
    made = on_one_wall(products(accented(SLATE, courses=(3,))), width=WIDTH)
    left = [(stock.id, offcut.id) for stock in made.cuts.stock for offcut in stock.offcuts]
    assert left
    assert all(name.startswith(f"O-{module[2:]}") for module, name in left)
    assert len({name for _, name in left}) == len(left)


def test_no_piece_comes_from_a_module_of_another_product() -> None:
    made = on_one_wall(
        products(accented(SLATE, courses=(2, 5)), accented(GREEN, courses=(3,))), width=WIDTH
    )
    of = {piece.tag: piece.product for piece in made.every}
    for stock in made.cuts.stock:
        assert {of[placed.tag] for placed in stock.pieces} == {stock.product}


def test_the_checker_finds_nothing_in_any_product() -> None:
    of = products(accented(SLATE, courses=(2, 5)), accented(GREEN, courses=(3,)))
    made = on_one_wall(of, width=WIDTH)
    for count in made.cuts.counts:
        own = [piece for piece in made.every if piece.product == count.product]
        stock = tuple(one for one in made.cuts.stock if one.product == count.product)
        part = replace(
            made.cuts,
            stock=stock,
            modules=count.modules,
            lower_bound=count.lower_bound,
            proven=count.proven,
            counts=(),
        )
        assert faults(part, own, of.of(count.product), {}) == []


def test_offcuts_at_hand_serve_their_own_product() -> None:
    # Whole tiles at hand are two of slate and one of the main product.
    held = [
        OffcutAtHand(
            name=name, size=(597, 297), keeps=("left", "right", "bottom", "top"), material=of
        )
        for name, of in (("a", "slate"), ("b", "slate"), ("c", None))
    ]
    of = products(accented(SLATE, courses=(3, 4)))
    made = on_one_wall(of, width=WIDTH, at_hand=held)
    assert {one.product: one.modules for one in made.cuts.counts} == {"tile": 9, "slate": 3}
    used = Counter(stock.product for stock in made.cuts.stock if stock.source == "offcut")
    assert used == {"slate": 2, "tile": 1}
    assert {stock.id for stock in made.cuts.stock if stock.source == "offcut"} == {
        "H-a",
        "H-b",
        "H-c",
    }


def test_a_plan_made_at_once_is_one_for_each_product_too() -> None:
    of = products(accented(SLATE, courses=(3,)))
    pieces = on_one_wall(of, width=WIDTH).pieces
    plan = plan_products(pieces, of, proven=False)
    for system in of.systems:
        own = [piece for piece in pieces if piece.product == system.id]
        apart = plan_cuts(own, system, proven=False)
        (count,) = (one for one in plan.counts if one.product == system.id)
        assert (count.modules, count.lower_bound) == (apart.modules, apart.lower_bound)


def test_one_product_is_planned_as_ever() -> None:
    pieces = on_one_wall(products(), width=WIDTH).pieces
    assert plan_products(pieces, Products(main=PLAIN)) == plan_cuts(pieces, PLAIN)
