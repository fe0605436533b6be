"""Laws of the fewest modules: what asks for more never takes fewer."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.boxes import Boxes, planned
from tests.checkers.cut_plan import SIDES, Want

from gaugerod.core.cutting.guillotine import Worths
from gaugerod.core.cutting.pieces import CutPlan
from gaugerod.core.cutting.rooms import Kind, Room, gives, leaves, whole
from gaugerod.core.job.fields import Side

SIZE = (24, 12)


@st.composite
def wants(draw: st.DrawFn, *, least: int = 2) -> Want:
    """A box with edges to keep; one that keeps two opposite edges is as long as the module."""
    keeps = frozenset(draw(st.sets(st.sampled_from(SIDES), max_size=3)))
    return Want(
        SIZE[0] if {"left", "right"} <= keeps else draw(st.integers(least, SIZE[0])),
        SIZE[1] if {"bottom", "top"} <= keeps else draw(st.integers(least, SIZE[1])),
        keeps,
    )


@st.composite
def heaps(draw: st.DrawFn, *, deepest: int = 4) -> Boxes:
    """Boxes that are no narrower than the groove of their modules is deep."""
    groove = draw(st.integers(0, deepest))
    return Boxes(
        size=SIZE,
        kerf=draw(st.integers(0, 2)),
        wants=tuple(draw(st.lists(wants(least=max(groove, 2)), min_size=1, max_size=12))),
        groove=groove,
        far=draw(st.booleans()),
    )


def no_fewer(plan: CutPlan, than: CutPlan) -> bool:
    """Tell whether a plan cannot be one of fewer modules; of proven plans all is known."""
    return than.lower_bound <= plan.modules


def able(want: Want) -> bool:
    """Tell whether a module can give a box."""
    across = {"left", "right"} <= want.keeps and want.width < SIZE[0]
    up = {"bottom", "top"} <= want.keeps and want.height < SIZE[1]
    return not across and not up


@given(heaps(deepest=0), st.integers(0, 11), st.sampled_from(SIDES))
def test_another_edge_to_keep_never_saves_a_module(boxes: Boxes, which: int, side: Side) -> None:
    which %= len(boxes.wants)
    own = boxes.wants[which]
    more = replace(own, keeps=own.keeps | {side})
    asked = tuple(more if n == which and able(more) else w for n, w in enumerate(boxes.wants))
    assert no_fewer(planned(replace(boxes, wants=asked)), planned(boxes))


@given(heaps())
def test_a_wider_cut_never_saves_a_module(boxes: Boxes) -> None:
    assert no_fewer(planned(replace(boxes, kerf=boxes.kerf + 1)), planned(boxes))


@given(heaps(), wants(least=4))
def test_one_more_piece_never_saves_a_module_and_takes_one_at_most(
    boxes: Boxes, more: Want
) -> None:
    few, many = planned(boxes), planned(replace(boxes, wants=(*boxes.wants, more)))
    assert no_fewer(many, few)
    assert many.lower_bound <= few.modules + 1


@given(heaps(deepest=0), st.booleans())
def test_a_room_upside_down_takes_the_same(boxes: Boxes, half_turn: bool) -> None:
    own = replace(boxes, half_turn=half_turn)
    over = replace(own, wants=tuple(want.turned() for want in own.wants))
    one, other = planned(own), planned(over)
    assert no_fewer(one, other)
    assert no_fewer(other, one)


@given(heaps(deepest=0))
def test_modules_that_may_be_turned_are_never_more(boxes: Boxes) -> None:
    assert no_fewer(planned(boxes), planned(replace(boxes, half_turn=True)))


@given(heaps())
def test_a_plan_made_at_once_is_no_better_and_its_bound_no_higher(boxes: Boxes) -> None:
    quick, plan = planned(boxes, proven=False), planned(boxes)
    assert quick.lower_bound <= plan.lower_bound <= plan.modules <= quick.modules


@given(heaps(), st.data())
def test_the_order_of_the_pieces_does_not_matter(boxes: Boxes, data: st.DataObject) -> None:
    other = replace(boxes, wants=tuple(data.draw(st.permutations(boxes.wants))))
    one, two = planned(boxes), planned(other)
    assert (one.modules, one.lower_bound) == (two.modules, two.lower_bound)


def test_the_law_of_no_fewer_can_fail() -> None:
    half = Boxes(size=SIZE, kerf=0, wants=(Want(12, 12, frozenset()),) * 4)
    assert not no_fewer(planned(half), planned(replace(half, kerf=1)))


@pytest.mark.parametrize("kerf", [0, 1])
@given(st.data())
def test_the_best_pattern_gives_what_it_is_said_to_be_worth(kerf: int, data: st.DataObject) -> None:
    # Also with pieces too narrow to clear an edge that their neighbours shed.
    kinds = []
    for want in data.draw(st.lists(wants(), min_size=1, max_size=5)):
        keeps = sum(1 << SIDES.index(side) for side in want.keeps)
        sheds = data.draw(st.integers(0, 15)) & ~keeps
        clear = data.draw(st.integers(1, 4)) if sheds else 0
        kinds.append(Kind(want.width, want.height, keeps, sheds, (clear, clear)))
    width, height = SIZE
    room = Room(width=width, height=height, kerf=kerf, kinds=tuple(kinds), demand=(1,) * len(kinds))
    worth = data.draw(st.tuples(*(st.integers(0, 9) for _ in kinds)))
    table = Worths(room, worth)
    slots = [(leaf, part) for leaf, part in leaves(table.pattern(), whole(room), kerf) if leaf]
    assert sum(worth[leaf.way] for leaf, _ in slots) == table.most
    assert all(gives(kinds[leaf.way], part) for leaf, part in slots)
    alone = (w for kind, w in zip(kinds, worth, strict=True) if gives(kind, whole(room)))
    assert table.most >= max(alone, default=0)
