"""Cuts that no piece needs, by hand."""

import random

import pytest
from tests.checkers.boxes import Boxes, planned
from tests.checkers.cut_plan import Want

from gaugerod.core.cutting.fewest import fewest
from gaugerod.core.cutting.greedy import saw_cuts
from gaugerod.core.cutting.pruning import pruned
from gaugerod.core.cutting.rooms import LEFT, RIGHT, Cut, Kind, Leaf, Room, Tree, leaves, whole

STRIP, ENDS, SHED, HALF = range(4)


def room(kerf: int, *, half_turn: bool = False) -> Room:
    kinds = (
        Kind(30, 50, 0),
        Kind(30, 50, RIGHT),
        Kind(30, 50, 0, LEFT | RIGHT, (8, 0)),
        Kind(30, 20, 0),
    )
    return Room(width=100, height=50, kerf=kerf, kinds=kinds, demand=(9,) * 4, half_turn=half_turn)


@pytest.mark.parametrize(
    ("tree", "given", "left"),
    [
        # Nothing is given at all.
        (Cut(True, 30, Leaf(0), None), [None], None),
        # Waste at the far side: one cut trims the strip either way, and it is the part's own.
        (Cut(True, 40, Leaf(0), None), [0], Leaf(0)),
        (Cut(True, 30, Leaf(0), None), [0], Cut(True, 30, Leaf(0), None)),
        # Two cuts, and waste between them: one will do.
        (
            Cut(True, 30, Leaf(0), Cut(True, 20, Leaf(0), Leaf(0))),
            [0, None, None],
            Cut(True, 30, Leaf(0), None),
        ),
        # Waste at the near side, and waste beyond it: the cut moves along by both.
        (
            Cut(True, 30, Leaf(0), Cut(True, 20, None, Leaf(1))),
            [None, 1],
            Leaf(1),
        ),
        # A piece that sheds an edge must stay clear of it: the waste keeps the edge away.
        (Cut(True, 60, None, Cut(True, 2, None, Leaf(2))), [2], Leaf(2)),
    ],
)
def test_waste_asks_for_no_cut(tree: Tree, given: list[int | None], left: Tree) -> None:
    here = room(0)
    found = pruned(tree, given, whole(here), here)
    assert saw_cuts(found, here) == saw_cuts(left, here) <= saw_cuts(tree, here)
    slots = [leaf.way for leaf, _ in leaves(found, whole(here), here.kerf) if leaf]
    assert slots == [number for number in given if number is not None]


def test_a_kerf_goes_with_the_waste() -> None:
    here = room(2)
    # 60 of waste, a kerf, 6 and a kerf: what is left of 100 is 30, the width of both pieces.
    tree = Cut(True, 60, None, Cut(True, 6, None, Cut(False, 20, Leaf(HALF), Leaf(HALF))))
    found = pruned(tree, [HALF, HALF], whole(here), here)
    assert found == Cut(True, 68, None, Cut(False, 20, Leaf(HALF), Leaf(HALF)))


def test_a_slot_is_that_of_the_piece_it_gives() -> None:
    here = room(0)
    tree = Cut(True, 70, Leaf(STRIP), Leaf(ENDS))
    assert pruned(tree, [HALF, ENDS], whole(here), here) == Cut(True, 70, Leaf(HALF), Leaf(ENDS))


def test_a_piece_that_lies_upside_down_stays_so() -> None:
    here = room(0, half_turn=True)
    # Of the left part the right edge is gone, so what keeps that lies turned.
    tree = Cut(True, 50, Leaf(ENDS), Leaf(ENDS))
    found = pruned(tree, [ENDS, ENDS], whole(here), here)
    assert found == Cut(True, 50, Leaf(ENDS + 4), Leaf(ENDS))


def test_waste_stays_cut_off_where_a_piece_must_be_clear_of_its_edge() -> None:
    # 31 wide with a groove at the left: the part beyond the cut has none.
    sheds = Kind(30, 50, 0, LEFT, (80, 0))
    here = Room(width=100, height=50, kerf=0, kinds=(sheds,), demand=(1,))
    tree = Cut(True, 50, None, Leaf(0))
    assert pruned(tree, [0], whole(here), here) == tree


def test_without_a_kerf_four_pieces_take_no_more_cuts_than_each_alone() -> None:
    # Each alone takes one cut across and one up, eight in all; a module gives all four.
    wants = tuple(Want(width, 5, frozenset()) for width in (5, 6, 7, 4))
    plan = planned(Boxes(size=(24, 12), kerf=0, wants=wants))
    assert plan.modules == 1
    assert plan.cuts <= 8


def test_random_rooms_without_a_kerf_take_no_more_cuts_than_each_piece_alone() -> None:
    for seed in range(40):
        draw = random.Random(seed)  # noqa: S311  # lots for a test, not secrets
        sizes = [(draw.randint(2, 24), draw.randint(2, 12)) for _ in range(draw.randint(2, 8))]
        wants = tuple(Want(*size, frozenset()) for size in sizes)
        plan = planned(Boxes(size=(24, 12), kerf=0, wants=wants))
        assert plan.cuts <= sum((wide < 24) + (high < 12) for wide, high in sizes), seed


def test_one_module_more_may_save_a_cut() -> None:
    # Full-height strips: a module takes one cut less than it gives strips, and one more if
    # any is left over. Three long ones lie in three modules at least, each with one of the short
    # ones at most: six strips and no module filled, six cuts. In four modules the short ones
    # fill one, 33 + 33 + 34, with two cuts, and each long one takes one: five.
    long, short, rest = Kind(60, 50, 0), Kind(33, 50, 0), Kind(34, 50, 0)
    here = Room(width=100, height=50, kerf=0, kinds=(long, short, rest), demand=(3, 2, 1))
    found = fewest(here)
    assert (len(found.trees), found.bound) == (3, 3)
    assert sum(saw_cuts(tree, here) for tree in found.trees) == 6
    four = [Leaf(0)] * 3 + [Cut(True, 33, Leaf(1), Cut(True, 33, Leaf(1), Leaf(2)))]
    assert sum(saw_cuts(tree, here) for tree in four) == 5


def test_slots_that_give_nothing_are_left_out() -> None:
    # By area one module; the same corner is kept thrice. Patterns fill a module with many slots.
    corner, small = Kind(10, 50, LEFT), Kind(2, 2, 0)
    here = Room(width=100, height=50, kerf=0, kinds=(corner, small), demand=(3, 1))
    found = fewest(here)
    assert (len(found.trees), found.bound) == (3, 3)
    assert sorted(kind for kinds in found.kinds for kind in kinds) == [0, 0, 0, 1]
    # Each corner piece takes one cut, and the small one a cut across and one up at most.
    assert sum(saw_cuts(tree, here) for tree in found.trees) <= 5
