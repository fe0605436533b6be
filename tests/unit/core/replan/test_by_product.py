"""On the day, with several products: each is planned again from its own modules alone."""

from collections import Counter
from dataclasses import replace

import pytest
from tests.fixtures_plan import banded_plan
from tests.on_site import again, keys

from gaugerod.core.base.geometry import bounds_of
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.job.faults import InconsistentError
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.replan import Replanned

PLAN = banded_plan()


def sound(plan: Plan) -> None:
    """Every piece has one place in stock of its product, names are once, and counts add up."""
    of = {piece.tag: piece.product for piece in (*plan.pieces, *pieces_inside(plan.insides))}
    placed = [(one.tag, stock.product) for stock in plan.cuts.stock for one in stock.pieces]
    assert sorted(placed) == sorted(of.items())
    names = Counter(stock.id for stock in plan.cuts.stock)
    assert max(names.values()) == 1
    bought = Counter(s.product for s in plan.cuts.stock if s.source == "module")
    assert {one.product: one.modules for one in plan.cuts.counts} == bought
    assert plan.cuts.modules == sum(bought.values())


def wider(course: int, by: float) -> Replanned:
    """The plan after the first course of the back wall up to this one, its right end off."""
    old = {piece.tag: piece for piece in PLAN.pieces}
    row = [p for p in PLAN.pieces if (p.wall, p.course) == ("B", course)]
    last = max(row, key=lambda piece: piece.place)
    before = old[f"B{course}-{last.place - 1}"]
    (wall,) = (one for one in PLAN.walls.walls if one.name == "B")
    box = bounds_of(before.region.rings)
    reads = wall.right.at((box.bottom + box.top) / 2) - box.right + by
    hang = [f"B{n}" for n in range(1, course)] + [p.tag for p in row if p != last]
    gap = {"wall": "B", "course": course, "side": "right", "reads": reads}
    return again(PLAN, {"set": hang, "gap": [gap]})


def test_with_nothing_found_the_plan_stands() -> None:
    found = again(PLAN, {"set": ["B1"], "cut": ["B4"]}, {"set": ["B2"]})
    assert replace(found.plan, done=frozenset()) == PLAN
    assert found.short == 0


def test_a_gap_that_is_as_planned_changes_no_plan_of_cuts() -> None:
    assert wider(3, by=0.0).plan.cuts == PLAN.cuts


def test_a_course_of_the_band_is_cut_again_from_its_own_product() -> None:
    found = wider(3, by=6)
    plan = found.plan
    sound(plan)
    assert {p.tag: p.product for p in plan.pieces} == {p.tag: p.product for p in PLAN.pieces}
    (end,) = (p for p in plan.pieces if p.tag == "B3-4")
    (was,) = (p for p in PLAN.pieces if p.tag == "B3-4")
    assert end.product == "slate"
    assert end.size[0] - was.size[0] == pytest.approx(6, abs=0.5)
    assert [one.product for one in plan.cuts.counts] == [one.product for one in PLAN.order.products]


def test_modules_begun_anew_have_numbers_after_all_others() -> None:
    plan = wider(3, by=90).plan
    sound(plan)
    before = {stock.id for stock in PLAN.cuts.stock}
    added = [s for s in plan.cuts.stock if s.source == "module" and s.id not in before]
    assert added
    assert min(int(stock.id[2:]) for stock in added) > len(PLAN.cuts.stock)


def test_what_one_product_has_over_is_no_help_to_another() -> None:
    slate = next(one for one in PLAN.order.products if one.product == "slate")
    there = slate.boxes * PLAN.products.of("slate").per_box
    found = again(
        PLAN, {"broken_of": {"slate": there - slate.modules}}, {"broken_of": {"slate": 2}}
    )
    assert found.short == 2
    assert keys(found)[-1] == "replan.short"
    assert again(PLAN, {"broken_of": {"slate": there - slate.modules}}).short == 0


def test_what_broke_is_of_a_product_of_the_job() -> None:
    with pytest.raises(InconsistentError) as caught:
        again(PLAN, {"broken_of": {"granite": 1}})
    wrong = Message("replan.no-such-product", read="granite", known="slate, small")
    assert caught.value.message.values["wrong"] == wrong
    assert caught.value.at == ("day", 0, "broken_of", "granite")
