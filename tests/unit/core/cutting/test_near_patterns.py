"""All patterns that a plan could still use, against what a small module can give by hand."""

import numpy as np
import pytest

from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.fewest import fewest
from gaugerod.core.cutting.guillotine import Worths
from gaugerod.core.cutting.near_patterns import near_patterns, one_plan
from gaugerod.core.cutting.rooms import LEFT, RIGHT, Kind, Room, leaves, whole

MUCH = 10**9

# A strip module, 10 long with a kerf of 1: 4 + 1 + 5 fits, 5 + 1 + 5 does not.
STRIP = Room(
    width=10,
    height=1,
    kerf=1,
    kinds=(Kind(5, 1, LEFT), Kind(5, 1, 0), Kind(4, 1, RIGHT)),
    demand=(1, 2, 1),
)


@pytest.mark.parametrize(
    ("slack", "lots"),
    [
        (0, [(0, 2)]),
        (1, [(0, 2), (1, 2)]),
        (2, [(0,), (0, 2), (1, 2)]),
        (9, [(0,), (0, 2), (1,), (1, 2), (2,)]),
    ],
)
def test_lots_that_lose_no_more_than_so_much(slack: int, lots: list[tuple[int, ...]]) -> None:
    table = Worths(STRIP, (4, 3, 2))
    assert sorted(near_patterns(STRIP, table, slack=slack) or ()) == lots


def test_no_more_of_a_kind_than_is_wanted() -> None:
    room = Room(width=11, height=1, kerf=1, kinds=(Kind(3, 1, 0),), demand=(2,))
    assert sorted(near_patterns(room, Worths(room, (1,)), slack=9) or ()) == [(0,), (0, 0)]


def test_the_cuts_give_the_pieces_they_are_listed_for() -> None:
    for lot, tree in (near_patterns(STRIP, Worths(STRIP, (4, 3, 2)), slack=9) or {}).items():
        found = [leaf.way for leaf, _ in leaves(tree, whole(STRIP), STRIP.kerf) if leaf]
        assert sorted(found) == list(lot)


def test_a_plan_is_found_or_shown_not_to_be_there() -> None:
    # Four pieces; only (5 left, 4 right) share a strip, so three strips at least... and enough.
    assert one_plan(STRIP, (5, 5, 5), modules=1, effort=Effort(MUCH)) == ()
    assert one_plan(STRIP, (5, 5, 5), modules=2, effort=Effort(MUCH)) == ()
    found = one_plan(STRIP, (5, 5, 5), modules=3, effort=Effort(MUCH))
    assert found is not None
    assert len(found) == 3


def test_kinds_without_worth_are_planned_too() -> None:
    found = one_plan(STRIP, (0, 0, 0), modules=3, effort=Effort(MUCH))
    assert found is not None
    cut = [leaf.way for tree in found for leaf, _ in leaves(tree, whole(STRIP), 1) if leaf]
    assert sorted(cut) == [0, 1, 1, 2]


def test_without_effort_nothing_is_known() -> None:
    assert one_plan(STRIP, (5, 5, 5), modules=3, effort=Effort(0)) is None


def _crowd() -> Room:
    rng = np.random.default_rng(3)
    sizes = sorted({(int(w), int(h)) for w, h in rng.integers(20, 60, size=(25, 2))})
    kinds = tuple(Kind(w, h, 0) for w, h in sizes)
    return Room(width=384, height=192, kerf=2, kinds=kinds, demand=(3,) * len(kinds))


def test_too_many_patterns_are_not_gone_through() -> None:
    room = _crowd()
    table = Worths(room, [kind.width * kind.height for kind in room.kinds])
    assert near_patterns(room, table, slack=table.most // 2) is None


def test_a_gap_that_is_not_closed_is_told() -> None:
    room = _crowd()
    found = fewest(room, rounds=1)
    assert found.bound <= len(found.trees)
