"""What reuse saves, and what a plan without edges would claim, by hand."""

from dataclasses import replace

from tests.laid_by_hand import keyed, piece, rectangle

from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.takeoff.reuse import boxes_for, reuse_of


def left_ends(count: int) -> list[Piece]:
    end = piece(rectangle(left=0.0, bottom=0.0, right=200.0, top=300.0))
    return [replace(end, tag=f"B{n}-1", keeps=("left",), whole=False) for n in range(1, count + 1)]


def test_boxes_hold_breakage_and_spares() -> None:
    # 44 + 3 (5 % of 44 is 2.2) + 1 = 48 fill six boxes of eight; one module more takes a seventh.
    system = keyed(per_box=8, breakage=0.05, spares=1)
    assert boxes_for(44, system) == 6
    assert boxes_for(45, system) == 7


def test_a_module_saved_within_a_box_saves_nothing() -> None:
    system = keyed(per_box=8, breakage=0.0, spares=0, price=80)
    ends = left_ends(9)
    assert reuse_of(ends, 8, system).saved == 8000
    assert reuse_of(ends[:8], 7, system).saved == 0


def test_edges_cost_modules() -> None:
    # Two left ends of 200 want the left edges of two modules of 600, but would fit into one.
    found = reuse_of(left_ends(2), 2, keyed())
    assert (found.alone, found.edgeless) == (2, 1)
