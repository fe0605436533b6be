"""Offcuts from another room are cut up before a module is begun."""

from dataclasses import replace

import pytest
from tests.checkers.cut_plan import faults
from tests.laid_by_hand import piece as by_hand
from tests.laid_by_hand import rectangle

from gaugerod.core.cutting import fewest as search
from gaugerod.core.cutting import guillotine
from gaugerod.core.cutting.pieces import CutPlan, Piece
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.document import OffcutAtHand
from gaugerod.core.job.fields import Side
from gaugerod.core.job.sample import sample_system

SYSTEM = sample_system()  # 600 by 300, kerf 3


def piece(tag: str, width: float, height: float, *keeps: Side) -> Piece:
    end = by_hand(rectangle(left=0.0, bottom=0.0, right=width, top=height))
    return replace(end, tag=tag, keeps=keeps, whole=False)


def offcut(name: str, width: float, height: float, *keeps: Side) -> OffcutAtHand:
    return OffcutAtHand(name=name, size=(width, height), keeps=keeps)


def planned(pieces: list[Piece], *at_hand: OffcutAtHand) -> CutPlan:
    plan = plan_cuts(pieces, SYSTEM, at_hand=at_hand)
    assert not faults(plan, pieces, SYSTEM, {})
    return plan


def test_an_offcut_saves_a_module() -> None:
    # Two left ends want two left edges: one of them is at hand.
    ends = [piece(tag, 200, 300, "left", "bottom", "top") for tag in "ab"]
    plan = planned(ends, offcut("room-3", 250.0, 300.0, "left", "bottom", "top"))
    assert (plan.modules, plan.lower_bound, plan.proven) == (1, 1, True)
    first = plan.stock[0]
    assert (first.id, first.source, first.size) == ("H-room-3", "offcut", (250.0, 300.0))
    # 250 less the piece and a saw's width.
    assert [rest.size for rest in first.offcuts] == [(47.0, 300.0)]


def test_an_offcut_without_the_edge_that_is_kept_is_no_use() -> None:
    end = piece("a", 200, 300, "left", "bottom", "top")
    plan = planned([end], offcut("room-3", 599.0, 300.0, "right", "bottom", "top"))
    assert [stock.source for stock in plan.stock] == ["module"]
    assert plan.proven


def test_the_larger_offcut_is_cut_up_first() -> None:
    strips = [piece(tag, 100, 100) for tag in "abcd"]
    small, large = offcut("s", 100.0, 100.0), offcut("l", 203.0, 203.0)
    plan = planned(strips, small, large)
    assert [stock.id for stock in plan.stock] == ["H-l"]
    assert (plan.modules, plan.lower_bound, plan.proven) == (0, 0, True)


def test_what_offcuts_cannot_hold_comes_from_modules() -> None:
    strips = [piece(f"p{n}", 300, 150) for n in range(7)]
    plan = planned(strips, offcut("x", 300.0, 150.0))
    # A module of 600 by 300 gives three: a kerf is lost between two.
    assert plan.modules + 1 == len(plan.stock)
    assert plan.lower_bound <= plan.modules


def test_no_more_pieces_than_are_wanted() -> None:
    plan = planned([piece("a", 100, 100)], offcut("x", 203.0, 100.0))
    assert plan.modules == 0
    assert [placed.tag for placed in plan.stock[0].pieces] == ["a"]


@pytest.mark.parametrize("proven", [True, False])
def test_a_preview_uses_offcuts_too(*, proven: bool) -> None:
    ends = [piece(tag, 200, 300, "left", "bottom", "top") for tag in "ab"]
    at_hand = (offcut("x", 250.0, 300.0, "left", "bottom", "top"),)
    plan = plan_cuts(ends, SYSTEM, proven=proven, at_hand=at_hand)
    assert plan.modules == 1


def test_with_nothing_to_cut_offcuts_stay_on_the_shelf() -> None:
    plan = planned([], offcut("x", 300.0, 150.0))
    assert (plan.modules, plan.stock, plan.proven) == (0, (), True)


def test_worths_that_are_not_found_out_to_the_end_fill_offcuts_too(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(search, "ROUNDS", 1)
    ends = [piece(f"l{n}", 200 + n, 300, "left", "bottom", "top") for n in range(9)]
    ends += [piece(f"r{n}", 300 + n, 300, "right", "bottom", "top") for n in range(9)]
    plan = planned(ends, offcut("room-3", 250.0, 300.0, "left", "bottom", "top"))
    # Nine right ends need nine right edges.
    assert plan.lower_bound <= plan.modules == 9
    assert "H-room-3" in [stock.id for stock in plan.stock]


def test_an_offcut_that_takes_too_much_work_stays_on_the_shelf(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # With a kerf each, 25 pieces of 301 x 151 are 6.2 modules of 603 x 303 by area; less an
    # offcut of a piece's size 5.97.
    monkeypatch.setattr(guillotine, "LARGEST", 0)
    quarters = [piece(f"p{n}", 298, 148) for n in range(25)]
    plan = planned(quarters, offcut("x", 298.0, 148.0))
    assert (plan.modules, plan.lower_bound, plan.proven) == (7, 6, False)
    assert {stock.source for stock in plan.stock} == {"module"}
