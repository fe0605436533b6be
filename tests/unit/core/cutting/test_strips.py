from collections.abc import Iterator

import numpy as np
import pytest

from gaugerod.core.cutting import strips
from gaugerod.core.cutting.rooms import BOTTOM, LEFT, RIGHT, Cut, Kind, Room, Tree, leaves, whole
from gaugerod.core.cutting.strips import good_patterns


def cuts_of(tree: Tree) -> Iterator[Cut]:
    if isinstance(tree, Cut):
        yield tree
        yield from cuts_of(tree.first)
        yield from cuts_of(tree.second)


GROOVED = (Kind(20, 20, RIGHT, LEFT, (6, 6)), Kind(30, 10, 0, LEFT | BOTTOM, (6, 6)))
PLAIN = (Kind(100, 20, 0), Kind(50, 10, 0), Kind(50, 50, RIGHT))


@pytest.mark.parametrize("kinds", [GROOVED, PLAIN], ids=["grooved", "plain"])
@pytest.mark.parametrize("kerf", [0, 2])
def test_no_cut_is_made_along_an_edge(kerf: int, kinds: tuple[Kind, ...]) -> None:
    # With nothing cut off, the factory edge is gone in name only, and its groove comes back.
    demand = (4,) * len(kinds)
    room = Room(width=100, height=50, kerf=kerf, kinds=kinds, demand=demand)
    found = [tree for _, tree in good_patterns(room, np.linspace(0.7, 0.8, len(kinds)))]
    assert found
    assert all(cut.at > 0 for tree in found for cut in cuts_of(tree))
    ends = [part for tree in found for _, part in leaves(tree, whole(room), kerf)]
    assert all(kerf or (part.right > part.left and part.top > part.bottom) for part in ends)


def test_no_strip_of_waste_is_left_at_an_edge() -> None:
    # What lies beside it would be clear of its groove only where the strip is wide enough.
    kinds = (Kind(50, 50, 0, RIGHT, (6, 6)), Kind(47, 50, LEFT, RIGHT, (6, 6)))
    room = Room(width=100, height=50, kerf=0, kinds=kinds, demand=(4, 4))
    found = [tree for _, tree in good_patterns(room, np.array([0.8, 0.9]))]
    assert found == []


def test_no_more_than_so_many_are_returned(monkeypatch: pytest.MonkeyPatch) -> None:
    kinds = tuple(Kind(width, 50, 0) for width in range(10, 30))
    room = Room(width=100, height=50, kerf=2, kinds=kinds, demand=(1,) * 20)
    every = list(good_patterns(room, np.linspace(0.6, 0.9, 20)))
    monkeypatch.setattr(strips, "MOST", 5)
    few = list(good_patterns(room, np.linspace(0.6, 0.9, 20)))
    assert [len(few), few[0][0]] == [5, every[0][0]]
    assert len(every) > 5
