from collections.abc import Iterator

import numpy as np
import pytest

from gaugerod.core.cutting.rooms import BOTTOM, LEFT, RIGHT, TOP, Cut, Kind, Room, Tree
from gaugerod.core.cutting.strips import good_patterns


def cuts_of(tree: Tree) -> Iterator[Cut]:
    if isinstance(tree, Cut):
        yield tree
        yield from cuts_of(tree.first)
        yield from cuts_of(tree.second)


@pytest.mark.parametrize("kerf", [0, 2])
def test_no_cut_is_made_along_an_edge(kerf: int) -> None:
    # With nothing cut off, the factory edge is gone in name only, and its groove comes back.
    kinds = (Kind(20, 20, RIGHT, LEFT, (6, 6)), Kind(30, 10, 0, LEFT | BOTTOM, (6, 6)))
    room = Room(width=100, height=50, kerf=kerf, kinds=kinds, demand=(4, 4))
    found = [tree for _, tree in good_patterns(room, np.array([0.8, 0.7]))]
    assert found
    assert all(cut.at > 0 for tree in found for cut in cuts_of(tree))
