"""Laws of several products: each is planned as if the others were another job's."""

from collections.abc import Iterable
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.boxes import Boxes
from tests.checkers.cut_plan import faults
from tests.property.alcoves import Alcove, alcoves, lined, share, surveyed
from tests.property.test_fewest_laws import heaps

from gaugerod.core.cutting.cut_up import cut_up
from gaugerod.core.cutting.pieces import CutPlan, Stock
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.cutting.products import plan_products
from gaugerod.core.job.document import Accent
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Accented, Products

IDS = ("main", "blue", "green")


def named(system: System, product: str) -> System:
    return system.model_copy(update={"id": product})


def products(system: System) -> Products:
    """Three colours of one module; where they stand is said by the pieces."""
    others = (Accented(where=Accent(material=i), system=named(system, i)) for i in IDS[1:])
    return Products(main=named(system, IDS[0]), accented=tuple(others))


def nameless(stock: Iterable[Stock]) -> list[Stock]:
    """Stock without the numbers of modules and offcuts."""
    return [
        replace(one, id="", offcuts=tuple(replace(o, id="") for o in one.offcuts)) for one in stock
    ]


def own(plan: CutPlan, product: str) -> tuple[Stock, ...]:
    return tuple(stock for stock in plan.stock if stock.product == product)


@share(2)
@given(heaps(), st.data())
def test_each_product_is_planned_as_if_it_were_alone(boxes: Boxes, data: st.DataObject) -> None:
    colours = data.draw(
        st.lists(st.sampled_from(IDS), min_size=len(boxes.pieces), max_size=len(boxes.pieces))
    )
    pieces = [
        replace(piece, product=colour) for piece, colour in zip(boxes.pieces, colours, strict=True)
    ]
    of = products(boxes.system)
    plan = plan_products(pieces, of)
    counted = {count.product: count for count in plan.counts}
    assert set(counted) == set(colours)
    for product, count in counted.items():
        mine = [piece for piece in pieces if piece.product == product]
        alone = plan_cuts(mine, of.of(product))
        assert (count.modules, count.lower_bound, count.proven) == (
            alone.modules,
            alone.lower_bound,
            alone.proven,
        )
        assert nameless(own(plan, product)) == nameless(alone.stock)
        part = replace(alone, stock=own(plan, product))
        assert faults(part, mine, of.of(product), boxes.grooveless) == []
    assert plan.modules == sum(count.modules for count in plan.counts)
    assert plan.lower_bound == sum(count.lower_bound for count in plan.counts)


@share(2)
@given(heaps(), st.data())
def test_two_names_for_one_colour_never_take_fewer_modules(
    boxes: Boxes, data: st.DataObject
) -> None:
    """To part pieces in two colours can only cost: the plans apart are a plan of all together."""
    colours = data.draw(
        st.lists(st.sampled_from(IDS[:2]), min_size=len(boxes.pieces), max_size=len(boxes.pieces))
    )
    pieces = [
        replace(piece, product=colour) for piece, colour in zip(boxes.pieces, colours, strict=True)
    ]
    together = plan_cuts(boxes.pieces, boxes.system)
    assert plan_products(pieces, products(boxes.system)).modules >= together.lower_bound


@share(5)
@given(alcoves(), st.sets(st.integers(1, 6), min_size=1, max_size=3))
def test_a_colour_named_twice_is_one_product_and_none_is_a_job_as_ever(
    alcove: Alcove, courses: set[int]
) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout, main = found.short.layouts[0], alcove.system
    blue = named(main, "blue")

    def of(*parts: Iterable[int]) -> Products:
        rows = (Accent(material="blue", courses=tuple(part)) for part in parts)
        return Products(main=main, accented=tuple(Accented(where=r, system=blue) for r in rows))

    once = cut_up(layout, found.walls, of(courses))
    twice = cut_up(layout, found.walls, of(*([course] for course in courses)))
    assert twice == once
    plain = cut_up(layout, found.walls, Products(main=main))
    assert plain.pieces == found.pieces(layout)
    assert plain.cuts == plan_cuts(plain.every, main)
    same = Products(main=main, accented=(Accented(where=Accent(material=main.id), system=main),))
    assert cut_up(layout, found.walls, same) == plain
    assert {piece.tag: piece.product for piece in once.pieces} == {
        piece.tag: "blue" if piece.course in courses else main.id for piece in plain.pieces
    }
